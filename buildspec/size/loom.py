"""How many loaded conductors share each run, and what that does to the worst of them."""

from __future__ import annotations

from buildspec.calc import ampacity
from buildspec.model import Ampacity, Circuit, Conductor, Resolved, Wire

LOOM_KINDS = ("load", "reserve")
CABLE_KINDS = ("feeder", "charge-in", "charge-out", "link", "tie", "bond")
LOADED_FROM_A = 1.0
"""Conductors under this are not counted as loaded: signals, coils (33 CFR 183.455(e), from memory)."""
TABLE = "33 CFR 183.425 Table 5"


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


def worst(
    build: Resolved, circuit: Circuit, conductor: Conductor, bundles: dict[str, int], design_a: float
) -> Ampacity | None:
    """Ampacity of a conductor on the worst stretch of a circuit; None below the table's smallest size."""
    if conductor.awg is None:
        return None
    rated_c = build.practice.insulation_c
    base = ampacity.base_a(awg=conductor.awg, insulation_c=int(rated_c))
    found = []
    for wire in (*circuit.feeds, *circuit.returns):
        for where, environment, count in surroundings(build, wire, bundles, counts(build, circuit, design_a)):
            place = ampacity.engine_factor(insulation_c=int(rated_c)) if environment == "engine" else 1.0
            bundle = ampacity.bundle_factor(loaded=count)
            table = f"{TABLE}, {rated_c:g} °C"
            found.append(
                Ampacity(base, place, bundle, base * place * bundle, where, count, environment, table)
            )
    return min(found, key=lambda a: (a.corrected_a, a.run)) if found else None
