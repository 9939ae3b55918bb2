"""Facts of the vehicle are not stated, and the checks that need them are left out.

What
----
One report names every check of a vehicle with a start battery that has no figure to work with, and the key that
brings it: the alternator's budget (`alternator: {rated, idle}`, `own_loads: {idle, driving}`), the starter's current
where a link carries it (`own_loads: {cranking}`), payload and load label (`gross_mass`, `kerb_mass`), axle loads
(`axles`). A warning where added loads hang on the start side of an alternator that nobody has described, a note
otherwise. (Where something charges from such an alternator: see `alternator-unknown`.)

Why
---
A clean report reads as if all of it had been checked. Whoever signs must know what was not.

Bad
---
    vehicle: {description: Panel van, system: 12 V}
    accessories: {beacon: {at: roof, fed_from: start, electrical: {model: resistive, worst: 4 A}}}

Good
----
    vehicle:
      description: Panel van
      system: 12 V
      alternator: {rated: 150 A, idle: 90 A, controlled: false, source: output test}
      own_loads: {idle: 34 A, driving: 52 A, source: output test}
      gross_mass: 3500 kg
      kerb_mass: 2100 kg
      axles:
        wheelbase: 3.4 m
        front: {limit: 1850 kg, kerb: 1250 kg}
        rear: {limit: 2100 kg, kerb: 850 kg}
        source: scales

Sources
-------
Engineering principle: silence is not a pass.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass, show
from buildspec.energy import alternator as supply
from buildspec.findings import Finding
from buildspec.model import Resolved, Sized
from buildspec.network import isolation

SEVERITY = "note"
SOURCES = ("engineering principle: silence is not a pass",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    if not isolation.side(build, "start"):
        return
    silent = (*alternator(build), *starter(build), *weights(sized))
    if not silent:
        return
    yield Finding(
        build.vehicle.at,
        f"not checked, for want of the vehicle's figures: {'; '.join(silent)}",
        "write what a survey or the vehicle's data give; the survey sheet has a line for each",
        severity="warning" if undescribed(build) and supply.demand(build).total_a > 0 else None,
    )


def undescribed(build: Resolved) -> bool:
    """Nobody has described the alternator, and no error says so already."""
    charging = any(way.type != "momentary-link" for way in build.isolation.values())
    return build.vehicle.alternator is None and not charging


def alternator(build: Resolved) -> Iterator[str]:
    """The budget, by what it lacks."""
    added_a = supply.demand(build).total_a
    taken = f" for the {show.amps(added_a)} added on the start side" if added_a > 0 else ""
    if undescribed(build):
        yield f"what the alternator has left{taken}, its voltage and its share of a short (`alternator`)"
    if build.vehicle.alternator is None or not added_a:
        return
    for engine, words in supply.WORDS.items():
        found = supply.budget(build, engine)
        if found is not None and found.missing:
            keys = [f"`own_loads: {{{engine}}}`"] if found.own is None else []
            keys += ["`alternator: {idle}`"] if found.gives is None else []
            yield f"what the alternator has left{taken}, {words} ({', '.join(keys)})"


def starter(build: Resolved) -> Iterator[str]:
    """A starter's current that is taken from the battery's label; without one, an error says so."""
    carried = [
        f"`{way.name}`"
        for way in build.isolation.values()
        if isolation.carries_starter(way) and isolation.cold_cranking_a(build, way) is not None
    ]
    if carried and "crank" not in build.vehicle.own_a:
        yield (
            f"the starter's own current over {', '.join(carried)}, taken as half of the cold cranking rating "
            "(`own_loads: {cranking}`)"
        )


def weights(sized: Sized) -> Iterator[str]:
    """Sums of masses that nothing is held against."""
    vehicle = sized.build.vehicle
    if mass.payload(sized) is None:
        keys = ["`gross_mass`"] if vehicle.gross_kg is None else []
        keys += ["`kerb_mass`"] if mass.kerb_kg(vehicle) is None else []
        label = " and load label" if vehicle.gross_kg is None else ""
        yield f"payload{label} ({', '.join(keys)})"
    if vehicle.axles is None:
        yield "axle loads (`axles`)"
