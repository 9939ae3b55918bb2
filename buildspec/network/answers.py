"""What sizing, rules and documents ask the network: the worst current, drop and voltage of every circuit.

Worst over every mode and every combination of groups (see `states.py` and `superpose.py`).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import branches
from buildspec.model import Circuit, Resolved
from buildspec.network import build as made
from buildspec.network import states
from buildspec.network.build import Laid
from buildspec.network.elements import BODY, Resistor
from buildspec.network.superpose import Spread, Terms, caused, extreme, pair, spreads

ALIKE = 1e-9
"""Figures [A, V] closer than this differ by rounding only; the state that is named must not hang on that."""


class Answer(NamedTuple):
    """Of one circuit, the worst of every operating state."""

    amps: float
    """Largest current in it, either way [A]."""
    amps_in: str
    drop_v: float
    """From the battery's posts to its device and back, everything shared included [V]."""
    drop_in: str
    lowest_v: float
    """At its device, with the battery's own resistance [V]."""
    lowest_in: str


class Probe(NamedTuple):
    """Voltages to look at: each a signed sum of node voltages."""

    circuit: Circuit
    drops: tuple[Terms, ...]
    """One for each item of a load; empty where it has no drop."""
    devices: tuple[Terms, ...]
    branch: Resistor | None


def ask(laid: Laid) -> dict[str, Answer]:
    """Circuit key → worst of all states; circuits that take no part in the network are left out."""
    worst: dict[str, Answer] = {}
    modes = states.modes(laid.build)
    grouped = [states.groups(laid.build, mode) for mode in modes]
    networks = [made.network(laid, mode) for mode in modes]
    probes = list(probing(laid, {r.key: r for r in networks[0].resistors}))
    posed = zip(networks, (made.loads(laid, groups) for groups in grouped), strict=True)
    for mode, groups, found in zip(modes, grouped, spreads(posed), strict=True):
        running = {key for group in groups for key in group.circuits}
        for probe in probes:
            if takes_part(probe.circuit, mode, running):
                answer = answered(laid, probe, found, mode.name)
                key = probe.circuit.key
                worst[key] = worse(worst[key], answer) if key in worst else answer
    return worst


def takes_part(circuit: Circuit, mode: states.Mode, running: set[str]) -> bool:
    """A load counts in the modes in which it can run; a charger's circuits while it is awake; conductors always."""
    if circuit.kind in ("load", "reserve", "coil", "module", "signal"):
        return circuit.key in running
    if circuit.kind == "branch":
        return circuit.source in running
    if circuit.kind in ("charge-in", "charge-out", "link"):
        return circuit.item in mode.closed or circuit.item in mode.sources
    return not circuit.open_reason


def probing(laid: Laid, resistors: dict[str, Resistor]) -> Iterator[Probe]:
    for circuit in laid.build.circuits:
        pieces = made.laid_wires(circuit)
        branch = resistors.get(pieces[-1 if circuit.kind == "link" else 0].key) if pieces else None
        devices = ends(laid.build, circuit)
        root = root_battery(laid.build, circuit)
        posts = pair(f"{root}:+", f"{root}:−") if root else ()
        drops = tuple((*posts, *pair(minus, plus)) for plus, minus in devices if posts)
        yield Probe(circuit, drops, tuple(pair(*device) for device in devices), branch)


def ends(build: Resolved, circuit: Circuit) -> tuple[tuple[str, str], ...]:
    """Where a circuit delivers: its device or each of several, or the bus that it feeds against the body."""
    if circuit.kind == "feeder":
        return ((made.plus(build, circuit.target), BODY),)
    if circuit.kind in ("tie", "bond"):
        return ((BODY, BODY),)
    return made.devices_of(build, circuit)


def root_battery(build: Resolved, circuit: Circuit) -> str:
    """Designation of the battery that feeds a circuit, or `` where its drop is not one battery's."""
    if circuit.kind in ("tie", "bond", "signal", "link", "charge-out"):
        return ""
    node = branches.trunk(build, circuit).source if circuit.kind == "branch" else circuit.source
    for _ in build.circuits:
        if node in build.batteries:
            return build.batteries[node].designation
        above = next((c for c in build.circuits if c.kind == "feeder" and c.target == node), None)
        if above is None:
            return ""
        node = above.source
    return ""


def answered(laid: Laid, probe: Probe, found: Spread, mode: str) -> Answer:
    own = laid.sizings[probe.circuit.key].design_a
    amps = (
        own
        if probe.branch is None or probe.circuit.kind in ("load", "reserve", "branch")
        else carried(found, probe.branch)
    )
    drop = max((caused(found, terms, sign=1.0) for terms in probe.drops), default=0.0)
    volts = min(extreme(found, terms, sign=-1.0) for terms in probe.devices)
    return Answer(amps, mode, drop, mode, volts, mode)


def carried(found: Spread, branch: Resistor) -> float:
    """Largest current through a resistor, either way [A]."""
    across = pair(branch.a, branch.b)
    return max(extreme(found, across, sign=1.0), -extreme(found, across, sign=-1.0)) / branch.ohm


def worse(one: Answer, other: Answer) -> Answer:
    """The worse of two answers, figure by figure; the earlier mode where they are alike."""
    amps = other if other.amps > one.amps + ALIKE else one
    drop = other if other.drop_v > one.drop_v + ALIKE else one
    low = other if other.lowest_v < one.lowest_v - ALIKE else one
    return Answer(amps.amps, amps.amps_in, drop.drop_v, drop.drop_in, low.lowest_v, low.lowest_in)
