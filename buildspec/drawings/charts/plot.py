"""What every chart stands on: the field of a chart, its grid and axes, and lines cut to it."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from buildspec.drawings.charts import axes
from buildspec.drawings.charts.axes import Scale
from buildspec.drawings.marks import Box, Group, Mark, Point, Stroke, Text
from buildspec.drawings.measure import SMALL, width
from buildspec.drawings.palette import INK, LINE, QUIET, RULE

GRID = 1.2
FINE = 0.7
AXIS = 3.0
TICK = 14.0
GAP = 10.0
"""Between an axis and its figures."""


class Plot(NamedTuple):
    """The field of a chart with both of its scales."""

    box: Box
    x: Scale
    y: Scale


def point(plot: Plot, x: float, y: float) -> Point:
    return axes.at(plot.x, x), axes.at(plot.y, y)


def points(plot: Plot, values: Sequence[tuple[float, float]]) -> tuple[Point, ...]:
    return tuple(point(plot, x, y) for x, y in values)


def grid(
    plot: Plot,
    name: str,
    *,
    x: Sequence[tuple[float, str]],
    y: Sequence[tuple[float, str]],
    titles: tuple[str, str],
) -> Group:
    """Frame, a thin line at every tick, its figure, and what each axis counts.

    `x`, `y`: value and figure of every tick; a tick without a figure has no line either.
    """
    box = plot.box
    marks: list[Mark] = []
    for value, words in x:
        place = axes.at(plot.x, value)
        top = box.top if words else box.bottom - TICK / 2
        marks.append(Stroke(((place, top), (place, box.bottom)), GRID if words else FINE, RULE))
        marks.append(Text(place, box.bottom + GAP + SMALL, words, anchor="middle", colour=QUIET))
    for value, words in y:
        place = axes.at(plot.y, value)
        right = box.right if words else box.left + TICK / 2
        marks.append(Stroke(((box.left, place), (right, place)), GRID if words else FINE, RULE))
        marks.append(Text(box.left - GAP, place + SMALL * 0.36, words, anchor="end", colour=QUIET))
    marks.append(Stroke(((box.left, box.top), (box.left, box.bottom), (box.right, box.bottom)), AXIS, INK))
    across, up = titles
    marks.append(Text(box.right, box.bottom + 2 * GAP + 2 * SMALL, across, anchor="end", colour=INK))
    marks.append(Text(box.left, box.top - GAP, up, anchor="start", colour=INK))
    kept = tuple(m for m in marks if not isinstance(m, Text) or m.text)
    figures = "; ".join(
        f"{title}: {pair[0][1]} to {pair[-1][1]}" for title, pair in ((across, named(x)), (up, named(y)))
    )
    return Group(name, "Axes", figures, kept, layer=0)


def named(ticks: Sequence[tuple[float, str]]) -> list[tuple[float, str]]:
    return [tick for tick in ticks if tick[1]] or [(0.0, "")]


def clipped(path: Sequence[Point], box: Box) -> tuple[tuple[Point, ...], ...]:
    """The pieces of a line that lie within a box."""
    pieces: list[list[Point]] = []
    for a, b in itertools.pairwise(path):
        part = segment(a, b, box)
        if part is None:
            continue
        if pieces and same(pieces[-1][-1], part[0]):
            pieces[-1].append(part[1])
        else:
            pieces.append(list(part))
    return tuple(tuple(piece) for piece in pieces)


def same(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) < 1e-6 and abs(a[1] - b[1]) < 1e-6


def segment(a: Point, b: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a straight line within a box (Liang and Barsky), or None."""
    run, rise = b[0] - a[0], b[1] - a[1]
    enter, leave = 0.0, 1.0
    for towards, room in (
        (-run, a[0] - box.left),
        (run, box.right - a[0]),
        (-rise, a[1] - box.top),
        (rise, box.bottom - a[1]),
    ):
        if towards == 0:
            if room < 0:
                return None
        elif towards < 0:
            enter = max(enter, room / towards)
        else:
            leave = min(leave, room / towards)
    if enter >= leave:
        return None
    return (a[0] + enter * run, a[1] + enter * rise), (a[0] + leave * run, a[1] + leave * rise)


def region(path: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """A closed outline cut to a box (Sutherland and Hodgman); empty where nothing is left."""
    found = list(path)
    sides: tuple[tuple[int, float, bool], ...] = (
        (0, box.left, True),
        (0, box.right, False),
        (1, box.top, True),
        (1, box.bottom, False),
    )
    for axis, edge, least in sides:
        found = list(halved(found, axis, edge, at_least=least))
    return tuple(found)


def halved(path: Sequence[Point], axis: int, edge: float, *, at_least: bool) -> Iterator[Point]:
    """The part of an outline on one side of an edge."""

    def inside(p: Point) -> bool:
        return p[axis] >= edge if at_least else p[axis] <= edge

    for n, b in enumerate(path):
        a = path[n - 1]
        if inside(a) != inside(b):
            share = (edge - a[axis]) / (b[axis] - a[axis])
            crossing = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            yield (edge, crossing[1]) if axis == 0 else (crossing[0], edge)
        if inside(b):
            yield b


def line(
    path: Sequence[Point], box: Box, *, thick: float = LINE, colour: str = INK, dash: str = ""
) -> tuple[Stroke, ...]:
    """A line cut to the field."""
    return tuple(Stroke(piece, thick, colour, dash=dash) for piece in clipped(path, box))


def apart(
    scale: Scale, wanted: Sequence[float], words: Callable[[float], str], *, beside: Sequence[float] = ()
) -> tuple[float, ...]:
    """Those ticks whose figures meet neither one another nor those of `beside`."""

    def span(value: float) -> tuple[float, float]:
        half, place = width(words(value)) / 2 + GAP, axes.at(scale, value)
        return place - half, place + half

    taken = [span(value) for value in beside]
    kept: list[float] = []
    for value in wanted:
        left, right = span(value)
        if all(right <= low or left >= high for low, high in taken):
            taken.append((left, right))
            kept.append(value)
    return tuple(kept)
