"""One linear network, many loads that come and go: the worst of every combination, exactly.

With every load taken at its worst current the network is linear, so a voltage is the sum of what each
group of loads adds to it. A group that is on or off by itself is on in the worst case of a quantity
exactly when it makes that quantity worse; 2^n combinations are so covered by n + 1 solutions of the same
matrix. (Superposition theorem; the matrix is eliminated once.)
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping
from typing import NamedTuple

from buildspec.network.elements import Current, Network
from buildspec.network.solve import Eliminated, Vector, conduct, draw, eliminate, positive, substitute

Terms = tuple[tuple[str, float], ...]
"""A quantity as a signed sum of node voltages: `(("G2:+", 1), ("E4:+", -1))`."""
Groups = Mapping[str, tuple[Current, ...]]


class Spread(NamedTuple):
    """Voltages of a network: with its sources alone, what its steady currents add, and what each group adds."""

    base: Vector
    steady: Vector
    added: Mapping[str, Vector]
    swings: dict[Terms, tuple[float, float]]
    """What the groups together lower and raise a quantity by, kept once asked; shared by networks alike in both."""


def spread(network: Network, groups: Groups) -> Spread:
    """Solve once for the sources, once for `network.currents`, once for each group; no `powers`."""
    return next(spreads([(network, groups)]))


class Shared(NamedTuple):
    """What networks of the same conductances have in common: the elimination, and voltages by what is injected."""

    done: Eliminated
    found: dict[tuple[Current, ...], Vector]
    swings: dict[Hashable, dict[Terms, tuple[float, float]]]


def spreads(posed: Iterable[tuple[Network, Groups]]) -> Iterator[Spread]:
    """`spread` of several networks in turn; those that differ only in currents and voltages are eliminated once."""
    alike: dict[Hashable, Shared] = {}
    for network, groups in posed:
        key = conductances(network, groups)
        if key not in alike:
            alike[key] = Shared(eliminate(assembled(network, groups)[0]), {}, {})
        shared = alike[key]
        base = substitute(shared.done, driven(network))
        added = {name: response(shared, loads) for name, loads in groups.items()}
        swings = shared.swings.setdefault(frozenset(groups.items()), {})
        yield Spread(base, response(shared, network.currents), added, swings)


def conductances(network: Network, groups: Groups) -> Hashable:
    """Equal for networks with the same matrix: resistors, sources without their voltages, and lone nodes of loads."""
    sources = tuple((s.a, s.b, s.ohm) for s in network.sources)
    wired = {n for r in network.resistors for n in (r.a, r.b)} | {n for a, b, _ in sources for n in (a, b)}
    loads = (*network.currents, *(one for loads in groups.values() for one in loads))
    return network.resistors, sources, frozenset(n for load in loads for n in (load.a, load.b)) - wired


def assembled(
    network: Network, groups: Mapping[str, Iterable[Current]]
) -> tuple[dict[str, dict[str, float]], Vector]:
    matrix: dict[str, dict[str, float]] = {}
    inject: Vector = {}
    for r in network.resistors:
        conduct(matrix, r.a, r.b, 1 / positive(r.ohm, r.key))
    for s in network.sources:
        conduct(matrix, s.a, s.b, 1 / positive(s.ohm, s.key))
        draw(inject, s.a, s.b, -s.volts / s.ohm)
    for load in (*network.currents, *(one for loads in groups.values() for one in loads)):
        conduct(matrix, load.a, load.b, 0.0)
    return matrix, inject


def driven(network: Network) -> Vector:
    """What the sources inject."""
    inject: Vector = {}
    for s in network.sources:
        draw(inject, s.a, s.b, -s.volts / s.ohm)
    return inject


def response(shared: Shared, loads: tuple[Current, ...]) -> Vector:
    """Voltages that some loads add, found once for all networks that share the matrix."""
    if loads not in shared.found:
        inject: Vector = {}
        for load in loads:
            draw(inject, load.a, load.b, load.amps)
        shared.found[loads] = substitute(shared.done, inject)
    return shared.found[loads]


def extreme(found: Spread, terms: Terms, *, sign: float) -> float:
    """Highest (`sign` 1) or lowest (−1) value of a quantity over every combination of groups [V]."""
    return summed(found.base, terms) + caused(found, terms, sign=sign)


def caused(found: Spread, terms: Terms, *, sign: float) -> float:
    """The part of `extreme` that the loads cause, without what the sources push through one another [V]."""
    if terms not in found.swings:
        found.swings[terms] = swing(found.added.values(), terms)
    return summed(found.steady, terms) + found.swings[terms][sign > 0]


def swing(added: Iterable[Vector], terms: Terms) -> tuple[float, float]:
    """The sums of all that lowers and of all that raises a quantity [V]."""
    down = up = 0.0
    for volts in added:
        part = summed(volts, terms)
        if part > 0:
            up += part
        else:
            down += part
    return down, up


def summed(volts: Vector, terms: Terms) -> float:
    total = 0.0
    for node, weight in terms:
        total += weight * volts[node]
    return total


def pair(a: str, b: str) -> Terms:
    """The voltage from `a` to `b`."""
    return ((a, 1.0), (b, -1.0))
