"""Orthogonal routing between two columns: each net has an upright lane of its own, in the order that crosses least.

A net comes in at one height and leaves at one or several. Two nets never share a lane, and the order
of the lanes is the one with the fewest crossings; running on top of another net is worse than any of them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import permutations
from typing import NamedTuple

from buildspec.drawings.marks import Point

BRUTE = 6
"""Up to this many nets every order is tried."""
NEAR = 28.0
"""Parallel lines nearer than this run on top of each other."""
OVERLAP = 1000
NEAR_MISS = 30


class Net(NamedTuple):
    """Heights at the left column, heights at the right one."""

    key: str
    left: tuple[float, ...]
    right: tuple[float, ...]

    @property
    def low(self) -> float:
        return min(*self.left, *self.right)

    @property
    def high(self) -> float:
        return max(*self.left, *self.right)

    @property
    def straight(self) -> bool:
        return self.high - self.low < 0.5


def cost(order: Sequence[Net]) -> int:
    """Crossings and overlaps of nets whose lanes stand in this order, left to right."""
    total = 0
    for place, first in enumerate(order):
        for second in order[place + 1 :]:
            total += pair_cost(first, second)
    return total


def pair_cost(inner: Net, outer: Net) -> int:
    """`inner` has its lane left of `outer`'s."""
    total = sum(meets(inner, y) for y in outer.left) + sum(meets(outer, y) for y in inner.right)
    return total + OVERLAP * sum(abs(a - b) < NEAR for a in inner.right for b in outer.left)


def meets(upright: Net, y: float) -> int:
    """What a line at height y costs that passes the lane of `upright`."""
    if upright.straight or not upright.low - NEAR < y < upright.high + NEAR:
        return 0
    return 1 if upright.low + NEAR < y < upright.high - NEAR else NEAR_MISS


def lanes(nets: Sequence[Net]) -> tuple[Net, ...]:
    """The nets in the order of their lanes."""
    bent = [net for net in nets if not net.straight]
    pairs = {(a.key, b.key): pair_cost(a, b) for a in bent for b in bent if a is not b}

    def whole(order: Sequence[Net]) -> int:
        return sum(pairs[a.key, b.key] for place, a in enumerate(order) for b in order[place + 1 :])

    if len(bent) <= BRUTE:
        return min(permutations(bent), key=whole) if bent else ()
    orders = [
        sorted(bent, key=lambda net: (first(net.left, net) - first(net.right, net), net.key)),
        sorted(bent, key=lambda net: (first(net.left, net), net.key)),
        sorted(bent, key=lambda net: (-first(net.right, net), net.key)),
    ]
    return min((improved(order, whole) for order in orders), key=whole)


def first(ends: Sequence[float], net: Net) -> float:
    """The first end on one side, or the other end of a net that turns back."""
    return ends[0] if ends else net.high


def improved(order: Sequence[Net], whole: Callable[[Sequence[Net]], int]) -> tuple[Net, ...]:
    """One net after the other moved to where it costs least, until no move helps."""
    best = tuple(order)
    better = True
    while better:
        better = False
        for net in best:
            rest = tuple(other for other in best if other is not net)
            trial = min(((*rest[:n], net, *rest[n:]) for n in range(len(best))), key=whole)
            if whole(trial) < whole(best):
                best, better = trial, True
    return best


def lane_positions(nets: Sequence[Net], left: float, right: float) -> dict[str, float]:
    """Key → x of its lane; straight nets have none."""
    order = lanes(nets)
    step = (right - left) / (len(order) + 1)
    return {net.key: left + step * (place + 1) for place, net in enumerate(order)}


def way(start: Point, lane: float | None, end: Point) -> tuple[Point, ...]:
    """Points from start to end by a lane."""
    if lane is None or abs(start[1] - end[1]) < 0.5:
        return (start, (end[0], start[1]))
    return (start, (lane, start[1]), (lane, end[1]), end)
