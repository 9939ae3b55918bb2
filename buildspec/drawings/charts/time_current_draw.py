"""Time-current charts as small multiples: one field a device, six a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from buildspec import show
from buildspec.drawings.charts import axes, naming, plot
from buildspec.drawings.charts import time_current as data
from buildspec.drawings.charts.naming import Wanted
from buildspec.drawings.charts.plot import Plot
from buildspec.drawings.charts.time_current import Characteristic, Path
from buildspec.drawings.labels import SHORT
from buildspec.drawings.marks import Box, Group, Mark, Point, Round, Stroke, Text
from buildspec.drawings.measure import BODY, SMALL, fit, width, wrap
from buildspec.drawings.palette import BAND_INNER, INK, QUIET, WIRES

COLUMNS, ROWS = 3, 2
FOOT = 96.0
LEFT, RIGHT, TOP, BOTTOM = 132.0, 52.0, 152.0, 96.0
"""Between a cell and its field: figures at the left and below, heading above."""
LOAD, WIRE, FAULT, DEVICE = WIRES["BU"], WIRES["RD"], WIRES["VT"], INK
DASHES = {"usual": "5 9", "damage": "30 12", "beyond": "6 10", "short": "26 9 5 9"}
NO_TIMES = "no opening times known for this family: cannot draw"
FOOTNOTE = (
    "Thick stepped: what it must carry. Grey band between two solid lines: it may open. Dashed: what the conductor "
    "carries for ever, and k²S² that it stands in a short of up to 5 s (IEC 60364-5-54), dotted beyond. Dash-dot: dead "
    "short, up to the 5 s in which it must be open; the dot is the latest time at which it is."
)
LONG_DECADES = 3.0


def seconds(time_s: float) -> str:
    """`1 ms`, `0.26 s`, `100 s`: as people say it."""
    if time_s < 1e-3:
        return f"{show.plain(time_s * 1e6, 0)} µs"
    if time_s < 0.1:
        return f"{show.plain(time_s * 1000, 1)} ms"
    return f"{show.plain(time_s, 2 if time_s < 10 else 0)} s"


def amps_tick(value: float) -> str:
    return f"{value:g}"


def seconds_tick(value: float) -> str:
    return f"{value * 1000:g} ms" if value < 1 else f"{value:g} s"


def cells(area: Box) -> tuple[Box, ...]:
    """Row by row."""
    wide, high = (area.right - area.left) / COLUMNS, (area.bottom - FOOT - area.top) / ROWS
    return tuple(
        Box(area.left + c * wide, area.top + r * high, area.left + (c + 1) * wide, area.top + (r + 1) * high)
        for r in range(ROWS)
        for c in range(COLUMNS)
    )


def sheet(found: Sequence[Characteristic], area: Box) -> tuple[Group, ...]:
    """Up to six devices and the line that explains them."""
    groups = [group for one, cell in zip(found, cells(area), strict=False) for group in panel(one, cell)]
    lines = wrap(FOOTNOTE, area.right - area.left - 60)
    note = tuple(
        Text(area.left + 30, area.bottom - 54 + n * 34, words, colour=QUIET) for n, words in enumerate(lines)
    )
    return (*groups, Group("how-to-read", "How to read it", FOOTNOTE, note, layer=3))


def panel(one: Characteristic, cell: Box) -> Iterator[Group]:
    """One device: heading, axes, band, lines, names."""
    yield heading(one, cell)
    field = Box(cell.left + LEFT, cell.top + TOP, cell.right - RIGHT, cell.bottom - BOTTOM)
    if not one.curve:
        name = one.device.designation
        middle = Text((field.left + field.right) / 2, field.top + 80, NO_TIMES, anchor="middle")
        yield Group(f"{name}-none", f"{name}: no chart", NO_TIMES, (middle,), layer=3)
        return
    low, high = axes.rounded_out(*(v * f for v, f in zip(data.reach_a(one), (0.4, 2.0), strict=True)))
    made = Plot(
        field,
        axes.logarithmic(low, high, start=field.left, end=field.right),
        axes.logarithmic(data.FASTEST_S, data.SLOWEST_S, start=field.bottom, end=field.top),
    )
    yield grid(one, made)
    drawn = [*band(one, made), *load(one, made), *conductor(one, made), *faults(one, made)]
    yield from drawn
    yield from names(one, made, drawn)


def heading(one: Characteristic, cell: Box) -> Group:
    device = one.device
    kind = "limit" if device.kind == "channel" else SHORT.get(device.family, device.family)
    words = f"{device.designation} · {show.amps(device.rating_a)} {kind}"
    mark = "times from memory" if one.recalled else ""
    left, right = cell.left + 30, cell.right - RIGHT
    room = right - left
    size = f"on {show.size(one.wire.conductor)}" if one.wire else ""
    marks: list[Mark] = [
        Text(left, cell.top + 52, words, BODY, bold=True),
        Text(left + width(words, BODY, bold=True) + 12, cell.top + 52, size, SMALL),
        Text(left, cell.top + 92, fit(f"{one.circuit.number} {one.circuit.title}", room), SMALL),
    ]
    if mark:
        marks.append(Text(right, cell.top + 52, mark, SMALL, anchor="end", colour=QUIET))
    desc = f"{one.circuit.number} {one.circuit.title} {size}; opening times: {one.source}"
    return Group(f"{device.designation}-heading", words, desc, tuple(marks), layer=3)


def grid(one: Characteristic, made: Plot) -> Group:
    """Decades as lines; on a short axis 2 and 5 between them too."""
    low, high = made.x.low, made.x.high
    short = high / low < 10**LONG_DECADES
    tens = axes.decades(low, high)
    extra = [v for v in axes.between(low, high) if short and f"{v:e}"[0] in "25"]
    named = plot.apart(made.x, extra, amps_tick, beside=tens)
    x = [(v, amps_tick(v)) for v in sorted((*tens, *named))]
    x += [(v, "") for v in axes.between(low, high) if v not in named]
    y = [(v, seconds_tick(v)) for v in axes.decades(made.y.low, made.y.high)]
    return plot.grid(made, f"{one.device.designation}-axes", x=x, y=y, titles=("A", "opens after"))


def band(one: Characteristic, made: Plot) -> Iterator[Group]:
    """Between the soonest and the latest opening, and both edges."""
    name, least, most = one.device.designation, data.soonest(one), data.latest(one)
    if least and most:
        outline = (*plot.points(made, least), *reversed(plot.points(made, raised(most))))
        fill = Stroke(plot.region(outline, made.box), 0.0, "none", BAND_INNER, closed=True)
        yield Group(f"{name}-band", f"{name} may open", "Between soonest and latest", (fill,), layer=1)
    for which, path, words in (("soonest", least, "opens no sooner"), ("latest", most, "opens no later")):
        if path:
            strokes = plot.line(plot.points(made, path), made.box, thick=4.0, colour=DEVICE)
            yield Group(f"{name}-{which}", f"{name} {words}", pairs(gates(path)), strokes)


def raised(path: Path) -> Path:
    """A line carried up as high as the earliest line may reach, so that the band closes above the field."""
    amps, time = path[0]
    return ((amps, max(time, 1e6)), *path)


def gates(path: Path) -> Path:
    """What the table says, without the ends that were carried on."""
    return path[:-1]


def pairs(path: Path) -> str:
    return "; ".join(f"{show.amps(a)}: {seconds(t)}" for a, t in path)


def load(one: Characteristic, made: Plot) -> Iterator[Group]:
    name = one.device.designation
    path = data.profile(one)
    if not path:
        return
    strokes = plot.line(plot.points(made, path), made.box, thick=7.0, colour=LOAD)
    yield Group(f"{name}-load", f"{name} carries", pairs(path), strokes)
    if one.usual_a is not None:
        up = ((one.usual_a, VALID), (one.usual_a, data.SLOWEST_S))
        dash = plot.line(plot.points(made, up), made.box, colour=LOAD, dash=DASHES["usual"])
        yield Group(f"{name}-usual", f"{name} carries as a rule", show.amps(one.usual_a), dash)


VALID = data.VALID_S


def conductor(one: Characteristic, made: Plot) -> Iterator[Group]:
    name, wire = one.device.designation, one.wire
    if wire is None:
        return
    marks: list[Mark] = []
    for path, dash in (
        (data.lasting(wire), DASHES["damage"]),
        (data.beyond(wire), DASHES["beyond"]),
        (data.damage(wire), DASHES["damage"]),
    ):
        marks += plot.line(plot.points(made, path), made.box, thick=4.0, colour=WIRE, dash=dash)
    carries = f"carries {show.amps(wire.carries_a)}; " if wire.carries_a is not None else ""
    desc = f"{carries}stands {show.plain(data.stands_a(wire, 1.0), 0)} A for 1 s, k = {show.plain(wire.k, 1)}"
    yield Group(f"{name}-conductor", f"{name} conductor {show.size(wire.conductor)}", desc, tuple(marks))


def faults(one: Characteristic, made: Plot) -> Iterator[Group]:
    """Both dead shorts, from below up to the time by which the device must have opened."""
    for which, amps in (("near", one.near_a), ("far", one.far_a)):
        if amps is not None:
            up = ((amps, data.FASTEST_S), (amps, VALID))
            strokes: tuple[Mark, ...] = plot.line(
                plot.points(made, up), made.box, colour=FAULT, dash=DASHES["short"]
            )
            strokes = (*strokes, *dot(one, made, amps))
            title = f"{one.device.designation} dead short at the {which} end"
            yield Group(f"{one.device.designation}-{which}", title, cleared(one, amps), strokes)


def dot(one: Characteristic, made: Plot, amps: float) -> Iterator[Round]:
    """Where it is open for certain, if that is on the chart."""
    longest = data.opens_s(one, amps)[1]
    if longest is not None and longest >= data.FASTEST_S:
        x, y = plot.point(made, amps, longest)
        yield Round(x, y, 9.0, 0.0, FAULT, FAULT)


def cleared(one: Characteristic, amps: float) -> str:
    longest = data.opens_s(one, amps)[1]
    if longest is None:
        return f"{show.amps(amps)}, which need not open it"
    return f"{show.amps(amps)}, open within {seconds(longest)}"


# ------------------------------------------------------------------------------------ names


def names(one: Characteristic, made: Plot, drawn: Sequence[Group]) -> Iterator[Group]:
    """The names of all lines, the ones with least room first."""
    lines = [group for group in drawn if group.layer == 2]
    yield naming.group(f"{one.device.designation}-names", wishes(one, made), made.box, lines)


def wishes(one: Characteristic, made: Plot) -> Iterator[Wanted]:
    for which, amps in (("far", one.far_a), ("near", one.near_a)):
        if amps is not None:
            along = spread(made, ((amps, VALID), (amps, data.FASTEST_S)))
            yield Wanted(f"{which} end {show.plain(amps, 0)} A", along, FAULT, left=which == "far")
    for start in one.starts[:2]:
        along = spread(made, ((start.amps, start.for_s), (start.amps, data.FASTEST_S)))
        yield Wanted(f"start {show.amps(start.amps)}, {seconds(start.for_s)}", along, LOAD)
    if data.profile(one):
        longest = max((start.for_s for start in one.starts), default=data.FASTEST_S)
        stays = spread(made, ((one.design_a, data.SLOWEST_S / 2), (one.design_a, longest * 2)))
        yield Wanted(f"load {show.amps(one.design_a)}", stays, LOAD)
    if one.usual_a is not None:
        usual = spread(made, ((one.usual_a, data.SLOWEST_S / 2), (one.usual_a, VALID)))
        yield Wanted(f"usual {show.amps(one.usual_a)}", usual, LOAD)
    for path, words in ((data.latest(one), "no later"), (data.soonest(one), "no sooner")):
        if path:
            yield Wanted(words, spread(made, path), DEVICE)
    yield from of_wire(one, made)


def of_wire(one: Characteristic, made: Plot) -> Iterator[Wanted]:
    if one.wire is None:
        return
    if one.wire.carries_a is not None:
        yield Wanted(
            f"wire carries {show.amps(one.wire.carries_a)}", spread(made, data.lasting(one.wire)), WIRE
        )
    along = (*spread(made, data.damage(one.wire)), *spread(made, data.beyond(one.wire)))
    yield Wanted("wire damage", along, WIRE)


def spread(made: Plot, path: Path, every: float = 15.0) -> tuple[Point, ...]:
    """Points along a line within the field, from its start, never far apart."""
    found: list[Point] = []
    for piece in plot.clipped(plot.points(made, path), made.box):
        for a, b in pairwise(piece):
            count = max(1, round(max(abs(b[0] - a[0]), abs(b[1] - a[1])) / every))
            found += [
                (a[0] + (b[0] - a[0]) * n / count, a[1] + (b[1] - a[1]) * n / count) for n in range(count)
            ]
        found.append(piece[-1])
    return tuple(found)
