"""The right end of a row: the symbol of what is fed, its return, and the ground at the end."""

from __future__ import annotations

from buildspec.drawings import strands, symbols
from buildspec.drawings.load_words import (
    SYMBOL_ROOM,
    TURNING,
    beside,
    flag_height,
    flag_lines,
    flag_width,
    flag_words,
    ground_lines,
    ground_words,
    is_coil,
    part_of,
    reach,
    words,
)
from buildspec.drawings.marks import Box, Group, Mark, Point, Stroke, Text
from buildspec.drawings.measure import SMALL, width
from buildspec.drawings.palette import INK, QUIET
from buildspec.drawings.strands import ASCENT, LEADING, PAD, Scene
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


def texts(scene: Scene, circuit: Circuit, left: float, y: float, room: float) -> tuple[Mark, ...]:
    """Designation and name above the line, the rest below, in as many lines as they take."""
    designation = words(scene, circuit).designation
    above, below = beside(scene, circuit, room)
    over, under = strands.clear(scene, circuit)
    top = y - over - LEADING * (max(1, len(above)) - 1)
    lead = width(designation, bold=True) + 10
    return (
        *((Text(left, top, designation, SMALL, True),) if designation else ()),
        *(Text(left + (0 if n else lead), top + n * LEADING, line) for n, line in enumerate(above)),
        *(Text(left, y + under + ASCENT + n * LEADING, line, colour=QUIET) for n, line in enumerate(below)),
    )


def load(scene: Scene, circuit: Circuit, left: float, y: float, room: float) -> Group:
    """Symbol and words of what a circuit feeds, in a cell that begins at `left`."""
    x = left + 24
    found = words(scene, circuit)
    marks = (*symbol(scene, circuit, x, y), *texts(scene, circuit, left + SYMBOL_ROOM, y, room))
    half = reach(circuit)
    body = Box(x - half, y - 15, x + half, y + 15)
    title = f"{found.designation} · {found.name}"
    name = scene.id(f"{found.designation}-{circuit.number}")
    return Group(name, title, found.below, marks, circuit.number, body, anchor=f"coil:{circuit.key}")


def flag(scene: Scene, circuit: Circuit, left: float, y: float, room: float) -> Group:
    """Reference to the sheet of the block or panel that a feeder goes to."""
    head, below = flag_words(scene, circuit)
    wide = min(room - PAD, flag_width(scene, circuit))
    half = flag_height(head, below, wide) / 2
    box = Box(left, y - half, left + wide, y + half)
    name = f"to-{circuit.target_designation}-{circuit.number}"
    return reference(scene, name, head, below, box, circuit.number, anchor=f"to:{circuit.key}")


def reference(
    scene: Scene, name: str, head: str, below: str, box: Box, circuit: str = "", *, anchor: str
) -> Group:
    """A flag with its words in lines."""
    heads, belows = flag_lines(head, below, box.right - box.left)
    first = (box.top + box.bottom) / 2 - LEADING * (len(heads) + len(belows)) / 2 + (LEADING + ASCENT) / 2
    marks = (
        symbols.flag(box),
        *(Text(box.left + 14, first + n * LEADING, line, SMALL, True) for n, line in enumerate(heads)),
        *(
            Text(box.left + 14, first + n * LEADING, line, colour=QUIET)
            for n, line in enumerate(belows, start=len(heads))
        ),
    )
    return Group(scene.id(name), f"{head} {below}", f"{head}, {below}", marks, circuit, box, anchor=anchor)


def ground(scene: Scene, circuit: Circuit, at: Point, room: float, *, short: bool) -> Group | None:
    """Ground stud, battery post or body at the end of a return that arrives at a point."""
    name, where = ground_words(scene, circuit)
    if not name:
        return None
    x, y = at
    drop = 10
    end: tuple[Mark, ...] = (
        symbols.terminal(x, y)
        if name.endswith("−")
        else (Stroke(((x, y), (x, y + drop)), 3, INK), *symbols.chassis(x, y + drop))
    )
    left = x + 30
    lines = ground_lines(scene, circuit, room, short=short)
    marks = (
        *end,
        Text(left, y - 8, name, SMALL, True),
        *(Text(left, y + 8 + ASCENT + n * LEADING, line, colour=QUIET) for n, line in enumerate(lines)),
    )
    title = f"{name} · {where}"
    desc = f"end of the return of circuit {circuit.number}"
    anchor = f"ground:{circuit.key}"
    return Group(scene.id(f"ground-{circuit.number}"), title, desc, marks, circuit.number, anchor=anchor)


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
