"""Conductors of the supply sheet: posts, strips, and on to what is fed, each in a lane of its own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from buildspec.drawings import labels, load_words, routing, rows, strands, supply_words, symbols, units
from buildspec.drawings.graph import SOURCE_WIDTH, Strip, Thing
from buildspec.drawings.marks import Group, Mark, Point, Round, Stroke, Text
from buildspec.drawings.palette import HEAVY, INK, LINE, QUIET
from buildspec.drawings.rows import Slot
from buildspec.drawings.strands import Scene
from buildspec.drawings.supply_spread import Spread, port, ports

CONTACT_INSET = 70.0
"""From the edge of column 2 to a contact in it, at the least."""


def source_nets(scene: Scene, at: Spread) -> tuple[routing.Net, ...]:
    """One net for each source: its port, and the height of every strip that leaves it."""
    made: list[routing.Net] = []
    charged = units.charged(scene.sized.build)
    alternator = [port(at, t) for t in at.graph.things if t.kind == "alternator"]
    for thing in at.graph.things:
        if thing.rank != 0 or thing.kind == "alternator":
            continue
        heights = [at.heights[f"strip {s.key}"] for s in at.graph.strips if s.source == thing.key]
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
        lugs = tuple(Round(x, y, 6, 1, INK, INK) for y in dots)
        name, words = labels.designation(scene.sized.build, net.key), "one post, every lug on it"
        made.append(Group(scene.id(f"{name}-post"), f"{name} +", words, tuple(marks), layer=1))
        made.append(Group(scene.id(f"{name}-lugs"), f"lugs on {name} +", words, lugs))
    return tuple(made)


class Ways(NamedTuple):
    """Lanes of all conductors of a page, by key."""

    posts: dict[str, float]
    lanes: dict[str, float]
    arrivals: dict[str, float]
    """Height at which a strip arrives in column 2."""
    last: dict[str, float]


def ways(scene: Scene, at: Spread) -> Ways:
    """A lane for every conductor between two columns."""
    edge = at.left[0] + at.widths[0]
    things = {t.key: t for t in at.graph.things}
    arrivals = {s.key: y for t in at.graph.things if t.kind in ("device", "tie") for s, y in ports(at, t)}
    arrivals |= {s.key: at.heights[s.target] for s in at.graph.strips if s.key not in arrivals}
    nets = [routing.Net(s.key, (at.heights[f"strip {s.key}"],), (arrivals[s.key],)) for s in at.graph.strips]
    across = [routing.Net(a, (at.heights[a],), (port(at, things[b]),)) for a, b in at.graph.links]
    return Ways(
        routing.lane_positions(source_nets(scene, at), edge + 16, at.left[1] - 16),
        routing.lane_positions(nets, at.right + 8, at.left[2] - 12),
        arrivals,
        routing.lane_positions(across, at.left[2] + at.widths[2] + 6, at.left[3] - 14),
    )


def wires(scene: Scene, at: Spread) -> tuple[Group, ...]:
    """Posts, strips, and every conductor on to what it feeds."""
    found = ways(scene, at)
    made: list[Group] = [*bars(scene, at, found.posts)]
    for strip in at.graph.strips:
        start = found.posts.get(strip.source, at.left[0] + at.widths[0])
        points = tail(scene, at, strip, found.arrivals[strip.key], found.lanes.get(strip.key), found.last)
        made += strip_row(scene, at, strip, start, points)
    made += [g for t in at.graph.things for g in middle(scene, at, t, found)]
    return tuple(made)


def contact_inset(scene: Scene, thing: Thing) -> float:
    """From the edge of column 2 to a contact in it, so that its words stay inside."""
    wide = [
        strands.contact_width(scene, thing.circuit, p.contact)
        for p in thing.pieces
        if p.contact and thing.circuit
    ]
    return max(CONTACT_INSET, *(w / 2 - symbols.CONTACT_HALF + 8 for w in wide))


def tail(
    scene: Scene, at: Spread, strip: Strip, y: float, lane: float | None, last: Mapping[str, float]
) -> tuple[Point, ...]:
    """From the end of a strip to the device or, through column 2, to what is fed."""
    target = next(t for t in at.graph.things if t.key == strip.target)
    edge = at.left[2] + (contact_inset(scene, target) if target.kind == "contact" else 0)
    first = routing.way((at.right, at.heights[f"strip {strip.key}"]), lane, (edge, y))[1:]
    return (*first, *beyond(at, target, last)) if target.kind == "pass" else first


def beyond(at: Spread, thing: Thing, last: Mapping[str, float]) -> tuple[Point, ...]:
    """From the left of column 2 through it to the thing in column 3."""
    end = next((t for t in at.graph.things if (thing.key, t.key) in at.graph.links), None)
    if end is None:
        return ()
    reach = 24 - load_words.reach(end.circuit) if end.kind == "load" and end.circuit else 0
    points = routing.way(
        (at.left[2] + at.widths[2], at.heights[thing.key]),
        last.get(thing.key),
        (at.left[3] + reach, port(at, end)),
    )
    return points


def strip_row(
    scene: Scene, at: Spread, strip: Strip, start: float, points: tuple[Point, ...]
) -> tuple[Group, ...]:
    y = at.heights[f"strip {strip.key}"]
    made: list[Group] = []
    if strip.circuit is None:
        line = Stroke(((start, y), (at.right, y), *points), LINE)
        name = scene.id(f"{strip.key}-line")
        return (Group(name, "to another sheet", "more circuits from this post", (line,), layer=1),)
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


def middle(scene: Scene, at: Spread, thing: Thing, ways: Ways) -> tuple[Group, ...]:
    """What column 2 draws of a circuit: a contact with the conductor after it, a tie's own conductor."""
    if thing.kind == "contact":
        return contact(scene, at, thing, ways)
    return tie(scene, at, thing, ways) if thing.kind == "tie" else ()


