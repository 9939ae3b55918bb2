"""A conductor with its tag, a protective device, a contact: what stands on a row, on every kind of sheet."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.drawings import labels, symbols
from buildspec.drawings.marks import Box, Group, Line, Mark, Point, Rect, Text
from buildspec.drawings.measure import CAP, SMALL, fit, width
from buildspec.drawings.palette import EDGE, INK, PAPER, QUIET, THIN, wire_width
from buildspec.drawings.pieces import Piece
from buildspec.model import Circuit, Contact, Protection, Sized, Wire

PAD = 14.0
"""Clear on each side of what stands in a column."""
PILL = 29.0
GAP = 7.0
ASCENT = SMALL * CAP
MOST_PLACE = 120.0
"""Of the place of a contact, beside its designation."""
THIN_KINDS = ("signal", "coil", "module")


class Scene(NamedTuple):
    """What every drawer needs: the build, where each circuit and node is drawn, the sheet drawn now."""

    sized: Sized
    number: int
    circuit_sheet: dict[str, int]
    """Circuit key → sheet."""
    node_sheet: dict[str, int]
    """Panel, block or battery → the sheet with its circuits."""
    supply_sheet: dict[str, int]
    """Isolation device or battery → its sheet of the supply."""

    def id(self, name: str) -> str:
        return f"d{self.number}-{name}".replace(".", "-").replace(" ", "-")


def line_width(scene: Scene, circuit: Circuit) -> float:
    if circuit.kind in THIN_KINDS:
        return THIN
    return wire_width(labels.area_mm2(scene.sized, circuit))


def half(scene: Scene, circuit: Circuit) -> float:
    """Half of a drawn conductor, edge included."""
    return line_width(scene, circuit) / 2 + EDGE


def pill_width(text: str) -> float:
    return width(text, SMALL, bold=True) + 12


def pill(x: float, bottom: float, text: str, *, number: bool = False) -> tuple[Mark, ...]:
    """A tag: a wire's designation outlined, a circuit's number in reverse."""
    right = x + pill_width(text)
    box = Rect(Box(x, bottom - PILL, right, bottom), INK if number else PAPER, INK, 2, 6)
    kind, colour = ("circuit-tag", PAPER) if number else ("wire-tag", INK)
    baseline = bottom - PILL / 2 + ASCENT / 2
    return (box, Text((x + right) / 2, baseline, text, SMALL, True, "middle", colour, kind))


def tag_words(scene: Scene, circuit: Circuit, wire: Wire) -> tuple[str, str]:
    """What stands above and below a conductor."""
    sized = scene.sized
    if circuit.existing and circuit.conductor is None:
        return labels.size(sized, circuit), wire.colour
    return labels.size(sized, circuit), f"{wire.colour}  {labels.length(sized, wire)}"


def tag_width(scene: Scene, circuit: Circuit, wire: Wire) -> float:
    above, below = tag_words(scene, circuit, wire)
    return max(pill_width(wire.designation) + GAP + width(above), width(below))


def tag(scene: Scene, circuit: Circuit, wire: Wire, x: float, y: float) -> tuple[Mark, ...]:
    """Tag at the left of (x, y), a point on the conductor."""
    clear = half(scene, circuit) + 5
    above, below = tag_words(scene, circuit, wire)
    return (
        *pill(x, y - clear, wire.designation),
        Text(x + pill_width(wire.designation) + GAP, y - clear - PILL / 2 + ASCENT / 2, above),
        Text(x, y + clear + ASCENT + 1, below, colour=QUIET),
    )


def tag_beside(scene: Scene, circuit: Circuit, wire: Wire, x: float, y: float) -> tuple[Mark, ...]:
    """Tag beside an upright conductor, at the right of (x, y)."""
    above, below = tag_words(scene, circuit, wire)
    left = x + half(scene, circuit) + 8
    return (
        *pill(left, y - 1, wire.designation),
        Text(left + pill_width(wire.designation) + GAP, y - 1 - PILL / 2 + ASCENT / 2, above),
        Text(left, y + 6 + ASCENT, below, colour=QUIET),
    )


def conductor(
    scene: Scene, circuit: Circuit, wire: Wire, points: tuple[Point, ...], tagged: tuple[Mark, ...]
) -> tuple[Group, Group]:
    """The line of a conductor and, over all, its tag."""
    name = scene.id(wire.designation)
    title = f"{wire.designation} · {circuit.title}"
    desc = labels.wire_sentence(scene.sized, circuit, wire)
    bent = len(points) > 2
    line = Line(points, wire.colour, line_width(scene, circuit), circuit.kind == "reserve", bent)
    return (
        Group(name, title, desc, (line,), circuit.number, layer=1),
        Group(f"{name}-tag", f"tag of {wire.designation}", desc, tagged, circuit.number, layer=3),
    )


def numbered(scene: Scene, circuit: Circuit, marks: tuple[Mark, ...]) -> Group:
    """The circuit's own number, once on all sheets."""
    name = scene.id(f"circuit-{circuit.number}")
    return Group(name, f"circuit {circuit.number}", circuit.title, marks, circuit.number, layer=3)


