"""The supply sheet: placed by the layout engine, routed here, drawn with the same strands as every sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from buildspec.drawings import cards, labels, loads, placement, routing, rows, strands, symbols, units
from buildspec.drawings.marks import Box, Group, Line, Mark, Point, Rect, Round, Stroke, Text
from buildspec.drawings.measure import SMALL, fit, wrap
from buildspec.drawings.palette import BAND, HEAVY, INK, LINE, QUIET
from buildspec.drawings.rows import Slot
from buildspec.drawings.strands import Scene
from buildspec.drawings.units import DEVICE_WIDTH, HEADROOM, RETURN, SOURCE_WIDTH, TARGET_WIDTH, Graph, Leaf, Strip, Thing
from buildspec.model import Circuit

LANE = 100.0
LEAST_LANE = 60.0
LEAST_DEVICE, LEAST_TARGET = 420.0, 400.0
MOST_STRETCH = 1.35
SLACK = 80.0
"""Height kept for things to move when conductors are made straight."""
MOST_TOP = 40.0
"""Of the spare height, above the drawing."""
CLEAR = 22.0
CONTACT_INSET = 70.0
"""From the edge of column 2 to a contact in it."""
NUDGE = 60.0
"""How far a battery moves to bring its post level with a conductor."""
PORT_GAP = 56.0
PORT_INSET = 28.0
FOOT_LINE = 34.0


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
    found = units.graph(scene, leaf)
    columns = units.number_width(found.strips) + sum(units.strip_widths(scene, found.strips).values())
    found = units.with_words(scene, found, cut_to(area.right - area.left - SOURCE_WIDTH - columns)[0])
    nodes, edges = units.engine_graph(scene, found)
    heights = placement.place(nodes, edges, units.STRIP_GAP)
    top, bottom = extent(found, heights)
    room = area.bottom - area.top
    factor = max(1.0, min(MOST_STRETCH, (room - SLACK) / max(1.0, bottom - top)))
    grown = found._replace(things=tuple(taller(found, t, factor) for t in found.things))
    spread_out = {key: y * factor for key, y in heights.items()}
    top, bottom = extent(grown, spread_out)
    moved = aligned(grown, spread_out, (top, max(bottom, top + room)))
    top, bottom = extent(grown, moved)
    spare = max(0.0, room - (bottom - top))
    return grown, {key: float(round(y - top + area.top + min(spare / 2, MOST_TOP))) for key, y in moved.items()}


def taller(found: Graph, thing: Thing, factor: float) -> Thing:
    """A device that still spans its conductors when they are spread out."""
    if thing.kind != "device":
        return thing
    arriving = sum(1 for s in found.strips if s.target == thing.key)
    return thing._replace(height=thing.height + (factor - 1) * (arriving - 1) * (units.STRIP + units.STRIP_GAP))


def extent(found: Graph, heights: Mapping[str, float]) -> tuple[float, float]:
    """Top and bottom of a placed page."""
    boxes = [(heights[t.key], t.height) for t in found.things]
    boxes += [(heights[f"strip {s.key}"], units.STRIP) for s in found.strips]
    return min((y - h / 2 for y, h in boxes), default=0), max((y + h / 2 for y, h in boxes), default=0)


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
            top, bottom = extent(*placed(scene, units.leaf(build, waiting[:count], circuits, made), inner))
            if bottom - top <= room:
                break
            count -= max(1, int(count * (1 - room / (bottom - top)) * 0.5))
        made.append(units.leaf(build, waiting[:count], circuits, made))
        waiting = waiting[count:]
    return tuple(made)


def draw(scene: Scene, leaf: Leaf, area: Box) -> tuple[Group, ...]:
    """One supply page."""
    inner = inside(scene, area, first=leaf.first)
    at = spread(scene, *placed(scene, leaf, inner), inner)
    made: list[Group] = [*bands(scene, at)]
    made += sources(scene, at, leaf)
    made += targets(scene, at)
    made += wires(scene, at)
    return (*made, *(foot(scene, area) if leaf.first else ()))


def aligned(found: Graph, heights: Mapping[str, float], ends: tuple[float, float]) -> dict[str, float]:
    """Things move a little, as far as nothing is in the way, so that conductors run straight."""
    made = dict(heights)
    for thing in sorted(found.things, key=lambda t: t.rank):
        here, wanted = made[thing.key], wish(found, made, thing)
        others = [(made[t.key], (t.height + thing.height) / 2 + CLEAR) for t in found.things if t.rank == thing.rank and t.key != thing.key]
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
        below = RETURN if returned(found, thing) else 0
        return (min(before) + max(before)) / 2 + (below - HEADROOM) / 2
    if thing.kind == "battery":
        leaving = [heights[f"strip {s.key}"] for s in found.strips if s.source == thing.key]
        port_y = here - thing.height / 2 + port_offset(thing)
        near = min(leaving, key=lambda y: abs(y - port_y), default=port_y)
        return here + near - port_y if abs(near - port_y) < NUDGE else here
    return before[0] + thing.height / 2 - port_offset(thing) if before else here


def port_offset(thing: Thing) -> float:
    """From the top of a thing to the height of its conductor."""
    if thing.kind == "battery":
        return HEADROOM + 46
    if thing.kind == "alternator":
        return HEADROOM + 22
    if thing.kind in ("signal", "node"):
        return HEADROOM + 54
    return 40 if thing.kind == "load" else thing.height / 2


def port(at: Spread, thing: Thing) -> float:
    return at.heights[thing.key] - thing.height / 2 + port_offset(thing)


def spread(scene: Scene, found: Graph, heights: Mapping[str, float], area: Box) -> Spread:
    """Columns between the edges of the page; what room is left goes to lanes and conductors."""
    columns = units.strip_widths(scene, found.strips)
    number = units.number_width(found.strips)
    strip = number + sum(columns.values())
    device, target, lane = cut_to(area.right - area.left - SOURCE_WIDTH - strip)
    spare = max(0.0, area.right - area.left - SOURCE_WIDTH - strip - device - target - 3 * lane)
    wires = max(1, sum(1 for name in columns if name.startswith(("wire", "lead"))))
    extra = min(40.0, spare * 0.5 / wires)
    lane += (spare - extra * wires) / 3
    first = area.left + SOURCE_WIDTH + lane
    slots = rows.placed(columns, first + number, extra)
    right = max([first + number, *(s.left + s.width for s in slots.values())])
    left = (area.left, first, right + lane, area.right - target)
    return Spread(found, heights, left, first, slots, right, (SOURCE_WIDTH, right - first, device, target))


def cut_to(room: float) -> tuple[float, float, float]:
    """Widths of devices, of what is fed, and of the lanes: cut in this order where a page is narrow."""
    over = DEVICE_WIDTH + TARGET_WIDTH + 3 * LANE - room
    target = max(LEAST_TARGET, TARGET_WIDTH - max(0.0, over))
    over = DEVICE_WIDTH + target + 3 * LANE - room
    device = max(LEAST_DEVICE, DEVICE_WIDTH - max(0.0, over))
    over = device + target + 3 * LANE - room
    return device, target, max(LEAST_LANE, LANE - max(0.0, over) / 3)


def box_of(at: Spread, thing: Thing) -> Box:
    """The whole cell of a thing."""
    wide, left, y = at.widths[thing.rank], at.left[thing.rank], at.heights[thing.key]
    return Box(left, y - thing.height / 2, left + wide, y + thing.height / 2)


def body_of(at: Spread, thing: Thing) -> Box:
    """The card of a battery or a device: without headroom and without the return below."""
    box = box_of(at, thing)
    below = 0.0
    if thing.kind == "battery":
        below = RETURN if thing.circuit else units.OWN
    elif thing.kind == "device" and returned(at.graph, thing):
        below = RETURN
    return Box(box.left, box.top + HEADROOM, box.right, box.bottom - below)


def returned(found: Graph, thing: Thing) -> bool:
    return any(s.circuit.returns for s in found.strips if s.target == thing.key)


# ------------------------------------------------------------------------------- columns 0, 2 and 3


def sources(scene: Scene, at: Spread, leaf: Leaf) -> tuple[Group, ...]:
    made: list[Group] = []
    charged = units.charged(scene.sized.build)
    for thing in at.graph.things:
        y = port(at, thing)
        if thing.kind == "battery":
            made += cards.battery(scene, thing.name, body_of(at, thing), y, thing.circuit, new=thing.name in leaf.new)
        elif thing.kind == "alternator":
            made += cards.alternator(scene, body_of(at, thing), y, charged)
        elif thing.kind in ("signal", "node"):
            made += cards.signal(scene, thing.name, body_of(at, thing), y)
    return tuple(made)


def targets(scene: Scene, at: Spread) -> tuple[Group, ...]:
    build = scene.sized.build
    made: list[Group] = []
    for thing in at.graph.things:
        box = box_of(at, thing)
        if thing.kind == "device":
            mine = list(dict.fromkeys(s.circuit for s in at.graph.strips if s.target == thing.key))
            labelled = [(pin(s), y) for s, y in ports(at, thing)]
            made += cards.device(scene, build.isolation[thing.name], body_of(at, thing), labelled, mine)
        elif thing.kind == "flag" and thing.circuit:
            head, below = loads.flag_words(scene, thing.circuit)
            made.append(loads.reference(scene, f"to-{thing.circuit.target_designation}-{thing.circuit.number}", head, below, box, thing.circuit.number))
        elif thing.kind == "more":
            head = f"Circuits straight from {labels.designation(build, thing.name)}"
            made.append(loads.reference(scene, thing.key, head, f"→ sheet {scene.node_sheet.get(thing.name, '')}", box))
        elif thing.kind == "load" and thing.circuit:
            made += cards.direct_load(scene, thing.circuit, box, port(at, thing))
    return tuple(made)


def pin(strip: Strip) -> str:
    """Terminal of a device at which a strip arrives."""
    wires = [piece.wire for piece in strip.pieces if piece.wire]
    if not wires:
        return ""
    return wires[-1].start.pin if strip.key.endswith(":2") else wires[-1].end.pin


def ports(at: Spread, thing: Thing) -> tuple[tuple[Strip, float], ...]:
    """The strips of a device from top to bottom, each with its height on the card: straight where that fits."""
    mine = sorted((s for s in at.graph.strips if s.target == thing.key), key=lambda s: at.heights[f"strip {s.key}"])
    box = body_of(at, thing)
    made: list[tuple[Strip, float]] = []
    low = box.top + PORT_INSET
    for index, strip in enumerate(mine):
        high = box.bottom - PORT_INSET - PORT_GAP * (len(mine) - 1 - index)
        y = float(round(min(max(at.heights[f"strip {strip.key}"], low), high)))
        made.append((strip, y))
        low = y + PORT_GAP
    return tuple(made)


# --------------------------------------------------------------------------------------- conductors


def source_nets(scene: Scene, at: Spread) -> tuple[routing.Net, ...]:
    """One net for each source: its port, and the height of every strip that leaves it."""
    made: list[routing.Net] = []
    charged = units.charged(scene.sized.build)
    alternator = [port(at, t) for t in at.graph.things if t.kind == "alternator"]
    for thing in at.graph.things:
        if thing.rank != 0 or thing.kind == "alternator":
            continue
        heights = [at.heights[f"strip {s.key}"] for s in at.graph.strips if s.source == thing.key]
        heights += [at.heights[f"pass-{t.key}"] for t in at.graph.things if t.kind == "more" and t.name == thing.name]
        lefts = [port(at, thing), *(alternator if thing.key == charged else ())]
        if heights or len(lefts) > 1:
            made.append(routing.Net(thing.key, tuple(lefts), tuple(heights)))
    return tuple(made)


def bars(scene: Scene, at: Spread, lanes: Mapping[str, float]) -> tuple[Group, ...]:
    """The positive post of each source, drawn out as a bar with a dot for each cable lug."""
    made: list[Group] = []
    edge = at.left[0] + SOURCE_WIDTH
    for net in source_nets(scene, at):
        if net.key not in lanes:
            continue
        x = lanes[net.key]
        battery = net.key in scene.sized.build.batteries
        heavy = HEAVY if battery else LINE
        marks: list[Mark] = [Stroke(((edge, y), (x, y)), heavy) for y in net.left]
        marks.append(Stroke(((x, net.low), (x, net.high)), heavy))
        dots = (*net.right, *(y for y in net.left if net.low < y < net.high))
        marks += [Round(x, y, 6, 1, INK, INK) for y in dots]
        name = labels.designation(scene.sized.build, net.key)
        made.append(Group(scene.id(f"{name}-post"), f"{name} +", "one post, every lug on it", tuple(marks), layer=2))
    return tuple(made)


def wires(scene: Scene, at: Spread) -> tuple[Group, ...]:
    """Posts, strips, and every conductor on to what it feeds."""
    edge = at.left[0] + SOURCE_WIDTH
    posts = routing.lane_positions(source_nets(scene, at), edge + 16, at.left[1] - 16)
    things = {t.key: t for t in at.graph.things}
    arrivals = {s.key: y for t in at.graph.things if t.kind in ("device", "tie") for s, y in ports(at, t)}
    arrivals |= {s.key: at.heights[s.target] for s in at.graph.strips if s.key not in arrivals}
    nets = [routing.Net(s.key, (at.heights[f"strip {s.key}"],), (arrivals[s.key],)) for s in at.graph.strips]
    lanes = routing.lane_positions(nets, at.right + 8, at.left[2] - 12)
    across = [routing.Net(a, (at.heights[a],), (port(at, things[b]),)) for a, b in at.graph.links]
    last = routing.lane_positions(across, at.left[2] + at.widths[2] + 6, at.left[3] - 14)
    made: list[Group] = [*bars(scene, at, posts)]
    for strip in at.graph.strips:
        start = posts.get(strip.source, edge)
        made += strip_row(scene, at, strip, start, tail(at, strip, arrivals[strip.key], lanes.get(strip.key), last))
    made += [g for t in at.graph.things for g in middle(scene, at, t, posts, lanes, arrivals, last)]
    return tuple(made)


def tail(at: Spread, strip: Strip, y: float, lane: float | None, last: Mapping[str, float]) -> tuple[Point, ...]:
    """From the end of a strip to the device or, through column 2, to what is fed."""
    target = next(t for t in at.graph.things if t.key == strip.target)
    edge = at.left[2] + (CONTACT_INSET if target.kind == "contact" else 0)
    first = routing.way((at.right, at.heights[f"strip {strip.key}"]), lane, (edge, y))[1:]
    return (*first, *beyond(at, target, last)) if target.kind == "pass" else first


def beyond(at: Spread, thing: Thing, last: Mapping[str, float]) -> tuple[Point, ...]:
    """From the left of column 2 through it to the thing in column 3."""
    end = next((t for t in at.graph.things if (thing.key, t.key) in at.graph.links), None)
    if end is None:
        return ()
    reach = 24 - loads.reach(end.circuit) if end.kind == "load" and end.circuit else 0
    points = routing.way((at.left[2] + at.widths[2], at.heights[thing.key]), last.get(thing.key), (at.left[3] + reach, port(at, end)))
    return points


def strip_row(scene: Scene, at: Spread, strip: Strip, start: float, points: tuple[Point, ...]) -> tuple[Group, ...]:
    y = at.heights[f"strip {strip.key}"]
    made: list[Group] = []
    if strip.numbered:
        clear = strands.half(scene, strip.circuit) + 5
        marks = strands.pill(at.number + 8, y - clear, strip.circuit.number, number=True)
        made.append(strands.numbered(scene, strip.circuit, marks))
    kind = next(t.kind for t in at.graph.things if t.key == strip.target)
    if kind != "tie":
        return (*made, *rows.row(scene, strip.circuit, strip.pieces, at.slots, y, (start, at.right), points))
    if strip.pieces:
        end = rows.free_end(strip.pieces, at.slots, start)
        drawn = rows.row(scene, strip.circuit, strip.pieces, at.slots, y, (start, end))
        made += [g for g in drawn if not g.id.startswith(scene.id("inner"))]
    return tuple(made)


def middle(
    scene: Scene,
    at: Spread,
    thing: Thing,
    posts: Mapping[str, float],
    lanes: Mapping[str, float],
    arrivals: Mapping[str, float],
    last: Mapping[str, float],
) -> tuple[Group, ...]:
    """What column 2 draws of a circuit: a contact with the conductor after it, a tie's own conductor."""
    circuit = thing.circuit
    if thing.kind == "contact" and circuit:
        y = at.heights[thing.key]
        slots = rows.placed(rows.widths(scene, [(circuit, thing.pieces)]), at.left[2])
        first = rows.named(thing.pieces)[0][0]
        start = at.left[2] + CONTACT_INSET
        slots[first] = Slot(start + symbols.CONTACT_HALF - slots[first].width / 2, slots[first].width)
        ends = (start, at.left[2] + at.widths[2])
        drawn = rows.row(scene, circuit, thing.pieces, slots, y, ends, beyond(at, thing, last)[1:])
        return tuple(g for g in drawn if not g.id.startswith(scene.id("inner")))
    if thing.kind == "more":
        y = at.heights[f"pass-{thing.key}"]
        points: tuple[Point, ...] = ((posts.get(thing.name, at.left[1]), y), (at.left[3] - 40, y), (at.left[3] - 40, at.heights[thing.key]), (at.left[3], at.heights[thing.key]))
        return (Group(scene.id(f"{thing.key}-line"), "to another sheet", "more circuits from this post", (Stroke(points, LINE),), layer=1),)
    if thing.kind != "tie" or circuit is None or not thing.pieces or thing.pieces[0].wire is None:
        return ()
    return tie(scene, at, thing, posts, lanes, arrivals)


