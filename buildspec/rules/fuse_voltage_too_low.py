"""A fuse is rated for less voltage than the system has.

What
----
The rated voltage of every fuse is at least the nominal voltage of the system.

Why
---
Above its rated voltage the gap of a melted element keeps an arc. Blade fuses are made for 32 V: right in
12 V and 24 V systems, wrong in 48 V ones.

Bad
---
vehicle: {system: 48 V}
blocks:
  rear: {block: {positions: 6, position_limit: 30 A, total: 100 A, family: blade}, fed_from: house, at: load-bed}

Good
----
vehicle: {system: 24 V}
blocks:
  rear: {block: {positions: 6, position_limit: 30 A, total: 100 A, family: blade}, fed_from: house, at: load-bed}

Sources
-------
33 CFR 183.455(d), recalled; the California equipment standard asks the same.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("33cfr183-455-voltage", "california-equipment")


def check(sized: Sized) -> Iterator[Finding]:
    nominal = sized.build.practice.nominal_v
    for circuit, sizing, protection, device in _sizing.devices(sized):
        made = fuses.standard(device.family, device.rating_a)
        if made is None or made.max_v >= nominal:
            continue
        rated, system = _sizing.apart(made.max_v, nominal, "V")
        message = f"the {_sizing.title(device)} of {_sizing.name(circuit)} is rated for {rated} in a system of {system}"
        yield Finding(_sizing.fuse_path(protection, "family"), message, others(nominal, sizing.design_a))


def others(nominal_v: float, design_a: float) -> str:
    """Families for this voltage that have a rating for this load."""
    found = [
        f"{family} ({show.plain(fuse.max_v, 0)} V)"
        for family in fuses.families()
        if (fuse := fuses.smallest(family, at_least_a=design_a)) is not None and fuse.max_v >= nominal_v
    ]
    return (
        "rated high enough: " + ", ".join(found)
        if found
        else "a device made for this voltage, with its sheet"
    )
