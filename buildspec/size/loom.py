"""How many loaded conductors share each run, and what that does to the worst of them."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.calc import ampacity, ampacity_bases
from buildspec.calc.ampacity_bases import Rated
from buildspec.model import Ampacity, Circuit, Conductor, Resolved, Wire

LOOM_KINDS = ("load", "reserve", "branch")
CABLE_KINDS = ("feeder", "charge-in", "charge-out", "link", "tie", "bond")
LOADED_FROM_A = 1.0
"""Conductors under this are not counted as loaded: signals, coils (33 CFR 183.455(e), from memory)."""


def counts(build: Resolved, circuit: Circuit, design_a: float) -> bool:
    """Does a circuit count in the bundle of the runs that it takes?"""
    kinds = LOOM_KINDS if build.practice.battery_cables_apart else (*LOOM_KINDS, *CABLE_KINDS)
    return circuit.kind in kinds and design_a >= LOADED_FROM_A and not circuit.existing


def loaded(build: Resolved, amps: dict[str, float]) -> dict[str, int]:
    """Run name → number of loaded conductors in its loom, returns included, reserves populated."""
    found: dict[str, int] = {run.name: 0 for run in build.runs}
    for circuit in build.circuits:
        if counts(build, circuit, amps[circuit.key]):
            for wire in (*circuit.feeds, *circuit.returns):
                for run in wire.route.runs:
                    found[run.name] += 1
    return found


def surroundings(
    build: Resolved, wire: Wire, bundles: dict[str, int], in_loom: bool
) -> list[tuple[str, str, int]]:
    """(run or place, environment, loaded conductors) along a conductor; a run takes the hotter end."""
    stretches = []
    for run in wire.route.runs:
        ends = (build.places[run.a].environment, build.places[run.b].environment)
        stretches.append(
            (run.name, "engine" if "engine" in ends else ends[1], max(1, bundles[run.name]) if in_loom else 1)
        )
    if not stretches:
        place = wire.route.places[0]
        stretches.append((place, build.places[place].environment, 1))
    return stretches


class Stretch(NamedTuple):
    """The worst stretch of a circuit: the same for every conductor that is tried in it."""

    place_factor: float
    bundle_factor: float
    where: str
    loaded: int
    environment: str


def hottest(build: Resolved, circuit: Circuit, bundles: dict[str, int], design_a: float) -> Stretch | None:
    """Where a circuit's conductors carry least; None for a circuit without conductors."""
    engine = ampacity.engine_factor(insulation_c=int(build.practice.insulation_c))
    in_loom = counts(build, circuit, design_a)
    found = {
        Stretch(
            engine if around == "engine" else 1.0, ampacity.bundle_factor(loaded=count), where, count, around
        )
        for wire in (*circuit.feeds, *circuit.returns)
        for where, around, count in surroundings(build, wire, bundles, in_loom)
    }
    return min(found, key=lambda s: (s.place_factor * s.bundle_factor, s.where, s.loaded), default=None)


def carried(build: Resolved, stretch: Stretch | None, conductor: Conductor) -> Ampacity | None:
    """Ampacity of a conductor on a stretch; None below the table's smallest size."""
    found = rated(build, conductor)
    if found is None or stretch is None:
        return None
    place = stretch.place_factor if found.engine_factor else 1.0
    return Ampacity(
        found.current_a,
        place,
        stretch.bundle_factor,
        found.current_a * place * stretch.bundle_factor,
        stretch.where,
        stretch.loaded,
        stretch.environment,
        found.table,
    )


def rated(build: Resolved, conductor: Conductor) -> Rated | None:
    """What the practice's table gives a conductor in the open; None below its smallest row."""
    practice = build.practice
    return ampacity_bases.rated(
        basis=practice.ampacity, area_mm2=conductor.area_mm2, insulation_c=int(practice.insulation_c)
    )
