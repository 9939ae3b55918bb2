"""The DC network of a sized build in one mode: every conductor, device, contact, stud and source.

Nodes are terminals (`X1:3`), named as on the drawings; a block's or panel's bus is its `+` pin.
`BODY` is the vehicle body.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from buildspec import branches
from buildspec.calc import battery, copper
from buildspec.model import Battery, Circuit, Isolation, Protection, Resolved, Sizing, Terminal, Wire
from buildspec.network.elements import BODY, Current, Network, Resistor, Source
from buildspec.network.states import Group, Mode

REGULATED_V = 14.4
"""Alternator or charger output of a 12 V system; charging voltage of the typical-load table."""
REGULATOR_OHM = 0.005
"""Droop of an alternator's regulator with its cable; common practice, no source."""
OWN_CABLE_OHM = 0.001
"""The vehicle's own battery negative; common practice, no source."""
USUAL_SHORT_OHM_AH = 0.5
"""Internal resistance times capacity of a 12 V lead-acid battery where nothing else is known; common practice."""
LITHIUM_REST_V = 12.8
"""Nominal voltage of four lithium-iron-phosphate cells; the resting voltage of the practice is for lead-acid."""


class Laid(NamedTuple):
    """A build with the size of each conductor: what the network is made from."""

    build: Resolved
    sizings: Mapping[str, Sizing]


def network(laid: Laid, mode: Mode) -> Network:
    """Conductors and sources of a mode, without loads that come and go."""
    resistors = [*wires(laid), *devices(laid), *contacts(laid), *studs(laid.build), *links(laid.build, mode)]
    currents = (*chargers(laid.build, mode), *outside(laid.build, mode), *own_loads(laid.build, mode))
    return Network(tuple(resistors), tuple(sources(laid.build, mode)), tuple(currents), ())


def node(terminal: Terminal) -> str:
    return f"{terminal.item}:{terminal.pin}"


def plus(build: Resolved, name: str) -> str:
    """The positive node of a battery, block or panel."""
    item = build.batteries.get(name) or build.blocks.get(name) or build.panels.get(name)
    return f"{item.designation}:+" if item is not None else f"{name}:tap"


def laid_wires(circuit: Circuit) -> tuple[Wire, ...]:
    return (*circuit.feeds, *circuit.returns)


def wires(laid: Laid) -> Iterator[Resistor]:
    """Every conductor at the temperature that its worst current gives it."""
    for circuit in laid.build.circuits:
        sizing = laid.sizings[circuit.key]
        if circuit.open_reason:
            continue
        for wire in laid_wires(circuit):
            cold = sizing.conductor.r20_ohm_per_m * wire.cut_m
            hot = copper.resistance_at(r20_ohm=cold, temp_c=sizing.temp_c)
            yield Resistor(wire.key, node(wire.start), node(wire.end), hot)


def devices(laid: Laid) -> Iterator[Resistor]:
    """Protective devices: beside their source, or between a bus and its terminal."""
    ohm = laid.build.practice.contact_ohm
    for circuit in laid.build.circuits:
        for protection in circuit.protections:
            if protection.host:
                inside = sum(1 for c in circuit.contacts if c.place == protection.place and c.part is None)
                yield Resistor(
                    protection.key,
                    plus(laid.build, protection.host),
                    hosted(laid.build, protection),
                    ohm * (1 + inside),
                )
            else:
                yield Resistor(
                    protection.key, f"{protection.designation}:1", f"{protection.designation}:2", ohm
                )
        if circuit.unprotected and circuit.feeds and circuit.source not in laid.build.batteries:
            first = node(circuit.feeds[0].start)
            if first != plus(laid.build, circuit.source):
                yield Resistor(f"{circuit.key}/joint", plus(laid.build, circuit.source), first, ohm)


def hosted(build: Resolved, protection: Protection) -> str:
    item = build.blocks.get(protection.host) or build.panels[protection.host]
    return f"{item.designation}:{protection.position}"


