"""Chargers, links and direct loads of the supply sheet."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec import show
from buildspec.drawings import labels, load_words, loads, symbols
from buildspec.drawings.marks import Box, Group, Mark, Text
from buildspec.drawings.measure import LARGE, SMALL, fit, width, wrap
from buildspec.drawings.palette import QUIET
from buildspec.drawings.source_cards import SYMBOL_X, card, down
from buildspec.drawings.strands import ASCENT, Scene
from buildspec.model import Circuit, Isolation, Resolved, Supply

TITLE_LINES = 2
"""Beside the symbol of a device; its ratings stand below both."""


MOST_INSET = 95.0
"""Room for the names of terminals at the left of a card."""


GIVEN = {"shore": "while the mains lead is in", "solar": "while the sun shines"}


def found(build: Resolved, name: str) -> Isolation | Supply:
    """A charger, link or outside source by its name."""
    return build.isolation[name] if name in build.isolation else build.supplies[name]


def device_words(scene: Scene, item: Isolation | Supply) -> list[str]:
    """Ratings and conditions of a charger, a link or an outside source."""
    if isinstance(item, Supply):
        trait = item.part.charger
        return [*([f"{show.amps(trait.output_a)} out"] if trait else []), GIVEN[item.type]]
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
    coil = next(
        (
            c
            for c in scene.sized.build.circuits
            if c.kind == "coil" and c.target_designation == item.designation
        ),
        None,
    )
    if coil is not None:
        facts.append(f"coil {coil.number} → sheet {scene.circuit_sheet.get(coil.key, scene.number)}")
    return facts


def device(
    scene: Scene,
    item: Isolation | Supply,
    box: Box,
    ports: Sequence[tuple[str, float]],
    circuits: Sequence[Circuit],
) -> tuple[Group, ...]:
    """Charger or link: a card with its terminals at the left, its symbol at the upper right."""
    title = f"{item.designation} · {item.part.title}"
    desc = f"{'; '.join(device_words(scene, item))}; at {labels.place(scene.sized.build, item.place)}"
    marks = (card(box), *device_symbol(item, box), *device_texts(scene, item, box, ports))
    made: list[Group] = [Group(scene.id(item.designation), title, desc, marks, circuits[0].number, box)]
    for circuit in circuits:
        if circuit.returns:
            made += down(scene, circuit, box.left + SYMBOL_X, box.bottom, box.right)
    return tuple(made)


def device_symbol(item: Isolation | Supply, box: Box) -> tuple[Mark, ...]:
    x, y = box.right - 54, box.top + 52
    if item.type == "dc-dc" or isinstance(item, Supply):
        return symbols.converter(x, y, 36)
    return symbols.link(x, y - 8, coil=item.type != "manual-switch")


def device_texts(
    scene: Scene, item: Isolation | Supply, box: Box, ports: Sequence[tuple[str, float]]
) -> tuple[Mark, ...]:
    """Terminals, designation, name and, as far as the card goes, ratings."""
    inset = max([0.0, *(width(label) for label, _ in ports)]) + 30
    left, room = box.left + inset, box.right - box.left - inset - 14
    marks = [Text(box.left + 12, y + ASCENT / 2, label, colour=QUIET) for label, y in ports if label]
    marks.append(Text(left, box.top + 42, item.designation, LARGE, True))
    first = box.top + 76
    heads = wrap(item.part.title, room - 84, SMALL, bold=True, lines=TITLE_LINES)
    marks += [Text(left, first + 30 * n, line, SMALL, True) for n, line in enumerate(heads)]
    facts = [line for fact in device_words(scene, item) for line in wrap(fact, room, lines=2)]
    levels = [first + 30 * (TITLE_LINES + n) for n in range(len(facts))]
    marks += [
        Text(left, y, line, colour=QUIET) for y, line in zip(levels, facts, strict=True) if y + 8 < box.bottom
    ]
    return tuple(marks)


def device_height(scene: Scene, item: Isolation | Supply, ports: int, across: float) -> float:
    """Room for its words and its terminals on a card of this width."""
    room = across - MOST_INSET - 14
    facts = sum(len(wrap(fact, room, lines=2)) for fact in device_words(scene, item))
    return max(60.0 * ports + 50, 62 + 30.0 * (TITLE_LINES + facts), 130)


def direct_load(scene: Scene, circuit: Circuit, box: Box, port: float) -> tuple[Group, ...]:
    """A load straight from a battery: symbol, words, its return hanging down."""
    x = box.left + 24
    found = load_words.words(scene, circuit)
    room = box.right - box.left - load_words.SYMBOL_ROOM - 8
    left = box.left + load_words.SYMBOL_ROOM
    marks: list[Mark] = [*loads.symbol(scene, circuit, x, port)]
    lead = width(found.designation, bold=True) + 10
    marks.append(Text(left, port - 6, found.designation, SMALL, True))
    marks.append(Text(left + lead, port - 6, fit(found.name, room - lead)))
    marks.append(Text(left, port + 26, fit(found.below, room), colour=QUIET))
    half = load_words.reach(circuit)
    body = Box(x - half, port - 18, x + half, port + 18)
    title = f"{found.designation} · {found.name}"
    load = Group(scene.id(found.designation), title, found.below, tuple(marks), circuit.number, body)
    if circuit.kind == "reserve":
        lead_x = x + symbols.CAP_HALF
        return (load, *down(scene, circuit, lead_x - 2, port + 14, box.right, clear=26))
    return (load, *down(scene, circuit, x, port + 21, box.right, clear=22))
