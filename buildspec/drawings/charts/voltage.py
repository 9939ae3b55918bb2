"""The figures of the voltage charts: what each conductor, device, contact and return takes on the way to a load.

In the state and with the loads that make the drop of that load largest; the parts add up to the drop that sizing,
rules and schedule use, because they come from the same solution of the same network.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from buildspec import show
from buildspec.drawings import labels
from buildspec.model import Circuit, Resolved, Sized, Wire
from buildspec.network import answers, states, superpose
from buildspec.network import build as made
from buildspec.network.build import Laid
from buildspec.network.elements import BODY, Network
from buildspec.network.solve import Vector

A_SHEET = 2
MOST = 4
"""Loads that are drawn."""


class Step(NamedTuple):
    """One element on the way."""

    kind: str
    """`conductor`, `device`, `contact`, `body`."""
    name: str
    detail: str
    drop_v: float
    back: bool
    """On the way back from the load."""


class Fall(NamedTuple):
    """The way to one load and back."""

    circuit: Circuit
    battery: str
    rest_v: float
    steps: tuple[Step, ...]
    limit_v: float
    """What the drop limit leaves [V]."""
    limit: float
    """The limit as a share of the nominal voltage."""
    stops_v: float | None
    """Below this the device stops."""
    lowest_v: float
    """At the device in the worst state, the battery's own resistance included."""
    lowest_in: str
    state: str

    @property
    def end_v(self) -> float:
        """What arrives."""
        return self.rest_v - sum(step.drop_v for step in self.steps)


def falls(sized: Sized) -> tuple[Fall, ...]:
    """The loads that come nearest to a limit."""
    by_name = {mode.name: mode for mode in states.modes(sized.build)}
    found = (fall(sized, c, by_name[sized.sizings[c.key].state]) for c in chosen(sized, by_name))
    return tuple(one for one in found if one.steps)


def leaves(sized: Sized) -> tuple[tuple[Fall, ...], ...]:
    found = falls(sized)
    return tuple(found[n : n + A_SHEET] for n in range(0, len(found), A_SHEET))


def chosen(sized: Sized, known: Mapping[str, states.Mode]) -> tuple[Circuit, ...]:
    """Nearest to its drop limit in each class of drop, then nearest to its own cut-out."""
    loads = [c for c in sized.build.circuits if c.kind == "load" and sized.sizings[c.key].state in known]

    def used(circuit: Circuit) -> float:
        sizing = sized.sizings[circuit.key]
        return sizing.drop_v / sizing.drop_limit_v

    def margin(circuit: Circuit) -> float:
        stops = circuit.load.cut_out_v if circuit.load is not None else None
        return sized.sizings[circuit.key].volts_at_load - (stops or 0.0)

    classes = sorted({c.drop_class for c in loads})
    worst = [max((c for c in loads if c.drop_class == name), key=used) for name in classes]
    stops = [c for c in loads if c.load is not None and c.load.cut_out_v is not None]
    found = {c.key: c for c in (*sorted(worst, key=used, reverse=True), *sorted(stops, key=margin))}
    return tuple(found.values())[:MOST]


def fall(sized: Sized, circuit: Circuit, mode: states.Mode) -> Fall:
    build, sizing = sized.build, sized.sizings[circuit.key]
    laid = Laid(build, sized.sizings)
    network = made.network(laid, mode)
    root = answers.root_battery(build, circuit)
    plus, minus = made.farthest(build, circuit)
    volts = caused(laid, network, mode, (f"{root}:+", f"{root}:−", plus, minus))
    out = way(network, f"{root}:+", plus)
    back = way(network, minus, f"{root}:−")
    names = naming(sized)
    steps = [step(names, piece, volts, back=n >= len(out)) for n, piece in enumerate((*out, *back))]
    return Fall(
        circuit=circuit,
        battery=root,
        rest_v=build.practice.resting_v,
        steps=tuple(steps),
        limit_v=build.practice.resting_v - sizing.drop_limit_v,
        limit=sizing.drop_limit_v / build.practice.nominal_v,
        stops_v=circuit.load.cut_out_v if circuit.load is not None else None,
        lowest_v=sizing.lowest_v,
        lowest_in=sizing.lowest_in,
        state=sizing.state,
    )


def caused(laid: Laid, network: Network, mode: states.Mode, nodes: tuple[str, str, str, str]) -> Vector:
    """Node → what the loads add to its voltage, with everything on that makes the drop larger [V]."""
    groups = made.loads(laid, states.groups(laid.build, mode))
    found = superpose.spread(network, groups)
    post_plus, post_minus, plus, minus = nodes
    drop = (*superpose.pair(post_plus, post_minus), *superpose.pair(minus, plus))
    on = [volts for volts in found.added.values() if superpose.summed(volts, drop) > 0]
    return {node: found.steady[node] + sum(volts[node] for volts in on) for node in found.steady}


Piece = tuple[str, str, str]
"""(element, from node, to node)."""


def way(network: Network, start: str, end: str) -> tuple[Piece, ...]:
    """The elements between two nodes, the fewest; empty where none lead there."""
    joined: dict[str, list[tuple[str, str]]] = {}
    for r in network.resistors:
        joined.setdefault(r.a, []).append((r.key, r.b))
        joined.setdefault(r.b, []).append((r.key, r.a))
    ways: dict[str, tuple[Piece, ...]] = {start: ()}
    front = [start]
    while front and end not in ways:
        beyond = []
        for node in front:
            for key, other in joined.get(node, ()):
                if other not in ways:
                    ways[other] = (*ways[node], (key, node, other))
                    beyond.append(other)
        front = beyond
    return ways.get(end, ())


def step(
    names: Mapping[str, tuple[str, str, str]], piece: Piece, volts: Mapping[str, float], *, back: bool
) -> Step:
    key, a, b = piece
    kind, name, detail = names.get(key, ("contact", key, ""))
    if BODY in (a, b) and kind != "conductor":
        stud = (b if a == BODY else a).partition(":")[0]
        kind, name, detail = "body", "body", f"at {stud}"
    return Step(kind, name, detail, volts.get(a, 0.0) - volts.get(b, 0.0), back)


def naming(sized: Sized) -> dict[str, tuple[str, str, str]]:
    """Element of the network → (kind, designation, detail)."""
    return dict(named(sized))


def named(sized: Sized) -> Iterator[tuple[str, tuple[str, str, str]]]:
    for circuit in sized.build.circuits:
        for wire in made.laid_wires(circuit):
            name = labels.OWN if circuit.existing else wire.designation
            yield wire.key, ("conductor", name, wire_words(sized, circuit, wire))
        for device in sized.sizings[circuit.key].devices:
            yield device.key, ("device", device.designation, show.amps(device.rating_a))
        for contact in circuit.contacts:
            yield contact.key, ("contact", contact.designation, "contact")
        yield f"{circuit.key}/joint", ("contact", "joint", "")
    for way_ in sized.build.isolation.values():
        yield way_.name, ("contact", way_.designation, "contact")


def wire_words(sized: Sized, circuit: Circuit, wire: Wire) -> str:
    size = show.size(sized.sizings[circuit.key].conductor)
    return f"{size}, {show.length(wire.cut_m, sized.build.practice)}"


def fed_from(build: Resolved, one: Fall) -> str:
    """`house battery G3`."""
    name = next(n for n, b in build.batteries.items() if b.designation == one.battery)
    return f"{name} battery {one.battery}"
