"""One place at a time: what is fitted there, what ends there, what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec.documents import _fuses as fuses
from buildspec.documents import _materials as materials
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.model import Accessory, Panel
from buildspec.packet import Packet

POST_OFF = "post end stays off until phase 7"


def sections(packet: Packet) -> Iterator[dict[str, Any]]:
    """Each place where something is done, in the order of the spec."""
    ends = [(p, side) for p in wires.pieces(packet) for side in (p.near, p.far)]
    late = {b.designation for b in packet.sized.build.batteries.values() if not b.existing}
    for name in packet.sized.build.places:
        items = [*fitted(packet, name), *in_line(packet, name)]
        here = [end_line(piece, side, late) for piece, side in ends if side.place == name]
        minded = list(minding(packet, name))
        if items or here or minded:
            heading = words.capital(words.place(packet.sized.build, name))
            yield {"heading": heading, "fitted": items, "ends": here, "mind": minded}


def fitted(packet: Packet, place: str) -> Iterator[dict[str, str]]:
    build = packet.sized.build
    notes = {a.designation: accessory_note(a) for a in build.accessories.values()}
    notes |= {p.designation: p.placement_reason for p in build.panels.values()}
    for item in materials.items(build):
        if item.place == place:
            yield item_line(item.designation, item.part.title, item.quantity, notes.get(item.designation, ""))
    for goods in materials.goods(build):
        if goods.item.place == place:
            yield item_line(
                goods.item.designation, goods.item.part.title, goods.units, accessory_note(goods.item)
            )
    for panel in build.panels.values():
        if panel.keypad_at == place != panel.module_at:
            yield item_line(panel.designation, f"{panel.part.title}: the keys", 1, keypad_note(panel))
    for ground in build.grounds.values():
        if ground.place == place and not ground.post_of:
            yield item_line(
                ground.letter_name, f"Ground: {ground.words}", 1, "bare metal, then sealed after torque"
            )


def in_line(packet: Packet, place: str) -> Iterator[dict[str, str]]:
    for one in fuses.fitted(packet):
        if one.device.kind == "fuse" and not one.device.host and one.device.place == place:
            yield item_line(
                one.device.designation,
                f"Holder for {words.fuse(one.device)}",
                1,
                f"for {one.circuit.title}; fuse out",
            )


def keypad_note(panel: Panel) -> str:
    guard = "guarded against bumps" if panel.guarded else ""
    return "; ".join(part for part in (panel.words, panel.placement_reason.rstrip("."), guard) if part)


def accessory_note(item: Accessory) -> str:
    return "; ".join(part.rstrip(".") for part in (item.placement_reason, item.note) if part)


def item_line(designation: str, title: str, quantity: int, note: str) -> dict[str, str]:
    return {
        "mark": designation,
        "item": title,
        "quantity": str(quantity),
        "note": note or words.NOT_APPLICABLE,
        "done": words.TICK,
    }


def end_line(piece: wires.Piece, side: wires.End, late: set[str]) -> dict[str, str]:
    """One end; at a post of an added battery it is made up and not connected."""
    terminal = side.terminal if not side.cap or side.terminal != "none" else side.cap
    off = f"; {POST_OFF}" if side.at.partition(":")[0] in late else ""
    return {
        "wire": piece.wire.designation,
        "circuit": piece.circuit.number,
        "at": side.at,
        "terminal": terminal + off,
        "label": side.label,
        "done": words.TICK,
    }


def minding(packet: Packet, place: str) -> Iterator[str]:
    """What a fitter must know at this place."""
    build = packet.sized.build
    if build.places[place].bump_risk:
        yield "Loads and knees knock here: no key that starts something, no bare stud, no loose loom."
    for name, block in build.blocks.items():
        if block.place == place:
            for position, why in sorted(block.empty.items()):
                yield f"{words.capital(words.node(build, name))}, position {position} stays empty. {why}"
    for hole in build.holes:
        if hole.place == place:
            yield f"Hole {hole.name}: {hole.what}; {hole.protection}, {hole.seal or 'seal not stated'}."
    for reserve in build.reserves.values():
        if reserve.place == place:
            yield f"Reserve {reserve.designation}: {reserve.end}; {reserve.cap or 'cap it'}; label it; connect nothing."
    for battery in build.batteries.values():
        if battery.place == place and battery.existing and build.vehicle.sensed_post == battery.name:
            yield (
                f"The negative post of {battery.designation} carries the vehicle's battery sensor: nothing "
                "is connected to the post itself, only beyond the sensor."
            )
