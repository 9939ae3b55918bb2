"""What is drawn together on the supply sheet, and what comes on which page of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildspec.model import Circuit, Resolved


class Unit(NamedTuple):
    """Circuits that are drawn together: a charger with input, output and wake; a link; a feeder."""

    kind: str
    """`source` (a battery that nothing leaves), `device`, `tie`, `feeder`, `load`, `more`."""
    name: str
    circuits: tuple[Circuit, ...]


class Leaf(NamedTuple):
    """One page of the supply. A battery's negative and the alternator are drawn where the battery comes first."""

    units: tuple[Unit, ...]
    bonds: tuple[Circuit, ...]
    alternator: bool
    new: tuple[str, ...]
    """Batteries that were on no page before."""
    first: bool


def units(build: Resolved, circuits: Sequence[Circuit], direct: Sequence[str]) -> tuple[Unit, ...]:
    """The supply in the order in which it is drawn: isolation, ties, feeders, direct loads."""
    made: list[Unit] = []
    for name in (*build.isolation, *build.supplies):
        mine = tuple(c for c in circuits if c.item == name and c.kind != "tie")
        made += [Unit("device", name, mine)] if mine else []
    made += [Unit("tie", c.item, (c,)) for c in circuits if c.kind == "tie"]
    made += [Unit("feeder", c.item, (c,)) for c in circuits if c.kind == "feeder"]
    made += [Unit("load", c.item, (c,)) for c in circuits if c.kind in ("load", "reserve")]
    made += [Unit("more", name, ()) for name in direct]
    used = sources(build, made)
    return (*(Unit("source", name, ()) for name in build.batteries if name not in used), *made)


def leaf(
    build: Resolved, chosen: Sequence[Unit], circuits: Sequence[Circuit], before: Sequence[Leaf]
) -> Leaf:
    """A page with these units, after the pages before it."""
    seen = {name for page in before for name in sources(build, page.units)}
    new = [name for name in sources(build, chosen) if name not in seen]
    bonds = tuple(c for c in circuits if c.kind == "bond" and c.source in new)
    alternator = build.vehicle.alternator is not None and charged(build) in new
    return Leaf(tuple(chosen), bonds, alternator, tuple(n for n in new if n in build.batteries), not before)


def charged(build: Resolved) -> str:
    """The battery at the alternator: the first one of the start side, or the first one."""
    starts = [name for name, item in build.batteries.items() if item.role == "start"]
    return next(iter([*starts, *build.batteries]), "")


def sources(build: Resolved, chosen: Sequence[Unit]) -> tuple[str, ...]:
    """Batteries, signals and nodes at the left of a page, start batteries first."""
    named = [c.source for u in chosen for c in u.circuits]
    named += [
        c.target
        for u in chosen
        for c in u.circuits
        if c.kind in ("link", "tie") and c.target in build.batteries
    ]
    named += [u.name for u in chosen if u.kind in ("more", "source")]
    order = sorted(build.batteries, key=lambda n: build.batteries[n].role != "start")
    kept = [n for n in order if n in named]
    return (*kept, *(n for n in dict.fromkeys(named) if n not in build.batteries))
