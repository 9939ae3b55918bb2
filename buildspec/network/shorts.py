"""The network of a build for dead shorts, at the most and at the least that the sources can give.

At the most: conductors at 20 °C, every source full and strong, and no resistance in devices, contacts and
returns, since a tool may fall between a terminal and the battery's own negative. At the least: conductors at
the rated temperature of their insulation, contacts and fuses with their resistance, batteries cold and low,
and nothing else that helps.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec.calc import copper, opening
from buildspec.model import Device
from buildspec.network import build as made
from buildspec.network import posts, states
from buildspec.network.build import Laid
from buildspec.network.elements import BODY, Current, Network, Resistor, Source
from buildspec.network.solve import Eliminated, Vector, eliminate, substitute
from buildspec.network.states import Mode
from buildspec.network.superpose import assembled

BOLTED_OHM = 1e-7
"""Stands for no resistance; a network cannot hold none."""
LEAK_OHM = 1e5
"""To the body from every node: keeps what hangs in the air beyond an open contact from floating; takes milliamperes."""


class Shorted(NamedTuple):
    """A network made ready for dead shorts: its voltages before, and the matrix to ask again and again."""

    network: Network
    resistors: dict[str, Resistor]
    volts: Vector
    done: Eliminated


def ready(network: Network) -> Shorted:
    matrix, inject = assembled(network, {"": network.currents})
    done = eliminate(matrix)
    for load in network.currents:
        inject[load.a] = inject.get(load.a, 0.0) - load.amps
        inject[load.b] = inject.get(load.b, 0.0) + load.amps
    return Shorted(network, {r.key: r for r in network.resistors}, substitute(done, inject), done)


def strongest(laid: Laid, mode: Mode) -> Network:
    """A mode at the most that it can give."""
    feeds = {wire.key for circuit in laid.build.circuits for wire in circuit.feeds}
    lengths = cold_ohm(laid)
    resistors = [
        r._replace(ohm=lengths[r.key] if r.key in feeds else BOLTED_OHM)
        for r in made.network(laid, mode).resistors
    ]
    volts = posts.open_v(laid.build)
    sources = tuple(
        Source(b.name, f"{b.designation}:+", f"{b.designation}:−", volts, posts.strong_ohm(laid.build, b))
        for b in laid.build.batteries.values()
    )
    return grounded(Network(tuple(resistors), sources, tuple(limited(laid, mode)), ()))


def grounded(network: Network) -> Network:
    """The negative posts bolted to the body, and every node held to it by a leak."""
    bolts = (Resistor(f"{s.key}/bolt", s.b, BODY, BOLTED_OHM) for s in network.sources)
    nodes = dict.fromkeys(node for r in network.resistors for node in (r.a, r.b) if node != BODY)
    leaks = (Resistor(f"{node}/leak", node, BODY, LEAK_OHM) for node in nodes)
    return network._replace(resistors=(*network.resistors, *bolts, *leaks))


def limited(laid: Laid, mode: Mode) -> Iterator[Current]:
    """Sources that limit their own current: chargers' outputs, the alternator at its rating."""
    outs = (c for c in made.chargers(laid.build, mode) if c.key.endswith("/out"))
    for current in (*outs, *made.outside(laid.build, mode)):
        yield current._replace(a=BODY)
    alternator = laid.build.vehicle.alternator
    start = next((b for b in laid.build.batteries.values() if b.role == "start"), None)
    if alternator is not None and start is not None and mode.engine != "stopped":
        yield Current("alternator", BODY, f"{start.designation}:+", alternator.rated_a)


def weakest(laid: Laid, closed: frozenset[str]) -> Network:
    """Parked, with some links closed, at the least that it can give."""
    fuses = fuse_ohm(laid)
    feeds = {w.key for c in laid.build.circuits for w in made.laid_wires(c)}
    cold = cold_ohm(laid)
    hot = {
        key: copper.resistance_at(r20_ohm=ohm, temp_c=laid.build.practice.insulation_c)
        for key, ohm in cold.items()
    }
    mode = Mode("off", "stopped", closed, frozenset())
    resistors = tuple(
        r._replace(ohm=hot[r.key] if r.key in feeds else r.ohm + fuses.get(r.key, 0.0))
        for r in made.network(laid, mode).resistors
    )
    sources = tuple(
        Source(
            b.name, f"{b.designation}:+", f"{b.designation}:−", made.rest_v(laid.build, b),
            posts.weak_ohm(laid.build, b),
        )
        for b in laid.build.batteries.values()
    )  # fmt: skip
    return Network(resistors, sources, (), ())


def cold_ohm(laid: Laid) -> dict[str, float]:
    """Conductor → its resistance at 20 °C [ohm]."""
    return {
        wire.key: laid.sizings[circuit.key].conductor.r20_ohm_per_m * wire.cut_m
        for circuit in laid.build.circuits
        for wire in made.laid_wires(circuit)
    }


def fuse_ohm(laid: Laid) -> dict[str, float]:
    """Protective device → resistance of its element at its rating [ohm]; a channel has none of its own here."""
    return {device.key: hot_ohm(device) for s in laid.sizings.values() for device in s.devices}


def hot_ohm(device: Device) -> float:
    return opening.HOT_TIMES * opening.cold_ohm(device.family, rating_a=device.rating_a)


def widest(laid: Laid) -> tuple[Mode, ...]:
    """Modes with everything joined that joins by itself: links held by hand are left out, none is within another."""
    held = {way.name for way in laid.build.isolation.values() if way.type == "momentary-link"}
    found = dict.fromkeys(m for m in states.modes(laid.build) if not m.closed & held)
    return tuple(one for one in found if not any(other != one and within(one, other) for other in found))


def within(one: Mode, other: Mode) -> bool:
    """Does a mode join nothing that the other does not; of two alike the later key state stands."""
    wider = one.closed <= other.closed and one.sources <= other.sources and turns(one) <= turns(other)
    same = (one.closed, one.sources, turns(one)) == (other.closed, other.sources, turns(other))
    return wider and (
        not same or states.KEYS.index((one.key, one.engine)) < states.KEYS.index((other.key, other.engine))
    )


def turns(mode: Mode) -> bool:
    return mode.engine != "stopped"
