"""The picture of the layout sheet: places in columns from front to rear, runs between them in lanes of their own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from buildspec.drawings import looms_boxes, looms_columns, placement, routing, supply_squeeze
from buildspec.drawings.looms_boxes import EDGE, PORT_STEP, Leg
from buildspec.drawings.marks import Box, Group, Point, Stroke, Text
from buildspec.drawings.measure import SMALL
from buildspec.drawings.palette import INK, PAPER, QUIET
from buildspec.drawings.routing import Net
from buildspec.drawings.strands import Scene
from buildspec.looms import runs
from buildspec.model import Resolved

MOST_COLUMNS = 5
LEAST_BOX, MOST_BOX = 240.0, 440.0
LANE = 40.0
THROUGH = 64.0
"""Height that a run takes where it passes a column."""
BETWEEN = 40.0
"""From box to box in a column, at the least what the engine is asked for."""
TAG_DROP = 8.0
"""Ends stand a little below the middle of a box: their labels are above them."""
HALO = 10.0
STATIONS = "lengths in the boxes: behind the front axle, − ahead of it"
MOST_STRETCH = 1.5
HEAD = 44.0
"""For the words above the columns."""


class Layout(NamedTuple):
    """Columns of places, and what is between them."""

    columns: tuple[tuple[str, ...], ...]
    column: Mapping[str, int]
    width: float
    """Of a box."""
    gaps: tuple[float, ...]
    """After each column."""
    tag: float
    """Of the widest label of a run."""


def layout(scene: Scene, legs: Sequence[Leg], room: float) -> Layout:
    """As many columns as leave each box its width."""
    at_m = looms_columns.stations(scene.sized.build)
    for most in range(MOST_COLUMNS, 0, -1):
        made = looms_columns.columns(at_m, most)
        column = {name: n for n, names in enumerate(made) for name in names}
        tag = max([0.0, *(looms_boxes.tag_width(scene, leg) for leg in legs)]) + 20
        gaps = tuple(gap(legs, column, n, tag) for n in range(len(made)))
        wide = (room - sum(gaps)) / max(1, len(made))
        if wide >= LEAST_BOX or most == 1:
            break
    return Layout(tuple(map(tuple, made)), column, min(MOST_BOX, wide), gaps, tag)


def ends(leg: Leg, column: Mapping[str, int]) -> tuple[int, int]:
    """First and last column of a run."""
    a, b = column[leg.loom.run.a], column[leg.loom.run.b]
    return min(a, b), max(a, b)


def gap(legs: Sequence[Leg], column: Mapping[str, int], n: int, tag: float) -> float:
    """Room after a column: lanes, labels of runs that turn back, labels of runs that arrive."""
    spans = [ends(leg, column) for leg in legs]
    crossing = sum(a <= n < b for a, b in spans)
    turning = sum(a == b == n for a, b in spans)
    arriving = sum(b == n + 1 and a <= n for a, b in spans)
    if not crossing + turning:
        return 0.0 if n == max(column.values(), default=0) else LANE
    return (tag if turning else 20.0) + LANE * (crossing + turning + 1) * 0.7 + (tag if arriving else 20.0)


def sides(scene: Scene, legs: Sequence[Leg], at: Layout) -> dict[str, tuple[list[str], list[str]]]:
    """Place → keys of the runs at its left and at its right."""
    made: dict[str, tuple[list[str], list[str]]] = {name: ([], []) for name in at.column}
    for leg in legs:
        run = leg.loom.run
        for here, other in ((run.a, run.b), (run.b, run.a)):
            left = at.column[other] < at.column[here]
            made[here][0 if left else 1].append(leg.number)
    return made


def heights(
    scene: Scene, legs: Sequence[Leg], at: Layout, room: float
) -> tuple[dict[str, float], dict[str, float]]:
    """(middle, height) of every place and of every passage of a run through a column."""
    build, busy = scene.sized.build, sides(scene, legs, at)
    high = {n: looms_boxes.height(build, n, at.width, max(map(len, busy[n]))) for n in at.column}
    ranks = dict(at.column)
    edges: list[placement.Edge] = []
    for leg in legs:
        first, last = ends(leg, at.column)
        chain = chained(leg, at.column)
        for n, key in zip(range(first + 1, last), chain[1:-1], strict=True):
            high[key], ranks[key] = THROUGH, n
        edges += [placement.Edge(a, b, 2) for a, b in pairwise(chain)] if first != last else []
    nodes = [placement.Node(key, ranks[key], at.width, high[key]) for key in high]
    middles = placement.place(nodes, edges, BETWEEN)
    columns = [{k: high[k] for k in high if ranks[k] == n} for n in range(len(at.columns))]
    return topped(supply_squeeze.squeezed(columns, middles, room), high), high


def topped(middles: Mapping[str, float], high: Mapping[str, float]) -> dict[str, float]:
    """The same picture with its top at 0."""
    top = min((middles[k] - high[k] / 2 for k in high), default=0.0)
    return {key: float(round(y - top)) for key, y in middles.items()}


def rank(key: str, at: Layout) -> int:
    """Column of a place, or of the passage of a run."""
    return at.column[key] if key in at.column else int(key.rpartition(":")[2])


def chained(leg: Leg, column: Mapping[str, int]) -> list[str]:
    """Keys that a run passes from left to right: its front end, each passage, its rear end."""
    first, last = ends(leg, column)
    run = leg.loom.run
    a, b = (run.a, run.b) if column[run.a] <= column[run.b] else (run.b, run.a)
    return [a, *(f"{leg.number}:{n}" for n in range(first + 1, last)), b]


def extent(middles: Mapping[str, float], high: Mapping[str, float]) -> float:
    return max((middles[k] + high[k] / 2 for k in high), default=0.0)


def ports(
    legs: Sequence[Leg], at: Layout, middles: Mapping[str, float], high: Mapping[str, float]
) -> dict[tuple[str, str, int], float]:
    """(run, key, side) → height of its end, ordered by where it goes; side 0 is the left."""
    wanted: dict[tuple[str, int], list[tuple[int, float, str]]] = {}
    for leg in legs:
        chain = chained(leg, at.column)
        back = len(chain) == 2 and at.column[chain[0]] == at.column[chain[1]]
        for a, b in pairwise(chain):
            wanted.setdefault((a, 1), []).append(aim(middles[a], middles[b], leg.number, back=back))
            side = 1 if back else 0
            wanted.setdefault((b, side), []).append(aim(middles[b], middles[a], leg.number, back=back))
    made: dict[tuple[str, str, int], float] = {}
    for (key, side), found in wanted.items():
        found.sort()
        step = min(PORT_STEP, (high[key] - EDGE) / len(found))
        first = middles[key] - step * (len(found) - 1) / 2
        for n, (_, _, number) in enumerate(found):
            made[number, key, side] = first + step * n + (TAG_DROP if high[key] > THROUGH else 0.0)
    return made


def aim(here: float, there: float, number: str, *, back: bool) -> tuple[int, float, str]:
    """Sorts the ends on one side of a box so that runs which turn back lie inside one another."""
    return (2 if there > here else 0, -there, number) if back else (1, there, number)


def picture(
    scene: Scene, legs: Sequence[Leg], at: Layout, area: Box, room: float, *, alone: bool
) -> tuple[tuple[Group, ...], float]:
    """(groups, height) of the picture in an area no higher than `room`; spread out where it has the sheet alone."""
    middles, high = heights(scene, legs, at, room - HEAD)
    if alone:
        factor = min(MOST_STRETCH, (room - HEAD - 20) / max(1.0, extent(middles, high)))
        middles = topped({key: y * factor for key, y in middles.items()}, high) if factor > 1 else middles
    lift = area.top + HEAD
    middles = {key: y + lift for key, y in middles.items()}
    lefts = [area.left + sum(at.gaps[:n]) + at.width * n for n in range(len(at.columns))]
    made: list[Group] = [ahead(scene, area)]
    for name, n in at.column.items():
        y, half = middles[name], high[name] / 2
        made.append(looms_boxes.drawn(scene, name, Box(lefts[n], y - half, lefts[n] + at.width, y + half)))
    made += drawn(scene, legs, at, lefts, ports(legs, at, middles, high))
    return tuple(made), HEAD + extent({k: y - lift for k, y in middles.items()}, high)


def ahead(scene: Scene, area: Box) -> Group:
    middle, y = (area.left + area.right) / 2, area.top + 24
    stated = any(place.station_m is not None for place in scene.sized.build.places.values())
    marks = (
        Text(area.left, y, "← front", SMALL, True, colour=QUIET),
        *((Text(middle, y, STATIONS, anchor="middle", colour=QUIET),) if stated else ()),
        Text(area.right, y, "rear →", SMALL, True, "end", QUIET),
    )
    return Group(scene.id("ahead"), "front and rear", "front of the vehicle at the left", marks, layer=3)


def drawn(
    scene: Scene,
    legs: Sequence[Leg],
    at: Layout,
    lefts: Sequence[float],
    found: Mapping[tuple[str, str, int], float],
) -> list[Group]:
    """Every run with its label."""
    lanes: dict[str, float] = {}
    for n, nets in enumerate(nets_of(legs, at, found)):
        left, right = lefts[n] + at.width, lefts[n] + at.width + at.gaps[n]
        turning = any(not net.right for net in nets)
        arriving = any(not net.key.endswith(":on") for net in nets if net.right)
        start = left + (at.tag if turning else 20.0)
        lanes |= routing.lane_positions(nets, start, right - (at.tag if arriving else 20.0))
    made: list[Group] = []
    for leg in legs:
        made += one(scene, leg, at, lefts, found, lanes)
    return made


def nets_of(legs: Sequence[Leg], at: Layout, found: Mapping[tuple[str, str, int], float]) -> list[list[Net]]:
    """What passes the gap after each column; `:on` ends the key of a run that goes on through the next one."""
    made: list[list[Net]] = [[] for _ in at.columns]
    for leg in legs:
        first, last = ends(leg, at.column)
        chain = chained(leg, at.column)
        if first == last:
            heights = tuple(found[leg.number, key, 1] for key in chain)
            made[first].append(Net(leg.number, heights, ()))
        for n, (a, b) in enumerate(pairwise(chain) if first != last else ()):
            on = "" if first + n + 1 == last else f"/{n}:on"
            made[first + n].append(
                Net(f"{leg.number}{on}", (found[leg.number, a, 1],), (found[leg.number, b, 0],))
            )
    return made


def one(
    scene: Scene,
    leg: Leg,
    at: Layout,
    lefts: Sequence[float],
    found: Mapping[tuple[str, str, int], float],
    lanes: Mapping[str, float],
) -> tuple[Group, Group]:
    """The line of a run, and its label."""
    first, last = ends(leg, at.column)
    chain = chained(leg, at.column)
    half = looms_boxes.half_width(leg)
    if first == last:
        edge, lane = lefts[first] + at.width, lanes[leg.number]
        upper, lower = sorted(found[leg.number, key, 1] for key in chain)
        points: tuple[Point, ...] = ((edge, upper), (lane, upper), (lane, lower), (edge, lower))
        label = looms_boxes.tag(scene, leg, edge + 10, upper, half)
    else:
        steps: list[Point] = []
        for n, (a, b) in enumerate(pairwise(chain)):
            on = "" if first + n + 1 == last else f"/{n}:on"
            start = (lefts[first + n] + at.width, found[leg.number, a, 1])
            end = (lefts[first + n + 1], found[leg.number, b, 0])
            steps += routing.way(start, lanes.get(f"{leg.number}{on}"), end)
        points = tuple(dict.fromkeys(steps))
        x = lefts[last] - 10 - looms_boxes.tag_width(scene, leg)
        label = looms_boxes.tag(scene, leg, x, found[leg.number, chain[-1], 0], half)
    return (line(scene, leg, points, half), label)


def line(scene: Scene, leg: Leg, points: tuple[Point, ...], half: float) -> Group:
    """A dark line as thick as its loom; thin and dashed where nothing lies in it."""
    lying = bool(leg.loom.lying)
    marks = (
        Stroke(points, 2 * half + HALO, PAPER),
        Stroke(points, 2 * half, INK, dash="" if lying else "12 8"),
    )
    title = f"{leg.number} · {looms_boxes.run_words(scene, leg)}"
    count = len(leg.circuits.split())
    desc = f"{looms_boxes.length(scene, leg)}, {count} circuits, {len(leg.loom.lying)} wires"
    return Group(scene.id(leg.number), title, desc, marks, leg.circuits, layer=1)


def legs_of(build: Resolved, looms: Sequence[runs.Loom]) -> tuple[Leg, ...]:
    """Runs numbered in the order of the spec."""
    return tuple(Leg(runs.number(build, loom.run), loom) for loom in looms)
