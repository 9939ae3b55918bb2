"""A conductor with its tag, a protective device, a contact: what stands on a row, on every kind of sheet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from buildspec.drawings import labels, symbols
from buildspec.drawings.marks import Box, Group, Line, Mark, Point, Rect, Text
from buildspec.drawings.measure import CAP, SMALL, width, wrap
from buildspec.drawings.palette import EDGE, FUSES, INK, PAPER, QUIET, THIN, wire_width
from buildspec.drawings.pieces import Piece
from buildspec.model import Circuit, Contact, Protection, Sized, Wire

PAD = 14.0
"""Clear on each side of what stands in a column."""
PILL = 29.0
GAP = 7.0
ASCENT = SMALL * CAP
LEADING = 29.0
"""From line to line of small text."""
CHIP = 19.0
MOST_PLACE = 190.0
"""Of the place below a contact."""
WIDEST_ZONE = "D6"
FAR = 88
"""Sheet of what has none yet, as wide as any: so much room is kept for a reference."""
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
    zones: Mapping[str, str] | None = None
    """Anchor → zone of its sheet; what is not known yet takes the widest name, None leaves zones out."""

    def id(self, name: str) -> str:
        return f"d{self.number}-{name}".replace(".", "-").replace(" ", "-")

    def sheet(self, number: int, anchor: str) -> str:
        """`sheet 3/B4`: a sheet and the zone of an anchor on it."""
        if self.zones is None:
            return f"sheet {number}"
        return f"sheet {number}/{self.zones.get(anchor, WIDEST_ZONE)}"


def line_width(scene: Scene, circuit: Circuit) -> float:
    if circuit.kind in THIN_KINDS:
        return THIN
    return wire_width(labels.area_mm2(scene.sized, circuit))


def half(scene: Scene, circuit: Circuit) -> float:
    """Half of a drawn conductor, edge included."""
    return line_width(scene, circuit) / 2 + EDGE


def clear(scene: Scene, circuit: Circuit) -> tuple[float, float]:
    """From the middle of a conductor up to words over it and down to words under it."""
    reach = half(scene, circuit)
    return max(14.0, reach + 7), max(13.0, reach + 4)


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
    if circuit.existing:
        return labels.OWN, labels.size(sized, circuit) if circuit.conductor else ""
    return labels.size(sized, circuit), f"{wire.colour}  {labels.length(sized, wire)}"


def lead_pill(circuit: Circuit, wire: Wire) -> str:
    """The tag that the fitter puts on a conductor; there is none on the vehicle's own."""
    return "" if circuit.existing else wire.designation


def tag_width(scene: Scene, circuit: Circuit, wire: Wire) -> float:
    above, below = tag_words(scene, circuit, wire)
    return max(pill_room(circuit, wire) + width(above), width(below))


def pill_room(circuit: Circuit, wire: Wire) -> float:
    """What a tag takes before the words beside it."""
    name = lead_pill(circuit, wire)
    return pill_width(name) + GAP if name else 0


def tag_pill(circuit: Circuit, wire: Wire, x: float, bottom: float) -> tuple[Mark, ...]:
    name = lead_pill(circuit, wire)
    return pill(x, bottom, name) if name else ()


def tag(scene: Scene, circuit: Circuit, wire: Wire, x: float, y: float) -> tuple[Mark, ...]:
    """Tag at the left of (x, y), a point on the conductor."""
    clear = half(scene, circuit) + 5
    above, below = tag_words(scene, circuit, wire)
    return (
        *tag_pill(circuit, wire, x, y - clear),
        Text(x + pill_room(circuit, wire), y - clear - PILL / 2 + ASCENT / 2, above),
        *under(x, y + clear + ASCENT + 1, below),
    )


def tag_beside(scene: Scene, circuit: Circuit, wire: Wire, x: float, y: float) -> tuple[Mark, ...]:
    """Tag beside an upright conductor, at the right of (x, y)."""
    above, below = tag_words(scene, circuit, wire)
    left = x + half(scene, circuit) + 8
    return (
        *tag_pill(circuit, wire, left, y - 1),
        Text(left + pill_room(circuit, wire), y - 1 - PILL / 2 + ASCENT / 2, above),
        *under(left, y + 6 + ASCENT, below),
    )