PINS = {"relay": ("30", "87"), "switch": ("1", "2")}


def contacts(laid: Laid) -> Iterator[Resistor]:
    """Relays and hard power-offs, closed: whether current flows is a matter of the load's group."""
    for circuit in laid.build.circuits:
        for contact in (c for c in circuit.contacts if c.part is not None and c.kind in PINS):
            enter, leave = PINS[contact.kind]
            yield Resistor(
                contact.key,
                f"{contact.designation}:{enter}",
                f"{contact.designation}:{leave}",
                laid.build.practice.contact_ohm,
            )


def studs(build: Resolved) -> Iterator[Resistor]:
    """Half of the body's resistance between two studs at each of them; battery posts are no studs."""
    for ground in build.grounds.values():
        if not ground.post_of:
            yield Resistor(
                f"{ground.name}/body", f"{ground.letter_name}:stud", BODY, build.practice.body_ohm / 2
            )
    for circuit in build.circuits:
        if circuit.body_return:
            yield from body_ends(build, circuit)
    for item in build.batteries.values():
        if not any(c.kind == "bond" and c.source == item.name for c in build.circuits):
            yield Resistor(f"{item.name}/negative", f"{item.designation}:−", BODY, OWN_CABLE_OHM)


def body_ends(build: Resolved, circuit: Circuit) -> Iterator[Resistor]:
    """From the device, or from each of several, to the body; what ends at a common point has no return there."""
    if branches.of(build, circuit) is not None:
        return
    half = build.practice.body_ohm / 2
    if circuit.kind != "branch":
        yield Resistor(f"{circuit.key}/body", f"{circuit.target_designation}:−", BODY, half)
        return
    for terminal in branches.items(circuit):
        yield Resistor(f"{circuit.key}/body {terminal.item}", f"{terminal.item}:−", BODY, half)


def links(build: Resolved, mode: Mode) -> Iterator[Resistor]:
    """Closed links between batteries."""
    for way in build.isolation.values():
        if way.type != "dc-dc" and way.name in mode.closed:
            yield Resistor(
                way.name, f"{way.designation}:30", f"{way.designation}:30a", build.practice.contact_ohm
            )


def chargers(build: Resolved, mode: Mode) -> Iterator[Current]:
    """An awake charger draws its worst input current and gives its rated output."""
    for way in build.isolation.values():
        trait = way.part.charger
        if trait is not None and way.name in mode.closed:
            yield Current(f"{way.name}/in", f"{way.designation}:IN+", negative(build, way), trait.input_max_a)
            yield Current(f"{way.name}/out", negative(build, way), f"{way.designation}:OUT+", trait.output_a)


def outside(build: Resolved, mode: Mode) -> Iterator[Current]:
    """A shore or solar charger that gives its rated output."""
    for circuit in build.circuits:
        supply = build.supplies.get(circuit.item)
        if supply is not None and supply.name in mode.sources and supply.part.charger is not None:
            back = node(circuit.returns[0].start) if circuit.returns else BODY
            yield Current(supply.name, back, node(circuit.feeds[-1].end), supply.part.charger.output_a)


def negative(build: Resolved, way: Isolation) -> str:
    """A charger's one negative terminal: where its input circuit's return begins, or the body."""
    circuit = next((c for c in build.circuits if c.key == f"{way.name}/in"), None)
    return node(circuit.returns[0].start) if circuit is not None and circuit.returns else BODY


def own_loads(build: Resolved, mode: Mode) -> Iterator[Current]:
    """What the vehicle itself draws from its start battery."""
    starts = [b for b in build.batteries.values() if b.role == "start"]
    amps = build.vehicle.own_a.get(mode.engine if mode.key == "on" else mode.key, 0.0)
    if starts and amps:
        yield Current("vehicle", f"{starts[0].designation}:+", f"{starts[0].designation}:−", amps)


