"""Currents above the load that a device must carry for a while: what a load draws at switch-on, a starter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from buildspec.calc import opening
from buildspec.model import Circuit, Resolved
from buildspec.network import cranking, isolation


class Surge(NamedTuple):
    """`amps` for `for_s`, by `item`."""

    amps: float
    for_s: float
    item: str


def of(build: Resolved, circuit: Circuit, amps: Mapping[str, float]) -> tuple[Surge, ...]:
    """Every surge through a circuit; `amps`: circuit → design current. One load at a time starts."""
    if circuit.kind == "link":
        return starter(build, circuit)
    found = []
    for load in isolation.loads_behind(build, circuit):
        inrush = load.load.inrush if load.load is not None else None
        if inrush is not None:
            more = amps[load.key] * (inrush.times - 1)
            found.append(Surge(amps[circuit.key] + more, inrush.for_s, load.item))
    return tuple(found)


def starter(build: Resolved, circuit: Circuit) -> tuple[Surge, ...]:
    """The starter through a link that is to carry it."""
    way = build.isolation[circuit.item]
    wanted = cranking.starter(build, way) if isolation.carries_starter(way) else None
    return (Surge(wanted.amps, cranking.attempt_s(way), "starter"),) if wanted is not None else ()


def least_rating_a(curve: opening.Curve, surges: Iterable[Surge]) -> float:
    """The smallest rating that is sure to survive every surge [A]; 0 where none is there or no gate says."""
    found = []
    for surge in surges:
        times = opening.greatest_multiple(curve, for_s=surge.for_s)
        if times is not None:
            found.append(surge.amps / max(times, opening.STARTS_ABOVE))
    return max(found, default=0.0)