def tie(
    scene: Scene, at: Spread, thing: Thing, posts: Mapping[str, float], lanes: Mapping[str, float], arrivals: Mapping[str, float]
) -> tuple[Group, ...]:
    """A conductor between two sources: out along one strip, back along the other."""
    circuit, wire = thing.circuit, thing.pieces[0].wire
    assert circuit is not None and wire is not None
    edge = at.left[0] + SOURCE_WIDTH
    x = at.left[2] + 24
    halves: list[tuple[Point, ...]] = []
    for strip in (s for s in at.graph.strips if s.target == thing.key):
        y = at.heights[f"strip {strip.key}"]
        start = rows.free_end(strip.pieces, at.slots, posts.get(strip.source, edge))
        halves.append(((start, y), *routing.way((at.right, y), lanes.get(strip.key), (x, arrivals[strip.key]))))
    points = (*halves[0], *(reversed(halves[1]) if len(halves) > 1 else ()))
    middle_y = sum(h[-1][1] for h in halves) / len(halves)
    tag = strands.tag_beside(scene, circuit, wire, x, middle_y)
    words = wrap(circuit.title, at.widths[2] - 60, lines=1)
    texts = tuple(Text(x + 20, middle_y + 58 + 30 * n, line, colour=QUIET) for n, line in enumerate(words))
    return strands.conductor(scene, circuit, wire, points, (*tag, *texts))