def contact(scene: Scene, at: Spread, thing: Thing, ways: Ways) -> tuple[Group, ...]:
    """A contact in column 2 and the conductor on to the load."""
    circuit = thing.circuit
    if circuit is None:
        return ()
    slots = rows.placed(rows.widths(scene, [(circuit, thing.pieces)]), at.left[2])
    first = rows.named(thing.pieces)[0][0]
    start = at.left[2] + contact_inset(scene, thing)
    slots[first] = Slot(start + symbols.CONTACT_HALF - slots[first].width / 2, slots[first].width)
    ends = (start, at.left[2] + at.widths[2])
    tail = beyond(at, thing, ways.last)[1:]
    drawn = rows.row(scene, circuit, thing.pieces, slots, at.heights[thing.key], ends, tail)
    return tuple(g for g in drawn if not g.id.startswith(scene.id("inner")))


def tie(scene: Scene, at: Spread, thing: Thing, ways: Ways) -> tuple[Group, ...]:
    """A conductor between two sources: out along one strip, back along the other."""
    circuit, wire = thing.circuit, thing.pieces[0].wire if thing.pieces else None
    if circuit is None or wire is None:
        return ()
    edge, x = at.left[0] + at.widths[0], at.left[2] + 24
    halves: list[tuple[Point, ...]] = []
    for strip in (s for s in at.graph.strips if s.target == thing.key):
        y = at.heights[f"strip {strip.key}"]
        start = rows.free_end(strip.pieces, at.slots, ways.posts.get(strip.source, edge))
        end = (x, ways.arrivals[strip.key])
        halves.append(((start, y), *routing.way((at.right, y), ways.lanes.get(strip.key), end)))
    points = (*halves[0], *(reversed(halves[1]) if len(halves) > 1 else ()))
    level = sum(h[-1][1] for h in halves) / len(halves)
    tag = strands.tag_beside(scene, circuit, wire, x, level)
    words = supply_words.tie_lines(circuit, at.widths[2])
    texts = tuple(
        Text(x + 20, level + 58 + n * strands.LEADING, line, colour=QUIET) for n, line in enumerate(words)
    )
    return strands.conductor(scene, circuit, wire, points, (*tag, *texts))
