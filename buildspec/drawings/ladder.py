"""Sheets of rows: the source at the left, a bus, and each circuit from its protection to its ground."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildspec import show
from buildspec.drawings import labels, loads, rows, strands, symbols
from buildspec.drawings.marks import Box, Group, Mark, Rect, Round, Stroke, Text
from buildspec.drawings.measure import BODY, LARGE, SMALL, STRONG, fit, wrap
from buildspec.drawings.palette import BAND, BAND_INNER, HEAVY, INK, PAPER, QUIET
from buildspec.drawings.pieces import Piece, pieces
from buildspec.drawings.plan import Section
from buildspec.drawings.rows import Slot
from buildspec.drawings.strands import ASCENT, PAD, Scene
from buildspec.model import Circuit, Resolved

INFO = 380.0
BUS = 58.0
LEAST_PITCH = 88.0
MOST_PITCH = 175.0
LEAST_LOAD, LEAST_GROUND = 270.0, 190.0
FLOORS = ((700.0, 420.0), (520.0, 360.0), (430.0, 300.0), (LEAST_LOAD, LEAST_GROUND))
"""Floors of load and ground while a narrow sheet cuts them, step by step."""
NOTE_LINE = 34.0
SECTION_GAP = 60.0
FLAG = 74.0
HEAD = 60.0
"""Above the rows of a section that has a heading of its own."""
TWO_LINES = 118.0
"""From this pitch on, words below a conductor may take two lines."""


class Columns(NamedTuple):
    """Where the parts of a section stand."""

    bus: float
    number: float
    slots: dict[str, Slot]
    load: Slot
    back: Slot
    ground: Slot


class Right(NamedTuple):
    """Widths of the columns that all sections of a sheet share."""

    load: float
    back: float
    ground: float


def strip(circuit: Circuit) -> tuple[Piece, ...]:
    return () if circuit.kind == "module" else pieces(circuit)


def right_widths(scene: Scene, circuits: Sequence[Circuit]) -> Right:
    """Natural widths of load, return and ground."""
    return Right(
        load=max([LEAST_LOAD, *(loads.words_width(scene, c) for c in circuits)]),
        back=max([0.0, *(loads.return_width(scene, c) for c in circuits)]),
        ground=max([LEAST_GROUND, *(loads.ground_width(scene, c) for c in circuits)]),
    )


def number_width(section: Section) -> float:
    return max([0.0, *(strands.pill_width(c.number) for c in section.rows)]) + 2 * PAD


def left_width(scene: Scene, section: Section) -> float:
    """Everything left of the loads."""
    found = rows.widths(scene, [(c, strip(c)) for c in section.rows])
    return BUS + number_width(section) + sum(found.values())


def balanced(right: Right, room: float) -> Right:
    """Load and ground columns cut down to the room there is, the load first."""
    load, ground = right.load, right.ground
    for least_load, least_ground in FLOORS:
        load = max(min(load, least_load), min(load, room - right.back - ground))
        ground = max(min(ground, least_ground), min(ground, room - right.back - load))
    return Right(load, right.back, ground)


def columns(scene: Scene, section: Section, right: Right, area: Box) -> Columns:
    """Columns of a section; what room is left goes to its conductors."""
    bus = area.left + INFO
    number = bus + BUS
    found = rows.widths(scene, [(c, strip(c)) for c in section.rows])
    first = number + number_width(section)
    edge = area.right - right.load - right.back - right.ground
    spare = edge - first - sum(found.values())
    wires = sum(1 for name in found if name.startswith(("wire", "lead")))
    slots = rows.placed(found, first, max(0.0, spare) / wires if wires else 0)
    return Columns(
        bus,
        number,
        slots,
        Slot(edge, right.load),
        Slot(edge + right.load, right.back),
        Slot(edge + right.load + right.back, right.ground),
    )


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
        made += draw_section(scene, section, columns(scene, section, right, area), area.left, (top, top + high), pitch)
        made += note(scene, section, lines, area.left, top + high + 24)
        top += high + note_height(lines) + SECTION_GAP
    return tuple(made)


def note_height(lines: Sequence[str]) -> float:
    return len(lines) * NOTE_LINE + 12 if lines else 0.0


def height(scene: Scene, section: Section, pitch: float) -> float:
    """Rows of a section, but never less than the words at their left need."""
    least = info_height(scene, section) if section.kind == "host" else 0.0
    return max(len(section.rows) * pitch, least)


def needed(scene: Scene, sections: Sequence[Section], pitch: float, across: float) -> float:
    """Height of all sections of a sheet at a pitch of the rows."""
    notes = sum(note_height(position_notes(scene.sized.build, s, across)) for s in sections)
    heads = sum(HEAD for s in sections if s.kind == "signals")
    return sum(height(scene, s, pitch) for s in sections) + notes + heads + SECTION_GAP * (len(sections) - 1)


def pitch_for(scene: Scene, sections: Sequence[Section], area: Box) -> float:
    """The widest pitch, down to the least, at which the sheet is not too high."""
    pitch = MOST_PITCH
    while pitch > LEAST_PITCH and needed(scene, sections, pitch, area.right - area.left) > area.bottom - area.top:
        pitch -= 1
    return pitch


def fits(scene: Scene, sections: Sequence[Section], area: Box) -> bool:
    """Is there room for these sections on one sheet?"""
    inner = inside(area)
    return needed(scene, sections, LEAST_PITCH, inner.right - inner.left) <= inner.bottom - inner.top


def inside(area: Box) -> Box:
    return Box(area.left + 30, area.top + 16, area.right - 24, area.bottom - 20)


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


def row(scene: Scene, section: Section, circuit: Circuit, at: Columns, y: float, lines: int) -> tuple[Group, ...]:
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
        half = loads.reach(circuit)
        made += rows.row(scene, circuit, strip(circuit), at.slots, y, (start, x - half))
        made.append(loads.load(scene, circuit, at.load.left, y, at.load.width, lines))
        made += loads.returns(scene, circuit, x + half, at.back.left, at.ground.left + 24, y)
    end = loads.ground(scene, circuit, at.ground.left + 24, y, at.ground.width, lines)
    return (*made, *((end,) if end else ()))


def module_words(scene: Scene, circuit: Circuit, at: Columns, y: float) -> Group:
    left = next(iter(at.slots.values())).left if at.slots else at.load.left
    words = fit("− of the panel’s own electronics", at.back.left - left)
    text = Text(left, y - 14, words)
    return Group(scene.id(f"module-{circuit.number}"), circuit.title, circuit.title, (text,), circuit.number, layer=3)


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
    return Group(scene.id(f"{circuit.source}-{circuit.number}"), words, f"{kind} at {place}", tuple(marks), circuit.number)


def signal_words(scene: Scene, left: float, top: float) -> tuple[Group, ...]:
    marks = (Text(left, top - 24, "Signals and coils", STRONG, True),)
    return (Group(scene.id("commands"), "Signals and coils", "what commands relays, links and channels", marks, layer=3),)


def bands(scene: Scene, section: Section, at: Columns, heights: Sequence[float], pitch: float) -> tuple[Group, ...]:
    """Loads at one place, one below the other, stand on one quiet band."""
    made: list[Group] = []
    places = [place_of(scene.sized.build, c) for c in section.rows]
    start = 0
    for index in range(1, len(places) + 1):
        if index < len(places) and places[index] == places[start]:
            continue
        if places[start]:
            box = Box(at.load.left - 8, heights[start] - pitch / 2 + 4, at.load.left + at.load.width - 4, heights[index - 1] + pitch / 2 - 4)
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


def host(
    scene: Scene, section: Section, at: Columns, left: float, ends: tuple[float, float], heights: Sequence[float]
) -> tuple[Group, ...]:
    """The block, panel or battery post on which the rows hang: its words, its outline and its bus."""
    build = scene.sized.build
    name = labels.designation(build, section.host)
    inside = [s for n, s in at.slots.items() if n in ("fuse0", "hand")] if section.host not in build.batteries else []
    right = max([at.number + number_width(section), *(s.left + s.width for s in inside)])
    top, bottom = ends
    outline = Rect(Box(at.bus - 14, top, right + 4, bottom), BAND_INNER, radius=14)
    bar = Rect(Box(at.bus, top + 12, at.bus + BUS, bottom - 12), PAPER, INK, HEAVY, 4)
    marks: list[Mark] = [outline, bar]
    for circuit, y in zip(section.rows, heights, strict=True):
        marks += bar_words(circuit, at, y)
    words = labels.title(build, section.host)
    title = f"{name} · {words}"
    body = Group(scene.id(name), title, host_facts(scene, section.host), tuple(marks), layer=0)
    return (body, *incoming(scene, section, at, left, ends))


def bar_words(circuit: Circuit, at: Columns, y: float) -> tuple[Mark, ...]:
    """Position on the bus."""
    pins = [w.start.pin for w in circuit.feeds[:1]]
    places = [str(p.position) for p in circuit.protections if p.host]
    text = "−" if circuit.kind == "module" else places[0] if places else pins[0] if pins else ""
    mark = symbols.centred(at.bus + BUS / 2, y, fit(text, BUS - 6, BODY, bold=True), BODY)
    return (mark,) if mark.text else ()


def host_facts(scene: Scene, name: str) -> str:
    build = scene.sized.build
    worst = scene.sized.loads_a.get(name)
    total = f"worst case {show.amps(worst)}" if worst is not None else ""
    if name in build.panels:
        return "; ".join(part for part in (labels.panel_facts(build.panels[name]), total) if part)
    trait = build.blocks[name].part.block if name in build.blocks else None
    return "; ".join(part for part in (f"{trait.positions} positions; at most {show.amps(trait.total_a)}" if trait else "", total) if part)


def incoming(
    scene: Scene, section: Section, at: Columns, left: float, ends: tuple[float, float]
) -> tuple[Group, ...]:
    """Words about the source, and a flag for each conductor that feeds it."""
    made: list[Group] = []
    words, y = info_words(scene, section, left, ends[0])
    name = labels.title(scene.sized.build, section.host)
    text = host_facts(scene, section.host)
    made.append(Group(scene.id(f"{section.host}-words"), name, text, words, layer=3))
    for circuit, head, below in feeding(scene, section):
        box = Box(left, y, at.bus - 34, y + FLAG)
        middle = y + FLAG / 2
        made.append(loads.reference(scene, f"from-{circuit or section.host}", head, below, box, circuit))
        marks = (Stroke(((box.right, middle), (at.bus, middle)), HEAVY), Round(at.bus, middle, 6, 1, INK, INK))
        made.append(Group(scene.id(f"into-{circuit or section.host}"), head, below, marks, circuit, layer=1))
        y += FLAG + 10
    return tuple(made)


def info_words(scene: Scene, section: Section, left: float, top: float) -> tuple[tuple[Mark, ...], float]:
    """The source in words, and the height below them."""
    build, name = scene.sized.build, section.host
    room = INFO - 40
    y = top + 34
    marks: list[Mark] = [Text(left, y, labels.designation(build, name), LARGE, True)]
    title = labels.title(build, name)
    for line in wrap(title[:1].upper() + title[1:], room, SMALL, bold=True, lines=3):
        y += 32
        marks.append(Text(left, y, line, SMALL, True))
    facts = [labels.place(build, labels.node_place(build, name)), *host_facts(scene, name).split("; ")]
    facts += [f"part {section.part}"] if section.part else []
    for line in (line for fact in facts for line in wrap(fact, room, lines=2)):
        y += 31
        marks.append(Text(left, y, line, colour=QUIET))
    return tuple(marks), y + 20


def info_height(scene: Scene, section: Section) -> float:
    return info_words(scene, section, 0, 0)[1] + len(feeding(scene, section)) * (FLAG + 10)


def feeding(scene: Scene, section: Section) -> list[tuple[str, str, str]]:
    """(circuit number, from where, on which sheet) of each conductor that feeds a source."""
    build, name = scene.sized.build, section.host
    if name in build.batteries:
        return [("", "positive post", f"← sheet {scene.supply_sheet.get(name, 1)}")]
    feeds = [c for c in build.circuits if c.kind in ("feeder", "tie") and c.target == name]
    return [(c.number, f"from {labels.designation(build, c.source)} {c.source}", feeder_line(scene, c)) for c in feeds]


def feeder_line(scene: Scene, circuit: Circuit) -> str:
    """`← sheet 1 · F6 60 A`."""
    sheet = scene.circuit_sheet.get(circuit.key, 1)
    fuses = [f"{p.designation} {labels.rating(scene.sized, circuit, p)[0]}" for p in circuit.protections]
    where = f"← sheet {sheet}" if sheet != scene.number else "← this sheet"
    return " · ".join([where, *fuses])


def position_notes(build: Resolved, section: Section, room: float) -> tuple[str, ...]:
    """Free and kept-empty positions of a block, blank keys of a panel, once for each source."""
    if section.kind != "host" or (section.part and not section.part.startswith("1/")):
        return ()
    name = section.host
    texts: list[str] = []
    if name in build.blocks and (trait := build.blocks[name].part.block):
        empty = build.blocks[name].empty
        used = {p.position for c in build.circuits for p in c.protections if p.host == name}
        used |= {int(w.start.pin) for c in build.circuits if c.source == name for w in c.feeds[:1] if w.start.pin.isdigit()}
        free = [str(n) for n in range(1, trait.positions + 1) if n not in used and n not in empty]
        texts += [f"Free positions: {', '.join(free)}."] if free else []
        texts += [f"Keep {n} empty: {why}" for n, why in sorted(empty.items())]
    if name in build.panels:
        blanks = [str(c.number) for c in build.channels if c.panel == name and c.use == "blank"]
        texts += [f"Blank keys, no wire: {', '.join(blanks)}."] if blanks else []
    return wrap("   ".join(texts), room, lines=6) if texts else ()


def note(scene: Scene, section: Section, lines: Sequence[str], left: float, top: float) -> tuple[Group, ...]:
    if not lines:
        return ()
    marks = tuple(Text(left, top + ASCENT + n * NOTE_LINE, line, SMALL, colour=QUIET) for n, line in enumerate(lines))
    name = scene.id(f"{section.host}-positions")
    return (Group(name, "free and kept-empty positions", " ".join(lines), marks, layer=3),)
