"""A build at work: the network with its loads as they are, constant power drawing more as the voltage falls."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildspec.energy.draws import battery_behind, standby_a
from buildspec.energy.modes import charged
from buildspec.model import Circuit, Electrical, OwnState, Practice, Resolved, Sized
from buildspec.network import build as made
from buildspec.network import states
from buildspec.network.elements import Collapse, Current, Network, Power, Resistor, Solution
from buildspec.network.solve import solve
from buildspec.size import currents

USUAL_V = 12.5
"""Voltage of a typical current, 12 V system."""


class Reading(NamedTuple):
    """One device that is on: what flows into it, and the voltage at its terminals."""

    circuit: str
    amps: float
    volts: float


class Worked(NamedTuple):
    """An operating state of the spec, worked out.

    Currents that are taken at the batteries' posts, the alternator's part included; negative while a charger gives
    more than that [A].
    """

    state: OwnState
    mode: states.Mode
    collapse: Collapse | None
    readings: tuple[Reading, ...]
    held_off: tuple[str, ...]
    """Accessories that the state names and the key holds dead."""
    drawn_a: dict[str, float]
    mean_a: dict[str, float]
    """The same with each load's duty."""
    post_v: dict[str, float]


def worked(sized: Sized, state: OwnState) -> Worked:
    """Solve one state: what it names is on, everything else on standby."""
    build = sized.build
    mode = states.Mode(state.key, state.engine, state.closed, state.sources)
    named = [c for c in build.circuits if c.kind == "load" and c.item in state.on]
    running = [c for c in named if states.live(build, c, mode)]
    held = tuple(dict.fromkeys(c.item for c in named if c not in running))
    found = solve(network(sized, mode, [*usual(sized, running), *aside(sized, state, running)]))
    if isinstance(found, Collapse):
        return Worked(state, mode, found, (), held, {}, {}, {})
    readings = tuple(reading(build, found, c) for c in running)
    drawn = {name: -found.amps[name] for name in build.batteries}
    if "alternator" in found.amps:
        drawn[charged(build)] -= found.amps["alternator"]
    return Worked(
        state, mode, None, readings, held, drawn, spared(build, readings, drawn), posts(build, found)
    )


def network(sized: Sized, mode: states.Mode, loads: Iterable[Resistor | Current | Power]) -> Network:
    """The network of a mode with its loads."""
    bare, added = made.network(made.Laid(sized.build, sized.sizings), mode), list(loads)
    return bare._replace(
        resistors=(*bare.resistors, *(e for e in added if isinstance(e, Resistor))),
        currents=(*bare.currents, *(e for e in added if isinstance(e, Current))),
        powers=(*bare.powers, *(e for e in added if isinstance(e, Power))),
    )


def usual(sized: Sized, running: Iterable[Circuit]) -> Iterator[Resistor | Current | Power]:
    """Loads at their usual draw."""
    practice = sized.build.practice
    for circuit in running:
        load = circuit.load
        assert load is not None
        for name, (a, b), count in elements(sized.build, circuit):
            if load.model == "constant-power":
                yield Power(name, a, b, usual_w(load, practice) * count)
            elif load.model == "resistive":
                yield Resistor(name, a, b, resistance(load, practice) / count)
            else:
                yield Current(name, a, b, currents.typical(load, practice) * count)


def elements(build: Resolved, circuit: Circuit) -> Iterator[tuple[str, tuple[str, str], int]]:
    """(name, terminals, number of items) of a load: all of it in one, or one for each item on branches."""
    found = made.devices_of(build, circuit)
    if len(found) == 1:
        yield device(circuit), found[0], circuit.quantity
        return
    for n, terminals in enumerate(found, start=1):
        yield f"{device(circuit)}, {n}", terminals, 1


def device(circuit: Circuit) -> str:
    """Name of a load's element; its conductors have names of their own."""
    return f"{circuit.key} at work"


