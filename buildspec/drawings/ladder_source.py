"""The block, panel or battery post on which the rows of a ladder hang, and what feeds it."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec import show
from buildspec.drawings import labels, loads, symbols
from buildspec.drawings.ladder_columns import BUS, INFO, Columns, number_width
from buildspec.drawings.marks import Box, Group, Mark, Rect, Round, Stroke, Text
from buildspec.drawings.measure import BODY, LARGE, SMALL, fit, wrap
from buildspec.drawings.palette import BAND_INNER, HEAVY, INK, PAPER, QUIET
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import Scene
from buildspec.model import Circuit

FLAG = 74.0


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
    return "; ".join(
        part
        for part in (
            f"{trait.positions} positions; at most {show.amps(trait.total_a)}" if trait else "",
            total,
        )
        if part
    )


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
        marks = (
            Stroke(((box.right, middle), (at.bus, middle)), HEAVY),
            Round(at.bus, middle, 6, 1, INK, INK),
        )
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
    return [
        (c.number, f"from {labels.designation(build, c.source)} {c.source}", feeder_line(scene, c))
        for c in feeds
    ]


def feeder_line(scene: Scene, circuit: Circuit) -> str:
    """`← sheet 1 · F6 60 A`."""
    sheet = scene.circuit_sheet.get(circuit.key, 1)
    fuses = [f"{p.designation} {labels.rating(scene.sized, circuit, p)[0]}" for p in circuit.protections]
    where = f"← sheet {sheet}" if sheet != scene.number else "← this sheet"
    return " · ".join([where, *fuses])
