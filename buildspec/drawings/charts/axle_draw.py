"""Mass charts: a bar for each mass, beginning where the one before it ends, and the limit as a line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate

from buildspec import show
from buildspec.drawings.charts import axes, naming, plot
from buildspec.drawings.charts.axes import Scale
from buildspec.drawings.charts.axle import Stack
from buildspec.drawings.charts.naming import Wanted
from buildspec.drawings.charts.plot import Plot
from buildspec.drawings.marks import Box, Group, Rect, Stroke, Text
from buildspec.drawings.measure import BODY, SMALL
from buildspec.drawings.palette import BAND_INNER, INK, LINE, PAPER, QUIET, RULE, WIRES
from buildspec.model import Practice

LEFT, RIGHT, TOP, BOTTOM = 190.0, 60.0, 78.0, 92.0
FILLS = {"kerb": BAND_INNER, "added": WIRES["BU"], "people": WIRES["TQ"], "cargo": WIRES["BN"]}
LIMIT, LIMIT_DASH = WIRES["RD"], "30 12"
THICK = 0.62
"""Of a row, for its bar."""
ROOM = 1.12
"""Beyond the largest mass, for words."""
MOST = 3


def sheet(found: Sequence[Stack], area: Box, practice: Practice) -> tuple[Group, ...]:
    """Front axle, rear axle, whole vehicle, on one scale."""
    high = (area.bottom - area.top) / MOST
    most = max(max(one.limit_kg, one.laden_kg, *tops(one)) for one in found) * ROOM
    return tuple(
        group
        for n, one in enumerate(found)
        for group in block(
            one, Box(area.left, area.top + n * high, area.right, area.top + (n + 1) * high), most, practice
        )
    )


def tops(one: Stack) -> list[float]:
    """Where each bar ends [kg]."""
    return list(accumulate(bar.kg for bar in one.bars))


def key(one: Stack) -> str:
    return one.name.replace(" ", "-")


def block(one: Stack, cell: Box, most_kg: float, practice: Practice) -> Iterator[Group]:
    field = Box(cell.left + LEFT, cell.top + TOP, cell.right - RIGHT, cell.bottom - BOTTOM)
    rows = len(one.bars) + 1
    made = Plot(
        field,
        axes.linear(0.0, most_kg, start=field.left, end=field.right),
        axes.linear(0.0, rows, start=field.top, end=field.bottom),
    )
    yield heading(one, cell, practice)
    yield grid(one, made, practice)
    steps, whole = list(bars(one, made, practice)), (total(one, made, practice), limit(one, made, practice))
    yield from (*steps, *whole)
    wanted = tuple(wishes(one, made, practice))
    yield naming.group(f"{key(one)}-names", wanted, field, (*outlines(steps), *whole))


def heading(one: Stack, cell: Box, practice: Practice) -> Group:
    left = show.mass(abs(one.left_kg), practice)
    verdict = f"{left} left" if one.left_kg >= 0 else f"{left} too much"
    words = f"{one.name[:1].upper()}{one.name[1:]}: {verdict}"
    mark = Text(cell.left + 30, cell.top + 52, words, BODY, bold=True)
    return Group(f"{key(one)}-heading", words, words, (mark,), layer=3)


def unit(practice: Practice) -> tuple[float, str]:
    """(kilograms in one, its name)."""
    return (1.0, "kg") if practice.units == "metric" else (1 / show.LB_PER_KG, "lb")


def grid(one: Stack, made: Plot, practice: Practice) -> Group:
    per, name = unit(practice)
    by = axes.step(made.x.high / per, 8)
    x = [(v * per, f"{v:g}") for v in axes.ticks(0.0, made.x.high / per, by)]
    group = plot.grid(made, f"{key(one)}-axes", x=x, y=(), titles=(name, ""))
    names = tuple(
        Text(made.box.left - plot.GAP, row(made.y, n) + SMALL * 0.36, words, anchor="end", colour=INK)
        for n, words in enumerate((*(bar.name for bar in one.bars), "laden"))
    )
    return group._replace(marks=(*group.marks, *names))


def row(scale: Scale, number: int) -> float:
    """Middle of a row."""
    return axes.at(scale, number + 0.5)


def bars(one: Stack, made: Plot, practice: Practice) -> Iterator[Group]:
    """Each from where the one before it ends."""
    start = 0.0
    for n, bar in enumerate(one.bars):
        box = span(made, n, start, start + bar.kg)
        fill = PAPER if bar.kg < 0 else FILLS[bar.name]
        place = axes.at(made.x, start + bar.kg)
        lead = Stroke(((place, box.bottom), (place, row(made.y, n + 1))), plot.GRID, QUIET)
        mark = Rect(box, fill, INK, LINE)
        yield Group(
            f"{key(one)}-{bar.name}", f"{one.name}: {bar.name}", show.mass(bar.kg, practice), (lead, mark)
        )
        start += bar.kg


def span(made: Plot, number: int, start: float, end: float) -> Box:
    """The box of a bar, left to right whichever way it goes."""
    half = THICK / 2 * (axes.at(made.y, 1.0) - axes.at(made.y, 0.0))
    middle = row(made.y, number)
    ends = sorted((axes.at(made.x, start), axes.at(made.x, end)))
    return Box(ends[0], middle - half, ends[1], middle + half)


def total(one: Stack, made: Plot, practice: Practice) -> Group:
    mark = Rect(span(made, len(one.bars), 0.0, one.laden_kg), RULE, INK, LINE)
    return Group(f"{key(one)}-laden", f"{one.name}: laden", show.mass(one.laden_kg, practice), (mark,))


def limit(one: Stack, made: Plot, practice: Practice) -> Group:
    path = ((one.limit_kg, 0.0), (one.limit_kg, made.y.high))
    strokes = plot.line(plot.points(made, path), made.box, thick=5.0, colour=LIMIT, dash=LIMIT_DASH)
    return Group(f"{key(one)}-limit", f"{one.name}: limit", show.mass(one.limit_kg, practice), strokes)


def outlines(drawn: Sequence[Group]) -> tuple[Group, ...]:
    """The groups with boxes as lines, so that names keep off them."""
    return tuple(
        g._replace(
            marks=tuple(Stroke(corners(m.box), closed=True) if isinstance(m, Rect) else m for m in g.marks)
        )
        for g in drawn
    )


def corners(box: Box) -> tuple[tuple[float, float], ...]:
    return (
        (box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom),
        (box.left, (box.top + box.bottom) / 2), (box.right, (box.top + box.bottom) / 2),
    )  # fmt: skip


def wishes(one: Stack, made: Plot, practice: Practice) -> Iterator[Wanted]:
    start = 0.0
    for n, bar in enumerate(one.bars):
        box = span(made, n, start, start + bar.kg)
        sign = "" if n == 0 else "+" if bar.kg >= 0 else "−"
        words = f"{sign}{show.mass(abs(bar.kg), practice)}"
        yield Wanted(words, ((box.right, row(made.y, n)), (box.left, row(made.y, n))))
        start += bar.kg
    box = span(made, len(one.bars), 0.0, one.laden_kg)
    middle = row(made.y, len(one.bars))
    yield Wanted(show.mass(one.laden_kg, practice), ((box.right, middle), (box.left, middle)), bold=True)
    x = axes.at(made.x, one.limit_kg)
    down = tuple((x, row(made.y, n)) for n in range(len(one.bars) + 1))
    yield Wanted(f"limit {show.mass(one.limit_kg, practice)}", down, LIMIT)
