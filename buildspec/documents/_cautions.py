"""What can hurt somebody in this build, said once, each deferring to the law and to licensed practice."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.model import Resolved

ALWAYS = (
    "This packet is for trained fitters. The vehicle maker's instructions, local codes and the law where "
    "the vehicle is used come before it; where they ask for licensed practice, a licensed person does it.",
    "Batteries give off gas that explodes and can weld a tool in an instant: eye protection, no rings, no "
    "sparks, negative lead off first and on last.",
    "Airbags, belt tensioners and their looms are not opened, tied to or worked beside with the battery connected.",
)


def cautions(build: Resolved) -> tuple[str, ...]:
    return (*ALWAYS, *of_items(build))


def of_items(build: Resolved) -> Iterator[str]:
    """Cautions that only some builds need."""
    parts = [item.part for item in build.accessories.values()]
    chemistries = {b.part.battery.chemistry for b in build.batteries.values() if b.part.battery}
    if any(c.startswith("lithium") for c in chemistries):
        yield "A lithium battery is not charged below 0 °C and stays with its own manager; charge as its maker states."
    if any(part.lamp for part in parts):
        yield (
            "Added lamps: colour, place, switching and use on public roads are for the law where the "
            "vehicle is driven. The lamps that the law requires stay as they were."
        )
    shore = any(supply.type == "shore" for supply in build.supplies.values())
    if shore or any(part.category == "inverter" for part in parts):
        yield (
            "The mains side of an inverter or a shore supply is for a licensed electrician, to the local "
            "electrical code."
        )
    if any(part.category == "heater" for part in parts):
        yield (
            "A heater that burns fuel gives off gas that kills: exhaust, fuel and alarm as its maker and "
            "the local code ask."
        )
    if any(part.anchor for part in parts):
        yield "Load rings and rails hold cargo up to what they state. They never hold people, seats or seat belts."
    if build.isolation and any(way.type != "dc-dc" for way in build.isolation.values()):
        yield (
            "A link between two batteries carries hundreds of amperes: both fuses stay at their "
            "batteries, covers stay on."
        )
    if build.vehicle.gross_kg is not None:
        yield "Added mass counts against the vehicle's payload and axle limits: weigh it when it is done."
