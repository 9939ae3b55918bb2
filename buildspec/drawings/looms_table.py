"""The table of the layout sheet: what shares each loom, how thick it is, what it lies in and passes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from buildspec import show
from buildspec.drawings import looms_boxes
from buildspec.drawings.looms_boxes import Leg
from buildspec.drawings.marks import Box, Group, Mark, Stroke, Text
from buildspec.drawings.measure import SMALL, width, wrap
from buildspec.drawings.palette import INK, QUIET
from buildspec.drawings.strands import ASCENT, LEADING, Scene
from buildspec.looms import holes, runs
from buildspec.looms.runs import Lying
from buildspec.model import Hole, Practice

HEADS = ("Run", "From – to", "Length", "Loom", "Tube", "Passes", "Circuits and their wires")
SHARES = (0.035, 0.16, 0.055, 0.125, 0.115, 0.14)
"""Of the width, for every column but the last."""
PAD = 16.0
HEAD_HEIGHT = 44.0
ROW_EDGE = 14.0
BETWEEN_WORDS, BETWEEN_CIRCUITS = 9.0, 26.0


class Word(NamedTuple):
    """A word of the last column: where it stands in its cell, and the circuit it is about."""

    x: float
    line: int
    text: str
    circuit: str
    bold: bool


def lefts(area: Box) -> list[float]:
    across = area.right - area.left
    return [area.left + across * sum(SHARES[:n]) for n in range(len(HEADS))]


def rooms(area: Box) -> list[float]:
    edges = [*lefts(area), area.right + PAD]
    return [right - left - PAD for left, right in pairwise(edges)]


def cells(scene: Scene, leg: Leg, area: Box) -> list[tuple[str, ...]]:
    """Lines of every column but the last."""
    practice, loom = scene.sized.build.practice, leg.loom
    facts: tuple[Sequence[str], ...] = (
        [leg.number],
        [looms_boxes.run_words(scene, leg)],
        [looms_boxes.length(scene, leg)],
        [*loom_words(practice, loom)],
        [*tubes(practice, loom)] or ["–"],
        [*passes(scene, leg)] or ["–"],
    )
    return [
        tuple(line for text in each for line in wrap(text, room, bold=n == 0))
        for n, (each, room) in enumerate(zip(facts, rooms(area), strict=False))
    ]


def loom_words(practice: Practice, loom: runs.Loom) -> Iterator[str]:
    """`⌀ 14 mm`, and the cables that are tied beside the loom."""
    if loom.inner:
        yield f"⌀ {show.diameter(runs.diameter_m(loom.inner), practice)}, {plural(len(loom.inner), 'wire')}"
    sizes = Counter(one.diameter_m for one in loom.apart)
    for diameter_m, count in sorted(sizes.items(), reverse=True):
        beside = "beside it " if loom.inner else ""
        yield f"{beside}{count} × ⌀ {show.diameter(diameter_m, practice)}"
    if not loom.lying:
        yield "nothing lies here"


def plural(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def tubes(practice: Practice, loom: runs.Loom) -> Iterator[str]:
    found = Counter((one.size, one.inside_m or one.needed_m, one.inside_m is None) for one in loom.conduits)
    for (size, inside_m, more), count in found.items():
        times = f"{count} × " if count > 1 else ""
        name = f"{size}, " if size else ""
        yield f"{times}{name}{show.diameter(inside_m, practice)} inside{' or more' if more else ''}"


def passes(scene: Scene, leg: Leg) -> Iterator[str]:
    """`engine-wall: grommet, hole 25 mm`."""
    build, run = scene.sized.build, leg.loom.run
    found = holes.passed(build, run)
    if not found and run.through:
        yield run.through
    yield from (hole_words(build.practice, hole) for hole in found)


def hole_words(practice: Practice, hole: Hole) -> str:
    size = f", hole {show.diameter(hole.size_m, practice)}" if hole.size_m else ""
    return f"{hole.name}: {hole.protection}{size}"


def words(leg: Leg, room: float) -> list[Word]:
    """Circuits with their wires, broken into lines between circuits, and inside one that is wider than the room."""
    made: list[Word] = []
    x, line = 0.0, 0
    parts = [*grouped(leg.loom.inner), *(grouped(leg.loom.apart))]
    for circuit, texts in parts:
        wide = sum(width(t, bold=n == 0) + BETWEEN_WORDS for n, t in enumerate(texts)) - BETWEEN_WORDS
        if x and x + wide > room:
            x, line = 0.0, line + 1
        for n, text in enumerate(texts):
            each = width(text, bold=n == 0)
            if x and x + each > room:
                x, line = 0.0, line + 1
            made.append(Word(x, line, text, circuit, n == 0))
            x += each + BETWEEN_WORDS
        x += BETWEEN_CIRCUITS - BETWEEN_WORDS
    return made


def grouped(lying: Sequence[Lying]) -> list[tuple[str, list[str]]]:
    """(circuit number, [its number, its wires …])."""
    found: dict[str, list[str]] = {}
    for one in lying:
        found.setdefault(one.circuit.number, [one.circuit.number]).append(one.wire.designation)
    return list(found.items())


def row_height(scene: Scene, leg: Leg, area: Box) -> float:
    most = max(len(lines) for lines in cells(scene, leg, area))
    last = max((word.line + 1 for word in words(leg, rooms(area)[-1])), default=1)
    return LEADING * max(most, last) + ROW_EDGE


def split(scene: Scene, legs: Sequence[Leg], area: Box, first: float) -> list[list[Leg]]:
    """Rows by sheet: on the first one into a height `first`, then into that of the area."""
    made: list[list[Leg]] = [[]]
    left = first - HEAD_HEIGHT
    for leg in legs:
        high = row_height(scene, leg, area)
        if high > left and (made[-1] or len(made) == 1):
            made.append([])
            left = area.bottom - area.top - HEAD_HEIGHT
        made[-1].append(leg)
        left -= high
    return made


def height(scene: Scene, legs: Sequence[Leg], area: Box) -> float:
    return HEAD_HEIGHT + sum(row_height(scene, leg, area) for leg in legs)


def table(scene: Scene, legs: Sequence[Leg], area: Box, top: float) -> tuple[Group, ...]:
    """Heading and rows from a height on."""
    starts = lefts(area)
    marks: list[Mark] = [
        Text(x, top + 26, head, SMALL, True, colour=QUIET) for x, head in zip(starts, HEADS, strict=True)
    ]
    marks.append(Stroke(((area.left, top + 38), (area.right, top + 38)), 3))
    made = [Group(scene.id("looms-head"), "looms", "what shares each run", tuple(marks), layer=3)]
    y = top + HEAD_HEIGHT
    for leg in legs:
        high = row_height(scene, leg, area)
        made += row(scene, leg, area, (y, y + high))
        y += high
    return tuple(made)


def row(scene: Scene, leg: Leg, area: Box, ends: tuple[float, float]) -> Iterator[Group]:
    """One run: a group for the run itself, one for each circuit in it."""
    top, bottom = ends
    base = top + ROW_EDGE / 2 + ASCENT + 3
    starts = lefts(area)
    marks: list[Mark] = [Stroke(((area.left, bottom), (area.right, bottom)), 1, QUIET)]
    for n, (x, lines) in enumerate(zip(starts, cells(scene, leg, area), strict=False)):
        marks += [Text(x, base + k * LEADING, line, SMALL, n == 0) for k, line in enumerate(lines)]
    title = f"{leg.number}, {looms_boxes.run_words(scene, leg)}"
    yield Group(scene.id(f"{leg.number}-row"), title, title, tuple(marks), leg.circuits, layer=3)
    found: dict[str, list[Mark]] = {}
    for word in words(leg, rooms(area)[-1]):
        mark = Text(starts[-1] + word.x, base + word.line * LEADING, word.text, SMALL, word.bold, colour=INK)
        found.setdefault(word.circuit, []).append(mark)
    for number, texts in found.items():
        name = f"{number} in {leg.number}"
        yield Group(scene.id(f"{leg.number}-{number}"), name, name, tuple(texts), number, layer=3)
