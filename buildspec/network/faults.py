"""Dead shorts of every circuit: what flows, which device opens, how fast, and what the conductor stands.

A short is a resistor of nothing between two nodes of a linear network, so its current is the voltage that
stood there over the resistance that is seen from there (Thévenin), and every branch changes by what that
current causes. One elimination serves all shorts of a mode; nothing is solved anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from buildspec import branches
from buildspec.calc import adiabatic, opening
from buildspec.model import Circuit, Device, Fault, FaultSet, Near, Opening, Protection, Resolved
from buildspec.network import build as made
from buildspec.network import shorts, states
from buildspec.network.build import Laid
from buildspec.network.elements import BODY
from buildspec.network.shorts import Shorted
from buildspec.network.solve import Vector, substitute
from buildspec.network.states import Mode

TWO_ENDED = ("link", "tie")
LEFT_OUT = ("signal", "module", "bond")
"""A vehicle's own fuse stands before a signal; the other two carry no supply."""

Way = tuple[str, ...]
"""Keys of the elements from a battery to a node, battery end first."""


class Case(NamedTuple):
    """A build with what every short of it needs to know."""

    laid: Laid
    devices: Mapping[str, Device]
    circuit_of: Mapping[str, str]
    """Conductor or device → its circuit."""
    unsized: frozenset[str]
    """The vehicle's own circuits: drawn, not sized."""
    most: Mapping[str, Near]


class Short(NamedTuple):
    """A short in one network: its current, and the voltages while it lasts."""

    amps: float
    volts: Vector


def of(laid: Laid) -> dict[str, FaultSet]:
    """Circuit key → its shorts, for every circuit that is added and carries supply."""
    circuits = [c for c in laid.build.circuits if takes_part(c)]
    devices = {d.key: d for s in laid.sizings.values() for d in s.devices}
    most = nearest(laid, circuits)
    unsized = frozenset(c.key for c in laid.build.circuits if c.existing)
    case = Case(laid, devices, owners(laid.build), unsized, most)
    far = farthest(case, circuits)
    return {
        c.key: FaultSet(tuple(most[p.key] for p in c.protections if p.key in most), tuple(far.get(c.key, ())))
        for c in circuits
    }


def takes_part(circuit: Circuit) -> bool:
    return (
        bool(circuit.feeds)
        and not circuit.existing
        and not circuit.open_reason
        and circuit.kind not in LEFT_OUT
    )


def owners(build: Resolved) -> dict[str, str]:
    wires = {w.key: c.key for c in build.circuits for w in made.laid_wires(c)}
    return wires | {p.key: c.key for c in build.circuits for p in c.protections}


def shorted(ready: Shorted, a: str, b: str) -> Short:
    """A dead short between two nodes."""
    one = substitute(ready.done, {a: -1.0, b: 1.0})
    amps = (ready.volts[a] - ready.volts[b]) / (one[b] - one[a])
    return Short(amps, {node: volts + amps * one[node] for node, volts in ready.volts.items()})


def through(ready: Shorted, short: Short, key: str) -> float:
    """Current through an element while a short lasts [A]."""
    r = ready.resistors[key]
    return abs(short.volts[r.a] - short.volts[r.b]) / r.ohm


# ------------------------------------------------------------------------------- at the most


def nearest(laid: Laid, circuits: list[Circuit]) -> dict[str, Near]:
    """Device → a short right behind it, worst of every mode."""
    found: dict[str, Near] = {}
    for mode in shorts.widest(laid):
        for near in nearest_in(laid, circuits, mode):
            if near.device not in found or found[near.device].most_a < near.most_a:
                found[near.device] = near
    return found


def nearest_in(laid: Laid, circuits: Iterable[Circuit], mode: Mode) -> Iterator[Near]:
    """A short right behind every device, in one mode."""
    ready = shorts.ready(shorts.strongest(laid, mode))
    ways = routes(laid, ready)
    for circuit in circuits:
        for protection in circuit.protections:
            yield behind(laid, ready, ways, protection)


