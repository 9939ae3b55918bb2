"""The block, panel or battery post on which the rows of a ladder hang, and what feeds it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildspec import show
from buildspec.drawings import labels, loads, symbols
from buildspec.drawings.ladder_columns import BUS, INFO, Columns, number_width
from buildspec.drawings.load_words import flag_height
from buildspec.drawings.marks import Box, Group, Mark, Rect, Round, Stroke, Text
from buildspec.drawings.measure import BODY, LARGE, SMALL, wrap
from buildspec.drawings.palette import BAND_INNER, HEAVY, INK, PAPER, QUIET
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import Scene
from buildspec.model import Circuit

FLAG_WIDTH, FLAG_GAP = INFO - 34, 10.0


INFO_ROOM = INFO - 40


SIGNAL_ROOM = INFO + BUS - 30


def host(
    scene: Scene,
    section: Section,
    at: Columns,
    left: float,
    ends: tuple[float, float],
    heights: Sequence[float],
) -> tuple[Group, ...]:
    """The block, panel or battery post on which the rows hang: its words, its outline and its bus."""
    build = scene.sized.build
    name = labels.designation(build, section.host)
    inside = (
        [s for n, s in at.slots.items() if n in ("fuse0", "hand")]
        if section.host not in build.batteries
        else []
    )
    right = max([at.number + number_width(section), *(s.left + s.width for s in inside)])
    top, bottom = ends
    outline = Rect(Box(at.bus - 14, top, right + 4, bottom), BAND_INNER, radius=14)
    bar = Rect(Box(at.bus, top + 12, at.bus + BUS, bottom - 12), PAPER, INK, HEAVY, 4)
    marks: list[Mark] = [outline, bar]
    for circuit, y in zip(section.rows, heights, strict=True):
        marks += bar_words(circuit, at, y)
    words = labels.title(build, section.host)
    title = f"{name} · {words}"
    body = Group(scene.id(name), title, "; ".join(host_facts(scene, section.host)), tuple(marks), layer=0)
    return (body, *incoming(scene, section, at, left, ends))


def bar_words(circuit: Circuit, at: Columns, y: float) -> tuple[Mark, ...]:
    """Position on the bus."""
    pins = [w.start.pin for w in circuit.feeds[:1]]
    places = [str(p.position) for p in circuit.protections if p.host]
    text = "−" if circuit.kind == "module" else places[0] if places else pins[0] if pins else ""
    mark = symbols.centred(at.bus + BUS / 2, y, text, BODY)
    return (mark,) if mark.text else ()


def host_facts(scene: Scene, name: str) -> list[str]:
    build = scene.sized.build
    worst = scene.sized.loads_a.get(name)
    facts = [labels.panel_facts(build.panels[name])] if name in build.panels else []
    trait = build.blocks[name].part.block if name in build.blocks else None
    facts += [f"{trait.positions} positions", f"at most {show.amps(trait.total_a)}"] if trait else []
    facts += [f"worst case {show.amps(worst)}"] if worst is not None else []
    return [part for fact in facts for part in fact.split("; ") if part]


def incoming(
    scene: Scene, section: Section, at: Columns, left: float, ends: tuple[float, float]
) -> tuple[Group, ...]:
    """Words about the source, and a flag for each conductor that feeds it."""
    made: list[Group] = []
    words, y = info_words(scene, section, left, ends[0])
    name = labels.title(scene.sized.build, section.host)
    text = "; ".join(host_facts(scene, section.host))
    anchor = f"part:{section.host}:{section.part}" if section.part else f"host:{section.host}"
    made.append(Group(scene.id(f"{section.host}-words"), name, text, words, layer=3, anchor=anchor))
    for flag in feeding(scene, section):
        box = Box(left, y, at.bus - 34, y + flag_height(flag.head, flag.below, FLAG_WIDTH))
        middle = (box.top + box.bottom) / 2
        named = flag.circuit or section.host
        made.append(
            loads.reference(
                scene, f"from-{named}", flag.head, flag.below, box, flag.circuit, anchor=flag.anchor
            )
        )
        marks = (
            Stroke(((box.right, middle), (at.bus, middle)), HEAVY),
            Round(at.bus, middle, 6, 1, INK, INK),
        )
        made.append(Group(scene.id(f"into-{named}"), flag.head, flag.below, marks, flag.circuit, layer=1))
        y = box.bottom + FLAG_GAP
    return tuple(made)


def info_words(scene: Scene, section: Section, left: float, top: float) -> tuple[tuple[Mark, ...], float]:
    """The source in words, and the height below them."""
    build, name = scene.sized.build, section.host
    y = top + 34
    marks: list[Mark] = [Text(left, y, labels.designation(build, name), LARGE, True)]
    title = labels.title(build, name)
    for line in wrap(title[:1].upper() + title[1:], INFO_ROOM, SMALL, bold=True):
        y += 32
        marks.append(Text(left, y, line, SMALL, True))
    facts = [labels.place(build, labels.node_place(build, name)), *host_facts(scene, name)]
    facts += [*part_facts(scene, section), *elsewhere(scene, section)]
    for line in (line for fact in facts for line in wrap(fact, INFO_ROOM)):
        y += 31
        marks.append(Text(left, y, line, colour=QUIET))
    return tuple(marks), y + 20


def part_facts(scene: Scene, section: Section) -> list[str]:
    """Where a source that takes several sheets comes from and goes on."""
    if not section.part:
        return []
    number, count = (int(part) for part in section.part.split("/"))
    made = [f"part {section.part}"]
    for other, arrow in ((number - 1, "←"), (number + 1, "→")):
        if 1 <= other <= count:
            key = f"{section.host}:{other}/{count}"
            sheet = scene.node_sheet.get(f"part:{key}", scene.number)
            made.append(f"{arrow} {scene.sheet(sheet, f'part:{key}')}")
    return made


def elsewhere(scene: Scene, section: Section) -> list[str]:
    """Circuits of a source that start on another sheet, and signals that come to it from another one."""
    build, name = scene.sized.build, section.host
    if name in build.batteries or (section.part and not section.part.startswith("1/")):
        return []
    away = [c for c in build.circuits if c.source == name or inputs(scene, c, name)]
    made = []
    for circuit in away:
        sheet = scene.circuit_sheet.get(circuit.key, scene.number)
        here = scene.node_sheet.get(name, scene.number)
        if sheet != here and f"rows:{circuit.key}" not in scene.node_sheet:
            arrow = "→" if circuit.source == name else "←"
            made.append(f"{circuit.number} {arrow} {scene.sheet(sheet, f'row:{circuit.key}')}")
    return made


def inputs(scene: Scene, circuit: Circuit, name: str) -> bool:
    """Does a signal go to an input of this panel?"""
    panel = scene.sized.build.panels.get(name)
    return panel is not None and circuit.kind == "signal" and circuit.target_designation == panel.designation


def info_height(scene: Scene, section: Section) -> float:
    flags = (flag_height(f.head, f.below, FLAG_WIDTH) + FLAG_GAP for f in feeding(scene, section))
    return info_words(scene, section, 0, 0)[1] + sum(flags)


class Feed(NamedTuple):
    """What a flag at the left of a source says."""

    circuit: str
    head: str
    below: str
    anchor: str


def feeding(scene: Scene, section: Section) -> list[Feed]:
    """From where, and on which sheet, of each conductor that feeds a source."""
    build, name = scene.sized.build, section.host
    if name in build.batteries:
        there = scene.sheet(scene.supply_sheet.get(f"more:{name}", 1), f"more:{name}")
        return [Feed("", "positive post", f"← {there}", f"post:{name}")]
    feeds = [c for c in build.circuits if c.kind in ("feeder", "tie") and c.target == name]
    return [
        Feed(
            c.number,
            f"from {labels.designation(build, c.source)} {c.source}",
            feeder_line(scene, c),
            f"from:{c.key}",
        )
        for c in feeds
    ]


def feeder_line(scene: Scene, circuit: Circuit) -> str:
    """`← sheet 1/B4, BL07, F6 60 A`."""
    sheet = scene.circuit_sheet.get(circuit.key, 1)
    fuses = [f"{p.designation} {labels.rating(scene.sized, circuit, p)[0]}" for p in circuit.protections]
    there = scene.sheet(sheet, f"to:{circuit.key}")
    return ", ".join([f"← {there}" if sheet != scene.number else "← this sheet", circuit.number, *fuses])


def signal_lines(scene: Scene, circuit: Circuit) -> tuple[str, ...]:
    """Words at the left of a signal's row, its place last."""
    build = scene.sized.build
    signal = build.signals.get(circuit.source)
    place = labels.place(build, signal.place) if signal else ""
    words = signal.words if signal else circuit.source
    return (*wrap(words, SIGNAL_ROOM), *wrap(place, SIGNAL_ROOM))
