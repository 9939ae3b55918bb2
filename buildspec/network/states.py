"""Operating states of a build: everything that really varies, generated, counted, and grouped.

What changes the conductors and sources that take part (key, engine, links, shore, solar) makes another
network: a `Mode`. What only adds a load in a mode (a switch, a vehicle signal) is a `Group` that is on or
off by itself; `superpose.py` takes every combination of groups exactly, so none of them is skipped.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import NamedTuple

from buildspec.model import Circuit, Isolation, Resolved

KEYS = (
    ("off", "stopped"),
    ("on", "stopped"),
    ("on", "idle"),
    ("on", "driving"),
    ("crank", "stopped"),
)
"""Key and engine: parked, key on, idling, driving, cranking."""
WORDS = {
    ("off", "stopped"): "parked, key off",
    ("on", "stopped"): "key on, engine stopped",
    ("on", "idle"): "engine idling",
    ("on", "driving"): "driving",
    ("crank", "stopped"): "cranking",
}


class Mode(NamedTuple):
    """One network: which sources feed it and which links are closed."""

    key: str
    engine: str
    closed: frozenset[str]
    """Links that are closed, and chargers that are awake."""
    sources: frozenset[str]
    """Of `shore` and `solar` sources, those that give."""

    @property
    def name(self) -> str:
        """For people: `parked, key off, assist closed`."""
        extra = [f"`{link}` closed" for link in sorted(self.closed)] + [
            f"`{s}` on" for s in sorted(self.sources)
        ]
        return ", ".join([WORDS[self.key, self.engine], *extra])


class Group(NamedTuple):
    """Circuits that are on together: behind one switch, or behind one vehicle signal."""

    name: str
    circuits: tuple[str, ...]


class Coverage(NamedTuple):
    """How many operating states a build has, and in how many networks they were covered."""

    states: int
    modes: int
    groups: int


def modes(build: Resolved) -> tuple[Mode, ...]:
    """Every network of a build, each once."""
    found = dict.fromkeys(
        Mode(key, engine, closed, giving)
        for key, engine in KEYS
        for closed in closures(build, key, engine)
        for giving in outside(build, engine)
    )
    return tuple(found)


def outside(build: Resolved, engine: str) -> Iterator[frozenset[str]]:
    """Every set of outside sources that can give together: the shore lead is off while the engine runs."""
    able = [name for name, item in build.supplies.items() if item.type != "shore" or engine == "stopped"]
    for count in range(len(able) + 1):
        for chosen in itertools.combinations(able, count):
            yield frozenset(chosen)


def closures(build: Resolved, key: str, engine: str) -> Iterator[frozenset[str]]:
    """Every set of links and chargers that can conduct together in a key and engine state."""
    choices = [sorted(positions(build, way, key, engine)) for way in build.isolation.values()]
    names = list(build.isolation)
    for combination in itertools.product(*choices):
        yield frozenset(name for name, closed in zip(names, combination, strict=True) if closed)


def positions(build: Resolved, way: Isolation, key: str, engine: str) -> set[bool]:
    """In which positions a declared device can be; both where nothing settles it."""
    if way.type == "dc-dc":
        return {True, False} if awake(build, way, key, engine) else {False}
    if way.type == "momentary-link":
        return {False, True} if key != "crank" or way.crank != "open" else {False}
    if way.type == "voltage-relay":
        if key == "crank":
            return {way.crank == "closed"} if way.crank else {False, True}
        return {False, True} if engine != "stopped" else {False}
    return {False, True} if key != "crank" or way.crank != "open" else {False}


def awake(build: Resolved, way: Isolation, key: str, engine: str) -> bool:
    """Can a charger run: by its wake signal, or by voltage once the engine runs."""
    signal = build.signals.get(way.wake)
    if signal is None:
        return engine != "stopped"
    return key == "on" if signal.kind == "ignition" else True


def ignition(build: Resolved, name: str) -> bool:
    """A signal that is there with the key on and at no other time."""
    return build.signals[name].kind == "ignition"


def groups(build: Resolved, mode: Mode) -> tuple[Group, ...]:
    """What can be on or off by itself in a mode; circuits that the key holds dead are left out."""
    by_name: dict[str, list[str]] = {}
    for circuit in build.circuits:
        if circuit.kind in ("load", "reserve", "coil", "module", "signal") and live(build, circuit, mode):
            by_name.setdefault(commander(build, circuit), []).append(circuit.key)
    return tuple(Group(name, tuple(keys)) for name, keys in by_name.items())


def live(build: Resolved, circuit: Circuit, mode: Mode) -> bool:
    """Can a circuit draw current in a mode? Only an ignition signal, or a feed that is dead, can forbid it for sure."""
    state = held(build, circuit.source)
    if (state == "ignition" and mode.key != "on") or (state == "engine" and mode.engine == "stopped"):
        return False
    signal = trigger(build, circuit)
    item = build.accessories.get(circuit.item)
    if signal and ignition(build, signal) and not (item and item.switch):
        return mode.key == "on"
    return True


HOLDS = ("any", "ignition", "engine")
"""States in which a feed of the vehicle is live, the widest first."""


def held(build: Resolved, node: str) -> str:
    """When a node is live: `any`, or as the feeds of the vehicle behind it are; the widest of several."""
    block = build.blocks.get(node)
    if block is not None and block.feed is not None:
        return block.feed.state
    above = [held(build, c.source) for c in build.circuits if c.kind == "feeder" and c.target == node]
    return min(above, key=HOLDS.index, default="any")


def trigger(build: Resolved, circuit: Circuit) -> str:
    """Name of the vehicle signal that a circuit depends on, or ``."""
    if circuit.kind == "signal":
        return circuit.source
    item = build.accessories.get(circuit.item)
    return item.trigger if item is not None else ""


def commander(build: Resolved, circuit: Circuit) -> str:
    """What turns a circuit on: its vehicle signal where that is all, else itself."""
    item = build.accessories.get(circuit.item)
    signal = trigger(build, circuit)
    if signal and not (item and item.switch):
        return signal
    return circuit.item


def coverage(build: Resolved) -> Coverage:
    """States covered: in each mode, every combination of its groups."""
    found = modes(build)
    counts = [len(groups(build, mode)) for mode in found]
    return Coverage(sum(2**count for count in counts), len(found), max(counts, default=0))