# --------------------------------------------------------------------------------- places and words


def bands(scene: Scene, at: Spread) -> tuple[Group, ...]:
    """Quiet bands: what stands in one place, one below the other, in one column."""
    made: list[Group] = []
    for rank in (0, 2, 3):
        column = sorted((t for t in at.graph.things if t.rank == rank and t.kind != "pass"), key=lambda t: at.heights[t.key])
        start = 0
        for index in range(1, len(column) + 1):
            if index < len(column) and band_name(scene, column[index]) == band_name(scene, column[start]):
                continue
            made += band(scene, at, column[start:index])
            start = index
    return tuple(made)


def band_name(scene: Scene, thing: Thing) -> str:
    build = scene.sized.build
    if thing.kind in ("flag", "more"):
        return "to other sheets"
    if thing.kind == "tie":
        return ""
    if thing.kind == "alternator":
        return labels.place(build, next((b.place for b in build.batteries.values() if b.role == "start"), ""))
    if thing.kind == "contact" and thing.pieces and thing.pieces[0].contact:
        return labels.place(build, thing.pieces[0].contact.place)
    return labels.place(build, labels.node_place(build, thing.name))


def band(scene: Scene, at: Spread, things: Sequence[Thing]) -> tuple[Group, ...]:
    words = band_name(scene, things[0]) if things else ""
    if not words:
        return ()
    boxes = [box_of(at, t) for t in things]
    above = 0 if things[0].rank in (0, 2) and things[0].kind != "contact" else 44
    box = Box(boxes[0].left - 14, min(b.top for b in boxes) - above - 4, boxes[0].right + 12, max(b.bottom for b in boxes) + 4)
    label = Text(box.left + 16, box.top + 32, fit(words, box.right - box.left - 30, bold=True), SMALL, True, colour=QUIET)
    name = scene.id(f"place-{words}")
    return (Group(name, words, f"place: {words}", (Rect(box, BAND, radius=16), label), layer=0),)


