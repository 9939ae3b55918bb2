"""One linear network, many loads that come and go: the worst of every combination, exactly.

With every load taken at its worst current the network is linear, so a voltage is the sum of what each
group of loads adds to it. A group that is on or off by itself is on in the worst case of a quantity
exactly when it makes that quantity worse; 2^n combinations are so covered by n + 1 solutions of the same
matrix. (Superposition theorem; the matrix is eliminated once.)
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from buildspec.network.elements import BODY, Current, Network
from buildspec.network.solve import Eliminated, Vector, conduct, draw, eliminate, positive, substitute


class Spread(NamedTuple):
    """Voltages of a network: with its sources alone, what its steady currents add, and what each group adds."""

    base: Vector
    steady: Vector
    added: Mapping[str, Vector]


def spread(network: Network, groups: Mapping[str, Iterable[Current]]) -> Spread:
    """Solve once for the sources, once for `network.currents`, once for each group; no `powers`."""
    matrix, inject = assembled(network, groups)
    done = eliminate(matrix)
    added = {name: response(done, loads) for name, loads in groups.items()}
    return Spread(substitute(done, inject), response(done, network.currents), added)


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


def response(done: Eliminated, loads: Iterable[Current]) -> Vector:
    inject: Vector = {}
    for load in loads:
        draw(inject, load.a, load.b, load.amps)
    return substitute(done, inject)


Terms = Sequence[tuple[str, float]]
"""A quantity as a signed sum of node voltages: `(("G2:+", 1), ("E4:+", -1))`."""


def extreme(found: Spread, terms: Terms, *, sign: float) -> float:
    """Highest (`sign` 1) or lowest (−1) value of a quantity over every combination of groups [V]."""
    return summed(found.base, terms) + caused(found, terms, sign=sign)


def caused(found: Spread, terms: Terms, *, sign: float) -> float:
    """The part of `extreme` that the loads cause, without what the sources push through one another [V]."""
    parts = (summed(added, terms) for added in found.added.values())
    return summed(found.steady, terms) + sum(part for part in parts if part * sign > 0)


def summed(volts: Vector, terms: Terms) -> float:
    return sum(weight * volts[node] for node, weight in terms if node != BODY)


def pair(a: str, b: str) -> Terms:
    """The voltage from `a` to `b`."""
    return ((a, 1.0), (b, -1.0))
