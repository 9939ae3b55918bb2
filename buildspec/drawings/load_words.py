"""What stands beside the symbol of a load, on a flag and at a ground, and how wide that is."""

from __future__ import annotations

from typing import NamedTuple

from buildspec import branches
from buildspec.drawings import labels, strands, symbols
from buildspec.drawings.measure import width, wrap
from buildspec.drawings.strands import LEADING, PAD, Scene
from buildspec.model import Circuit, Part

TURNING = ("motor", "winch", "compressor", "pump", "fan", "lift")


SYMBOL_ROOM = 56.0


GROUND_ROOM = 52.0


MOST_FLAG = 560.0
FLAG_ENDS, FLAG_EDGE = 60.0, 16.0
"""Of a flag: its two ends, and its edge above and below the words."""


class Words(NamedTuple):
    """What stands beside a symbol: designation, name, and a quiet second line."""

    designation: str
    name: str
    below: str


def part_of(scene: Scene, circuit: Circuit) -> Part | None:
    found = scene.sized.build.accessories.get(circuit.item)
    return found.part if found and circuit.kind == "load" else None


def is_coil(circuit: Circuit) -> bool:
    return bool(circuit.feeds) and circuit.feeds[-1].end.pin == "86"


def reach(circuit: Circuit) -> float:
    """Half the width of the symbol on its conductor."""
    if circuit.kind == "reserve":
        return symbols.CAP_HALF
    if circuit.kind in ("coil", "signal"):
        return 15 if is_coil(circuit) else 6
    return 18


def words(scene: Scene, circuit: Circuit) -> Words:
    """Designation, name and place of what is fed."""
    build = scene.sized.build
    if circuit.kind == "reserve" and circuit.item in build.reserves:
        item = build.reserves[circuit.item]
        return Words(
            item.designation,
            f"reserve: {circuit.title}",
            f"{labels.load_amps(scene.sized, circuit)} · {item.end}",
        )
    if circuit.kind in ("coil", "signal"):
        return command_words(scene, circuit)
    item_place = labels.place(build, labels.node_place(build, circuit.item))
    count = f"{circuit.quantity} × " if circuit.quantity > 1 else ""
    joined = between(scene, circuit)
    return Words(
        circuit.target_designation,
        count + circuit.title,
        f"{labels.load_amps(scene.sized, circuit)} · {item_place}{joined}",
    )


def between(scene: Scene, circuit: Circuit) -> str:
    """How several items are joined, and on which sheet that is drawn."""
    branch = branches.of(scene.sized.build, circuit)
    if branch is None:
        return ""
    sheet = scene.circuit_sheet.get(branch.key, scene.number)
    there = f" → {scene.sheet(sheet, f'branch:{branch.key}')}" if sheet != scene.number else ""
    return f" · {branch.form} {branch.number}{there}"


def command_words(scene: Scene, circuit: Circuit) -> Words:
    """A coil with the sheet of its contact, or the input that a signal goes to."""
    build = scene.sized.build
    end = circuit.feeds[-1].end if circuit.feeds else None
    place = labels.place(build, end.place) if end else ""
    if not is_coil(circuit):
        where = input_sheet(scene, circuit)
        return Words(circuit.target_designation, end.pin if end else "", f"logic input{where} · {place}")
    sheet = scene.circuit_sheet.get(circuit.item, scene.supply_sheet.get(circuit.item, scene.number))
    power = next((c.number for c in build.circuits if c.key == circuit.item), "")
    there = scene.sheet(sheet, f"contact:{circuit.target_designation}")
    where = "contact in " + power + (f" → {there}" if sheet != scene.number else "")
    name = f"coil {coil_pins(circuit)}, {labels.load_amps(scene.sized, circuit)}"
    return Words(circuit.target_designation, name, f"{where} · {place}")


