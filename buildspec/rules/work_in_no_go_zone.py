"""Something is mounted, drilled or laid where the vehicle's data forbid it.

What
----
A place that lies in a zone (`zones`) takes none of what the zone forbids: no new hole, no item, no loom that passes or
ends there.

Why
---
A drill in a pillar meets a curtain airbag, in a floor the tank, under a seat a high-voltage cable. The curtain does
not open past a bracket, either.

Bad
---
    zones: {a-pillar: {what: airbag, places: [pillar], forbids: [mount, drill]}}
    accessories: {light-switch: {at: pillar}}

Good
----
    zones: {a-pillar: {what: airbag, places: [pillar], forbids: [mount, drill]}}
    accessories: {light-switch: {at: dash}}

Sources
-------
The vehicle's own data.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Path
from buildspec.fitted import items
from buildspec.looms import runs
from buildspec.model import Sized, Zone

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)
WORDS = {"mount": "mounted", "drill": "drilled", "route": "laid"}
CUTTING = ("cut", "drill")
"""Works that go through metal."""


def check(sized: Sized) -> Iterator[Finding]:
    for zone in sized.build.vehicle.zones.values():
        for kind, what, at in done(sized, zone):
            if kind in zone.forbids:
                yield Finding(
                    at,
                    f"{what} is {WORDS[kind]} in zone `{zone.name}` ({zone.what}: {zone.words}); the vehicle's data "
                    f"forbid that ({zone.source or 'source not stated'})",
                    "use another place; ask the maker's body-builder desk before anything is done here",
                    ((zone.at, "the zone"),),
                )


def done(sized: Sized, zone: Zone) -> Iterator[tuple[str, str, Path]]:
    """(kind of work, what, path) of all that is done in a zone."""
    build = sized.build
    for hole in build.holes:
        if hole.place in zone.places and not hole.reused:
            yield "drill", f"hole `{hole.name}`", hole.at
    for item in items(build):
        if item.place in zone.places:
            yield "mount", f"`{item.at[1]}`", item.at
    for name, accessory in build.accessories.items():
        for work in accessory.works:
            if accessory.place in zone.places and work.do in CUTTING:
                yield "drill", f"{work.what}, for `{name}`,", work.at
    for reserve in build.reserves.values():
        if reserve.place in zone.places:
            yield "mount", f"reserve `{reserve.name}`", reserve.at
    for loom in runs.looms(sized):
        if loom.lying and (loom.run.a in zone.places or loom.run.b in zone.places):
            yield "route", f"the loom {loom.run.name}", loom.run.at
