"""What a build is made of, counted: items by category, sheet goods, conductors, fuses, holders, terminals."""

from __future__ import annotations

import math
from collections import Counter
from typing import NamedTuple

from buildspec import mass
from buildspec.documents import _fuses as fuses
from buildspec.documents import _joints as joints
from buildspec.documents import _wires as wires
from buildspec.fitted import Item as Item
from buildspec.fitted import items as items
from buildspec.model import Accessory, Conductor, Resolved
from buildspec.packet import Packet

SAMPLES_EACH, SAMPLE_M = 1, 0.3
"""Terminals of each kind, and conductor of each size and colour, for crimp samples; common practice, no source."""
SPARES_EACH = 1
"""Spare fuses of each family and rating, in the owner's bag."""

HALVES = 2
"""Of a connector: the one on the wire, and its mate for what comes later."""


class Goods(NamedTuple):
    """Something bought by surface."""

    item: Accessory
    surface_m2: float
    units: int
    mass_kg: float


class Metres(NamedTuple):
    """Conductor of one size and colour."""

    conductor: Conductor
    colour: str
    length_m: float
    pieces: int


def by_category(build: Resolved) -> dict[str, list[list[Item]]]:
    """Category → items of the same part together; categories by name, parts in the order of the spec."""
    found: dict[str, dict[tuple[str, ...], list[Item]]] = {}
    for item in items(build):
        same = (item.part.id, item.part.title, str(item.part.mass_kg))
        found.setdefault(item.part.category, {}).setdefault(same, []).append(item)
    return {category: list(found[category].values()) for category in sorted(found)}


def goods(build: Resolved) -> tuple[Goods, ...]:
    """Sheets and rolls: surface, units rounded up."""
    found = []
    for item in build.accessories.values():
        material = item.part.material
        if material is not None:
            surface = (item.surface_m2 or 0.0) * item.quantity
            units = math.ceil(round(surface / material.sheet_m2, 6))
            found.append(Goods(item, surface, units, surface * material.kg_per_m2))
    return tuple(found)


def added_kg(build: Resolved) -> float:
    """Mass of all items and sheet goods [kg]; items without a stated mass count as nothing."""
    return mass.parts_kg(build)


def without_mass(build: Resolved) -> tuple[str, ...]:
    """Items whose mass nobody states."""
    return tuple(f"{i.designation} {i.part.title}" for i in items(build) if i.part.mass_kg is None)


def conductors(packet: Packet) -> tuple[Metres, ...]:
    """Length of each size and colour with its samples, smallest first."""
    lengths: dict[tuple[float, str, str], list[wires.Piece]] = {}
    for piece in wires.pieces(packet):
        key = (piece.conductor.area_mm2, piece.conductor.name, piece.wire.colour)
        lengths.setdefault(key, []).append(piece)
    return tuple(
        Metres(found[0].conductor, key[2], sum(p.wire.cut_m for p in found) + SAMPLE_M, len(found))
        for key, found in sorted(lengths.items())
    )


def fuse_counts(packet: Packet) -> list[tuple[tuple[str, float, str], int]]:
    """((family, rating, colour), number in the vehicle)."""
    found = Counter(
        (f.device.family, f.device.rating_a, f.device.colour)
        for f in fuses.fitted(packet)
        if f.device.kind == "fuse"
    )
    return sorted(found.items())


def holder_counts(packet: Packet) -> list[tuple[tuple[str, float], int]]:
    """((family, holder rating), number) of holders that are not part of a block or panel."""
    found = Counter(
        (f.device.family, f.device.holder_a)
        for f in fuses.fitted(packet)
        if f.device.kind == "fuse" and not f.device.host
    )
    return sorted(found.items())


def terminal_counts(packet: Packet) -> list[tuple[tuple[str, float, str], int]]:
    """((terminal, area, size name), number) of what is crimped on wire ends, samples included."""
    found: Counter[tuple[str, float, str]] = Counter()
    studs = joints.stud_of(packet)
    for piece in wires.pieces(packet):
        for side in (piece.near, piece.far):
            if side.terminal not in ("none", wires.JOINT):
                terminal = joints.ring_or_other(packet, piece, side, studs)
                found[(terminal, piece.conductor.area_mm2, piece.conductor.name)] += contacts(side.terminal)
    return [(kind, count + SAMPLES_EACH) for kind, count in sorted(found.items())]


class Joined(NamedTuple):
    """A joint that is bought and made: how many go in, the largest of them, and where."""

    conductors: int
    """With the lead of the item where it is in a chain."""
    largest: Conductor
    at: str
    place: str


def joined(packet: Packet) -> list[Joined]:
    """Every joint of branches, one a pole."""
    ends: dict[str, list[Conductor]] = {}
    for piece in wires.pieces(packet):
        for side in (piece.near, piece.far):
            ends.setdefault(side.at, []).append(piece.conductor)
    found = []
    for joint in wires.jointed(packet.sized.build).values():
        at = wires.name(joint.terminal)
        largest = max(ends[at], key=lambda c: c.area_mm2)
        found.append(Joined(joint.conductors + joint.lead, largest, at, joint.terminal.place))
    return found


def joint_counts(packet: Packet) -> list[tuple[tuple[int, float, str], int]]:
    """((conductors that go in, largest area, its name), number), samples included."""
    found = Counter((j.conductors, j.largest.area_mm2, j.largest.name) for j in joined(packet))
    return [(kind, count + SAMPLES_EACH) for kind, count in sorted(found.items())]


def contacts(terminal: str) -> int:
    """How many of it one end of a wire takes: a connector has contacts in both of its halves."""
    return HALVES if terminal.startswith(wires.CONTACT) else 1


def half_counts(packet: Packet) -> Counter[str]:
    """Connector of a reserve → number of its halves."""
    reserves = packet.sized.build.reserves.values()
    return Counter({c: HALVES * n for c, n in Counter(r.connector for r in reserves).items() if c != "none"})
