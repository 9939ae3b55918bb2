"""Node voltages and branch currents of a DC network: nodal analysis, constant power by Newton's method.

Each element becomes a conductance and a current (Norton). The matrix is symmetric and sparse; it is eliminated
node by node, fewest neighbours first, so that a vehicle's mostly tree-shaped network costs little more than its
number of conductors.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable
from typing import NamedTuple

from buildspec.network.elements import BODY, Collapse, Network, Power, Solution

ROUNDS = 60
"""Newton doubles the correct digits each round; a working network settles in fewer than ten."""
SETTLED_V = 1e-9
LEAK_S = 1e-12
"""To the body from every node: gives a lone conductor a voltage without moving any other by a nanovolt.

No pivot of a passive network is smaller, except where rounding beside large conductances loses the leak.
"""

Matrix = dict[str, dict[str, float]]
Vector = dict[str, float]


def solve(network: Network) -> Solution | Collapse:
    """The working point of a network, or `Collapse` when its constant-power loads have none.

    Raises ValueError for a resistor or source without resistance: it has no conductance.
    """
    start = max((source.volts for source in network.sources), default=0.0)
    across = {load.key: start for load in network.powers}
    for _ in range(ROUNDS):
        volts = linear(network, across)
        moved = {load.key: volts[load.a] - volts[load.b] for load in network.powers}
        if any(v <= 0 for v in moved.values()):
            break
        if all(abs(moved[k] - across[k]) < SETTLED_V for k in moved):
            return Solution(volts, branch_amps(network, volts))
        across = {k: stepped(across[k], moved[k]) for k in moved}
    worst = min(moved, key=lambda k: (moved[k], k))
    return Collapse(worst, moved[worst])


def stepped(before_v: float, after_v: float) -> float:
    """A Newton step that never falls by more than half, so that it cannot jump over the working point."""
    return max(after_v, before_v / 2)


def linear(network: Network, across: Vector) -> Vector:
    """Node voltages with each constant-power load replaced by its tangent at the voltage `across` it."""
    matrix: Matrix = {}
    inject: Vector = {}
    for r in network.resistors:
        conduct(matrix, r.a, r.b, 1 / positive(r.ohm, r.key))
    for s in network.sources:
        conduct(matrix, s.a, s.b, 1 / positive(s.ohm, s.key))
        draw(inject, s.a, s.b, -s.volts / s.ohm)
    for c in network.currents:
        conduct(matrix, c.a, c.b, 0.0)
        draw(inject, c.a, c.b, c.amps)
    for p in network.powers:
        conduct(matrix, p.a, p.b, -tangent_s(p, across[p.key]))
        draw(inject, p.a, p.b, 2 * p.watts / across[p.key])
    return substitute(eliminate(matrix), inject)


def tangent_s(load: Power, volts: float) -> float:
    """Conductance by which a constant-power load's current falls as its voltage rises [S]."""
    return load.watts / volts**2


def positive(ohm: float, key: str) -> float:
    if ohm <= 0:
        raise ValueError(f"{key} has no resistance")
    return ohm


def conduct(matrix: Matrix, a: str, b: str, siemens: float) -> None:
    for one, other in ((a, b), (b, a)):
        if one == BODY:
            continue
        row = matrix.setdefault(one, {one: LEAK_S})
        row[one] += siemens
        if other != BODY and other != one:
            row[other] = row.get(other, 0.0) - siemens


def draw(inject: Vector, a: str, b: str, amps: float) -> None:
    inject[a] = inject.get(a, 0.0) - amps
    inject[b] = inject.get(b, 0.0) + amps


class Eliminated(NamedTuple):
    """A matrix eliminated once. Nodes stand in the order of elimination; a row couples its node to later ones."""

    nodes: tuple[str, ...]
    pivots: tuple[float, ...]
    rows: tuple[tuple[tuple[int, float], ...], ...]


def eliminate(matrix: Matrix) -> Eliminated:
    """Elimination of a symmetric matrix in order of fewest neighbours; the matrix is used up."""
    steps: dict[str, tuple[float, dict[str, float]]] = {}
    waiting = [(len(row), node) for node, row in matrix.items()]
    heapq.heapify(waiting)
    while waiting:
        count, node = heapq.heappop(waiting)
        if node not in matrix or count != len(matrix[node]):
            continue
        row = matrix.pop(node)
        pivot = row.pop(node)
        if abs(pivot) < LEAK_S:
            pivot = LEAK_S
        steps[node] = (pivot, row)
        for one, value in row.items():
            factor = value / pivot
            target = matrix[one]
            del target[node]
            for other, along in row.items():
                target[other] = target.get(other, 0.0) - factor * along
            heapq.heappush(waiting, (len(target), one))
    place = {node: n for n, node in enumerate(steps)}
    rows = (tuple((place[other], value) for other, value in row.items()) for _, row in steps.values())
    return Eliminated(tuple(steps), tuple(pivot for pivot, _ in steps.values()), tuple(rows))


def substitute(done: Eliminated, inject: Vector) -> Vector:
    """Node voltages for currents injected into an eliminated network."""
    found = [inject.get(node, 0.0) for node in done.nodes]
    for n, row in enumerate(done.rows):
        if found[n]:
            into = found[n] / done.pivots[n]
            for other, value in row:
                found[other] -= into * value
    for n in range(len(found) - 1, -1, -1):
        rest = found[n]
        for other, value in done.rows[n]:
            rest -= value * found[other]
        found[n] = rest / done.pivots[n]
    return {BODY: 0.0} | dict(zip(done.nodes, found, strict=True))


def branch_amps(network: Network, volts: Vector) -> Vector:
    """Current of every element from its `a` to its `b` [A]."""

    def between(items: Iterable[tuple[str, str, str, float]]) -> Vector:
        return {key: (volts[a] - volts[b]) / ohm for key, a, b, ohm in items}

    amps = between((r.key, r.a, r.b, r.ohm) for r in network.resistors)
    amps |= {s.key: (volts[s.a] - volts[s.b] - s.volts) / s.ohm for s in network.sources}
    amps |= {c.key: c.amps for c in network.currents}
    amps |= {p.key: p.watts / (volts[p.a] - volts[p.b]) for p in network.powers}
    return amps
