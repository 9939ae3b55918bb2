"""Which place stands in which column of the layout sheet: front of the vehicle at the left, rear at the right."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from buildspec.model import Resolved, Run

MOST_IN_COLUMN = 6
"""More places than this share a column only where there is no other way."""


def places(build: Resolved) -> tuple[str, ...]:
    """Ends of runs, in the order of the spec."""
    ends = {end for run in build.runs for end in (run.a, run.b)}
    return tuple(name for name in build.places if name in ends)


def stations(build: Resolved) -> dict[str, float]:
    """Place → distance from the front [m]: as stated; else that of the nearest place that states one.

    Where none does, the way along the runs from the engine, or from the first place.
    """
    names = places(build)
    stated = {n: s for n in names if (s := build.places[n].station_m) is not None}
    if not stated:
        engine = [n for n in names if build.places[n].environment == "engine"]
        return ways(build.runs, names, next(iter([*engine, *names]), ""))
    made = dict(stated)
    for name in names:
        if name not in made:
            far = ways(build.runs, names, name)
            made[name] = stated[min(stated, key=lambda other: (far[other], other))]
    return made


def ways(runs: Sequence[Run], names: Sequence[str], start: str) -> dict[str, float]:
    """Length of the shortest way [m] from a place to each; the farthest and more for what no run leads to."""
    found = dict.fromkeys(names, math.inf) | {start: 0.0}
    for _ in names:
        for run in runs:
            for a, b in ((run.a, run.b), (run.b, run.a)):
                found[b] = min(found[b], found[a] + run.length_m)
    most = max((v for v in found.values() if v < math.inf), default=0.0)
    return {name: v if v < math.inf else most + 1.0 for name, v in found.items() if name}


def columns(at_m: Mapping[str, float], most: int) -> list[list[str]]:
    """Places in at most `most` columns: neighbours that stand closest together share one."""
    made = [[name] for name in sorted(at_m, key=lambda n: at_m[n])]
    while len(made) > max(1, most):
        gaps = [
            (len(a) + len(b) > MOST_IN_COLUMN, middle(at_m, b) - middle(at_m, a), n)
            for n, (a, b) in enumerate(pairwise(made))
        ]
        _, _, n = min(gaps)
        made[n : n + 2] = [[*made[n], *made[n + 1]]]
    return made


def middle(at_m: Mapping[str, float], names: Sequence[str]) -> float:
    return sum(at_m[n] for n in names) / len(names)
