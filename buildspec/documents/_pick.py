"""What a fitter takes from the store for each step of the work order: together just the bill of materials."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import chain
from typing import NamedTuple

from buildspec import show
from buildspec.documents import _bought as bought
from buildspec.documents import _fuses as fuses
from buildspec.documents import _joints as joints
from buildspec.documents import _materials as materials
from buildspec.documents import _routing as routing
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.documents._labels import labels
from buildspec.looms import keypads
from buildspec.packet import Packet

LAY, FIT, PROTECT, HAND_OVER = (
    "5 Lay looms by run",
    "6 Fit and terminate by place",
    "7 Protect",
    "10 Hand over",
)
"""Headings of the work order."""
SAMPLES, BAG = "bench, for crimp samples", "owner's bag"


class Pick(NamedTuple):
    """Some of one thing, for one step at one place."""

    step: str
    place: str
    item: str
    """As in the list of what is bought."""
    quantity: int
    unit: str = "piece"
    marks: str = ""


def picks(packet: Packet) -> tuple[Pick, ...]:
    """In the order of work."""
    return tuple(
        chain(for_looms(packet), *for_places(packet), samples(packet), fuses_in(packet), for_owner(packet))
    )


def for_looms(packet: Packet) -> Iterator[Pick]:
    """Conductor, what goes over and through with it, and the labels that go on before the terminals."""
    build = packet.sized.build
    for one in materials.conductors(packet):
        amount, unit = split(show.whole_length(one.length_m, build.practice))
        name = bought.conductor_words(one)
        yield Pick(LAY, "every run", name, amount, unit, words.count(one.pieces, "piece"))
    for item, size, quantity in routing.small_lines(packet.sized):
        yield Pick(LAY, "every run", small_name((item, size)), *split(quantity))
    for lead in keypads.leads(build):
        name = small_name((bought.LEAD, keypads.size(build, lead)))
        yield Pick(LAY, words.place(build, lead.panel.keypad_at), name, 1, marks=lead.panel.designation)
    count = sum(label.quantity for label in labels(packet))
    yield Pick(LAY, "every end", small_name((bought.LABELS, bought.WHICH_LABELS)), count)


def small_name(what: tuple[str, str]) -> str:
    """Item and size as the list of what is bought names them."""
    return ", ".join(what)


def split(quantity: str) -> tuple[int, str]:
    """`40 ft` → (40, `ft`)."""
    amount, _, unit = quantity.partition(" ")
    return int(amount), unit or "piece"


def for_places(packet: Packet) -> Iterator[Iterator[Pick]]:
    for name in packet.sized.build.places:
        yield chain(items(packet, name), holders(packet, name), ends(packet, name), reserves(packet, name))


def items(packet: Packet, place: str) -> Iterator[Pick]:
    build = packet.sized.build
    here = words.place(build, place)
    for item in materials.items(build):
        if item.place == place:
            yield Pick(FIT, here, item.part.title, item.quantity, marks=item.designation)
    for goods in materials.goods(build):
        if goods.item.place == place:
            yield Pick(FIT, here, goods.item.part.title, goods.units, "unit", goods.item.designation)


def holders(packet: Packet, place: str) -> Iterator[Pick]:
    here = words.place(packet.sized.build, place)
    for one in fuses.fitted(packet):
        device = one.device
        if device.kind == "fuse" and not device.host and device.place == place:
            name = small_name(bought.holder_words(device.family, device.holder_a))
            yield Pick(FIT, here, name, 1, marks=device.designation)


def ends(packet: Packet, place: str) -> Iterator[Pick]:
    """Terminals for the wire ends at one place."""
    here = words.place(packet.sized.build, place)
    found: dict[tuple[str, float, str], list[str]] = {}
    studs = joints.stud_of(packet)
    for piece in wires.pieces(packet):
        for side in (piece.near, piece.far):
            if side.place == place and side.terminal not in ("none", wires.JOINT):
                terminal = joints.ring_or_other(packet, piece, side, studs)
                kind = (terminal, piece.conductor.area_mm2, piece.conductor.name)
                found.setdefault(kind, []).append(piece.wire.designation)
    for (terminal, _, size), marks in sorted(found.items()):
        name, each = small_name(bought.terminal_words(terminal, size)), materials.contacts(terminal)
        yield Pick(FIT, here, name, each * len(marks), marks=" ".join(marks))
    for one in (j for j in materials.joined(packet) if j.place == place):
        name = small_name(bought.joint_words(one.conductors, one.largest.name))
        yield Pick(FIT, here, name, 1, marks=one.at)


def reserves(packet: Packet, place: str) -> Iterator[Pick]:
    """What closes the ends of reserves, and the connectors on them with their mates."""
    build = packet.sized.build
    here = words.place(build, place)
    for one in build.reserves.values():
        if one.place == place and one.connector != "none":
            yield Pick(
                FIT,
                here,
                small_name(bought.half_words(one.connector)),
                materials.HALVES,
                marks=one.designation,
            )
        if one.place == place and one.cap:
            for size, count in Counter(routing.caps(packet.sized, one)).items():
                name = small_name(bought.cap_words(one.cap, size))
                yield Pick(FIT, here, name, count, marks=one.designation)


def samples(packet: Packet) -> Iterator[Pick]:
    for (terminal, _, size), _ in materials.terminal_counts(packet):
        yield Pick(FIT, SAMPLES, small_name(bought.terminal_words(terminal, size)), materials.SAMPLES_EACH)
    for (number, _, size), _ in materials.joint_counts(packet):
        yield Pick(FIT, SAMPLES, small_name(bought.joint_words(number, size)), materials.SAMPLES_EACH)


def fuses_in(packet: Packet) -> Iterator[Pick]:
    found = [f for f in fuses.fitted(packet) if f.device.kind == "fuse" and fuses.goes_in(f)]
    for one in sorted(found, key=lambda f: wires.natural(f.device.designation)):
        device = one.device
        name = bought.fuse_words(device.family, device.rating_a, device.colour)
        yield Pick(PROTECT, words.position(packet.sized.build, device), name, 1, marks=device.designation)


def for_owner(packet: Packet) -> Iterator[Pick]:
    """Fuses that are out, marked, and a spare of each."""
    out = [f.device for f in fuses.fitted(packet) if f.device.kind == "fuse" and not fuses.goes_in(f)]
    for device in sorted(out, key=lambda d: wires.natural(d.designation)):
        name = bought.fuse_words(device.family, device.rating_a, device.colour)
        yield Pick(HAND_OVER, BAG, name, 1, marks=f"{device.designation}, stays out")
    for (family, rating, colour), _ in materials.fuse_counts(packet):
        name = bought.fuse_words(family, rating, colour)
        yield Pick(HAND_OVER, BAG, name, materials.SPARES_EACH, marks="spare")
