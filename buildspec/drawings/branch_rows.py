"""Branches between the items of a load: the links of a chain as a ladder, those of a star between two bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from buildspec import branches
from buildspec.drawings import labels, loads, strands, symbols
from buildspec.drawings.ladder_columns import BUS, INFO
from buildspec.drawings.marks import Box, Group, Mark, Point, Round, Stroke, Text
from buildspec.drawings.measure import SMALL, width, wrap
from buildspec.drawings.palette import INK, QUIET
from buildspec.drawings.strands import ASCENT, LEADING, PAD, PILL, Scene
from buildspec.model import Circuit, Terminal, Wire

UP = 46.0
"""Above the first line of a circuit: a tag."""
EDGE = 14.0
REACH = 15.0
"""Half of an item's symbol, as far as its connections go."""
BESIDE = 24.0
"""From the middle of a symbol to the name beside it."""
DOT = 5.0
BODY_DROP = 26.0
"""From a symbol to the body, where an item returns that way."""
ROOM = INFO + BUS - 30


class Shape(NamedTuple):
    """Heights below the positive line: middle of the symbols, negative line, end of it all."""

    middle: float
    low: float
    end: float


SHAPES = {"chain": Shape(62.0, 124.0, 186.0), "star": Shape(99.0, 198.0, 236.0)}


class Grid(NamedTuple):
    """Where the links of a circuit stand: the first node, the way from one to the next, links a line."""

    first: float
    step: float
    across: int


