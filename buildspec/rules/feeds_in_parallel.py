"""Two feeds of one block or panel come from the same source.

What
----
A block or panel has one feed from each source. Several feeds from different sources are a matter of
isolation; several from the same one are a fault.

Why
---
Devices in parallel do not add: current divides by the resistance of the contacts, the better one opens
first and the other follows. And a short at the far end of one feed is fed through the other.

Bad
---
blocks:
  rear: {fed_from: [house, house], at: load-bed}

Good
----
blocks:
  rear: {fed_from: house, at: load-bed}

Sources
-------
National code of practice for radio installations in vehicles: no fuses in parallel to gain rating.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("radio-installers-code",)


def check(sized: Sized) -> Iterator[Finding]:
    feeders = [c for c in sized.build.circuits if c.kind == "feeder"]
    for target in dict.fromkeys(c.target for c in feeders):
        mine = [c for c in feeders if c.target == target]
        for source in dict.fromkeys(c.source for c in mine):
            same = [c for c in mine if c.source == source]
            if len(same) > 1:
                yield finding(sized, same)


def finding(sized: Sized, same: list[Circuit]) -> Finding:
    load = sized.sizings[same[0].key].design_a
    first = sized.sizings[same[0].key].devices
    message = (
        f"{len(same)} feeds of `{same[0].target}` come from `{same[0].source}`: their devices do not "
        "add, and each feeds a "
        "fault of the other (code of practice for radio installations)"
    )
    family = first[0].family if first else sized.build.practice.battery_families[0]
    share = sized.build.practice.fuse_share[same[0].environment]
    help = f"one feed: {_sizing.fuse_help(family, load / share)} carries its {show.amps(load)}"
    return Finding((*same[0].at, "fed_from"), message, help)
