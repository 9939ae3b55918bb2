"""Pins in the order of their items: what ends there, how it is sealed, what it mates with; empty ones too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.documents import _fuses as fuses
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.fitted import items
from buildspec.joints import joints
from buildspec.model import Reserve, Resolved
from buildspec.packet import Packet

NO_WIRE = words.NOT_APPLICABLE
LIVE, TAIL, SOCKET = "supply half", "its tail", "socket"
Line = dict[str, str]


class Item(NamedTuple):
    """What pins belong to."""

    title: str
    half: str
    mate: str


def lines(packet: Packet) -> Iterator[Line]:
    """Each pin with a wire, then the empty ones of its block or panel."""
    build = packet.sized.build
    studs = {f"{j.item}:{j.pin}" for j in joints(build)}
    known = named(packet)
    found: dict[str, list[tuple[wires.Piece, wires.End]]] = {}
    for piece in wires.pieces(packet):
        for end in (piece.near, piece.far):
            if end.at not in studs and end.terminal != wires.RING:
                found.setdefault(end.at.rpartition(":")[0], []).append((piece, end))
    unused = empty(packet)
    for item in sorted({*found, *unused}, key=wires.natural):
        ended = sorted(found.get(item, ()), key=lambda one: wires.natural(one[1].at.rpartition(":")[2]))
        yield from (pin_line(build, known, piece, end) for piece, end in ended)
        yield from unused.get(item, ())


def named(packet: Packet) -> dict[str, Item]:
    """Designation → what it is, which half the wire goes to, and what that mates with."""
    build = packet.sized.build
    found = {i.designation: Item(i.part.title, TAIL, "the item") for i in items(build)}
    for block in build.blocks.values():
        found[block.designation] = Item(block.part.title, "terminals", "the block")
    for panel in build.panels.values():
        found[panel.designation] = Item(panel.part.title, "loom half", "the module")
    for circuit in build.circuits:
        for contact in circuit.contacts:
            if contact.kind == "relay":
                found[contact.designation] = Item(contact.title, SOCKET, "the relay")
    for signal in build.signals.values():
        found[signal.name] = Item(words.capital(signal.words), "the vehicle's", "as its maker states")
    for one in fuses.fitted(packet):
        if not one.device.host:
            found[one.device.designation] = Item(f"Holder, {words.fuse(one.device)}", "holder", "the fuse")
    return found | {r.designation: of_reserve(r) for r in build.reserves.values()}


def of_reserve(reserve: Reserve) -> Item:
    if reserve.connector == "none":
        return Item(f"Reserve: {reserve.purpose or reserve.name}", "no connector", "nothing yet")
    shroud = "shrouded" if reserve.shrouded else "not shrouded"
    return Item(
        f"{words.capital(reserve.connector)}, reserve: {reserve.purpose or reserve.name}",
        f"{LIVE}, {shroud}",
        "its other half, plugged on as a cap" if "connector" in reserve.cap else "its other half, in the bag",
    )


def pin_line(build: Resolved, known: dict[str, Item], piece: wires.Piece, end: wires.End) -> Line:
    name, _, pin = end.at.rpartition(":")
    item = known.get(name, Item(name, TAIL, "the item"))
    return {
        "at": end.at,
        "item": item.title,
        "place": words.place(build, end.place),
        "half": item.half,
        "pin": pin,
        "wire": piece.wire.designation,
        "size": words.size_and_colour(piece.conductor, piece.wire.colour),
        "terminal": end.terminal if end.terminal != "none" else end.cap,
        "seal": seal(build, end),
        "mate": item.mate,
    }


def seal(build: Resolved, end: wires.End) -> str:
    """Outside the cabin a terminal that is plugged has a seal on its wire."""
    if end.terminal == "none":
        return end.cap
    return (
        words.NOT_APPLICABLE if build.places[end.place].environment == "cabin" else "wire seal of that size"
    )


def empty(packet: Packet) -> dict[str, list[Line]]:
    """Designation of a block or panel → its positions without a wire."""
    build, found = packet.sized.build, dict[str, list[Line]]()
    taken = {e.at for p in wires.pieces(packet) for e in (p.near, p.far)}
    hosts = [
        (b.designation, b.part.title, b.place, b.part.block.positions, "terminals")
        for b in build.blocks.values()
        if b.part.block
    ]
    hosts += [
        (p.designation, p.part.title, p.module_at, p.part.panel.channels, "loom half")
        for p in build.panels.values()
        if p.part.panel
    ]
    stay = {(b.designation, n) for b in build.blocks.values() for n in b.empty}
    for name, title, place, count, half in hosts:
        for n in range(1, count + 1):
            if f"{name}:{n}" not in taken:
                closed = "stays empty" if (name, n) in stay else plug(build, place)
                found.setdefault(name, []).append(
                    empty_line(build, (f"{name}:{n}", title, place), half, closed)
                )
    return found


def plug(build: Resolved, place: str) -> str:
    return "empty" if build.places[place].environment == "cabin" else "cavity plug"


def empty_line(build: Resolved, where: tuple[str, str, str], half: str, closed: str) -> Line:
    at, title, place = where
    return {
        "at": at,
        "item": title,
        "place": words.place(build, place),
        "half": half,
        "pin": at.rpartition(":")[2],
        "wire": NO_WIRE,
        "size": NO_WIRE,
        "terminal": NO_WIRE,
        "seal": closed,
        "mate": NO_WIRE,
    }


def tools(packet: Packet) -> Iterator[Line]:
    """Kinds of terminal with the sizes that they take, and how many."""
    sizes: dict[str, dict[str, float]] = {}
    counted = Counter[str]()
    for piece in wires.pieces(packet):
        for end in (piece.near, piece.far):
            if end.terminal not in ("none", wires.RING):
                counted[end.terminal] += 1
                sizes.setdefault(end.terminal, {})[show.size(piece.conductor)] = piece.conductor.area_mm2
    for terminal in sorted(counted):
        found = sizes[terminal]
        yield {
            "terminal": words.capital(terminal),
            "sizes": ", ".join(sorted(found, key=lambda name: found[name])),
            "count": str(counted[terminal]),
            **dict.fromkeys(("tool", "die", "seal"), words.BLANK),
        }