def under(x: float, y: float, words: str) -> tuple[Text, ...]:
    return (Text(x, y, words, colour=QUIET),) if words else ()


def conductor(
    scene: Scene, circuit: Circuit, wire: Wire, points: tuple[Point, ...], tagged: tuple[Mark, ...]
) -> tuple[Group, Group]:
    """The line of a conductor and, over all, its tag."""
    name = scene.id(wire.designation)
    title = f"{lead_pill(circuit, wire) or labels.OWN} · {circuit.title}"
    desc = labels.wire_sentence(scene.sized, circuit, wire)
    bent = len(points) > 2
    colour = "" if circuit.existing else wire.colour
    line = Line(points, colour, line_width(scene, circuit), circuit.kind == "reserve", bent)
    return (
        Group(name, title, desc, (line,), circuit.number, layer=1),
        Group(f"{name}-tag", f"tag of {title}", desc, tagged, circuit.number, layer=3),
    )


def numbered(scene: Scene, circuit: Circuit, marks: tuple[Mark, ...]) -> Group:
    """The circuit's own number, once on all sheets."""
    name = scene.id(f"circuit-{circuit.number}")
    anchor = f"row:{circuit.key}"
    return Group(
        name, f"circuit {circuit.number}", circuit.title, marks, circuit.number, layer=3, anchor=anchor
    )


def protection(scene: Scene, circuit: Circuit, item: Protection, x: float, y: float) -> Group:
    """Fuse or electronic limit on its conductor: designation and family above, rating and colour below."""
    sized = scene.sized
    dashed = not item.fitted
    body = (
        symbols.channel(x, y, dashed=dashed) if item.kind == "channel" else symbols.fuse(x, y, dashed=dashed)
    )
    high, reach = (15, symbols.CHANNEL_HALF) if item.kind == "channel" else (11, symbols.FUSE_HALF)
    above, below = protection_words(scene, circuit, item)
    colour = labels.fuse_colour(sized, circuit, item)
    marks = (
        *body,
        *headed(x, y - high - 7, item.designation, above),
        *chipped(x, y + high + 6 + ASCENT, below, colour),
    )
    title = f"{item.designation} · {labels.protection_line(sized, circuit, item)}"
    desc = labels.protection_sentence(sized, circuit, item)
    box = Box(x - reach, y - high, x + reach, y + high)
    return Group(scene.id(item.designation), title, desc, marks, circuit.number, box)


def protection_words(scene: Scene, circuit: Circuit, item: Protection) -> tuple[str, str]:
    """(family beside the designation, rating with colour and state)."""
    amps, family = labels.rating(scene.sized, circuit, item)
    if item.kind == "channel":
        return "", f"{amps} {family}{labels.state(item)}"
    colour = labels.fuse_colour(scene.sized, circuit, item)
    return family, f"{amps} {colour}".strip() + labels.state(item)


def headed(x: float, y: float, name: str, family: str) -> tuple[Mark, ...]:
    """A designation with a quiet word after it, centred."""
    if not family:
        return (Text(x, y, name, SMALL, True, "middle"),)
    left = x - headed_width(name, family) / 2
    lead = width(name, bold=True) + GAP
    return (Text(left, y, name, SMALL, True), Text(left + lead, y, family, colour=QUIET))


def headed_width(name: str, family: str) -> float:
    return width(name, bold=True) + (GAP + width(family) if family else 0)


def chipped(x: float, y: float, words: str, colour: str) -> tuple[Mark, ...]:
    """A rating, with a chip in the colour of the fuse's body before it, centred."""
    fill = FUSES.get(colour)
    if fill is None:
        return (Text(x, y, words, anchor="middle"),)
    left = x - (CHIP + GAP + width(words)) / 2
    chip = Rect(Box(left, y - ASCENT, left + CHIP, y - ASCENT + CHIP), fill, INK, 2, 3)
    return (chip, Text(left + CHIP + GAP, y, words))