def protection(scene: Scene, circuit: Circuit, item: Protection, x: float, y: float) -> Group:
    """Fuse or electronic limit on its conductor: designation above, rating below."""
    sized = scene.sized
    dashed = not item.fitted
    body = (
        symbols.channel(x, y, dashed=dashed) if item.kind == "channel" else symbols.fuse(x, y, dashed=dashed)
    )
    high, reach = (15, symbols.CHANNEL_HALF) if item.kind == "channel" else (11, symbols.FUSE_HALF)
    marks = (
        *body,
        Text(x, y - high - 7, item.designation, SMALL, True, "middle"),
        Text(x, y + high + 6 + ASCENT, labels.protection_line(sized, circuit, item), anchor="middle"),
    )
    title = f"{item.designation} · {labels.protection_line(sized, circuit, item)}"
    desc = labels.protection_sentence(sized, circuit, item)
    box = Box(x - reach, y - high, x + reach, y + high)
    return Group(scene.id(item.designation), title, desc, marks, circuit.number, box)


def protection_width(scene: Scene, circuit: Circuit, item: Protection) -> float:
    texts = (width(item.designation, bold=True), width(labels.protection_line(scene.sized, circuit, item)))
    return max(2 * symbols.FUSE_HALF, *texts)


def coil_reference(scene: Scene, item: Contact) -> str:
    """Where the coil of a contact is drawn."""
    for circuit in scene.sized.build.circuits:
        if circuit.kind in ("coil", "signal") and circuit.target_designation == item.designation:
            sheet = scene.circuit_sheet.get(circuit.key, scene.number)
            return f"{circuit.number} → sheet {sheet}" if sheet != scene.number else f"coil {circuit.number}"
    return ""


def contact_words(scene: Scene, circuit: Circuit, item: Contact) -> str:
    """What works it, or where a hand finds it."""
    if item.kind == "switch":
        return "" if item.part is None else labels.place(scene.sized.build, item.place)
    return coil_reference(scene, item)


def contact_width(scene: Scene, circuit: Circuit, item: Contact) -> float:
    name, words = width(item.designation, bold=True), width(contact_words(scene, circuit, item))
    below = name + 8 + min(MOST_PLACE, words) if item.kind == "switch" else words
    return max(2 * symbols.CONTACT_HALF, name, below)


def contact(scene: Scene, circuit: Circuit, item: Contact, x: float, y: float) -> Group:
    """Make contact on its conductor."""
    worked = contact_words(scene, circuit, item)
    manual = item.kind == "switch"
    low = y + 12 + ASCENT
    marks: list[Mark] = [*symbols.contact(x, y, manual=manual, held=manual and item.momentary)]
    if manual:
        name, shown = width(item.designation, bold=True), fit(worked, MOST_PLACE)
        left = x - (name + (8 + width(shown) if shown else 0)) / 2
        marks.append(Text(left, low, item.designation, SMALL, True))
        marks += [Text(left + name + 8, low, shown, colour=QUIET)] if shown else []
    else:
        marks.append(Text(x, y - 28, item.designation, SMALL, True, "middle"))
        marks += [Text(x, low, worked, anchor="middle", colour=QUIET)] if worked else []
    title = f"{item.designation} · {item.title}"
    desc = f"{item.kind} contact in circuit {circuit.number}, {labels.place(scene.sized.build, item.place)}. {worked}"
    box = Box(x - symbols.CONTACT_HALF, y - 20, x + symbols.CONTACT_HALF, y + 8)
    return Group(scene.id(item.designation), title, desc, tuple(marks), circuit.number, box)


def piece_width(scene: Scene, circuit: Circuit, piece: Piece) -> float:
    """Room that a piece takes on a row, clear space included."""
    if piece.wire:
        return tag_width(scene, circuit, piece.wire) + 2 * PAD
    if piece.protection:
        return protection_width(scene, circuit, piece.protection) + 2 * PAD
    return (contact_width(scene, circuit, piece.contact) if piece.contact else 0) + 2 * PAD


def device_half(piece: Piece) -> float:
    if piece.protection:
        return symbols.CHANNEL_HALF if piece.protection.kind == "channel" else symbols.FUSE_HALF
    return symbols.CONTACT_HALF
