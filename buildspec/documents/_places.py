"""One place at a time: what is fitted there, what ends there, what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec.documents import _materials as materials
from buildspec.documents import _place_rows as here
from buildspec.documents import _surfaces as surfaces
from buildspec.documents import _words as words
from buildspec.joints import joints
from buildspec.model import Accessory, Panel, Reserve, Zone
from buildspec.packet import Packet


def sections(packet: Packet) -> Iterator[dict[str, Any]]:
    """Each place where something is done, in the order of the spec."""
    build = packet.sized.build
    for name in build.places:
        rows = {
            "mind": list(minding(packet, name)),
            "steps": here.steps(packet, name),
            "fitted": list(fitted(packet, name)),
            "holes": here.made_holes(packet, name),
            "looms": here.looms(packet, name),
            "ends": here.ends(packet, name),
            "devices": here.devices(packet, name),
            "studs": here.studs(packet, name),
            "bolts": here.held(packet, name),
            "labels": here.tags(packet, name),
        }
        if any(rows.values()):
            yield {"name": name, "heading": words.capital(words.place(build, name)), **rows}


def fitted(packet: Packet, place: str) -> Iterator[dict[str, str]]:
    build = packet.sized.build
    notes = {a.designation: accessory_note(a) for a in build.accessories.values()}
    notes |= {p.designation: p.placement_reason for p in build.panels.values()}
    for item in materials.items(build):
        if item.place == place:
            yield item_line(item.designation, item.part.title, item.quantity, notes.get(item.designation, ""))
    for goods in materials.goods(build):
        if goods.item.place == place:
            note = "; ".join(text for text in (surfaces.when(goods.item), accessory_note(goods.item)) if text)
            yield item_line(goods.item.designation, goods.item.part.title, goods.units, note)
    for panel in build.panels.values():
        if panel.keypad_at == place != panel.module_at:
            yield item_line(panel.designation, f"{panel.part.title}: the keys", 1, keypad_note(panel))
    used = {joint.item for joint in joints(build) if joint.lugs}
    for ground in build.grounds.values():
        if ground.place == place and not ground.post_of and ground.letter_name in used:
            yield item_line(
                ground.letter_name, f"Ground: {ground.words}", 1, "bare metal, then sealed after torque"
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


def minding(packet: Packet, place: str) -> Iterator[str]:
    """What a fitter must know at this place."""
    build = packet.sized.build
    if build.places[place].bump_risk:
        yield "Loads and knees knock here: no key that starts something, no bare stud, no loose loom."
    for zone in build.vehicle.zones.values():
        if place in zone.places and zone.forbids:
            yield banned(zone)
    for name, block in build.blocks.items():
        if block.place == place:
            for position, why in sorted(block.empty.items()):
                yield f"{words.capital(words.node(build, name))}, position {position} stays empty. {why}"
    for reserve in build.reserves.values():
        if reserve.place == place:
            yield f"Reserve {reserve.designation}: {reserve.end}; {capped(reserve)}; label it; connect nothing."
    for battery in build.batteries.values():
        if battery.place == place and battery.existing and build.vehicle.sensed_post == battery.name:
            yield (
                f"The negative post of {battery.designation} carries the vehicle's battery sensor: nothing "
                "is connected to the post itself, only beyond the sensor."
            )


def capped(reserve: Reserve) -> str:
    """A tube over two bare cores would hold them together: each has its own first."""
    if "shrink" in reserve.cap and reserve.connector == "none":
        return f"{reserve.cap} on each core, then one over both"
    return reserve.cap or "cap it"


FORBIDDEN = {"drill": "drilled or cut", "mount": "fitted", "route": "laid"}


def banned(zone: Zone) -> str:
    """`Nothing is drilled or cut here: rear pillar with the belt reel behind it. Held instead by: …`"""
    nothing = ", ".join(FORBIDDEN[kind] for kind in zone.forbids)
    held = (
        f"is held by: {zone.fixed_by}"
        if zone.fixed_by
        else "is held without it; how is not stated: ask first"
    )
    return f"Nothing is {nothing} here: {zone.words}. Everything here, clips too, {held}."
