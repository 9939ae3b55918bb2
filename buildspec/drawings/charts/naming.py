"""Names set straight at the lines that they name, where they cover neither another name nor a line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from buildspec.drawings.charts.plot import segment
from buildspec.drawings.marks import Box, Group, Mark, Point, Rect, Round, Stroke, Text
from buildspec.drawings.measure import SMALL, width
from buildspec.drawings.palette import INK, PAPER

OFF = 14.0
"""From a line to its name."""
ASCENT, DESCENT = 0.78, 0.22
"""Of a line of text, as shares of its size."""
COVERED = 1e6
"""What it costs to cover another name or to leave the field; a line costs less, distance least."""
CROSSED = 1e3


class Wanted(NamedTuple):
    """A name, and the places at which it may stand, dearest last: where its line is."""

    text: str
    anchors: tuple[Point, ...]
    colour: str = INK
    bold: bool = False
    left: bool = False
    """Rather left of its line than right of it."""


class Named(NamedTuple):
    """A name where it stands, and the box that it takes."""

    text: Text
    box: Box


def text_box(text: Text) -> Box:
    """The box of one line of text, room for other fonts included."""
    return box_of(text, width(text.text, text.size, bold=text.bold))


def box_of(text: Text, wide: float) -> Box:
    left = text.x - {"start": 0.0, "middle": wide / 2, "end": wide}[text.anchor]
    return Box(left, text.y - text.size * ASCENT, left + wide, text.y + text.size * DESCENT)


def placed(
    wanted: Iterable[Wanted], field: Box, lines: Sequence[Sequence[Point]], *, taken: Sequence[Box] = ()
) -> tuple[Named, ...]:
    """Every name at its cheapest place, one after the other. `lines`: what should stay uncovered."""
    boxes, found = list(taken), list[Named]()
    for one in wanted:
        best = cheapest(one, field, lines, boxes)
        boxes.append(best.box)
        found.append(best)
    return tuple(found)


def cheapest(one: Wanted, field: Box, lines: Sequence[Sequence[Point]], taken: Sequence[Box]) -> Named:
    """The first place that costs least; what comes later costs more by itself, so the search ends early."""
    best: tuple[float, Named] | None = None
    wide = width(one.text, SMALL, bold=one.bold)
    for order, text in enumerate(around(one)):
        if best is not None and order >= best[0]:
            break
        box = box_of(text, wide)
        price = order + blocked(box, field, taken)
        if best is None or price < best[0]:
            price += CROSSED * crossings(box, lines)
            if best is None or price < best[0]:
                best = (price, Named(text, box))
    assert best is not None, "a name without a place"
    return best[1]


def around(one: Wanted) -> Iterator[Text]:
    """Right, left, above, below of each anchor."""
    up, down = -OFF, OFF + SMALL * ASCENT
    for x, y in one.anchors:
        sides = ((-OFF, "end"), (OFF, "start")) if one.left else ((OFF, "start"), (-OFF, "end"))
        for dx, dy, anchor in (
            *((dx, dy, anchor) for dy in (SMALL * 0.33, up, down) for dx, anchor in sides),
            (0.0, up, "middle"),
            (0.0, down, "middle"),
        ):
            yield Text(x + dx, y + dy, one.text, bold=one.bold, anchor=anchor, colour=one.colour)


def blocked(box: Box, field: Box, taken: Sequence[Box]) -> float:
    """What it costs to cover other names or to leave the field."""
    out = max(
        field.left - box.left, box.right - field.right, field.top - box.top, box.bottom - field.bottom, 0.0
    )
    wider = box.grown(3.0)
    return (COVERED + out if out else 0.0) + COVERED * sum(1 for other in taken if meets(wider, other))


def crossings(box: Box, lines: Sequence[Sequence[Point]]) -> int:
    """How many straight pieces pass under a name."""
    wider = box.grown(1.0)
    return sum(1 for path in lines for a, b in pairwise(path) if near(a, b, wider) and segment(a, b, wider))


def near(a: Point, b: Point, box: Box) -> bool:
    """Quick to say of most pieces that they pass elsewhere."""
    return (
        max(a[0], b[0]) >= box.left
        and min(a[0], b[0]) <= box.right
        and max(a[1], b[1]) >= box.top
        and min(a[1], b[1]) <= box.bottom
    )


def cleared(found: Iterable[Named], lines: Sequence[Sequence[Point]]) -> tuple[Mark, ...]:
    """The names, each with clear paper behind it where a line passes under it."""
    marks: list[Mark] = []
    for one in found:
        if crossings(one.box, lines):
            marks.append(Rect(one.box, fill=PAPER))
        marks.append(one.text)
    return tuple(marks)


def meets(a: Box, b: Box) -> bool:
    return a.left < b.right and b.left < a.right and a.top < b.bottom and b.top < a.bottom


def stroked(strokes: Iterable[Stroke]) -> tuple[tuple[Point, ...], ...]:
    """The lines of some strokes, closed where they are."""
    return tuple((*s.points, s.points[0]) if s.closed else s.points for s in strokes)


def group(name: str, wanted: Iterable[Wanted], field: Box, drawn: Iterable[Group]) -> Group:
    """The names of a field, set beside what is drawn in it."""
    marks = [m for g in drawn for m in g.marks]
    lines = stroked(m for m in marks if isinstance(m, Stroke))
    dots = [Box(m.x - m.r, m.y - m.r, m.x + m.r, m.y + m.r) for m in marks if isinstance(m, Round)]
    found = placed(wanted, field, lines, taken=dots)
    words = "; ".join(one.text.text for one in found)
    return Group(name, "Names", words, cleared(found, lines), layer=3)
