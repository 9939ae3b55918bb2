"""Voltage charts: from a battery's posts over every conductor, device and contact to a load and back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

from buildspec import show
from buildspec.drawings.charts import axes, naming, plot
from buildspec.drawings.charts.naming import Wanted
from buildspec.drawings.charts.plot import Plot
from buildspec.drawings.charts.voltage import A_SHEET, Fall, Step
from buildspec.drawings.marks import Box, Group, Mark, Round, Stroke, Text
from buildspec.drawings.measure import BODY, SMALL, fit, width
from buildspec.drawings.palette import INK, QUIET, RULE, WIRES

LEFT, RIGHT, TOP, BOTTOM = 132.0, 60.0, 152.0, 156.0
WIDE, NARROW = 2.4, 1.0
"""Shares of the width: a conductor, and everything else."""
LIMIT, STOPS, FALLS = WIRES["RD"], WIRES["VT"], INK
LIMIT_DASH, STOPS_DASH = "30 12", "6 10"
ROW = 34.0


def sheet(found: Sequence[Fall], area: Box) -> tuple[Group, ...]:
    """Up to two loads, one above the other."""
    high = (area.bottom - area.top) / A_SHEET
    return tuple(
        group
        for n, one in enumerate(found)
        for group in panel(one, Box(area.left, area.top + n * high, area.right, area.top + (n + 1) * high))
    )


def panel(one: Fall, cell: Box) -> Iterator[Group]:
    yield heading(one, cell)
    field = Box(cell.left + LEFT, cell.top + TOP, cell.right - RIGHT, cell.bottom - BOTTOM)
    made = scales(one, field)
    yield grid(one, made)
    yield slots(one, made)
    drawn = [*limits(one, made), course(one, made), *worst(one, made)]
    yield from drawn
    wanted = tuple(wishes(one, made))
    yield naming.group(f"{one.circuit.number}-names", wanted, field, drawn)


def heading(one: Fall, cell: Box) -> Group:
    words = f"{one.circuit.number} {one.circuit.title}: {show.volts(one.rest_v - one.end_v)} lost on the way and back"
    more = (
        f"battery {one.battery} at rest at {show.volts(one.rest_v)}; worst state: {plain(one.state)}; lowest in any "
        f"state with the battery's own resistance: {show.volts(one.lowest_v)} ({plain(one.lowest_in)})"
    )
    room = cell.right - cell.left - 90
    marks = (
        Text(cell.left + 30, cell.top + 52, fit(words, room, BODY, bold=True), BODY, bold=True),
        Text(cell.left + 30, cell.top + 92, fit(more, room), SMALL, colour=QUIET),
    )
    return Group(f"{one.circuit.number}-heading", words, more, marks, layer=3)


def plain(state: str) -> str:
    return state.replace("`", "")


def scales(one: Fall, field: Box) -> Plot:
    """Steps across, volts up; everything that is compared is in the field."""
    lowest = min(one.end_v, one.limit_v, *compared(one))
    span = one.rest_v - lowest
    return Plot(
        field,
        axes.linear(0.0, sum(share(s) for s in one.steps), start=field.left, end=field.right),
        axes.linear(lowest - 0.12 * span, one.rest_v + 0.14 * span, start=field.bottom, end=field.top),
    )


def compared(one: Fall) -> tuple[float, ...]:
    """Where a device stops, and its worst moment, which only that line is held against."""
    return () if one.stops_v is None else (one.stops_v, one.lowest_v)


def share(step: Step) -> float:
    return WIDE if step.kind == "conductor" else NARROW


def grid(one: Fall, made: Plot) -> Group:
    by = axes.step(made.y.high - made.y.low, 7)
    places = max(1, len(f"{by:g}".partition(".")[2]))
    y = [(v, f"{v:.{places}f} V") for v in axes.ticks(made.y.low, made.y.high, by)]
    return plot.grid(made, f"{one.circuit.number}-axes", x=(), y=y, titles=("", "volts that are left"))


def edges(one: Fall) -> list[float]:
    """Where each step begins, and the end of the last."""
    return list(accumulate((share(s) for s in one.steps), initial=0.0))


def levels(one: Fall) -> list[float]:
    """Volts that are left before each step, and after the last."""
    return list(accumulate((-s.drop_v for s in one.steps), initial=one.rest_v))


def slots(one: Fall, made: Plot) -> Group:
    """Below the axis what each step is and takes; a line at each joint, a heavier one at the load."""
    marks: list[Mark] = []
    box = made.box
    for step, (left, right) in zip(one.steps, pairwise(axes.at(made.x, e) for e in edges(one)), strict=True):
        marks.append(Stroke(((right, box.top), (right, box.bottom + 3 * ROW + 14)), plot.FINE, RULE))
        room, middle = right - left - 8, (left + right) / 2
        for n, (words, bold) in enumerate(
            ((step.name, True), (step.detail, False), (lost(step.drop_v), False))
        ):
            line = Text(
                middle, box.bottom + (n + 1) * ROW, fit(words, room, bold=bold), bold=bold, anchor="middle",
                colour=INK if bold else QUIET,
            )  # fmt: skip
            marks += [line] if line.text else []
    place = axes.at(made.x, edges(one)[turn(one)])
    marks.append(Stroke(((place, box.top), (place, box.bottom + 3 * ROW + 14)), 3.0, INK))
    words = "; ".join(f"{s.name} {s.detail}: {lost(s.drop_v)}" for s in one.steps)
    return Group(f"{one.circuit.number}-steps", "Steps", words, tuple(marks), layer=0)


def turn(one: Fall) -> int:
    """Steps on the way out: the load stands behind them."""
    return sum(1 for s in one.steps if not s.back)


def lost(volts: float) -> str:
    """`0.21 V`, `8 mV`."""
    return show.volts(volts) if abs(volts) >= 0.0995 else f"{show.plain(volts * 1000, 0)} mV"


def limits(one: Fall, made: Plot) -> Iterator[Group]:
    for which, volts, colour, dash in (
        ("limit", one.limit_v, LIMIT, LIMIT_DASH),
        ("stops", one.stops_v, STOPS, STOPS_DASH),
    ):
        if volts is not None:
            path = ((0.0, volts), (made.x.high, volts))
            strokes = plot.line(plot.points(made, path), made.box, thick=4.0, colour=colour, dash=dash)
            yield Group(f"{one.circuit.number}-{which}", limit_words(one, which), show.volts(volts), strokes)


def limit_words(one: Fall, which: str) -> str:
    if which == "stops":
        return f"the device stops below {show.volts(one.stops_v or 0.0)}"
    return f"drop limit {show.percent(one.limit)}: {show.volts(one.limit_v)}"


def course(one: Fall, made: Plot) -> Group:
    path = tuple(zip(edges(one), levels(one), strict=True))
    strokes = plot.line(plot.points(made, path), made.box, thick=6.0, colour=FALLS)
    dots = tuple(Round(*plot.point(made, x, y), 8.0, 0.0, FALLS, FALLS) for x, y in path)
    words = "; ".join(show.volts(v) for v in levels(one))
    return Group(f"{one.circuit.number}-course", "Volts that are left", words, (*strokes, *dots))


def worst(one: Fall, made: Plot) -> Iterator[Group]:
    """The lowest voltage of all states at the device, as a ring at the end."""
    if one.stops_v is not None:
        ring = Round(*plot.point(made, made.x.high, one.lowest_v), 9.0, 3.0, STOPS)
        yield Group(f"{one.circuit.number}-worst", "Lowest in any state", show.volts(one.lowest_v), (ring,))


def wishes(one: Fall, made: Plot) -> Iterator[Wanted]:
    ends = [plot.point(made, x, y) for x, y in zip(edges(one), levels(one), strict=True)]
    yield Wanted(f"{one.battery} posts {show.volts(one.rest_v)}", (ends[0],), bold=True)
    x, y = ends[-1]
    beside = ((x, y), *((x, y + by) for by in (-20.0, 20.0, -40.0, 40.0)))
    yield Wanted(f"arrives {show.volts(one.end_v)}", beside, bold=True, left=True)
    if one.stops_v is not None:
        low = plot.point(made, made.x.high, one.lowest_v)
        words = f"lowest in any state, battery included: {show.volts(one.lowest_v)}"
        yield Wanted(words, (low,), STOPS, left=True)
    top = (axes.at(made.x, edges(one)[turn(one)]), made.box.top + SMALL + 14)
    yield Wanted(f"{one.circuit.target_designation}, the load", (top,), left=True)
    for which, volts, colour in (("limit", one.limit_v, LIMIT), ("stops", one.stops_v, STOPS)):
        if volts is not None:
            words = limit_words(one, which)
            y = axes.at(made.y, volts)
            along = (made.box.left + n * 40.0 for n in range(int((made.box.right - made.box.left) / 40)))
            yield Wanted(words, tuple((x, y) for x in along if x + width(words) < made.box.right), colour)
