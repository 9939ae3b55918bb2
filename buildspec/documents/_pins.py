"""Connectors with their pins: which wire ends where, how it is sealed, what it mates with; empty cavities too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from buildspec import branches, show
from buildspec.documents import _fuses as fuses
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.fitted import items
from buildspec.model import Reserve, Resolved
from buildspec.packet import Packet

LIVE, TAIL, SOCKET = "supply half", "its tail", "socket"
Line = dict[str, str]


class Item(NamedTuple):
    """What pins belong to."""

    title: str
    half: str
    mate: str


def lines(packet: Packet) -> Iterator[Line]:
    """One line a connector: each pin with its wire, then its empty cavities."""
    build = packet.sized.build
    known, unused = named(packet), empty(packet)
    found: dict[tuple[str, str], list[tuple[wires.Piece, wires.End]]] = {}
    for piece in wires.pieces(packet):
        for end in (piece.near, piece.far):
            if end.terminal != wires.RING:
                found.setdefault((end.at.rpartition(":")[0], end.place), []).append((piece, end))
    for name, place in sorted(found, key=lambda one: (wires.natural(one[0]), one[1])):
        ended = sorted(found[name, place], key=lambda one: wires.natural(pin(one[1])))
        item = known.get(name, Item(name, TAIL, "the item"))
        yield connector(build, (name, place), item, ended) | {"empty": unused.get(name, words.NOT_APPLICABLE)}


def pin(end: wires.End) -> str:
    """`30` of `K2:30`."""
    return end.at.rpartition(":")[2]


def connector(
    build: Resolved, where: tuple[str, str], item: Item, ended: list[tuple[wires.Piece, wires.End]]
) -> Line:
    name, place = where
    return {
        "id": name,
        "item": item.title,
        "place": words.place(build, place),
        "half": item.half,
        "pins": "; ".join(f"{pin(end)}: {piece.wire.designation}" for piece, end in ended),
        "terminal": ", ".join(dict.fromkeys(e.terminal if e.terminal != "none" else e.cap for _, e in ended)),
        "seal": ", ".join(dict.fromkeys(seal(build, end) for _, end in ended)),
        "mate": item.mate,
    }


def named(packet: Packet) -> dict[str, Item]:
    """Designation → what it is, which half the wire goes to, and what that mates with."""
    build = packet.sized.build
    found = {i.designation: Item(i.part.title, TAIL, "the item") for i in items(build)}
    for circuit in build.circuits:
        if circuit.kind == "branch":
            own, start = found[circuit.target_designation], circuit.feeds[0].start.item
            point = {start: Item(f"Common point, {circuit.title}", wires.JOINT, words.NOT_APPLICABLE)}
            found |= point | dict.fromkeys((t.item for t in branches.items(circuit)), own)
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


def seal(build: Resolved, end: wires.End) -> str:
    """Outside the cabin, or through a hole to it, a terminal that is plugged has a seal on its wire."""
    if end.terminal == "none":
        return end.cap
    if end.terminal == wires.JOINT:
        return "in the joint"
    outside = build.places[end.place].environment != "cabin"
    return "wire seal" if outside or glanded(build, end) else words.NOT_APPLICABLE


def glanded(build: Resolved, end: wires.End) -> bool:
    """Do the item's leads leave the cabin through a hole of their own?"""
    item = end.at.partition(":")[0]
    return any(a.passes for a in build.accessories.values() if a.designation == item)


def empty(packet: Packet) -> dict[str, str]:
    """Designation of a block or panel → its positions without a wire, and how they are closed."""
    build = packet.sized.build
    taken = {e.at for p in wires.pieces(packet) for e in (p.near, p.far)}
    hosts = [(b.designation, b.place, b.part.block.positions) for b in build.blocks.values() if b.part.block]
    hosts += [
        (p.designation, p.module_at, p.part.panel.channels) for p in build.panels.values() if p.part.panel
    ]
    stay = {(b.designation, n) for b in build.blocks.values() for n in b.empty}
    found = {}
    for name, place, count in hosts:
        open_ones = [n for n in range(1, count + 1) if f"{name}:{n}" not in taken]
        plug = "" if build.places[place].environment == "cabin" else " cavity plug"
        said = (f"{n} stays empty" if (name, n) in stay else f"{n}{plug}" for n in open_ones)
        if open_ones:
            found[name] = ", ".join(said)
    return found


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
