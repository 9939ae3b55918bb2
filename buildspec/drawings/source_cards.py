"""What stands at the left of the supply sheet: batteries, the alternator, signals."""

from __future__ import annotations

from buildspec import show
from buildspec.drawings import labels, load_words, strands, supply_words, symbols
from buildspec.drawings.marks import Box, Group, Mark, Point, Rect, Stroke, Text
from buildspec.drawings.measure import BODY, SMALL, STRONG, width
from buildspec.drawings.palette import HEAVY, INK, PAPER, QUIET
from buildspec.drawings.strands import Scene
from buildspec.drawings.supply_words import BATTERY_LINE, SYMBOL_X, TEXT_X
from buildspec.model import Circuit

DROP = 76.0
"""Length of a return that is drawn downwards."""


def card(box: Box) -> Mark:
    return Rect(box, PAPER, INK, 3, 10)


def battery(
    scene: Scene, name: str, box: Box, port: float, bond: Circuit | None, *, new: bool
) -> tuple[Group, ...]:
    """Battery with its positive lead to the right edge at height `port`; its negative below it."""
    item = scene.sized.build.batteries[name]
    x = box.left + SYMBOL_X
    wide = box.right - box.left
    marks: list[Mark] = [
        card(box),
        *symbols.battery(x, port, box.bottom),
        Stroke(((x, port), (box.right, port)), HEAVY),
        Text(x + 14, port - 10, "+", BODY, True),
        Text(x + 14, box.bottom - 14, "−", BODY, True),
        Text(box.left + TEXT_X, port + 46, item.designation, STRONG, True),
    ]
    names = supply_words.battery_names(name, wide)
    for n, line in enumerate((*names, *supply_words.battery_lines(scene, name, wide))):
        y, own = port + 48 + BATTERY_LINE * (n + 1), n < len(names)
        marks.append(Text(box.left + TEXT_X, y, line, SMALL, own, colour=INK if own else QUIET))
    title = f"{item.designation} · {name} battery"
    desc = f"{item.role} side, {'; '.join(labels.battery_facts(scene.sized.build, name))}, {item.place}"
    anchor = f"battery:{name}" if new else ""
    body = Group(scene.id(item.designation), title, desc, tuple(marks), body=box, anchor=anchor)
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
        words = f"negative: {scene.sheet(scene.supply_sheet.get(name, 1), f'battery:{name}')}"
        marks = (Text(x - 32, y + 34, words, colour=QUIET),)
    ident, title = scene.id(f"{item.designation}-negative"), f"negative of {item.designation}"
    anchor = "" if new else f"again:{name}:{scene.number}"
    return (Group(ident, title, words, marks, anchor=anchor),)


def down(
    scene: Scene,
    circuit: Circuit,
    x: float,
    y: float,
    right: float,
    *,
    number: bool = False,
    clear: float = 0,
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
    return (*made, *hanging(scene, circuit, (x, y), end if circuit.returns else y + 44, right))


def hanging(scene: Scene, circuit: Circuit, start: Point, end: float, right: float) -> tuple[Group, ...]:
    """The ground under a return; under the device itself where the body is the return."""
    name, where = load_words.ground_words(scene, circuit)
    if not name:
        return ()
    x = start[0]
    symbol = symbols.terminal(x, end) if name.endswith("−") else symbols.chassis(x, end)
    stub: tuple[Mark, ...] = () if circuit.returns else (Stroke((start, (x, end)), 3),)
    lead = width(name, bold=True) + 8
    lines = supply_words.hanging_lines(scene, circuit, right - x)
    marks = (
        *stub,
        *symbol,
        Text(x + 32, end + 14, name, SMALL, True),
        *(Text(x + 32 + lead, end + 14 + 29 * n, line, colour=QUIET) for n, line in enumerate(lines)),
    )
    title, desc = f"{name} · {where}", f"return of circuit {circuit.number}"
    anchor = f"ground:{circuit.key}"
    return (Group(scene.id(f"ground-{circuit.number}"), title, desc, marks, circuit.number, anchor=anchor),)


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
        Text(
            box.left + TEXT_X + width(item.designation, STRONG, bold=True) + 10,
            port + 44,
            "alternator",
            SMALL,
            True,
        ),
        *(
            Text(
                box.left + TEXT_X,
                port + 75 + n * 30,
                line,
                colour=QUIET,
            )
            for n, line in enumerate((f"{show.amps(item.rated_a)}, {kind}", "vehicle’s own cable"))
        ),
    )
    title = f"{item.designation} · alternator {show.amps(item.rated_a)}"
    desc = f"{kind}, joined to the {battery_name} battery by the vehicle’s own cable"
    return (Group(scene.id(item.designation), title, desc, marks, body=Box(x - 42, y - 42, x + 42, y + 42)),)


def signal(scene: Scene, name: str, box: Box, port: float) -> tuple[Group, ...]:
    """A signal of the vehicle, or a block or panel from which a written conductor leaves."""
    build = scene.sized.build
    head, below = supply_words.signal_words(scene, name)
    above, under = supply_words.signal_lines(scene, name, box.right - box.left)
    first = port + 9 - 31 * (len(above) - 1)
    marks: list[Mark] = [
        Stroke(((box.right - 6, port), (box.right, port)), 3),
        *symbols.terminal(box.right - 12, port),
        *(Text(box.right - 30, first + 31 * n, line, anchor="end") for n, line in enumerate(above)),
        *(
            Text(box.right - 30, port + 40 + 31 * n, line, anchor="end", colour=QUIET)
            for n, line in enumerate(under)
        ),
    ]
    desc = f"{below}, {labels.place(build, labels.node_place(build, name))}"
    body = Box(box.right - 20, port - 8, box.right, port + 8)
    feeder = supply_words.only_here(scene, name)
    number, anchor = (feeder.number, f"from:{feeder.key}") if feeder else ("", "")
    return (Group(scene.id(name), head, desc, tuple(marks), number, body, anchor=anchor),)
