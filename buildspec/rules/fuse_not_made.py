"""A written rating does not exist in its fuse family.

What
----
A rating that the spec writes is one of the ratings of its family (ISO 8820 and the makers' lists).

Why
---
The parts desk cannot buy it, and somebody in the bay puts in the next one that fits the holder: as a rule
the larger one.

Bad
---
accessories:
  fridge: {at: load-bed, fed_from: rear.3, fuse: {rating: 12 A}}

Good
----
accessories:
  fridge: {at: load-bed, fed_from: rear.3, fuse: {rating: 10 A}}

Sources
-------
Published rating and colour tables of the families; each row of the table names its source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses
from buildspec.findings import Finding
from buildspec.model import Device, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("fuse-article-copies", "fuse-markings-page", "blade-sheet-copy")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, protection, device in _sizing.devices(sized):
        if device.kind == "fuse" and fuses.standard(device.family, device.rating_a) is None:
            message = (
                f"no {device.family} fuse of {show.amps(device.rating_a)} is made (for {_sizing.name(circuit)}); "
                f"the family runs from {ends(device)}"
            )
            yield Finding(_sizing.rating_path(protection), message, neighbours(device))


def ends(device: Device) -> str:
    family = fuses.fuses(device.family)
    return f"{show.amps(family[0].rating_a)} to {show.amps(family[-1].rating_a)}"


def neighbours(device: Device) -> str:
    """The ratings on both sides that do exist."""
    ratings = [fuse.rating_a for fuse in fuses.fuses(device.family)]
    below = [r for r in ratings if r < device.rating_a][-1:]
    above = [r for r in ratings if r > device.rating_a][:1]
    return "nearest: " + " or ".join(show.amps(r) for r in (*below, *above))