def studs(scene: Scene) -> list[str]:
    build = scene.sized.build
    return [
        f"{g.letter_name} {g.words}, {labels.place(build, g.place)}" for g in build.grounds.values() if not g.post_of
    ]


def foot_lines(scene: Scene, area: Box) -> tuple[tuple[str, ...], tuple[str, ...]]:
    room = area.right - area.left - 130
    sentence = wrap(labels.meeting(scene.sized.build), room, 28, bold=True, lines=3)
    grounds = "Body studs:  " + "   ·   ".join(studs(scene)) if studs(scene) else ""
    return sentence, wrap(grounds, room, lines=5)


def foot_height(scene: Scene, area: Box) -> float:
    sentence, grounds = foot_lines(scene, area)
    return 40.0 * len(sentence) + FOOT_LINE * len(grounds) + 62


def foot(scene: Scene, area: Box) -> tuple[Group, ...]:
    """How start and house meet, and the studs of the body."""
    sentence, grounds = foot_lines(scene, area)
    top = area.bottom - foot_height(scene, area) + 14
    box = Box(area.left + 30, top, area.right - 30, area.bottom - 24)
    marks: list[Mark] = [Rect(box, "none", INK, 2, 12)]
    y = top + 6
    for line in sentence:
        y += 36
        marks.append(Text(box.left + 24, y, line, 28, True))
    y += 4
    for line in grounds:
        y += FOOT_LINE
        marks.append(Text(box.left + 24, y, line, colour=QUIET))
    text = labels.meeting(scene.sized.build)
    return (Group(scene.id("meeting"), "How start and house meet", f"{text} {' '.join(grounds)}", tuple(marks), layer=3),)
