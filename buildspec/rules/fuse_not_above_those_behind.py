"""The device in a feeder is not larger than the largest device behind it.

What
----
The device that feeds a block or panel has a higher rating than each fuse and channel that it feeds.

Why
---
Of two devices in a row with the same rating either may open. When the one upstream goes, everything on
the block goes dark for the fault of one lamp.

Bad
---
blocks:
  rear: {fed_from: house, at: load-bed, fuse: {rating: 30 A, family: maxi-blade}}
accessories:
  outlet: {at: load-bed, fed_from: rear.1, fuse: {rating: 30 A}}

Good
----
blocks:
  rear: {fed_from: house, at: load-bed, fuse: {rating: 60 A, family: strip-m8}}
accessories:
  outlet: {at: load-bed, fed_from: rear.1, fuse: {rating: 30 A}}

Sources
-------
Common practice, no source: one step up at least; the makers' time curves decide the rest.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Device, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("common practice, no source: a higher rating upstream",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, protection, device in _sizing.devices(sized):
        if circuit.kind != "feeder":
            continue
        behind = largest_behind(sized, circuit.target)
        if behind is not None and device.rating_a <= behind.rating_a:
            message = (
                f"the {_sizing.title(device)} in the feed of `{circuit.target}` is not above the "
                f"{_sizing.title(behind)} "
                "behind it: either may open"
            )
            help = (
                f"{_sizing.fuse_help(device.family, behind.rating_a * 1.01)}, or a smaller device behind it"
            )
            yield Finding(_sizing.rating_path(protection), message, help)


def largest_behind(sized: Sized, node: str) -> Device | None:
    """The largest device that a node feeds directly."""
    devices = [d for c in sized.build.circuits if c.source == node for d in sized.sizings[c.key].devices]
    return max(devices, key=lambda d: (d.rating_a, show.amps(d.rating_a), d.designation), default=None)