def protection_width(scene: Scene, circuit: Circuit, item: Protection) -> float:
    above, below = protection_words(scene, circuit, item)
    return max(2 * symbols.FUSE_HALF, headed_width(item.designation, above), CHIP + GAP + width(below))


def coil_reference(scene: Scene, item: Contact) -> str:
    """Where the coil of a contact is drawn."""
    for circuit in scene.sized.build.circuits:
        if circuit.kind in ("coil", "signal") and circuit.target_designation == item.designation:
            sheet = scene.circuit_sheet.get(circuit.key, scene.number)
            there = scene.sheet(sheet, f"coil:{circuit.key}")
            return f"{circuit.number} → {there}" if sheet != scene.number else f"coil {circuit.number}"
    return ""


def contact_lines(scene: Scene, item: Contact) -> tuple[str, ...]:
    """What works a contact, or where a hand finds it."""
    if item.kind != "switch":
        words = coil_reference(scene, item)
        return (words,) if words else ()
    place = "" if item.part is None else labels.place(scene.sized.build, item.place)
    return wrap(place, MOST_PLACE)


def contact_pins(circuit: Circuit, item: Contact) -> tuple[str, str]:
    """Terminals of a contact as the conductors at it name them: `30`, `87`."""
    before = [w.end.pin for w in circuit.feeds if w.end.item == item.designation]
    after = [w.start.pin for w in circuit.feeds if w.start.item == item.designation]
    return next(iter(before), ""), next(iter(after), "")


def contact_width(scene: Scene, circuit: Circuit, item: Contact) -> float:
    reach = symbols.CONTACT_HALF + max([0.0, *(width(p) + 4 for p in contact_pins(circuit, item) if p)])
    words = [width(line) for line in contact_lines(scene, item)]
    return max(2 * reach, width(item.designation, bold=True), *words)


def contact(scene: Scene, circuit: Circuit, item: Contact, x: float, y: float) -> Group:
    """Make contact on its conductor, with its terminals and what works it."""
    lines = contact_lines(scene, item)
    manual = item.kind == "switch"
    low = y + 12 + ASCENT
    marks: list[Mark] = [*symbols.contact(x, y, manual=manual, held=manual and item.momentary)]
    if manual:
        marks.append(Text(x, low, item.designation, SMALL, True, "middle"))
        low += LEADING
    else:
        marks.append(Text(x, y - 28, item.designation, SMALL, True, "middle"))
    marks += [Text(x, low + n * LEADING, line, anchor="middle", colour=QUIET) for n, line in enumerate(lines)]
    marks += pins(scene, circuit, item, x, y)
    title = f"{item.designation} · {item.title}"
    where = labels.place(scene.sized.build, item.place)
    desc = f"{item.kind} contact in circuit {circuit.number}, {where}. {' '.join(lines)}"
    box = Box(x - symbols.CONTACT_HALF, y - 20, x + symbols.CONTACT_HALF, y + 8)
    return Group(
        scene.id(item.designation),
        title,
        desc,
        tuple(marks),
        circuit.number,
        box,
        anchor=f"contact:{item.designation}",
    )


def pins(scene: Scene, circuit: Circuit, item: Contact, x: float, y: float) -> list[Mark]:
    first, second = contact_pins(circuit, item)
    level, reach = y - half(scene, circuit) - 4, symbols.CONTACT_HALF + 2
    made: list[Mark] = [Text(x - reach, level, first, anchor="end", colour=QUIET)] if first else []
    return [*made, Text(x + reach, level, second, colour=QUIET)] if second else made


def contact_depth(scene: Scene, item: Contact) -> float:
    """Room that a contact's words take below its conductor."""
    lines = len(contact_lines(scene, item)) + (1 if item.kind == "switch" else 0)
    return 12 + LEADING * lines


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
