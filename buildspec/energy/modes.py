"""The worst of every mode: current of each source, lowest voltage at a device, over all combinations of loads."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildspec.model import Circuit, Resolved, Sized
from buildspec.network import build as made
from buildspec.network import states
from buildspec.network.superpose import Spread, caused, extreme, pair, spread


class Low(NamedTuple):
    """Lowest voltage at a device, and the mode of it."""

    circuit: str
    volts: float
    mode: states.Mode


class Line(NamedTuple):
    """One mode: the most that loads take at each battery's posts [A], and the lowest voltage.

    At the start battery the alternator gives its part of it. Negative where a charger gives more than that.
    """

    mode: states.Mode
    groups: int
    drawn_a: dict[str, float]
    low: Low | None


def lines(sized: Sized) -> Iterator[Line]:
    """Every mode of a build."""
    laid = made.Laid(sized.build, sized.sizings)
    loads = [c for c in sized.build.circuits if c.kind == "load"]
    for mode in states.modes(sized.build):
        groups = states.groups(sized.build, mode)
        network = made.network(laid, mode)
        found = spread(network, made.loads(laid, groups))
        given = {s.key: -caused(found, pair(s.a, s.b), sign=-1.0) / s.ohm for s in network.sources}
        drawn = {name: given[name] + beside(sized, name, given) for name in sized.build.batteries}
        lows = sorted(lows_in(sized, mode, found, loads), key=lambda low: (low.volts, low.circuit))
        yield Line(mode, len(groups), drawn, lows[0] if lows else None)


def beside(sized: Sized, name: str, given: dict[str, float]) -> float:
    """What the alternator gives at the posts of a battery [A]."""
    return given.get("alternator", 0.0) if name == charged(sized.build) else 0.0


def charged(build: Resolved) -> str:
    """The battery at the alternator: the first one of the start side; `` without one."""
    return next((b.name for b in build.batteries.values() if b.role == "start"), "")


def lows_in(sized: Sized, mode: states.Mode, found: Spread, circuits: Iterable[Circuit]) -> Iterator[Low]:
    """Lowest voltage of each circuit that can run in a mode."""
    for circuit in circuits:
        if states.live(sized.build, circuit, mode):
            items = made.devices_of(sized.build, circuit)
            yield Low(circuit.key, min(extreme(found, pair(a, b), sign=-1.0) for a, b in items), mode)


def lowest(sized: Sized, circuits: tuple[Circuit, ...], modes: Iterable[states.Mode]) -> dict[str, Low]:
    """Circuit key → its lowest voltage over some modes."""
    laid = made.Laid(sized.build, sized.sizings)
    found: dict[str, Low] = {}
    for mode in modes:
        groups = states.groups(sized.build, mode)
        volts = spread(made.network(laid, mode), made.loads(laid, groups))
        for low in lows_in(sized, mode, volts, circuits):
            if low.circuit not in found or low.volts < found[low.circuit].volts:
                found[low.circuit] = low
    return found
