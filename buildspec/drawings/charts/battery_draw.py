"""Battery charts: charge against time while parked, with its level, and beside it the way back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from buildspec import show
from buildspec.drawings.charts import axes, naming, plot
from buildspec.drawings.charts.battery import A_SHEET, DAY_H, Cut, Line, State
from buildspec.drawings.charts.naming import Wanted
from buildspec.drawings.charts.plot import Plot
from buildspec.drawings.marks import Box, Group, Mark, Point, Rect, Round, Text
from buildspec.drawings.measure import BODY, SMALL, width, wrap
from buildspec.drawings.palette import BAND, INK, QUIET, WIRES
from buildspec.energy import EVENING, MORNING

LEFT, RIGHT, TOP, BOTTOM = 132.0, 60.0, 152.0, 110.0
REFILL_SHARE = 0.34
"""Of the width, for the way back."""
ROOM = 1.12
"""Time beyond the longest line, for its name."""
HEADROOM = 1.1
"""Of the charge, for names above full."""
FALL, RISE, LEVEL, CUT = INK, WIRES["BU"], WIRES["RD"], WIRES["VT"]
DASHES = ("", "26 12", "6 10", "26 9 5 9")
LEVEL_DASH, CUT_DASH = "14 10", "4 8"
NO_REFILL = "Nothing here refills it while it stands on its own."


def sheet(found: Sequence[State], area: Box) -> tuple[Group, ...]:
    """Up to two batteries, one above the other."""
    high = (area.bottom - area.top) / A_SHEET
    return tuple(
        group
        for n, one in enumerate(found)
        for group in row(one, Box(area.left, area.top + n * high, area.right, area.top + (n + 1) * high))
    )


def key(one: State) -> str:
    return f"{one.battery.designation}-{one.kind}"


def row(one: State, cell: Box) -> Iterator[Group]:
    """Heading, the chart of the fall, and the way back where there is one."""
    yield heading(one, cell)
    split = cell.right - REFILL_SHARE * (cell.right - cell.left) if one.kind == "parked" else cell.right
    yield from fall(one, field_of(cell._replace(right=split)))
    if one.kind == "parked":
        yield from rise(one, field_of(cell._replace(left=split)))


def field_of(cell: Box) -> Box:
    return Box(cell.left + LEFT, cell.top + TOP, cell.right - RIGHT, cell.bottom - BOTTOM)


def heading(one: State, cell: Box) -> Group:
    item = one.battery
    what = (
        "while parked" if one.kind == "parked" else "with everything off, until the engine no longer starts"
    )
    words = f"{item.designation} {item.name} battery {what}"
    notes = "; ".join(one.notes)
    marks: list[Mark] = [Text(cell.left + 30, cell.top + 52, words, BODY, bold=True)]
    lines = wrap(notes, cell.right - cell.left - 90)
    marks += [Text(cell.left + 30, cell.top + 92, line, SMALL, colour=QUIET) for line in lines]
    return Group(f"{key(one)}-heading", words, notes or words, tuple(marks), layer=3)


def scales(field: Box, hours: float) -> Plot:
    return Plot(
        field,
        axes.linear(0.0, hours, start=field.left, end=field.right),
        axes.linear(0.0, HEADROOM, start=field.bottom, end=field.top),
    )


def grid(made: Plot, name: str, title: str, *, days: bool) -> Group:
    """Hours, or days where the time is long."""
    per = DAY_H if days else 1.0
    by = axes.step(made.x.high / per, 10) * per if days else axes.hour_step(made.x.high, 8)
    if not days and made.x.high <= 6:
        by = axes.step(made.x.high, 6)
    x = [(v, f"{v / per:g}") for v in axes.ticks(0.0, made.x.high, by)]
    y = [(v, show.percent(v)) for v in axes.ticks(0.0, 1.0, 0.2)]
    return plot.grid(made, f"{name}-axes", x=x, y=y, titles=(title, "of its charge"))


# ------------------------------------------------------------------------------------ the fall


def fall(one: State, field: Box) -> Iterator[Group]:
    """From full to the level."""
    days = one.kind == "standing"
    made = scales(field, max(line.hours for line in one.lines) * ROOM)
    if one.kind == "parked":
        yield from nights(one, made)
    title = "days" if days else f"hours parked, from {EVENING}:00"
    yield grid(made, key(one), title, days=days)
    stop = level(one, made)
    yield stop
    opens = [cut(one, found, made) for found in one.cuts]
    yield from opens
    drawn = [drained(one, line, made, DASHES[min(n, len(DASHES) - 1)]) for n, line in enumerate(one.lines)]
    yield from drawn
    wanted = [name_of(one, line, made, days=days) for line in one.lines]
    names = (*wanted, level_name(one, made), *(cut_name(found, made) for found in one.cuts))
    yield naming.group(f"{key(one)}-names", names, made.box, (stop, *opens, *drawn))


def nights(one: State, made: Plot) -> Iterator[Group]:
    """Quiet bands from evening to morning."""
    length, start, number = DAY_H - EVENING + MORNING, 0.0, 1
    while start < made.x.high:
        left, right = axes.at(made.x, start), axes.at(made.x, min(start + length, made.x.high))
        box = Box(left, made.box.top, right, made.box.bottom)
        words = f"night {number}"
        marks: list[Mark] = [Rect(box, fill=BAND)]
        if width(words) < right - left:
            marks.append(Text((left + right) / 2, box.bottom - 12, words, anchor="middle", colour=QUIET))
        yield Group(f"{key(one)}-night-{number}", words, words, tuple(marks), layer=0)
        start, number = start + DAY_H, number + 1


def level(one: State, made: Plot) -> Group:
    path = ((0.0, one.level), (made.x.high, one.level))
    strokes = plot.line(plot.points(made, path), made.box, thick=4.0, colour=LEVEL, dash=LEVEL_DASH)
    return Group(f"{key(one)}-level", "Level", level_words(one), strokes)


def level_words(one: State) -> str:
    what = "stop here" if one.kind == "parked" else "it no longer cranks"
    return f"{what}: {show.percent(one.level)} left, {show.plain(one.usable_ah, 1)} Ah taken"


def level_name(one: State, made: Plot) -> Wanted:
    x, y = plot.point(made, 0.0, one.level)
    return Wanted(level_words(one), tuple((x + n * 20, y) for n in range(40)), LEVEL)


def cut(one: State, found: Cut, made: Plot) -> Group:
    """Where a low-voltage disconnect opens, in the shade of the guide it is: rest voltages are no gauge."""
    path = ((0.0, found.left), (made.x.high, found.left))
    strokes = plot.line(plot.points(made, path), made.box, thick=4.0, colour=CUT, dash=CUT_DASH)
    return Group(f"{key(one)}-cut-{found.name}", found.words, cut_words(found), strokes)


def cut_words(found: Cut) -> str:
    return f"{found.words}: about {show.percent(found.left)} left"


def cut_name(found: Cut, made: Plot) -> Wanted:
    x, y = plot.point(made, made.x.high, found.left)
    return Wanted(cut_words(found), tuple((x - n * 20, y) for n in range(40)), CUT)


def drained(one: State, line: Line, made: Plot, dash: str) -> Group:
    path = ((0.0, 1.0), (line.hours, one.level))
    strokes = plot.line(plot.points(made, path), made.box, thick=5.0, colour=FALL, dash=dash)
    x, y = plot.point(made, line.hours, one.level)
    marks: tuple[Mark, ...] = (*strokes, Round(x, y, 10.0, 0.0, LEVEL, LEVEL))
    return Group(f"{key(one)}-{line.name}", line.words, time_words(line, days=one.kind == "standing"), marks)


def time_words(line: Line, *, days: bool) -> str:
    """`18.1 h`, `66.7 days`."""
    value, unit = (line.hours / DAY_H, "days") if days else (line.hours, "h")
    return f"{show.plain(value, 1)} {unit}"


def name_of(one: State, line: Line, made: Plot, *, days: bool) -> Wanted:
    words = f"{line.words}: {time_words(line, days=days)}"
    return Wanted(words, along(made, (line.hours, one.level), (0.0, 1.0)), FALL)


def along(made: Plot, start: tuple[float, float], end: tuple[float, float]) -> tuple[Point, ...]:
    """Points from one end of a line to the other."""
    (x0, y0), (x1, y1) = plot.point(made, *start), plot.point(made, *end)
    return tuple((x0 + (x1 - x0) * n / 24, y0 + (y1 - y0) * n / 24) for n in range(25))


# ------------------------------------------------------------------------------------ the way back


def rise(one: State, field: Box) -> Iterator[Group]:
    """From the level to full, by driving and on shore."""
    if not one.refills:
        lines = wrap(NO_REFILL, field.right - field.left)
        marks = tuple(Text(field.left, field.top + 40 + n * 36, words) for n, words in enumerate(lines))
        yield Group(f"{key(one)}-no-refill", "No way back", NO_REFILL, marks, layer=3)
        return
    made = scales(field, max(line.hours for line in one.refills) * 1.35)
    yield grid(made, f"{key(one)}-refill", "hours of charging", days=False)
    drawn = [refilled(one, line, made, DASHES[min(n, len(DASHES) - 1)]) for n, line in enumerate(one.refills)]
    yield from drawn
    wanted = [
        Wanted(
            f"{line.words}: {time_words(line, days=False)}",
            along(made, (line.hours, 1.0), (0.0, one.level)),
            RISE,
        )
        for line in one.refills
    ]
    yield naming.group(f"{key(one)}-refill-names", wanted, made.box, drawn)


def refilled(one: State, line: Line, made: Plot, dash: str) -> Group:
    path = ((0.0, one.level), (line.hours, 1.0))
    strokes = plot.line(plot.points(made, path), made.box, thick=5.0, colour=RISE, dash=dash)
    x, y = plot.point(made, line.hours, 1.0)
    marks: tuple[Mark, ...] = (*strokes, Round(x, y, 10.0, 0.0, RISE, RISE))
    return Group(f"{key(one)}-refill-{line.name}", line.words, time_words(line, days=False), marks)