def while_held(laid: Laid) -> dict[str, Near]:
    """Device → a short right behind it while every link that a hand holds is closed; empty without such a link."""
    held = {way.name for way in laid.build.isolation.values() if way.type == "momentary-link"}
    modes = [m for m in states.modes(laid.build) if held <= m.closed]
    if not held or not modes:
        return {}
    circuits = [c for c in laid.build.circuits if takes_part(c)]
    return {near.device: near for near in nearest_in(laid, circuits, modes[0])}


def behind(laid: Laid, ready: Shorted, ways: Mapping[str, dict[str, Way]], protection: Protection) -> Near:
    node = made.hosted(laid.build, protection) if protection.host else f"{protection.designation}:2"
    short = shorted(ready, node, BODY)
    feeding = tuple(name for name, way in ways.items() if protection.key in way.get(node, ()))
    return Near(protection.key, through(ready, short, protection.key), feeding)


# ------------------------------------------------------------------------------ at the least


def farthest(case: Case, circuits: list[Circuit]) -> dict[str, list[Fault]]:
    """Circuit → shorts at its far end; a link's with the link closed, everything else with all links open."""
    found: dict[str, list[Fault]] = {}
    links = sorted({c.item for c in circuits if c.kind == "link"})
    for closed in (frozenset[str](), *(frozenset({name}) for name in links)):
        ready = shorts.ready(shorts.weakest(case.laid, closed))
        ways = routes(case.laid, ready)
        for circuit in circuits:
            if (circuit.item in closed) if circuit.kind == "link" else not closed:
                found[circuit.key] = list(at_ends(case, ready, ways, circuit))
    return found


def at_ends(
    case: Case, ready: Shorted, ways: Mapping[str, dict[str, Way]], circuit: Circuit
) -> Iterator[Fault]:
    for node, back in ends(case.laid.build, circuit):
        short = shorted(ready, node, back)
        openings = tuple(
            opened(case, ready, short, (battery, way[node]), circuit)
            for battery, way in ways.items()
            if node in way
        )
        yield Fault(circuit.key, node, short.amps, openings)


def ends(build: Resolved, circuit: Circuit) -> list[tuple[str, str]]:
    """Where a circuit ends, and what it shorts to there."""
    if circuit.kind in TWO_ENDED:
        inner = between_devices(circuit)
        return [(node, BODY) for node in dict.fromkeys((inner[0], inner[-1]))] if inner else []
    if circuit.kind == "branch":
        return [made.farthest(build, branches.trunk(build, circuit))]
    far = made.node(circuit.feeds[-1].end)
    if circuit.kind in ("feeder", "charge-out") or not (circuit.returns or circuit.body_return):
        return [(far, BODY)]
    return [(far, made.ends(build, circuit)[1])]


def between_devices(circuit: Circuit) -> list[str]:
    """Terminals of a conductor between two sources that lie behind a device: the leads before one do not."""
    nodes = [made.node(t) for wire in circuit.feeds for t in (wire.start, wire.end)]
    hit = [
        n
        for n, node in enumerate(nodes)
        if any(node.startswith(f"{p.designation}:") for p in circuit.protections)
    ]
    if not hit:
        return []
    first, last = hit[0] + 1, hit[-1] - 1
    if len(circuit.protections) > 1:
        return nodes[first : last + 1]
    near_start = circuit.protections[0].source == circuit.source
    return nodes[first:-1] if near_start else nodes[1 : last + 1]


def routes(laid: Laid, ready: Shorted) -> dict[str, dict[str, Way]]:
    """Battery → node → the elements on its way there, along supply conductors, devices and contacts only."""
    returns = {w.key for c in laid.build.circuits for w in c.returns}
    joined: dict[str, list[tuple[str, str]]] = {}
    for r in ready.network.resistors:
        if r.key not in returns and BODY not in (r.a, r.b):
            joined.setdefault(r.a, []).append((r.key, r.b))
            joined.setdefault(r.b, []).append((r.key, r.a))
    return {b.name: reached(joined, f"{b.designation}:+") for b in laid.build.batteries.values()}


