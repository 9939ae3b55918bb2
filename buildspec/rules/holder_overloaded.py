"""A fuse holder carries more, for good, than its contacts stand.

What
----
The continuous load is at most 80 % of what the holder of an in-line or stud fuse carries, and the fuse is
not larger than its holder. Positions of blocks and banks have limits of their own.

Why
---
Contact resistance heats a holder long before the fuse knows of it: in-line blade holders melt at 25 to
30 A with the fuse intact. A sound fuse does not prove a sound holder.

Bad
---
isolation:
  charger: {type: dc-dc, from: start, to: house, output: 25 A, fuses: {house: {family: blade, rating: 40 A}}}

Good
----
isolation:
  charger: {type: dc-dc, from: start, to: house, output: 25 A, fuses: {house: {family: strip-m8}}}

Sources
-------
Trade writer on dozens of melted holders. Ratings of holders by family: common practice, no source;
`fuse.holder` states the real one.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Protection, Sized
from buildspec.rules import _sizing
from buildspec.size import devices

SEVERITY = "error"
SOURCES = ("holder-report", "common practice, no source: holder ratings by family")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing, protection, device in _sizing.devices(sized):
        if device.kind != "fuse" or device.host:
            continue
        share = devices.HOLDER_SHARE if devices.is_continuous(circuit) else 1.0
        if sizing.design_a > device.holder_a * share:
            yield finding(sized, circuit, protection, device, share)
        elif device.rating_a > device.holder_a:
            rating, holder = _sizing.apart(device.rating_a, device.holder_a, "A")
            message = (
                f"the {device.family} holder of {_sizing.name(circuit)} carries {holder}; its fuse "
                f"`{device.designation}` lets "
                f"{rating} through"
            )
            yield Finding(_sizing.rating_path(protection), message, roomier(device.rating_a))


def finding(sized: Sized, circuit: Circuit, protection: Protection, device: Device, share: float) -> Finding:
    design = sized.sizings[circuit.key].design_a
    load, limit = _sizing.apart(design, device.holder_a * share, "A")
    kind = f", {show.percent(share)} of it for a continuous load" if share < 1 else ""
    message = (
        f"{load} for {_sizing.name(circuit)} through a {device.family} holder of {show.amps(device.holder_a)}; "
        f"limit {limit}{kind} (trade reports of melted holders)"
    )
    at = _sizing.fuse_path(protection, "holder" if protection.holder_a is not None else "family")
    return Finding(at, message, roomier(design / share))


def roomier(holder_a: float) -> str:
    """Bolt-down families whose holders carry this."""
    found = [f"{family} ({show.amps(a)})" for family, a in devices.HOLDER_A.items() if a >= holder_a]
    needed = f"a holder of {show.plain(holder_a, 2)} A or more"
    return (
        f"{needed}: {', '.join(found)}; or write `fuse.holder` from its sheet"
        if found
        else f"{needed}; none of the families has one"
    )