def sources(build: Resolved, mode: Mode) -> Iterator[Source]:
    """Batteries, the alternator while the engine runs, and vehicle signals."""
    for item in build.batteries.values():
        yield Source(
            item.name,
            f"{item.designation}:+",
            f"{item.designation}:−",
            rest_v(build, item),
            internal_ohm(build, item),
        )
    alternator = build.vehicle.alternator
    start = next((b for b in build.batteries.values() if b.role == "start"), None)
    if alternator is not None and start is not None and mode.engine != "stopped":
        volts = REGULATED_V * build.practice.nominal_v / 12
        yield Source("alternator", f"{start.designation}:+", f"{start.designation}:−", volts, REGULATOR_OHM)
    for signal in {c.source for c in build.circuits if c.kind == "signal"} & set(build.signals):
        yield Source(f"signal {signal}", f"{signal}:tap", BODY, build.practice.nominal_v, 1.0)


def rest_v(build: Resolved, item: Battery) -> float:
    """Open-circuit voltage of a battery at the practice's resting state."""
    trait = item.part.battery
    if trait is not None and trait.chemistry == "lithium-iron-phosphate":
        return LITHIUM_REST_V * build.practice.nominal_v / 12
    return build.practice.resting_v


def internal_ohm(build: Resolved, item: Battery) -> float:
    """Internal resistance [ohm]: from the short-circuit current, the cranking current, or the capacity."""
    trait = item.part.battery
    scale = build.practice.nominal_v / 12
    if trait is None:
        return USUAL_SHORT_OHM_AH / 50 * scale
    if trait.short_circuit_a is not None:
        return rest_v(build, item) / trait.short_circuit_a
    if trait.cranking_a is not None:
        return battery.internal_ohm(cranking_a=trait.cranking_a) * scale
    return USUAL_SHORT_OHM_AH / trait.capacity_ah * scale


def ends(build: Resolved, circuit: Circuit) -> tuple[str, str]:
    """The two terminals between which a circuit's device sits."""
    if circuit.kind == "module":
        return plus(build, circuit.source), node(circuit.returns[0].start)
    first = node(circuit.feeds[-1].end)
    if circuit.returns:
        return first, node(circuit.returns[0].start)
    if not circuit.body_return:
        return first, BODY
    branch = branches.of(build, circuit)
    item = branches.items(branch)[0].item if branch is not None else circuit.target_designation
    return first, f"{item}:−"


def devices_of(build: Resolved, circuit: Circuit) -> tuple[tuple[str, str], ...]:
    """The two terminals of each item of a load, or of a circuit's one device; of branches, those of their load."""
    branch = circuit if circuit.kind == "branch" else branches.of(build, circuit)
    if branch is None:
        return (ends(build, circuit),)
    return tuple((node(t), node(t._replace(pin="−"))) for t in branches.items(branch))


def farthest(build: Resolved, circuit: Circuit) -> tuple[str, str]:
    """The two terminals of a load, of the worst of its items where branches join several."""
    branch = branches.of(build, circuit)
    if branch is None:
        return ends(build, circuit)
    last = branches.farthest(branch)
    return node(last), node(last._replace(pin="−"))


def shared_out(build: Resolved, circuit: Circuit, amps: float) -> Iterator[Current]:
    """The current of a load, in equal parts where it is several items at the ends of branches."""
    found = devices_of(build, circuit)
    for n, (a, b) in enumerate(found, start=1):
        yield Current(circuit.key if len(found) == 1 else f"{circuit.key} {n}", a, b, amps / len(found))


def loads(laid: Laid, groups: tuple[Group, ...]) -> dict[str, tuple[Current, ...]]:
    """Each group's loads at their worst currents."""
    by_key = {c.key: c for c in laid.build.circuits}
    return {
        group.name: tuple(
            current
            for key in group.circuits
            for current in shared_out(laid.build, by_key[key], laid.sizings[key].design_a)
        )
        for group in groups
    }
