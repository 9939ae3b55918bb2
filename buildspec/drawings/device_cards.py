"""Chargers, links and direct loads of the supply sheet."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec import show
from buildspec.drawings import labels, load_words, loads, supply_words, symbols
from buildspec.drawings.marks import Box, Group, Mark, Text
from buildspec.drawings.measure import LARGE, SMALL, width, wrap
from buildspec.drawings.palette import QUIET
from buildspec.drawings.source_cards import card, down
from buildspec.drawings.strands import ASCENT, Scene
from buildspec.drawings.supply_words import SYMBOL_X
from buildspec.model import Circuit, Isolation, Resolved, Supply

MOST_INSET = 95.0
"""Room for the names of terminals at the left of a card."""


LINE = 30.0


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
        sheet = scene.circuit_sheet.get(coil.key, scene.number)
        facts.append(f"coil {coil.number} → {scene.sheet(sheet, f'coil:{coil.key}')}")
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
    name, anchor = scene.id(item.designation), f"contact:{item.designation}"
    made: list[Group] = [Group(name, title, desc, marks, circuits[0].number, box, anchor=anchor)]
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
    heads = head_lines(item, room)
    marks += [Text(left, first + LINE * n, line, SMALL, True) for n, line in enumerate(heads) if line]
    facts = fact_lines(scene, item, room)
    marks += [
        Text(left, first + LINE * n, line, colour=QUIET) for n, line in enumerate(facts, start=len(heads))
    ]
    return tuple(marks)


def head_lines(item: Isolation | Supply, room: float) -> tuple[str, ...]:
    """Name of a device beside its symbol, which two lines at least clear."""
    lines = wrap(item.part.title, room - 84, SMALL, bold=True)
    return lines if len(lines) > 1 else (*lines, "")[:2]


def fact_lines(scene: Scene, item: Isolation | Supply, room: float) -> tuple[str, ...]:
    return tuple(line for fact in device_words(scene, item) for line in wrap(fact, room))


def device_height(scene: Scene, item: Isolation | Supply, ports: int, across: float) -> float:
    """Room for its words and its terminals on a card of this width."""
    room = across - MOST_INSET - 14
    lines = len(head_lines(item, room)) + len(fact_lines(scene, item, room))
    return max(60.0 * ports + 50, 62 + LINE * lines, 130)


def load_words_of(
    scene: Scene, circuit: Circuit, across: float
) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    """(designation, name, quiet lines) of a load in a cell of some width."""
    found = load_words.words(scene, circuit)
    room = across - load_words.SYMBOL_ROOM - 8
    lead = width(found.designation, bold=True) + 10
    return found.designation, wrap(found.name, room, indent=lead), wrap(found.below, room)


def load_height(scene: Scene, circuit: Circuit, across: float) -> float:
    _, names, below = load_words_of(scene, circuit, across)
    lines = max(2, len(names) + len(below))
    return 100 + LINE * (lines - 2) + supply_words.foot(scene, circuit, across + supply_words.SYMBOL_X - 24)


def direct_load(scene: Scene, circuit: Circuit, box: Box, port: float) -> tuple[Group, ...]:
    """A load straight from a battery: symbol, words, its return hanging down."""
    x = box.left + 24
    found = load_words.words(scene, circuit)
    designation, names, below = load_words_of(scene, circuit, box.right - box.left)
    left = box.left + load_words.SYMBOL_ROOM
    lead = width(designation, bold=True) + 10
    marks: list[Mark] = [*loads.symbol(scene, circuit, x, port)]
    marks.append(Text(left, port - 6, designation, SMALL, True))
    levels = [port - 6, *(port + 26 + LINE * n for n in range(len(names) + len(below)))]
    marks += [Text(left + (0 if n else lead), levels[n], line) for n, line in enumerate(names)]
    marks += [
        Text(left, levels[n], line, colour=QUIET) for n, line in enumerate(below, start=max(1, len(names)))
    ]
    half = load_words.reach(circuit)
    body = Box(x - half, port - 18, x + half, port + 18)
    title = f"{found.designation} · {found.name}"
    load = Group(scene.id(designation), title, found.below, tuple(marks), circuit.number, body)
    more = LINE * max(0, len(names) + len(below) - 2)
    if circuit.kind == "reserve":
        lead_x = x + symbols.CAP_HALF
        return (load, *down(scene, circuit, lead_x - 2, port + 14, box.right, clear=26 + more))
    return (load, *down(scene, circuit, x, port + 21, box.right, clear=22 + more))