def coil_pins(circuit: Circuit) -> str:
    """`86–85`: terminals of a coil as its conductors name them, positive first."""
    back = [w.start.pin for w in circuit.returns[:1]]
    return "–".join([w.end.pin for w in circuit.feeds[-1:]] + back)


def input_sheet(scene: Scene, circuit: Circuit) -> str:
    """The sheet of the panel or charger whose input a signal goes to, where that is another one."""
    build = scene.sized.build
    name = next((n for n, p in build.panels.items() if p.designation == circuit.target_designation), "")
    sheet = scene.node_sheet.get(name, scene.number)
    return f" → {scene.sheet(sheet, f'host:{name}')}" if sheet != scene.number else ""


def words_width(scene: Scene, circuit: Circuit) -> float:
    if circuit.kind == "feeder":
        return flag_width(scene, circuit)
    if circuit.kind == "module":
        return 0
    found = words(scene, circuit)
    return SYMBOL_ROOM + max(heading_width(found), width(found.below)) + PAD


def heading_width(found: Words) -> float:
    return width(found.designation, bold=True) + 10 + width(found.name)


def flag_words(scene: Scene, circuit: Circuit) -> tuple[str, str]:
    """Where a feeder goes on."""
    build = scene.sized.build
    head = f"{circuit.target_designation} {labels.title(build, circuit.target)}"
    sheet = scene.node_sheet.get(circuit.target)
    place = labels.place(build, labels.node_place(build, circuit.target))
    if sheet is None:
        return head, place
    there = "this sheet" if sheet == scene.number else scene.sheet(sheet, f"from:{circuit.key}")
    return head, f"→ {there} · {place}"


def flag_width(scene: Scene, circuit: Circuit) -> float:
    head, below = flag_words(scene, circuit)
    return min(MOST_FLAG, max(width(head, bold=True), width(below))) + FLAG_ENDS


def flag_lines(head: str, below: str, wide: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Words of a flag of some width, as lines."""
    room = wide - FLAG_ENDS
    return wrap(head, room, bold=True), wrap(below, room)


def flag_height(head: str, below: str, wide: float) -> float:
    return FLAG_EDGE + LEADING * sum(len(lines) for lines in flag_lines(head, below, wide))


def ground_words(scene: Scene, circuit: Circuit) -> tuple[str, str]:
    """(designation, where it is) of the end of a return."""
    build = scene.sized.build
    found = build.grounds.get(circuit.ground)
    if found is None:
        return ("body", "from the device itself") if circuit.body_return else ("", "")
    if found.post_of:
        sheet = scene.supply_sheet.get(found.post_of, 1)
        name = build.batteries[found.post_of].designation
        there = scene.sheet(sheet, f"battery:{found.post_of}")
        return f"{name} −", f"{found.words}" + (f" → {there}" if sheet != scene.number else "")
    return found.letter_name, found.words


def ground_width(scene: Scene, circuit: Circuit, *, short: bool) -> float:
    """Room for the ground of a return; `short`: its designation only."""
    name, where = ground_words(scene, circuit)
    return GROUND_ROOM + max(width(name, bold=True), 0.0 if short else width(where)) + PAD


def ground_lines(scene: Scene, circuit: Circuit, room: float, *, short: bool) -> tuple[str, ...]:
    """Where a ground is, below its designation, in a cell of some width."""
    return () if short else wrap(ground_words(scene, circuit)[1], room - GROUND_ROOM - 6)


def beside(scene: Scene, circuit: Circuit, room: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(name after the designation, what stands below) of a load in a cell of some width."""
    found = words(scene, circuit)
    left = room - SYMBOL_ROOM - PAD
    lead = width(found.designation, bold=True) + 10
    return wrap(found.name, left, indent=lead), wrap(found.below, left)


def return_width(scene: Scene, circuit: Circuit) -> float:
    """Room for the tags of the return, clear space included."""
    return sum(strands.tag_width(scene, circuit, wire) + 2 * PAD for wire in circuit.returns)
