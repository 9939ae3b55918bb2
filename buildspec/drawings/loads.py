"""The right end of a row: the symbol of what is fed, its return, and the ground at the end."""

from __future__ import annotations

from buildspec.drawings import strands, symbols
from buildspec.drawings.load_words import (
    GROUND_ROOM,
    SYMBOL_ROOM,
    TURNING,
    Words,
    flag_width,
    flag_words,
    ground_words,
    is_coil,
    part_of,
    reach,
    words,
)
from buildspec.drawings.marks import Box, Group, Mark, Stroke, Text
from buildspec.drawings.measure import CAP, SMALL, fit, width, wrap
from buildspec.drawings.palette import INK, QUIET
from buildspec.drawings.strands import ASCENT, PAD, Scene
from buildspec.model import Circuit


def symbol(scene: Scene, circuit: Circuit, x: float, y: float) -> tuple[Mark, ...]:
    """Symbol of the load, from its traits."""
    if circuit.kind == "reserve":
        return symbols.capped(x, y)
    if circuit.kind in ("coil", "signal"):
        return symbols.coil(x, y) if is_coil(circuit) else symbols.terminal(x, y)
    part = part_of(scene, circuit)
    if part is None:
        return symbols.item(x, y, circuit.target_designation[:1])
    if part.lamp:
        return symbols.lamp(x, y)
    if part.outlet or part.category == "outlet":
        return symbols.socket(x, y)
    if part.letter == "M" or part.category in TURNING:
        return symbols.motor(x, y)
    if part.letter == "T":
        return symbols.converter(x, y, to_ac=part.category == "inverter")
    return symbols.heater(x, y) if part.category == "heater" else symbols.item(x, y, part.letter)


def texts(found: Words, left: float, y: float, room: float, lines: int) -> tuple[Mark, ...]:
    """Designation and name above the line, the rest below in one line or two."""
    lead = width(found.designation, bold=True) + 10
    below = wrap(found.below, room, lines=lines)
    marks = (
        Text(left, y - 14, found.designation, SMALL, True),
        Text(left + lead, y - 14, fit(found.name, room - lead)),
        *(Text(left, y + 13 + ASCENT + n * 29, line, colour=QUIET) for n, line in enumerate(below)),
    )
    return tuple(mark for mark in marks if mark.text)


def load(scene: Scene, circuit: Circuit, left: float, y: float, room: float, lines: int) -> Group:
    """Symbol and words of what a circuit feeds, in a cell that begins at `left`."""
    x = left + 24
    found = words(scene, circuit)
    marks = (
        *symbol(scene, circuit, x, y),
        *texts(found, left + SYMBOL_ROOM, y, room - SYMBOL_ROOM - PAD, lines),
    )
    half = reach(circuit)
    body = Box(x - half, y - 15, x + half, y + 15)
    title = f"{found.designation} · {found.name}"
    return Group(
        scene.id(f"{found.designation}-{circuit.number}"), title, found.below, marks, circuit.number, body
    )


def flag(scene: Scene, circuit: Circuit, left: float, y: float, room: float) -> Group:
    """Reference to the sheet of the block or panel that a feeder goes to."""
    head, below = flag_words(scene, circuit)
    box = Box(left, y - 36, left + min(room - PAD, flag_width(scene, circuit)), y + 36)
    return reference(
        scene, f"to-{circuit.target_designation}-{circuit.number}", head, below, box, circuit.number
    )


def reference(
    scene: Scene, name: str, head: str, below: str, box: Box, circuit: str = "", *, dashed: bool = False
) -> Group:
    """A flag with two lines of text."""
    room, middle = box.right - box.left - 54, (box.top + box.bottom) / 2
    marks = (
        symbols.flag(box, dashed=dashed),
        Text(box.left + 14, middle - 5, fit(head, room, bold=True), SMALL, True),
        Text(box.left + 14, middle + 8 + SMALL * CAP, fit(below, room), colour=QUIET),
    )
    return Group(scene.id(name), f"{head} {below}", f"{head}, {below}", marks, circuit, box)


def ground(scene: Scene, circuit: Circuit, x: float, y: float, room: float, lines: int) -> Group | None:
    """Ground stud, battery post or body at the end of a return that arrives at (x, y)."""
    name, where = ground_words(scene, circuit)
    if not name:
        return None
    post = name.endswith("−")
    drop = 10
    end: tuple[Mark, ...] = (
        symbols.terminal(x, y)
        if post
        else (Stroke(((x, y), (x, y + drop)), 3, INK), *symbols.chassis(x, y + drop))
    )
    left = x + 30
    marks = (
        *end,
        Text(left, y - 8, name, SMALL, True),
        *(
            Text(left, y + 8 + ASCENT + n * 29, line, colour=QUIET)
            for n, line in enumerate(wrap(where, room - GROUND_ROOM - 6, lines=lines))
        ),
    )
    title = f"{name} · {where}"
    desc = f"end of the return of circuit {circuit.number}"
    return Group(scene.id(f"ground-{circuit.number}"), title, desc, marks, circuit.number)


def returns(
    scene: Scene, circuit: Circuit, start: float, tag_left: float, end: float, y: float
) -> tuple[Group, ...]:
    """Return conductors from the load's symbol to the ground, tags from `tag_left`."""
    if not circuit.returns:
        if not circuit.body_return:
            return ()
        name = scene.id(f"body-{circuit.number}")
        mark = Stroke(((start, y), (end, y)), 2, QUIET, dash="4 5")
        return (
            Group(
                name,
                "vehicle body",
                "no conductor: the return is the body at the device",
                (mark,),
                circuit.number,
                layer=1,
            ),
        )
    made: list[Group] = []
    step = (end - tag_left) / len(circuit.returns)
    for index, wire in enumerate(circuit.returns):
        left = start if index == 0 else tag_left + index * step
        right = end if index == len(circuit.returns) - 1 else tag_left + (index + 1) * step
        tag = strands.tag(scene, circuit, wire, tag_left + index * step + PAD, y)
        made += strands.conductor(scene, circuit, wire, ((left, y), (right, y)), tag)
    return tuple(made)
