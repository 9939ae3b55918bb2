"""What stands on the supply sheet: batteries, alternator, signals, chargers and links, drawn at their place."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec import show
from buildspec.drawings import labels, loads, strands, symbols
from buildspec.drawings.marks import Box, Group, Mark, Rect, Stroke, Text
from buildspec.drawings.measure import BODY, SMALL, STRONG, fit, width, wrap
from buildspec.drawings.palette import HEAVY, INK, PAPER, QUIET
from buildspec.drawings.strands import ASCENT, Scene
from buildspec.model import Circuit, Isolation

DROP = 76.0
"""Length of a return that is drawn downwards."""
SYMBOL_X = 62.0
TEXT_X = 120.0
TITLE_LINES = 2
"""Beside the symbol of a device; its ratings stand below both."""
MOST_INSET = 95.0
"""Room for the names of terminals at the left of a card."""


def card(box: Box) -> Mark:
    return Rect(box, PAPER, INK, 3, 10)


def battery(
    scene: Scene, name: str, box: Box, port: float, bond: Circuit | None, *, new: bool
) -> tuple[Group, ...]:
    """Battery with its positive lead to the right edge at height `port`; its negative below it."""
    item = scene.sized.build.batteries[name]
    x = box.left + SYMBOL_X
    room = box.right - box.left - TEXT_X - 14
    marks: list[Mark] = [
        card(box),
        *symbols.battery(x, port, box.bottom),
        Stroke(((x, port), (box.right, port)), HEAVY),
        Text(x + 14, port - 10, "+", BODY, True),
        Text(x + 14, box.bottom - 14, "−", BODY, True),
        Text(box.left + TEXT_X, port + 46, item.designation, STRONG, True),
    ]
    y = port + 48
    lines = [*wrap(f"{name} battery", room, BODY, bold=True, lines=1), *labels.battery_facts(scene.sized.build, name)]
    for n, line in enumerate(lines):
        y += 33
        marks.append(Text(box.left + TEXT_X, y, fit(line, room), SMALL, n == 0, colour=INK if n == 0 else QUIET))
    title = f"{item.designation} · {name} battery"
    desc = f"{item.role} side, {'; '.join(labels.battery_facts(scene.sized.build, name))}, {item.place}"
    body = Group(scene.id(item.designation), title, desc, tuple(marks), body=box)
    if bond is not None:
        return (body, *down(scene, bond, x, box.bottom, box.right, number=True))
    return (body, *negative(scene, name, x, box.bottom, new=new))


def negative(scene: Scene, name: str, x: float, y: float, *, new: bool) -> tuple[Group, ...]:
    """A negative that is not ours to lay, or that is drawn on an earlier sheet."""
    item = scene.sized.build.batteries[name]
    words = "vehicle’s own cable" if item.existing else "body"
    marks: tuple[Mark, ...] = (
        Stroke(((x, y), (x, y + 24)), HEAVY),
        *symbols.chassis(x, y + 24),
        Text(x + 32, y + 38, words, colour=QUIET),
    )
    if not new:
        words = f"negative: sheet {scene.supply_sheet.get(name, 1)}"
        marks = (Text(x - 32, y + 34, words, colour=QUIET),)
    return (Group(scene.id(f"{item.designation}-negative"), f"negative of {item.designation}", words, marks),)


def down(
    scene: Scene, circuit: Circuit, x: float, y: float, right: float, *, number: bool = False, clear: float = 0
) -> tuple[Group, ...]:
    """A return that hangs down from (x, y) to its ground, tag at its right, `clear` below the start."""
    made: list[Group] = []
    end = y + DROP + clear
    for index, wire in enumerate(circuit.returns):
        top = y + index * (DROP + clear) / len(circuit.returns)
        tag = strands.tag_beside(scene, circuit, wire, x, top + 36 + clear)
        low = y + (index + 1) * (DROP + clear) / len(circuit.returns)
        made += strands.conductor(scene, circuit, wire, ((x, top), (x, low)), tag)
    if number:
        wide = max([0.0, *(strands.tag_width(scene, circuit, wire) for wire in circuit.returns)])
        left = x + strands.half(scene, circuit) + 26 + wide
        made.append(strands.numbered(scene, circuit, strands.pill(left, y + 35, circuit.number, number=True)))
    name, where = loads.ground_words(scene, circuit)
    if not name:
        return tuple(made)
    symbol = symbols.terminal(x, end) if name.endswith("−") else symbols.chassis(x, end)
    lead = width(name, bold=True) + 8
    marks = (
        *symbol,
        Text(x + 32, end + 14, name, SMALL, True),
        *(Text(x + 32 + lead, end + 14 + 29 * n, line, colour=QUIET) for n, line in enumerate(wrap(where, right - x - 36 - lead, lines=2))),
    )
    made.append(Group(scene.id(f"ground-{circuit.number}"), f"{name} · {where}", f"return of circuit {circuit.number}", marks, circuit.number))
    return tuple(made)


def alternator(scene: Scene, box: Box, port: float, battery_name: str) -> tuple[Group, ...]:
    """Alternator with its lead to the right at height `port`."""
    item = scene.sized.build.vehicle.alternator
    assert item is not None
    x, y = box.left + SYMBOL_X, port + 70
    kind = "controlled" if item.controlled else "fixed voltage"
    marks = (
        Stroke(((x, y - 42), (x, port), (box.right, port)), HEAVY),
        *symbols.generator(x, y),
        Text(box.left + TEXT_X, port + 44, item.designation, STRONG, True),
        Text(box.left + TEXT_X + width(item.designation, STRONG, bold=True) + 10, port + 44, "alternator", SMALL, True),
        *(
            Text(box.left + TEXT_X, port + 75 + n * 30, fit(line, box.right - box.left - TEXT_X - 4), colour=QUIET)
            for n, line in enumerate((f"{show.amps(item.rated_a)}, {kind}", "vehicle’s own cable"))
        ),
    )
    title = f"{item.designation} · alternator {show.amps(item.rated_a)}"
    desc = f"{kind}, joined to the {battery_name} battery by the vehicle’s own cable"
    return (Group(scene.id(item.designation), title, desc, marks, body=Box(x - 42, y - 42, x + 42, y + 42)),)


def signal(scene: Scene, name: str, box: Box, port: float) -> tuple[Group, ...]:
    """A signal of the vehicle, or a block or panel from which a written conductor leaves."""
    build = scene.sized.build
    found = build.signals.get(name)
    head = found.words if found else f"{labels.designation(build, name)} {labels.title(build, name)}"
    sheet = scene.node_sheet.get(name)
    below = f"vehicle signal, {found.kind}" if found else f"→ sheet {sheet}" if sheet else ""
    room = box.right - box.left - 40
    marks: list[Mark] = [Stroke(((box.right - 6, port), (box.right, port)), 3), *symbols.terminal(box.right - 12, port)]
    lines = wrap(head, room, lines=2)
    marks += [Text(box.right - 30, port + 9 - 31 * (len(lines) - 1) + 31 * n, line, anchor="end") for n, line in enumerate(lines)]
    marks.append(Text(box.right - 30, port + 40, fit(below, room), anchor="end", colour=QUIET))
    desc = f"{below}, {labels.place(build, labels.node_place(build, name))}"
    return (Group(scene.id(name), head, desc, tuple(marks), body=Box(box.right - 20, port - 8, box.right, port + 8)),)


def device_words(scene: Scene, item: Isolation) -> list[str]:
    """Ratings and conditions of a charger or a link."""
    facts: list[str] = []
    if item.part.charger:
        trait = item.part.charger
        facts.append(f"{show.amps(trait.output_a)} out, {show.amps(trait.input_max_a)} in at most")
    if item.part.link:
        kind = ", momentary" if item.part.link.momentary else ""
        facts.append(f"{show.amps(item.part.link.rating_a)} continuous{kind}")
    facts.append(labels.way(item))
    if item.wake == "voltage":
        facts.append("wakes by voltage")
    if item.crank:
        facts.append(f"{item.crank} while cranking")
    coil = next((c for c in scene.sized.build.circuits if c.kind == "coil" and c.target_designation == item.designation), None)
    if coil is not None:
        facts.append(f"coil {coil.number} → sheet {scene.circuit_sheet.get(coil.key, scene.number)}")
    return facts


def device(
    scene: Scene, item: Isolation, box: Box, ports: Sequence[tuple[str, float]], circuits: Sequence[Circuit]
) -> tuple[Group, ...]:
    """Charger or link: a card with its terminals at the left, its symbol at the upper right."""
    inset = max([0.0, *(width(label) for label, _ in ports)]) + 30
    left, room = box.left + inset, box.right - box.left - inset - 14
    at = (box.right - 54, box.top + 52)
    symbol = symbols.converter(*at, 36) if item.type == "dc-dc" else symbols.link(at[0], at[1] - 8, coil=item.type != "manual-switch")
    marks: list[Mark] = [card(box), *symbol, Text(left, box.top + 42, item.designation, 36, True)]
    marks += [Text(box.left + 12, y + ASCENT / 2, label, colour=QUIET) for label, y in ports]
    y = box.top + 46
    for line in wrap(item.part.title, room - 84, SMALL, bold=True, lines=TITLE_LINES):
        y += 30
        marks.append(Text(left, y, line, SMALL, True))
    y = box.top + 46 + 30 * TITLE_LINES
    for fact in device_words(scene, item):
        for line in wrap(fact, room, lines=2):
            if y + 36 < box.bottom:
                y += 30
                marks.append(Text(left, y, line, colour=QUIET))
    title = f"{item.designation} · {item.part.title}"
    desc = f"{'; '.join(device_words(scene, item))}; at {labels.place(scene.sized.build, item.place)}"
    made: list[Group] = [Group(scene.id(item.designation), title, desc, tuple(marks), circuits[0].number, box)]
    for circuit in circuits:
        if circuit.returns:
            made += down(scene, circuit, box.left + SYMBOL_X, box.bottom, box.right)
    return tuple(made)


def device_height(scene: Scene, item: Isolation, ports: int, across: float) -> float:
    """Room for its words and its terminals on a card of this width."""
    room = across - MOST_INSET - 14
    facts = sum(len(wrap(fact, room, lines=2)) for fact in device_words(scene, item))
    return max(60.0 * ports + 50, 62 + 30.0 * (TITLE_LINES + facts), 130)


def direct_load(scene: Scene, circuit: Circuit, box: Box, port: float) -> tuple[Group, ...]:
    """A load straight from a battery: symbol, words, its return hanging down."""
    x = box.left + 24
    found = loads.words(scene, circuit)
    room = box.right - box.left - loads.SYMBOL_ROOM - 8
    left = box.left + loads.SYMBOL_ROOM
    marks: list[Mark] = [*loads.symbol(scene, circuit, x, port)]
    lead = width(found.designation, bold=True) + 10
    marks.append(Text(left, port - 6, found.designation, SMALL, True))
    marks.append(Text(left + lead, port - 6, fit(found.name, room - lead)))
    marks.append(Text(left, port + 26, fit(found.below, room), colour=QUIET))
    half = loads.reach(circuit)
    body = Box(x - half, port - 18, x + half, port + 18)
    title = f"{found.designation} · {found.name}"
    load = Group(scene.id(found.designation), title, found.below, tuple(marks), circuit.number, body)
    if circuit.kind == "reserve":
        lead_x = x + symbols.CAP_HALF
        return (load, *down(scene, circuit, lead_x - 2, port + 14, box.right, clear=26))
    return (load, *down(scene, circuit, x, port + 21, box.right, clear=22))
