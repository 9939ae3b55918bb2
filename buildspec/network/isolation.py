"""The edges of a build, and every way on which start side and house side meet outside a declared device."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from buildspec.findings import Path
from buildspec.model import Circuit, Isolation, Resolved, Supply
from buildspec.network import states
from buildspec.network.graph import STATES, Edge, Step, path

ALWAYS = frozenset(STATES)


def edges(build: Resolved) -> tuple[Edge, ...]:
    """Positive conductors between batteries, blocks and panels: ties, feeders, links, chargers."""
    links = [_declared(way) for way in build.isolation.values()]
    wires = [_wire(build, c) for c in build.circuits if c.kind in ("feeder", "tie") and not c.open_reason]
    return (*wires, *links)


def _wire(build: Resolved, circuit: Circuit) -> Edge:
    at = feed_path(build, circuit) if circuit.kind == "feeder" else circuit.at
    return Edge(circuit.source, circuit.target, circuit.item, circuit.kind, False, ALWAYS, at)


def feed_path(build: Resolved, circuit: Circuit) -> Path:
    """Path of the `fed_from` entry that a circuit starts at, or of its `switch` where it has only that."""
    section, name = str(circuit.at[0]), circuit.item
    if section == "feeds":
        return circuit.at
    if section in ("blocks", "panels"):
        fed = build.blocks[name].fed_from if section == "blocks" else build.panels[name].fed_from
        place = [n for n, text in enumerate(fed) if text.partition(".")[0] == circuit.source]
        return (section, name, "fed_from", place[0]) if len(fed) > 1 else (section, name, "fed_from")
    item = build.accessories.get(name) or build.reserves[name]
    return (section, name, "fed_from" if item.fed_from else "switch")


def _declared(way: Isolation) -> Edge:
    kind = "charger" if way.type == "dc-dc" else "link"
    return Edge(
        way.ends[0], way.ends[1], way.name, kind, way.type == "dc-dc", conducts(way), (*way.at, "type")
    )


def conducts(way: Isolation) -> frozenset[str]:
    """States in which a declared device can pass current, by its type; the worse one where nothing is stated."""
    crank = frozenset() if way.crank == "open" else frozenset({"cranking"})
    if way.type == "dc-dc":
        return frozenset({"running"}) if way.wake else ALWAYS
    if way.type == "momentary-link":
        return frozenset({"assist held", "cranking"}) if way.crank == "closed" else frozenset({"assist held"})
    if way.type == "voltage-relay":
        return frozenset({"running"}) | crank
    return frozenset({"parked", "running", "assist held"}) | crank


def joins(build: Resolved) -> Iterator[tuple[Step, ...]]:
    """Every way from a start battery to a house battery while parked, shortest first, a culprit once.

    Chargers, momentary links and voltage relays are left out: they are declared, and rules of their own hold
    their state. What is left and conducts while cranking conducts while parked as well.
    """
    able = {"manual-switch"}
    left = [e for e in edges(build) if e.kind in ("tie", "feeder") or build.isolation[e.name].type in able]
    for start in side(build, "start"):
        for house in side(build, "house"):
            while way := path(left, start=start, end=house, state="parked"):
                yield way
                left.remove(culprit(way))


def culprit(way: tuple[Step, ...]) -> Edge:
    """The edge to point at: the first one that is no feeder, else the feeder from the start battery."""
    return next((step.edge for step in way if step.edge.kind != "feeder"), way[0].edge)


def side(build: Resolved, role: str) -> tuple[str, ...]:
    """Batteries of one side, in the order of the spec."""
    return tuple(b.name for b in build.batteries.values() if b.role == role)


def charged(build: Resolved) -> frozenset[str]:
    """Batteries into which current can flow for long: from the alternator, a source or a charger.

    The vehicle's own battery is one, also where it is written as a house battery and no other starts the engine;
    where one start battery is the vehicle's own, another one that is added needs a way to it.
    """
    starts = side(build, "start")
    own = (
        tuple(b.name for b in build.batteries.values() if b.existing and (not starts or b.name in starts))
        or starts
    )
    found = {*own, *(supply.to for supply in build.supplies.values())}
    found |= {way.ends[1] for way in build.isolation.values() if way.type == "dc-dc"}
    links = [way.ends for way in build.isolation.values() if way.type in ("voltage-relay", "manual-switch")]
    ties = [(c.source, c.target) for c in build.circuits if c.kind == "tie" and not c.open_reason]
    while more := {end for pair in (*links, *ties) if found & set(pair) for end in pair} - found:
        found |= more
    return frozenset(found)


def reversed_chargers(build: Resolved) -> tuple[Isolation, ...]:
    """Chargers that take from a house battery and give to a start battery."""
    roles = {name: battery.role for name, battery in build.batteries.items()}
    return tuple(
        way
        for way in build.isolation.values()
        if way.type == "dc-dc" and [roles[end] for end in way.ends] == ["house", "start"]
    )


def batteries_behind(build: Resolved, node: str) -> frozenset[str]:
    """Batteries that feed a node over feeders."""
    if node in build.batteries:
        return frozenset({node})
    above = [c.source for c in build.circuits if c.kind == "feeder" and c.target == node]
    return frozenset().union(*(batteries_behind(build, source) for source in above))


def loads_behind(build: Resolved, circuit: Circuit) -> tuple[Circuit, ...]:
    """Loads and reserves that a circuit feeds in the end, itself included."""
    if circuit.kind != "feeder":
        return (circuit,) if circuit.kind in ("load", "reserve") else ()
    below = [c for c in build.circuits if c.source == circuit.target]
    return tuple(load for c in below for load in loads_behind(build, c))


def needs_ignition(build: Resolved, circuit: Circuit) -> bool:
    """Its feed, or the relay in it, is held by the ignition, so it is dead with the key off."""
    if states.held(build, circuit.source) != "any":
        return True
    item = build.accessories.get(circuit.item)
    if item is None or item.trigger not in build.signals or item.switch:
        return False
    return build.signals[item.trigger].kind == "ignition" and any(c.kind == "relay" for c in circuit.contacts)


def cold_cranking_a(build: Resolved, way: Isolation) -> float | None:
    """Largest cold cranking rating among the start batteries that a device joins [A]; None where none says."""
    starts = [build.batteries[end].part.battery for end in way.ends if build.batteries[end].role == "start"]
    return max((trait.cranking_a for trait in starts if trait and trait.cranking_a), default=None)


def carries_starter(way: Isolation) -> bool:
    """Is the starter's current meant to take this device?"""
    return way.type == "momentary-link" or (way.type != "dc-dc" and way.crank == "closed")


