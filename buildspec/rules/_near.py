"""How close a run comes to something that can hurt it, against the practice's clearance."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import layers, show
from buildspec.findings import Finding
from buildspec.looms import runs
from buildspec.model import Neighbour, Practice, Run, Sized

LIMIT_OF = {"exhaust": "exhaust", "heat": "exhaust", "moving": "moving", "brake": "brake", "fuel": "fuel"}
"""What is near → key under `clearance` in the practice."""
WORDS = {
    "exhaust": "the exhaust",
    "heat": "a hot part",
    "moving": "a moving part",
    "brake": "a brake pipe",
    "fuel": "a fuel part",
}


def near(sized: Sized, kinds: tuple[str, ...]) -> Iterator[tuple[runs.Loom, Neighbour]]:
    """Runs with wires in them that come near something of some kinds."""
    for loom in runs.looms(sized):
        if loom.lying:
            yield from ((loom, one) for one in loom.run.near if one.what in kinds)


def too_near(sized: Sized, kinds: tuple[str, ...], help: str) -> Iterator[Finding]:
    """A finding for each that is nearer than the practice's clearance."""
    practice = sized.build.practice
    for loom, one in near(sized, kinds):
        key = LIMIT_OF[one.what]
        least_m = practice.clearance_m[key]
        limit = f"`clearance`, `{key}`: {source(practice, 'clearance', key)}"
        if one.distance_m < least_m:
            yield Finding(
                (*one.at, "distance"),
                f"{between(loom.run)} comes within {show.diameter(one.distance_m, practice)} of {name(one)}, and "
                f"{show.diameter(least_m, practice)} is the least ({limit})",
                f"move the run {show.diameter(least_m - one.distance_m, practice)} further away; {help}",
            )


def source(practice: Practice, group: str, key: str) -> str:
    """Where one figure of a group of the practice comes from."""
    found = (layers.source(c) for c in practice.choices if c.figure == f"{group}.{key}")
    return next(found, practice.sources.get(group, ""))


def name(one: Neighbour) -> str:
    """In the writer's own words, or the kind."""
    return one.words or WORDS[one.what]


def between(run: Run) -> str:
    """A run as every message names it."""
    return f"the loom between `{run.a}` and `{run.b}`"
