"""Worst-case currents: of a device, of a circuit, of everything that hangs on a node."""

from __future__ import annotations

from buildspec import branches
from buildspec.calc import load
from buildspec.model import Circuit, Electrical, Practice, Resolved
from buildspec.size.order import upwards

DRAWING = ("load", "reserve", "feeder", "coil", "module", "charge-in")
"""Kinds of circuit that draw from their source."""
HIGH_OVER_NOMINAL = 14.4 / 12.0
"""Charging voltage over nominal: where a resistive load draws most."""


def worst(device: Electrical, practice: Practice) -> float:
    """Largest working current of one device [A]: stated, or from its power at the worst voltage."""
    if device.worst_a is not None:
        return device.worst_a
    if device.power_w is None:
        return device.typical_a or 0.0
    if device.model == "resistive":
        high = practice.nominal_v * HIGH_OVER_NOMINAL
        return load.resistive_current_a(rated_w=device.power_w, rated_v=practice.nominal_v, volts=high)
    return load.power_current_a(power_w=device.power_w, volts=practice.lowest_v)


def typical(device: Electrical, practice: Practice) -> float:
    """Usual working current of one device [A], for predictions; its worst where nothing else is known."""
    if device.typical_a is not None:
        return device.typical_a
    if device.power_w is not None and device.model != "resistive":
        return load.power_current_a(power_w=device.power_w, volts=practice.nominal_v * 12.5 / 12.0)
    if device.power_w is not None:
        return device.power_w / practice.nominal_v
    return worst(device, practice)


def design(build: Resolved) -> dict[str, float]:
    """Circuit key → current it is sized for [A], every switch on and every reserve populated."""
    amps: dict[str, float] = {}
    for circuit in upwards(build):
        amps[circuit.key] = own(build, circuit, amps)
    for circuit in build.circuits:
        if circuit.kind == "bond":
            amps[circuit.key] = battery_total(build, circuit.source, amps)
    return amps


def own(build: Resolved, circuit: Circuit, amps: dict[str, float]) -> float:
    if circuit.fixed_a is not None:
        return circuit.fixed_a
    if circuit.load is not None:
        return worst(circuit.load, build.practice) * circuit.quantity
    if circuit.kind == "branch":
        item = branches.trunk(build, circuit).load
        return worst(item, build.practice) * branches.carried(circuit)[0] if item is not None else 0.0
    if circuit.kind in ("feeder", "tie"):
        return drawn_from(build, circuit.target, amps)
    return 0.0


def drawn_from(build: Resolved, node: str, amps: dict[str, float]) -> float:
    """Sum of what is fed from a node; links, chargers' outputs and ties bring current and draw none."""
    return sum(amps.get(c.key, 0.0) for c in build.circuits if c.source == node and c.kind in DRAWING)


def battery_total(build: Resolved, battery: str, amps: dict[str, float]) -> float:
    """What a battery's negative must carry: its loads, or a link that uses it, whichever is more."""
    links = [amps[c.key] for c in build.circuits if c.kind == "link" and battery in (c.source, c.target)]
    return max([through_body(build, battery, amps), *links])


def through_body(build: Resolved, battery: str, amps: dict[str, float]) -> float:
    """Load current that comes back to a battery through the vehicle body [A]; not what returns to its post."""
    at_post = sum(
        amps[c.key]
        for c in build.circuits
        if c.ground in build.grounds
        and build.grounds[c.ground].post_of == battery
        and battery in batteries_of(build, c.source)
    )
    return max(0.0, drawn_from(build, battery, amps) - at_post)


def batteries_of(build: Resolved, node: str) -> set[str]:
    """The batteries from which a node is fed, through however many feeders."""
    if node in build.batteries:
        return {node}
    feeders = (c for c in build.circuits if c.kind == "feeder" and c.target == node)
    return {battery for feeder in feeders for battery in batteries_of(build, feeder.source)}


def node_totals(build: Resolved, amps: dict[str, float]) -> dict[str, float]:
    """Battery, block, panel → worst-case current drawn from it [A]."""
    nodes = [*build.batteries, *build.blocks, *build.panels]
    return {node: drawn_from(build, node, amps) for node in nodes}
