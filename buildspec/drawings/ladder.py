"""Sheets of rows: the source at the left, a bus, and each circuit from its protection to its ground."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec.drawings import labels, load_words, loads, rows, strands, symbols
from buildspec.drawings.ladder_columns import (
    BUS,
    INFO,
    Columns,
    balanced,
    columns,
    left_width,
    right_widths,
    strip,
)
from buildspec.drawings.ladder_heights import (
    HEAD,
    SECTION_GAP,
    TWO_LINES,
    height,
    inside,
    note,
    note_height,
    pitch_for,
    position_notes,
)
from buildspec.drawings.ladder_source import host
from buildspec.drawings.marks import Box, Group, Mark, Rect, Text
from buildspec.drawings.measure import STRONG, fit, wrap
from buildspec.drawings.palette import BAND, QUIET
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import PAD, Scene
from buildspec.model import Circuit, Resolved


def draw(scene: Scene, sections: Sequence[Section], area: Box) -> tuple[Group, ...]:
    """All sections of one sheet, one below the other."""
    area = inside(area)
    circuits = [c for s in sections for c in s.rows]
    room = area.right - area.left - INFO - max([0.0, *(left_width(scene, s) for s in sections)])
    right = balanced(right_widths(scene, circuits), room)
    pitch = pitch_for(scene, sections, area)
    made: list[Group] = []
    top = area.top
    for section in sections:
        top += HEAD if section.kind == "signals" else 0
        high = height(scene, section, pitch)
        lines = position_notes(scene.sized.build, section, area.right - area.left)
        made += draw_section(
            scene, section, columns(scene, section, right, area), area.left, (top, top + high), pitch
        )
        made += note(scene, section, lines, area.left, top + high + 24)
        top += high + note_height(lines) + SECTION_GAP
    return tuple(made)


def draw_section(
    scene: Scene, section: Section, at: Columns, left: float, ends: tuple[float, float], pitch: float
) -> tuple[Group, ...]:
    top, bottom = ends
    heights = [top + pitch * (n + 0.5) for n in range(len(section.rows))]
    made: list[Group] = [*bands(scene, section, at, heights, pitch)]
    if section.kind == "host":
        made += host(scene, section, at, left, (top, bottom), heights)
    else:
        made += signal_words(scene, left, top)
    for circuit, y in zip(section.rows, heights, strict=True):
        made += row(scene, section, circuit, at, y, 2 if pitch >= TWO_LINES else 1)
    return tuple(made)


def row(
    scene: Scene, section: Section, circuit: Circuit, at: Columns, y: float, lines: int
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
        made.append(loads.load(scene, circuit, at.load.left, y, at.load.width, lines))
        made += loads.returns(scene, circuit, x + half, at.back.left, at.ground.left + 24, y)
    end = loads.ground(scene, circuit, at.ground.left + 24, y, at.ground.width, lines)
    return (*made, *((end,) if end else ()))


def module_words(scene: Scene, circuit: Circuit, at: Columns, y: float) -> Group:
    left = next(iter(at.slots.values())).left if at.slots else at.load.left
    words = fit("− of the panel’s own electronics", at.back.left - left)
    text = Text(left, y - 14, words)
    return Group(
        scene.id(f"module-{circuit.number}"), circuit.title, circuit.title, (text,), circuit.number, layer=3
    )


def source_signal(scene: Scene, circuit: Circuit, at: Columns, y: float) -> Group:
    """Vehicle signal at the left of its row."""
    build = scene.sized.build
    signal = build.signals.get(circuit.source)
    words = signal.words if signal else circuit.source
    place = labels.place(build, signal.place) if signal else ""
    room = INFO + BUS - 30
    right = at.number - 16
    lines = wrap(words, room, lines=2)
    first = y - 10 if len(lines) == 1 else y - 30
    marks: list[Mark] = [*symbols.terminal(at.number, y)]
    marks += [Text(right, first + n * 29, line, anchor="end") for n, line in enumerate(lines)]
    marks.append(Text(right, first + len(lines) * 29, fit(place, room), anchor="end", colour=QUIET))
    kind = signal.kind if signal else "signal"
    return Group(
        scene.id(f"{circuit.source}-{circuit.number}"),
        words,
        f"{kind} at {place}",
        tuple(marks),
        circuit.number,
    )


def signal_words(scene: Scene, left: float, top: float) -> tuple[Group, ...]:
    marks = (Text(left, top - 24, "Signals and coils", STRONG, True),)
    return (
        Group(
            scene.id("commands"),
            "Signals and coils",
            "what commands relays, links and channels",
            marks,
            layer=3,
        ),
    )


def bands(
    scene: Scene, section: Section, at: Columns, heights: Sequence[float], pitch: float
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
                heights[start] - pitch / 2 + 4,
                at.load.left + at.load.width - 4,
                heights[index - 1] + pitch / 2 - 4,
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