def usual_w(load: Electrical, practice: Practice) -> float:
    """Power of a constant-power load [W]: stated, or from its usual current, or from its worst."""
    if load.power_w is not None:
        return load.power_w
    if load.typical_a is not None:
        return load.typical_a * USUAL_V * practice.nominal_v / 12
    return worst_w(load, practice)


def worst_w(load: Electrical, practice: Practice) -> float:
    """Largest power [W]: worst current at the lowest voltage."""
    return currents.worst(load, practice) * practice.lowest_v


def resistance(load: Electrical, practice: Practice) -> float:
    """Of a resistive load [ohm]: from its power at nominal voltage, or its usual current."""
    if load.power_w is not None:
        return practice.nominal_v**2 / load.power_w
    return USUAL_V * practice.nominal_v / 12 / currents.typical(load, practice)


def aside(sized: Sized, state: OwnState, running: list[Circuit]) -> Iterator[Current]:
    """Coils and logic inputs of what is on, panel electronics, standby of what is off."""
    build, on = sized.build, {c.item for c in running} | state.closed
    for circuit in build.circuits:
        own = sized.sizings[circuit.key].design_a
        if circuit.kind in ("coil", "signal") and circuit.item in on:
            yield Current(device(circuit), *made.ends(build, circuit), own)
        elif circuit.kind == "module":
            electrical = build.panels[circuit.item].part.electrical
            asleep = electrical.standby_a if electrical else 0.0
            awake = any(build.accessories[c.item].switch.startswith(f"{circuit.item}.") for c in running)
            yield Current(device(circuit), *made.ends(build, circuit), own if awake else asleep)
        elif circuit.kind == "load" and circuit not in running and standby_a(build, circuit):
            each = standby_a(build, circuit) / circuit.quantity
            for name, (a, b), count in elements(build, circuit):
                yield Current(name, a, b, each * count)


def reading(build: Resolved, found: Solution, circuit: Circuit) -> Reading:
    """Current of all its items, and the voltage at the worst of them."""
    items = list(elements(build, circuit))
    lowest = min(found.volts[a] - found.volts[b] for _, (a, b), _ in items)
    return Reading(circuit.key, sum(found.amps[name] for name, _, _ in items), lowest)


def spared(build: Resolved, readings: tuple[Reading, ...], drawn: dict[str, float]) -> dict[str, float]:
    """Mean currents: what is drawn, less what the duty of the running loads spares."""
    mean, by_key = dict(drawn), {c.key: c for c in build.circuits}
    for one in readings:
        circuit = by_key[one.circuit]
        home = battery_behind(build, circuit.source)
        if home and circuit.load is not None:
            mean[home] -= one.amps * (1 - circuit.load.duty)
    return mean


def posts(build: Resolved, found: Solution) -> dict[str, float]:
    """Voltage between the posts of each battery [V]."""
    return {
        name: found.volts[f"{b.designation}:+"] - found.volts[f"{b.designation}:−"]
        for name, b in build.batteries.items()
    }


def collapse(sized: Sized, mode: states.Mode, *, without: str = "") -> Collapse | None:
    """Everything that can be on in a mode is on, constant power at its worst: is there a working point?

    `without`: key of a circuit that stays off.
    """
    build = sized.build
    running = {key for group in states.groups(build, mode) for key in group.circuits} - {without}
    found = solve(network(sized, mode, worst(sized, [c for c in build.circuits if c.key in running])))
    return found if isinstance(found, Collapse) else None


def worst(sized: Sized, circuits: Iterable[Circuit]) -> Iterator[Current | Power]:
    """Loads at their worst draw; what is no constant power draws its worst current whatever the voltage."""
    practice = sized.build.practice
    for circuit in circuits:
        if circuit.load is not None and circuit.load.model == "constant-power":
            for name, (a, b), count in elements(sized.build, circuit):
                yield Power(name, a, b, worst_w(circuit.load, practice) * count)
        else:
            yield from made.shared_out(sized.build, circuit, sized.sizings[circuit.key].design_a)
