"""The state of the vehicle before anything is touched: signed, so that nobody argues afterwards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import mass, show
from buildspec.documents import _checks as checks
from buildspec.documents import _words as words
from buildspec.energy.alternator import CONTROLLED_V, CONVENTIONAL_V
from buildspec.packet import Packet

TITLE = "Condition report before work"
ORDER = 78
LAMPS = (
    "Restraints", "Engine", "Charging", "Oil pressure", "Brakes", "Brake anti-lock", "Steering", "Tyre pressure",
    "Coolant", "Another: …",
)  # fmt: skip
VIEWS = ("Front", "Rear", "Left side", "Right side", "Roof", "Cabin and load space")
OWN = (
    "Lamps: head, tail, stop, turn, reverse, plate",
    "Horn, wipers, washers, heater",
    "Windows, mirrors, locks, both keys",
    "Radio, screen, camera, parking aids",
    "Outlets and equipment fitted before",
)
LINES_FOR_CODES, LINES_FOR_PARTS = 4, 3


def view(packet: Packet) -> dict[str, Any]:
    return {
        "intro": (
            "Filled together with the customer before the first part comes off. What is crossed out or empty is "
            "“not looked at”, never “in order”. The same readings are taken again in the commissioning record."
        ),
        "vehicle": list(identity(packet)),
        "readings": list(readings(packet)),
        "lamps": [
            {"lamp": lamp, "on": words.TICK, "out": words.TICK, "stays": words.TICK, "note": words.BLANK}
            for lamp in LAMPS
        ],
        "codes": [
            {
                "number": str(n),
                "unit": words.BLANK,
                "code": words.BLANK,
                "text": words.BLANK,
                "done": words.BLANK,
            }
            for n in range(1, LINES_FOR_CODES + 1)
        ],
        "works": [works_line(what) for what in (*OWN, *untouched(packet))],
        "damage_intro": (
            "Sketch outline and damage in the boxes: S scratch, D dent, C crack, R rust, W worn, H open hole. "
            "Number each; a picture carries the same number."
        ),
        "views": [dict.fromkeys(VIEWS, words.BLANK)],
        "view_names": [(name, name) for name in VIEWS],
        "out": [*out_lines(packet), *(blank_part() for _ in range(LINES_FOR_PARTS))],
        "signed": [
            {"role": role, "name": words.BLANK, "signature": words.BLANK, "date": words.BLANK}
            for role in ("Customer or user", "For the shop")
        ],
        "agreed": (
            "Customer: this is the state in which I leave the vehicle; I was told what was found; the shop may "
            "disconnect the batteries, by which stored settings may be lost."
        ),
    }


def identity(packet: Packet) -> Iterator[dict[str, str]]:
    build = packet.sized.build
    for what, found in (
        ("Vehicle", build.vehicle.description),
        ("Registration", build.vehicle.registration or words.BLANK),
        ("Vehicle identification number", words.BLANK),
        ("Odometer", words.BLANK),
        ("Fuel, charge of the battery, keys received", words.BLANK),
        ("Brought by, date and time", words.BLANK),
        ("Left in the vehicle", words.BLANK),
    ):
        yield {"what": what, "is": found}


def readings(packet: Packet) -> Iterator[dict[str, str]]:
    """Battery volts and key-off current with what they should be."""
    build = packet.sized.build
    scale, own = build.practice.nominal_v / 12.0, build.vehicle.own_a.get("off")
    for name, battery in build.batteries.items():
        if battery.existing:
            where = words.capital(words.node(build, name))
            trait = battery.part.battery
            lead = trait is None or not trait.chemistry.startswith("lithium")
            rest = f"{show.volts(checks.REST_V * scale)} or more" if lead else "as its maker states for full"
            yield reading(f"{where}, at rest", "8 h without load, key off", rest)
            yield reading(f"{where}, engine at raised idle", "everything off", charging(packet))
    usual = f"{show.amps(own)} by {build.vehicle.own_source}; " if own else ""
    yield reading(
        "Key-off current of the whole vehicle",
        "key off, doors latched, asleep 20 to 60 min; settled after … min",
        f"{usual}at most {show.amps(build.practice.key_off_a)}",
    )
    yield reading("Starts", "cold, by the key, without help", "at once")
    if mass.is_wanted(build.vehicle):
        yield reading("Mass on the scale, front and rear axle", "before any part comes off", kerb(packet))


def charging(packet: Packet) -> str:
    build = packet.sized.build
    alternator, scale = build.vehicle.alternator, build.practice.nominal_v / 12.0
    controlled = alternator is not None and alternator.controlled
    low, high = CONTROLLED_V if controlled else CONVENTIONAL_V
    return f"{show.volts(low * scale)} to {show.volts(high * scale)}"


def kerb(packet: Packet) -> str:
    """The masses that the sums of this packet start from."""
    vehicle, practice = packet.sized.build.vehicle, packet.sized.build.practice
    if vehicle.axles is not None:
        pair = (vehicle.axles.front, vehicle.axles.rear)
        return " and ".join(show.mass(axle.kerb_kg, practice) for axle in pair)
    whole = mass.kerb_kg(vehicle)
    return "not stated" if whole is None else f"together {show.mass(whole, practice)}"


def reading(what: str, how: str, expected: str) -> dict[str, str]:
    return {"what": what, "how": how, "expected": expected, "found": words.BLANK}


def untouched(packet: Packet) -> tuple[str, ...]:
    return tuple(f"Stays as it came: {name}" for name in packet.sized.build.vehicle.untouched)


def works_line(what: str) -> dict[str, str]:
    return {"what": what, "works": words.TICK, "fails": words.TICK, "note": words.BLANK}


def out_lines(packet: Packet) -> Iterator[dict[str, str]]:
    """What the spec takes out or takes off."""
    build = packet.sized.build
    for removed in build.vehicle.removed:
        weight = show.mass(removed.mass_kg, build.practice)
        yield {**blank_part(), "what": f"{words.capital(removed.what)}, {weight}, stays out"}
    for work in (*build.works, *(w for a in build.accessories.values() for w in a.works)):
        if work.do == "remove":
            yield {**blank_part(), "what": f"{words.capital(work.what)}: goes back"}


def blank_part() -> dict[str, str]:
    return dict.fromkeys(("what", "state", "kept", "back"), words.BLANK)
