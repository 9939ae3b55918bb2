"""Sheets of rows: the source at the left, a bus, and each circuit from its protection to its ground."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec.drawings import branch_rows, labels, ladder_notes, load_words, loads, rows, strands, symbols
from buildspec.drawings.ladder_columns import BUS, Columns, columns, strip
from buildspec.drawings.ladder_heights import HEAD, SECTION_GAP, Row, inside, levels, measured
from buildspec.drawings.ladder_source import SIGNAL_ROOM, host, signal_lines
from buildspec.drawings.marks import Box, Group, Mark, Rect, Text
from buildspec.drawings.measure import STRONG, width, wrap
from buildspec.drawings.palette import BAND, INK, QUIET
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import ASCENT, LEADING, PAD, Scene
from buildspec.model import Circuit, Resolved

MODULE_WORDS = ("− of the panel’s own electronics", "− of electronics")


def draw(scene: Scene, sections: Sequence[Section], area: Box) -> tuple[Group, ...]:
    """All sections of one sheet, one below the other."""
    area = inside(area)
    found = measured(scene, sections, area)
    made: list[Group] = []
    top = area.top
    for section, each, high, lines in zip(sections, found.rows, found.sections, found.notes, strict=True):
        top += HEAD if section.kind != "host" else 0
        at = columns(scene, section, found.right, area)
        if section.kind == "branches":
            made += between_items(scene, section, area, top, each)
        else:
            made += draw_section(scene, section, at, area.left, (top, top + high), each, short=found.short)
        name, title = f"{section.host}-positions", "free and kept-empty positions"
        made += ladder_notes.note(scene, name, title, lines, area.left, top + high + 24)
        top += high + ladder_notes.height(lines) + SECTION_GAP
    low = top - SECTION_GAP + 24
    made += ladder_notes.note(scene, "grounds", "where the grounds are", found.grounds, area.left, low)
    return tuple(made)


def draw_section(
    scene: Scene,
    section: Section,
    at: Columns,
    left: float,
    ends: tuple[float, float],
    each: Sequence[Row],
    *,
    short: bool,
) -> tuple[Group, ...]:
    heights = levels(each, ends[0])
    made: list[Group] = [*bands(scene, section, at, heights, each)]
    if section.kind == "host":
        made += host(scene, section, at, left, ends, heights)
    else:
        made.append(heading(scene, left, ends[0], *COMMANDS))
    for circuit, y in zip(section.rows, heights, strict=True):
        made += row(scene, section, circuit, at, y, short=short)
    return tuple(made)


def row(
    scene: Scene, section: Section, circuit: Circuit, at: Columns, y: float, *, short: bool
) -> tuple[Group, ...]:
    """One circuit."""
    made: list[Group] = []
    start = at.bus + BUS if section.kind == "host" else at.number
    clear = strands.half(scene, circuit) + 5
    number = strands.pill(at.number + PAD, y - clear, circuit.number, number=True)
    made.append(strands.numbered(scene, circuit, number))
    if section.kind == "signals":
        made.append(source_signal(scene, circuit, at, y))
        start += 6
    x = at.load.left + 24
    if circuit.kind == "module":
        made += loads.returns(scene, circuit, start, at.back.left, at.ground.left + 24, y)
        made.append(module_words(scene, circuit, at, y))
    elif circuit.kind == "feeder":
        made += rows.row(scene, circuit, strip(circuit), at.slots, y, (start, at.load.left))
        made.append(loads.flag(scene, circuit, at.load.left, y, at.load.width))
    else:
        half = load_words.reach(circuit)
        made += rows.row(scene, circuit, strip(circuit), at.slots, y, (start, x - half))
        made.append(loads.load(scene, circuit, at.load.left, y, at.load.width))
        made += loads.returns(scene, circuit, x + half, at.back.left, at.ground.left + 24, y)
    end = loads.ground(scene, circuit, (at.ground.left + 24, y), at.ground.width, short=short)
    return (*made, *((end,) if end else ()))


def module_words(scene: Scene, circuit: Circuit, at: Columns, y: float) -> Group:
    left = next(iter(at.slots.values())).left if at.slots else at.load.left
    room = at.back.left - left
    words = next((w for w in MODULE_WORDS if width(w) <= room), "−")
    text = Text(left, y - 14, words)
    return Group(
        scene.id(f"module-{circuit.number}"), circuit.title, circuit.title, (text,), circuit.number, layer=3
    )


def source_signal(scene: Scene, circuit: Circuit, at: Columns, y: float) -> Group:
    """Vehicle signal at the left of its row."""
    build = scene.sized.build
    signal = build.signals.get(circuit.source)
    place = labels.place(build, signal.place) if signal else ""
    lines = signal_lines(scene, circuit)
    own = len(lines) - len(wrap(place, SIGNAL_ROOM))
    first = y - LEADING * len(lines) / 2 + (LEADING + ASCENT) / 2
    marks: list[Mark] = [*symbols.terminal(at.number, y)]
    marks += [
        Text(at.number - 16, first + n * LEADING, line, anchor="end", colour=INK if n < own else QUIET)
        for n, line in enumerate(lines)
    ]
    kind, words = (signal.kind, signal.words) if signal else ("signal", circuit.source)
    name = scene.id(f"{circuit.source}-{circuit.number}")
    return Group(name, words, f"{kind} at {place}", tuple(marks), circuit.number)


COMMANDS = ("commands", "Signals and coils", "what commands relays, links and channels")
BETWEEN = ("between", "Between the items", "conductors that join the items of one circuit")


def heading(scene: Scene, left: float, top: float, name: str, title: str, desc: str) -> Group:
    """Over a section that does not hang on a source."""
    marks = (Text(left, top - 24, title, STRONG, True),)
    return Group(scene.id(name), title, desc, marks, layer=3)


def between_items(
    scene: Scene, section: Section, area: Box, top: float, each: Sequence[Row]
) -> tuple[Group, ...]:
    made = [heading(scene, area.left, top, *BETWEEN)]
    for circuit, y in zip(section.rows, levels(each, top), strict=True):
        made += branch_rows.draw(scene, circuit, area, y)
    return tuple(made)


def bands(
    scene: Scene, section: Section, at: Columns, heights: Sequence[float], each: Sequence[Row]
) -> tuple[Group, ...]:
    """Loads at one place, one below the other, stand on one quiet band."""
    made: list[Group] = []
    places = [place_of(scene.sized.build, c) for c in section.rows]
    start = 0
    for index in range(1, len(places) + 1):
        if index < len(places) and places[index] == places[start]:
            continue
        if places[start]:
            box = Box(
                at.load.left - 8,
                heights[start] - each[start].up + 4,
                at.load.left + at.load.width - 4,
                heights[index - 1] + each[index - 1].down - 4,
            )
            words = labels.place(scene.sized.build, places[start])
            name = scene.id(f"place-{places[start]}")
            made.append(Group(name, words, f"place: {words}", (Rect(box, BAND, radius=12),), layer=0))
        start = index
    return tuple(made)


def place_of(build: Resolved, circuit: Circuit) -> str:
    """Where a row ends."""
    if circuit.kind in ("feeder", "module"):
        return ""
    return circuit.feeds[-1].end.place if circuit.feeds else ""