def chargers_of(build: Resolved, battery: str) -> tuple[tuple[Isolation | Supply, float], ...]:
    """Chargers that give to a battery at once, each with its rated output [A].

    Solar gives on the road and at the socket; shore does not while the engine charges, so the larger sum counts.
    """
    engine = [way for way in build.isolation.values() if way.type == "dc-dc" and way.ends[1] == battery]
    given = [supply for supply in build.supplies.values() if supply.to == battery]
    solar, shore = ([s for s in given if (s.type == "solar") is wanted] for wanted in (True, False))
    sets = [rated([*engine, *solar]), rated([*shore, *solar])]
    return max(sets, key=lambda found: sum(amps for _, amps in found))


def rated(ways: Sequence[Isolation | Supply]) -> tuple[tuple[Isolation | Supply, float], ...]:
    """Chargers with their rated output [A]."""
    return tuple((way, way.part.charger.output_a) for way in ways if way.part.charger is not None)


def joined_while_running(build: Resolved) -> frozenset[str]:
    """Start batteries and every battery that a link joins to them while the engine runs."""
    links = [e for e in edges(build) if e.kind == "link"]
    starts = side(build, "start")
    return frozenset(
        name
        for name in build.batteries
        if any(path(links, start=start, end=name, state="running") is not None for start in starts)
    )
