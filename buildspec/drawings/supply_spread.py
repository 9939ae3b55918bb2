"""Where everything of a supply page stands: the engine's heights, made straight, and the columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from buildspec.drawings import graph, placement, routing, rows, supply_squeeze, units
from buildspec.drawings.graph import (
    DEVICE_WIDTH,
    LEAST_DEVICE,
    LEAST_TARGET,
    SOURCE_WIDTH,
    TARGET_WIDTH,
    Graph,
    Strip,
    Thing,
)
from buildspec.drawings.marks import Box
from buildspec.drawings.rows import Slot
from buildspec.drawings.strands import Scene
from buildspec.drawings.supply_foot import foot_height
from buildspec.drawings.units import Leaf
from buildspec.model import Circuit

LANE = 100.0


LEAST_LANE = 56.0
POST_STEP, LANE_STEP = 16.0, 36.0


MOST_STRETCH = 1.35


SLACK = 80.0
"""Height kept for things to move when conductors are made straight."""


MOST_TOP = 260.0
"""Of the spare height, above the drawing."""


CLEAR = 18.0


NUDGE = 60.0
"""How far a battery moves to bring its post level with a conductor."""


PORT_GAP = 56.0


FLAG_INSET = 16.0


PORT_INSET, PORT_STEP = 28.0, 6.0


class Spread(NamedTuple):
    """Where everything of a page stands."""

    graph: Graph
    heights: Mapping[str, float]
    """Key → middle."""
    left: tuple[float, float, float, float]
    """Left edges of the four columns."""
    number: float
    slots: dict[str, Slot]
    right: float
    """Right edge of column 1."""
    widths: tuple[float, float, float, float]


def placed(scene: Scene, leaf: Leaf, area: Box) -> tuple[Graph, dict[str, float]]:
    """A page as the layout engine places it, moved into the area and spread out a little where there is room."""
    found = graph.graph(scene, leaf)
    columns = graph.number_width(found.strips) + sum(graph.strip_widths(scene, found.strips).values())
    joining = sum(1 for t in found.things if t.kind in ("device", "tie"))
    lanes = 3 * LANE if joining < 2 else area.right - area.left
    found = graph.with_words(scene, found, cut_to(area.right - area.left - SOURCE_WIDTH - columns, lanes)[0])
    nodes, edges = graph.engine_graph(scene, found)
    room = area.bottom - area.top
    heights = supply_squeeze.squeezed(boxes(found), placement.place(nodes, edges, graph.STRIP_GAP), room - 2)
    top, bottom = extent(found, heights)
    factor = max(1.0, min(MOST_STRETCH, (room - SLACK) / max(1.0, bottom - top)))
    grown = found._replace(things=tuple(taller(found, t, factor) for t in found.things))
    spread_out = {key: y * factor for key, y in heights.items()}
    top, bottom = extent(grown, spread_out)
    moved = aligned(grown, spread_out, (top, max(bottom, top + room)))
    top, bottom = extent(grown, moved)
    spare = max(0.0, room - (bottom - top))
    return grown, {
        key: float(round(y - top + area.top + min(spare / 3, MOST_TOP))) for key, y in moved.items()
    }


def taller(found: Graph, thing: Thing, factor: float) -> Thing:
    """A device that still spans its conductors when they are spread out."""
    if thing.kind != "device":
        return thing
    arriving = sum(1 for s in found.strips if s.target == thing.key)
    return thing._replace(
        height=thing.height + (factor - 1) * (arriving - 1) * (graph.STRIP + graph.STRIP_GAP)
    )


def boxes(found: Graph) -> list[dict[str, float]]:
    """Heights of the boxes of each column, strips being one."""
    columns = [{t.key: t.height for t in found.things if t.rank == rank} for rank in (0, 2, 3)]
    return [*columns, {f"strip {s.key}": graph.STRIP for s in found.strips}]


def extent(found: Graph, heights: Mapping[str, float]) -> tuple[float, float]:
    """Top and bottom of a placed page."""
    each = [(heights[key], high) for column in boxes(found) for key, high in column.items()]
    return min((y - h / 2 for y, h in each), default=0), max((y + h / 2 for y, h in each), default=0)


def inside(scene: Scene, area: Box, *, first: bool) -> Box:
    """The part of a page for the drawing itself; the first page has a foot."""
    foot_room = foot_height(scene, area) if first else 24
    return Box(area.left + 30, area.top + 48, area.right - 24, area.bottom - foot_room)


def pages(scene: Scene, circuits: Sequence[Circuit], direct: Sequence[str], area: Box) -> tuple[Leaf, ...]:
    """The pages of the supply: on each one as many units as fit in height."""
    build = scene.sized.build
    waiting = list(units.units(build, circuits, direct))
    made: list[Leaf] = []
    while waiting or not made:
        inner = inside(scene, area, first=not made)
        room = inner.bottom - inner.top
        count = len(waiting)
        while count > 1:
            high = page_height(scene, units.leaf(build, waiting[:count], circuits, made), inner)
            if high <= room:
                break
            count -= max(1, int(count * (1 - room / high) * 0.5))
        made.append(units.leaf(build, waiting[:count], circuits, made))
        waiting = waiting[count:]
    return tuple(made)


def page_height(scene: Scene, leaf: Leaf, inner: Box) -> float:
    """Height that a page takes; the engine is not asked where its columns alone are too high."""
    least = supply_squeeze.least(boxes(graph.graph(scene, leaf)))
    if least > inner.bottom - inner.top:
        return least
    top, bottom = extent(*placed(scene, leaf, inner))
    return bottom - top


def aligned(found: Graph, heights: Mapping[str, float], ends: tuple[float, float]) -> dict[str, float]:
    """Things move a little, as far as nothing is in the way, so that conductors run straight."""
    made = dict(heights)
    for thing in sorted(found.things, key=lambda t: t.rank):
        here, wanted = made[thing.key], wish(found, made, thing)
        others = [
            (made[t.key], (t.height + thing.height) / 2 + CLEAR)
            for t in found.things
            if t.rank == thing.rank and t.key != thing.key
        ]
        lowest = max((y + room for y, room in others if y < here), default=ends[0] + thing.height / 2)
        highest = min((y - room for y, room in others if y >= here), default=ends[1] - thing.height / 2)
        made[thing.key] = max(min(wanted, max(highest, here)), min(lowest, here))
    return made


def wish(found: Graph, heights: Mapping[str, float], thing: Thing) -> float:
    """The height at which the conductors of a thing run straightest."""
    here = heights[thing.key]
    before = [heights[f"strip {s.key}"] for s in found.strips if s.target == thing.key]
    before += [heights[a] for a, b in found.links if b == thing.key]
    if thing.kind == "device":
        return (min(before) + max(before)) / 2 + (thing.foot - thing.head) / 2
    if thing.kind == "battery":
        leaving = [heights[f"strip {s.key}"] for s in found.strips if s.source == thing.key]
        port_y = here - thing.height / 2 + port_offset(thing)
        near = min(leaving, key=lambda y: abs(y - port_y), default=port_y)
        return here + near - port_y if abs(near - port_y) < NUDGE else here
    return before[0] + thing.height / 2 - port_offset(thing) if before else here


def port_offset(thing: Thing) -> float:
    """From the top of a thing to the height of its conductor."""
    if thing.kind == "battery":
        return thing.head + 46
    if thing.kind == "alternator":
        return thing.head + 22
    if thing.kind in ("signal", "node"):
        return thing.head + (thing.height - thing.head) / 2
    return thing.head + 40 if thing.kind == "load" else thing.height / 2


def port(at: Spread, thing: Thing) -> float:
    """Height of its conductor; a flag takes it where it comes, as far as its edge goes."""
    middle = at.heights[thing.key]
    if thing.kind == "flag":
        reach = thing.height / 2 - FLAG_INSET
        before = [at.heights[a] for a, b in at.graph.links if b == thing.key]
        return max(middle - reach, min(before[0], middle + reach)) if before else middle
    return middle - thing.height / 2 + port_offset(thing)


def spread(scene: Scene, found: Graph, heights: Mapping[str, float], area: Box) -> Spread:
    """Columns between the edges of the page; what room is left goes to lanes and conductors."""
    columns = graph.strip_widths(scene, found.strips)
    number = graph.number_width(found.strips)
    strip = number + sum(columns.values())
    lanes = lanes_wanted(found, heights)
    room = area.right - area.left - SOURCE_WIDTH - strip
    device, target = cut_to(room, sum(lanes))
    spare = room - device - target - sum(lanes)
    wires = max(1, sum(1 for name in columns if name.startswith(("wire", "lead"))))
    extra = min(40.0, max(0.0, spare) * 0.5 / wires)
    gaps = [lane + (spare - extra * wires) / 3 for lane in lanes]
    first = area.left + SOURCE_WIDTH + gaps[0]
    slots = rows.placed(columns, first + number, extra)
    right = max([first + number, *(s.left + s.width for s in slots.values())])
    left = (area.left, first, right + gaps[1], area.right - target)
    return Spread(found, heights, left, first, slots, right, (SOURCE_WIDTH, right - first, device, target))


def lanes_wanted(found: Graph, heights: Mapping[str, float]) -> tuple[float, float, float]:
    """Room between the columns for a lane of each conductor that bends there."""
    things = {t.key: t for t in found.things}
    bent = sum(1 for s in found.strips if bends(found, heights, s, things[s.target]))
    posts = sum(1 for t in found.things if t.rank == 0)
    return LEAST_LANE + posts * POST_STEP, LEAST_LANE + bent * LANE_STEP, LEAST_LANE


def bends(found: Graph, heights: Mapping[str, float], strip: Strip, thing: Thing) -> bool:
    """Does a strip arrive at another height than it leaves?"""
    if thing.kind not in ("device", "tie"):
        return abs(heights[f"strip {strip.key}"] - heights[thing.key]) > 0.5
    top = heights[thing.key] - thing.height / 2 + thing.head + PORT_INSET
    bottom = heights[thing.key] + thing.height / 2 - thing.foot - PORT_INSET
    return not top <= heights[f"strip {strip.key}"] <= bottom


def cut_to(room: float, lanes: float) -> tuple[float, float]:
    """Widths of devices and of what is fed, beside lanes: what is fed is cut first where a page is narrow."""
    over = DEVICE_WIDTH + TARGET_WIDTH + lanes - room
    target = max(LEAST_TARGET, TARGET_WIDTH - max(0.0, over))
    over = DEVICE_WIDTH + target + lanes - room
    return max(LEAST_DEVICE, DEVICE_WIDTH - max(0.0, over)), target


def box_of(at: Spread, thing: Thing) -> Box:
    """The whole cell of a thing."""
    wide, left, y = at.widths[thing.rank], at.left[thing.rank], at.heights[thing.key]
    return Box(left, y - thing.height / 2, left + wide, y + thing.height / 2)


def body_of(at: Spread, thing: Thing) -> Box:
    """The card of a battery or a device: without headroom and without the return below."""
    box = box_of(at, thing)
    return Box(box.left, box.top + thing.head, box.right, box.bottom - thing.foot)


def ports(at: Spread, thing: Thing) -> tuple[tuple[Strip, float], ...]:
    """The strips of a device from top to bottom, each with its height on the card: straight where that fits."""
    mine = sorted(
        (s for s in at.graph.strips if s.target == thing.key), key=lambda s: at.heights[f"strip {s.key}"]
    )
    box = body_of(at, thing)
    made: list[tuple[Strip, float]] = []
    low = box.top + PORT_INSET
    for index, strip in enumerate(mine):
        high = box.bottom - PORT_INSET - PORT_GAP * (len(mine) - 1 - index)
        y = clear_height(at, strip, (low, high))
        made.append((strip, y))
        low = y + PORT_GAP
    return tuple(made)


def clear_height(at: Spread, strip: Strip, ends: tuple[float, float]) -> float:
    """Height of a port: the strip's own, or the nearest one between the ends that is level with no other strip."""
    own = at.heights[f"strip {strip.key}"]
    wanted = float(round(min(max(own, ends[0]), ends[1])))
    if wanted == own:
        return wanted
    others = [at.heights[f"strip {s.key}"] for s in at.graph.strips if s.key != strip.key]
    steps = [wanted + PORT_STEP * n for n in range(-20, 21) if ends[0] <= wanted + PORT_STEP * n <= ends[1]]
    free = [y for y in steps if all(abs(y - other) > routing.NEAR for other in others)]
    return min(free, key=lambda y: (abs(y - wanted), y), default=wanted)
