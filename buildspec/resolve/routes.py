"""Shortest ways over the runs of a vehicle, so that lengths are computed and not guessed."""

from __future__ import annotations

import heapq
from collections.abc import Iterable

from buildspec.model import Route, Run


def shortest(runs: Iterable[Run], start: str, end: str) -> Route | None:
    """Shortest route between two places [m]; None when no run leads there.

    Ties go to fewer runs, then to place names, so that the answer does not depend on the order of the runs.
    Dijkstra (1959), Numerische Mathematik 1, 269–271.
    """
    neighbours: dict[str, list[tuple[str, Run]]] = {}
    for run in runs:
        neighbours.setdefault(run.a, []).append((run.b, run))
        neighbours.setdefault(run.b, []).append((run.a, run))
    queue: list[tuple[float, int, tuple[str, ...], tuple[Run, ...]]] = [(0.0, 0, (start,), ())]
    done: set[str] = set()
    while queue:
        length, _, places, taken = heapq.heappop(queue)
        here = places[-1]
        if here == end:
            return Route(places, taken, length)
        if here in done:
            continue
        done.add(here)
        for there, run in neighbours.get(here, ()):
            if there not in done:
                step = (length + run.length_m, len(taken) + 1, (*places, there), (*taken, run))
                heapq.heappush(queue, step)
    return None


def joined(first: Route, second: Route) -> Route:
    """Two routes one after the other; the second starts where the first ends."""
    return Route(
        (*first.places, *second.places[1:]), (*first.runs, *second.runs), first.length_m + second.length_m
    )