def reached(joined: Mapping[str, list[tuple[str, str]]], start: str) -> dict[str, Way]:
    ways: dict[str, Way] = {start: ()}
    front = [start]
    while front:
        beyond = []
        for node in front:
            for key, other in joined.get(node, ()):
                if other not in ways:
                    ways[other] = (*ways[node], key)
                    beyond.append(other)
        front = beyond
    return ways


def opened(case: Case, ready: Shorted, short: Short, source: tuple[str, Way], circuit: Circuit) -> Opening:
    """The device that cuts one battery off: the one that is sure to open first, else the last one on the way."""
    battery, way = source
    on_way = [case.devices[key] for key in way if key in case.devices]
    limit, thinnest = weakest_conductor(case, way, circuit)
    if not on_way:
        return Opening(battery, "", 0.0, None, None, limit, thinnest, False)
    amps = {d.key: through(ready, short, d.key) for d in on_way}
    times = {d.key: within_s(case.laid.build, d, amps[d.key]) for d in on_way}
    sure = [(times[d.key] or 0.0, n) for n, d in enumerate(reversed(on_way)) if times[d.key] is not None]
    device = on_way[-1 - min(sure)[1]] if sure else on_way[-1]
    flows = amps[device.key]
    most = case.most[device.key].most_a if device.key in case.most else flows
    energy = let_through(case.laid.build, device, flows, most)
    shaky = device.kind == "channel" or opening.recalled(curve(case.laid.build, device.family))
    return Opening(battery, device.key, flows, times[device.key], energy, limit, thinnest, shaky)


def weakest_conductor(case: Case, way: Way, circuit: Circuit) -> tuple[float, str]:
    """k²S² of the thinnest conductor that carries a battery's share of a short, and its circuit."""
    keys = [*dict.fromkeys(case.circuit_of[key] for key in way if key in case.circuit_of), circuit.key]
    keys = [key for key in keys if key not in case.unsized]
    thinnest = min(keys, key=lambda key: case.laid.sizings[key].conductor.area_mm2)
    k = adiabatic.insulation_k(insulation_c=case.laid.build.practice.insulation_c)
    area = case.laid.sizings[thinnest].conductor.area_mm2
    return adiabatic.let_through_limit_a2s(k=k, area_mm2=area), thinnest


# -------------------------------------------------------------------------- one device


def curve(build: Resolved, family: str) -> opening.Curve:
    """Opening times of a family: the shop's, or the built-in ones."""
    own = build.practice.fuse_gates.get(family)
    return tuple(opening.Gate(*gate) for gate in own) if own else opening.curve(family)


def within_s(build: Resolved, device: Device, amps: float) -> float | None:
    """Longest time until a device opens at a current [s]; None where it need not."""
    if device.kind == "channel":
        panel = build.panels[device.host].part.panel
        if panel is None:
            return None
        return opening.channel_s(
            times=panel.trips.times, within_s=panel.trips.within_s, multiple=amps / device.rating_a
        )
    return opening.opening_s(curve(build, device.family), multiple=amps / device.rating_a)[1]


def least_energy_a2s(build: Resolved, device: Device) -> float:
    """What a fuse lets through in a short so strong that I²t no longer falls [A² s]; 0 where no gate says."""
    times = [(g.multiple, g.max_s) for g in curve(build, device.family) if g.max_s is not None]
    if device.kind != "fuse" or not times:
        return 0.0
    multiple, longest = times[-1]
    return (multiple * device.rating_a) ** 2 * longest


def let_through(build: Resolved, device: Device, least_a: float, most_a: float) -> float | None:
    """The most that a device lets through between two currents [A² s]; None where it need not open."""
    if device.kind == "channel":
        time = within_s(build, device, least_a)
        return None if time is None else least_a**2 * time
    own = curve(build, device.family)
    return opening.let_through_a2s(own, rating_a=device.rating_a, least_a=least_a, most_a=most_a)