def grid(scene: Scene, circuit: Circuit, area: Box) -> Grid:
    """As many links side by side as there is room for."""
    wires = (*circuit.feeds, *circuit.returns)
    names = [width(t.item, bold=True) for t in branches.items(circuit)]
    tags = max(strands.tag_width(scene, circuit, wire) for wire in wires)
    step = max(tags + 2 * PAD + 10, max(names) + BESIDE + 2 * PAD)
    first = area.left + INFO + BUS + 90
    return Grid(first, step, max(1, int((area.right - first - step / 2) // step)))


def need(scene: Scene, circuit: Circuit, area: Box) -> tuple[float, float]:
    """Height above and below the first positive line."""
    lines = -(-len(circuit.feeds) // grid(scene, circuit, area).across)
    links = (lines - 1) * pitch(circuit) + SHAPES[circuit.form].end
    return UP, max(links, PILL + LEADING * len(facts(scene, circuit)) + EDGE)


def pitch(circuit: Circuit) -> float:
    """From line to line of a circuit with more links than stand side by side."""
    return SHAPES[circuit.form].end + UP


def draw(scene: Scene, circuit: Circuit, area: Box, y: float) -> tuple[Group, ...]:
    """Number and words at the left, then the links, line by line."""
    at = grid(scene, circuit, area)
    made = [
        strands.numbered(scene, circuit, strands.pill(area.left, y + PILL / 2, circuit.number, number=True))
    ]
    made.append(words(scene, circuit, area.left, y + PILL / 2))
    for line, start in enumerate(range(0, len(circuit.feeds), at.across)):
        links = range(start, min(start + at.across, len(circuit.feeds)))
        part = chain if circuit.form == "chain" else star
        made += part(scene, circuit, at, links, y + line * pitch(circuit))
    return tuple(made)


def words(scene: Scene, circuit: Circuit, x: float, y: float) -> Group:
    lines = facts(scene, circuit)
    marks = tuple(
        Text(x, y + 6 + ASCENT + n * LEADING, line, colour=colour) for n, (line, colour) in enumerate(lines)
    )
    desc = " ".join(line for line, _ in lines)
    name, anchor = scene.id(f"branches-{circuit.number}"), f"branch:{circuit.key}"
    return Group(name, circuit.title, desc, marks, circuit.number, layer=3, anchor=anchor)


def facts(scene: Scene, circuit: Circuit) -> list[tuple[str, str]]:
    """What is joined, behind which circuit, and where, as lines with their colours."""
    trunk = branches.trunk(scene.sized.build, circuit)
    sheet = scene.circuit_sheet.get(trunk.key, scene.number)
    there = f" ← {scene.sheet(sheet, f'coil:{trunk.key}')}" if sheet != scene.number else ""
    place = labels.place(scene.sized.build, circuit.feeds[0].end.place)
    behind = f"behind {trunk.number}{there} · {place}"
    return [(s, INK) for s in wrap(circuit.title, ROOM)] + [(s, QUIET) for s in wrap(behind, ROOM)]


def chain(scene: Scene, circuit: Circuit, at: Grid, links: range, y: float) -> Iterator[Group]:
    """Both conductors of each link side by side, an item on each rung."""
    low, ends = y + SHAPES["chain"].low, branches.items(circuit)
    xs = [at.first + n * at.step for n in range(len(links) + 1)]
    for x, after, number in zip(xs, xs[1:], links, strict=False):
        for wire, level in pair(circuit, number, y, low):
            tag = strands.tag(scene, circuit, wire, x + PAD, level)
            yield from strands.conductor(scene, circuit, wire, ((x, level), (after, level)), tag)
    yield poles(scene, circuit, ends[links.start], at.first, (y, low))
    for x, number in zip(xs, range(links.start, links.stop + 1), strict=True):
        again = number == links.start > 0
        yield rung(scene, circuit, ends[number], x, (y, low), drawn=not again)
        if not again:
            yield item(scene, circuit, ends[number], x, y + SHAPES["chain"].middle)


def star(scene: Scene, circuit: Circuit, at: Grid, links: range, y: float) -> Iterator[Group]:
    """The common point as a bar for each pole, and an item between its two conductors."""
    shape = SHAPES["star"]
    middle, low = y + shape.middle, y + shape.low
    xs = [at.first + n * at.step for n in range(len(links))]
    for x, number in zip(xs, links, strict=True):
        spans = ((y, middle - REACH, y + 44), (middle + REACH, low, middle + REACH + 46))
        for wire, (top, bottom, level) in zip(wires(circuit, number), spans, strict=False):
            tag = strands.tag_beside(scene, circuit, wire, x, level)
            yield from strands.conductor(scene, circuit, wire, ((x, top), (x, bottom)), tag)
        yield item(scene, circuit, branches.items(circuit)[number], x, middle)
        if not circuit.returns:
            yield to_body(scene, circuit, branches.items(circuit)[number], x, middle)
    yield poles(scene, circuit, circuit.feeds[0].start, at.first, (y, low))
    bars = [((at.first - EDGE, level), (xs[-1] + EDGE, level)) for level in levels(circuit, y, low)]
    name = scene.id(f"{circuit.feeds[0].start.item}-{links.start}")
    yield inner(circuit, name, [Stroke(points, 4) for points in bars])


def wires(circuit: Circuit, number: int) -> tuple[Wire, ...]:
    return (circuit.feeds[number], *circuit.returns[number : number + 1])


def pair(circuit: Circuit, number: int, y: float, low: float) -> Iterator[tuple[Wire, float]]:
    """The conductors of a link with their heights."""
    return zip(wires(circuit, number), (y, low), strict=False)


def levels(circuit: Circuit, y: float, low: float) -> tuple[float, ...]:
    """Heights of the poles that have conductors."""
    return (y, low) if circuit.returns else (y,)


def poles(scene: Scene, circuit: Circuit, start: Terminal, x: float, heights: tuple[float, float]) -> Group:
    """What the links begin at, at the left of both lines."""
    marks = tuple(
        Text(x - 2 * EDGE, level + ASCENT / 2, f"{start.item} {pin}", SMALL, True, "end")
        for level, pin in zip(levels(circuit, *heights), "+−", strict=False)
    )
    name = scene.id(f"start-{start.item}-{circuit.number}")
    return Group(
        name, f"{start.item}: start of {circuit.number}", circuit.title, marks, circuit.number, layer=3
    )


def rung(
    scene: Scene, circuit: Circuit, end: Terminal, x: float, heights: tuple[float, float], *, drawn: bool
) -> Group:
    """Connections of an item to both lines, or only the dots where a line goes on."""
    y, low = heights
    middle = y + SHAPES["chain"].middle
    made: list[Mark] = [Round(x, level, DOT, 1, INK, INK) for level in levels(circuit, y, low)]
    if drawn:
        made.append(Stroke(((x, y), (x, middle - REACH))))
        made += [Stroke(((x, middle + REACH), (x, low)))] if circuit.returns else body(x, middle)
    return inner(circuit, scene.id(f"rung-{end.item}-{circuit.number}"), made)


def body(x: float, middle: float) -> list[Mark]:
    drop = middle + REACH + BODY_DROP
    return [Stroke(((x, middle + REACH), (x, drop)), 3), *symbols.chassis(x, drop)]


def to_body(scene: Scene, circuit: Circuit, end: Terminal, x: float, middle: float) -> Group:
    return inner(circuit, scene.id(f"body-{end.item}-{circuit.number}"), body(x, middle))


def inner(circuit: Circuit, name: str, marks: Sequence[Mark]) -> Group:
    """A connection that is no conductor of the lists: a joint, an item's own lead, the body."""
    return Group(name, f"joints of {circuit.number}", circuit.title, tuple(marks), circuit.number, layer=1)


def item(scene: Scene, circuit: Circuit, end: Terminal, x: float, y: float) -> Group:
    """One of the items, with its designation."""
    trunk = branches.trunk(scene.sized.build, circuit)
    name: Point = (x + BESIDE, y + ASCENT / 2)
    marks = (*loads.symbol(scene, trunk, x, y), Text(*name, end.item, SMALL, True))
    box = Box(x - 18, y - REACH, x + 18, y + REACH)
    return Group(
        scene.id(f"{end.item}-{circuit.number}"),
        f"{end.item} · {trunk.title}",
        trunk.title,
        marks,
        circuit.number,
        box,
    )
