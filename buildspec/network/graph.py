"""Shortest ways through conductors that conduct only in some states and, some of them, one way only."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from buildspec.findings import Path

STATES = ("parked", "cranking", "running", "assist held")
"""Key off and engine stopped; starter turning; engine running; the assist key held, starter not yet turning."""


class Edge(NamedTuple):
    """A conductor, or a device that joins two nodes. `one_way`: current passes from `a` to `b` only."""

    a: str
    b: str
    name: str
    kind: str
    one_way: bool
    states: frozenset[str]
    at: Path


class Step(NamedTuple):
    """One edge as a way takes it."""

    start: str
    edge: Edge
    end: str


def path(edges: Iterable[Edge], *, start: str, end: str, state: str) -> tuple[Step, ...] | None:
    """The way with the fewest edges on which current can pass from `start` to `end`; None when there is none.

    Breadth first; ties go to the edge that comes first, so the answer follows the order of the edges only.
    """
    leaving = _leaving(edges, state)
    came: dict[str, Step | None] = {start: None}
    front = [start]
    while front and end not in came:
        reached: list[str] = []
        for node in front:
            for step in leaving.get(node, ()):
                if step.end not in came:
                    came[step.end] = step
                    reached.append(step.end)
        front = reached
    return _back(came, end) if end in came else None


def _leaving(edges: Iterable[Edge], state: str) -> dict[str, list[Step]]:
    found: dict[str, list[Step]] = {}
    for edge in edges:
        if state in edge.states:
            found.setdefault(edge.a, []).append(Step(edge.a, edge, edge.b))
            if not edge.one_way:
                found.setdefault(edge.b, []).append(Step(edge.b, edge, edge.a))
    return found


def _back(came: dict[str, Step | None], end: str) -> tuple[Step, ...]:
    steps: list[Step] = []
    step = came[end]
    while step is not None:
        steps.append(step)
        step = came[step.start]
    return tuple(reversed(steps))


def spelled(way: tuple[Step, ...]) -> str:
    """A way as a finding prints it, end first: `house ← assist (closed) ← start`."""
    words = [way[-1].end]
    for step in reversed(way):
        words += [through] if (through := _through(step.edge)) else []
        words.append(step.start)
    return " ← ".join(words)


STATE_WORDS = {"charger": "awake", "link": "closed"}


def _through(edge: Edge) -> str:
    """How an edge is spelled: nothing for a feeder, whose far end says it."""
    if edge.kind == "feeder":
        return ""
    return f"{edge.name} ({STATE_WORDS[edge.kind]})" if edge.kind in STATE_WORDS else edge.name
