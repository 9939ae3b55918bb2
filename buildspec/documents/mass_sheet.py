"""What was added weighs so much, here, and leaves so much: the sum, the axles, the payload, the load label."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import mass, show
from buildspec.calc import mass as calc
from buildspec.documents import _words as words
from buildspec.model import Practice, Vehicle
from buildspec.packet import Packet

TITLE = "Mass and load label"
ORDER = 75
OWN_PAGE = True
NOT_STATED = "not stated"


def view(packet: Packet) -> dict[str, Any]:
    sized = packet.sized
    found, vehicle, practice = mass.lines(sized), sized.build.vehicle, sized.build.practice
    return {
        "intro": (
            "The sum is made from the lines of the bill of materials: items and sheet goods as stated, conductors as "
            f"copper of {calc.COPPER_KG_PER_M3:.0f} kg/m³ times {calc.INSULATION_FACTOR:g} for the insulation, half of "
            "each at either end. Terminals, screws and tape are not in it. In each table the masses are rounded so "
            "that they add up to the sum. A load label must be within 1 % of the mass that was added: weigh the "
            "finished vehicle on each axle."
        ),
        "lines": [*lines(packet, found), sum_line(mass.total_kg(found), practice)],
        "sum": f"Added mass, conductors included: {both(mass.total_kg(found), practice)}.",
        "unknown": unknown(found),
        "places": list(by_place(packet, found)),
        "centre": centre(packet),
        "payload": list(payload(packet)),
        "no_payload": "The gross rating or the kerb mass is not stated, so nothing is said of payload.",
        "axles": list(axles(packet)),
        "no_axles": no_axles(packet),
        "axle_how": (
            "Each mass stands at the station of its place, measured from the front axle to the rear: the rear axle "
            "takes mass × station ÷ wheelbase, the front axle the rest."
        ),
        "label": list(label(packet)),
        "label_text": label_text(packet),
        "weighed": [
            {"axle": axle, "before": words.BLANK, "after": words.BLANK, "scale": words.BLANK}
            for axle in ("Front axle", "Rear axle", "Whole vehicle")
        ],
        "nothing": "Nothing here.",
        "caution": caution(vehicle),
    }


def both(kg: float, practice: Practice) -> str:
    """`43.1 kg (95.0 lb)`, the practice's unit first."""
    one, other = f"{kg:.1f} kg", f"{kg / calc.LB_KG:.1f} lb"
    return signed(f"{one} ({other})" if practice.units != "imperial" else f"{other} ({one})")


def signed(text: str) -> str:
    """A true minus sign, which no reader of tables takes for a dash."""
    return text.replace("-", "−")


def distance(station_m: float, practice: Practice) -> str:
    """`3.30 m`, `129.9 in`."""
    metric = practice.units != "imperial"
    return signed(f"{station_m:.2f} m" if metric else f"{station_m / show.M_PER_IN:.1f} in")


def moment_of(kg: float, station_m: float, practice: Practice) -> str:
    """About the front axle: `499.3 kg m`, or in pounds and inches."""
    if practice.units != "imperial":
        return signed(f"{kg * station_m:.1f} kg m")
    return signed(f"{kg / calc.LB_KG * station_m / show.M_PER_IN:.0f} lb in")


def mass_of(kg: float, practice: Practice) -> str:
    """With two places, for sums to be followed."""
    return signed(f"{kg:.2f} kg" if practice.units != "imperial" else f"{kg / calc.LB_KG:.2f} lb")


def rounded(values: list[float], practice: Practice, places: int = 2) -> list[float]:
    """Masses [kg] in the practice's unit, adding up as printed."""
    unit = 1.0 if practice.units == "metric" else calc.LB_KG
    return [value * unit for value in show.adding_up([kg / unit for kg in values], places)]


def lines(packet: Packet, found: tuple[mass.Line, ...]) -> list[dict[str, str]]:
    masses = rounded([one.kg or 0.0 for one in found], packet.sized.build.practice)
    return [line(packet, one, kg) for one, kg in zip(found, masses, strict=True)]


def sum_line(kg: float, practice: Practice) -> dict[str, str]:
    return {"what": "Sum", "place": words.NOT_APPLICABLE, "mass": mass_of(kg, practice)}


def line(packet: Packet, one: mass.Line, rounded_kg: float) -> dict[str, str]:
    build = packet.sized.build
    text = one.what if one.kind != "removed" else f"taken out: {one.what}"
    return {
        "what": words.capital(text),
        "place": words.place(build, one.place),
        "mass": NOT_STATED if one.kg is None else mass_of(rounded_kg, build.practice),
    }


def unknown(found: tuple[mass.Line, ...]) -> str:
    bare = [one.what for one in found if one.kg is None]
    return (
        f"Not in the sum, because nobody states it: {', '.join(bare)}."
        if bare
        else "Every line has its mass."
    )


def by_place(packet: Packet, found: tuple[mass.Line, ...]) -> Iterator[dict[str, str]]:
    """Place, station, mass, and the moment about the front axle: anybody can follow the sum."""
    build = packet.sized.build
    there = [place for name, place in build.places.items() if any(one.place == name for one in found)]
    kilograms = [sum(one.kg or 0.0 for one in found if one.place == place.name) for place in there]
    printed = rounded(kilograms, build.practice)
    for place, kg, rounded_kg in zip(there, kilograms, printed, strict=True):
        station, moment = NOT_STATED, NOT_STATED
        if place.station_m is not None:
            station = distance(place.station_m, build.practice)
            moment = moment_of(kg, place.station_m, build.practice)
        yield {
            "place": place.words,
            "station": station,
            "mass": mass_of(rounded_kg, build.practice),
            "moment": moment,
        }


def centre(packet: Packet) -> str:
    found, practice = mass.centre_m(packet.sized), packet.sized.build.practice
    if found is None:
        return "Centre of what is added: not all stations are stated."
    return (
        f"Centre of what is added: {distance(found, practice)} behind the front axle (sum of the moments ÷ sum of "
        "the masses)."
    )


def payload(packet: Packet) -> Iterator[dict[str, str]]:
    found, practice = mass.payload(packet.sized), packet.sized.build.practice
    if found is None:
        return
    vehicle = packet.sized.build.vehicle
    people = " and ".join(o.what for o in vehicle.occupants) or "none stated"
    cargo = ", ".join(c.what for c in vehicle.cargo) or "none stated"
    gross, kerb, riding, load = payload_terms(found, practice)
    for what, text in (
        ("Gross rating", tenth_of(gross, practice)),
        ("− kerb mass, tank full, nobody in it", tenth_of(-kerb, practice)),
        ("− added mass, conductors included", tenth_of(found.added_kg, practice)),
        (f"− people: {people}", tenth_of(-riding, practice)),
        (f"− cargo: {cargo}", tenth_of(-load, practice)),
        ("Left for more people and cargo", both(found.left_kg, practice)),
    ):
        yield {"what": what, "mass": text}


def payload_terms(found: mass.Payload, practice: Practice) -> list[float]:
    """Gross, kerb, people, cargo [kg], so rounded that with what is added they leave what is printed as left."""
    unit = 1.0 if practice.units == "metric" else calc.LB_KG
    terms = [found.gross_kg, -found.kerb_kg, -found.people_kg, -found.cargo_kg]
    total = round(found.left_kg / unit, 1) + round(found.added_kg / unit, 1)
    return [value * unit for value in show.adding_up([kg / unit for kg in terms], 1, total)]


def tenth_of(kg: float, practice: Practice) -> str:
    """`3100.0 kg`, in the practice's unit alone."""
    return signed(f"{kg:.1f} kg" if practice.units == "metric" else f"{kg / calc.LB_KG:.1f} lb")


def weight(kg: float, practice: Practice) -> str:
    return signed(show.mass(kg, practice))


def axles(packet: Packet) -> Iterator[dict[str, str]]:
    practice = packet.sized.build.practice
    for load in mass.axle_loads(packet.sized) or ():
        terms = [load.axle.kerb_kg, load.added_kg, load.people_kg, load.cargo_kg]
        kerb, added, people, cargo = rounded(terms, practice, places=1)
        yield {
            "axle": words.capital(load.name),
            "kerb": weight(kerb, practice),
            "added": weight(added, practice),
            "unladen": weight(kerb + added, practice),
            "people": weight(people, practice),
            "cargo": weight(cargo, practice),
            "laden": weight(kerb + added + people + cargo, practice),
            "limit": weight(load.axle.limit_kg, practice),
            "left": weight(load.axle.limit_kg - max(load.laden_kg, load.unladen_kg), practice),
        }


def no_axles(packet: Packet) -> str:
    missing = mass.without_station(packet.sized)
    if packet.sized.build.vehicle.axles is None:
        return "Wheelbase, limits and kerb loads of the axles are not stated, so nothing is said of them."
    return f"Not checked: no station for {', '.join(words.place(packet.sized.build, p) for p in missing)}."


def label(packet: Packet) -> Iterator[dict[str, str]]:
    """The verdict with its inputs."""
    found, build = mass.label(packet.sized), packet.sized.build
    vehicle, practice = build.vehicle, build.practice
    if found is None or vehicle.gross_kg is None:
        return
    for what, text in (
        ("Sold", vehicle.sold or NOT_STATED),
        ("1.5 % of the gross rating", both(calc.LABEL_SHARE * vehicle.gross_kg, practice)),
        ("100 lb", both(calc.LABEL_LB * calc.LB_KG, practice)),
        ("The lesser of the two", both(found.limit_kg, practice)),
        ("Added mass, conductors included", both(found.added_kg, practice)),
        ("Verdict (49 CFR 571.110 S10)", verdict(vehicle, found)),
    ):
        yield {"what": what, "is": text}


def verdict(vehicle: Vehicle, found: mass.Label) -> str:
    if not found.due:
        return "within the limit: no new label is needed"
    if vehicle.sold == "before first sale":
        return "above the limit before the first sale: the label must be corrected, and is"
    done = "corrected with this job" if vehicle.label else "correcting it is advised"
    return f"above the limit; no duty after the first sale; {done}"


def label_text(packet: Packet) -> str:
    """What goes on the corrected label, from the same sum."""
    found, build = mass.label(packet.sized), packet.sized.build
    if found is None:
        return "No gross rating, or one above 10 000 lb (4536 kg): the rule says nothing; local law may."
    if not found.due:
        return "No label text."
    reduced = f"{found.added_kg:.0f} kg or {found.added_kg / calc.LB_KG:.0f} lb"
    text = f"Text: “Load carrying capacity reduced by {reduced}” (wording recalled, confirm it in the rule)."
    if found.corrected_kg is None:
        return text
    old = build.vehicle.placard_kg or 0.0
    return (
        f"{text} People and cargo on the corrected label: {both(old, build.practice)} − "
        f"{both(found.added_kg, build.practice)} = {both(found.corrected_kg, build.practice)}."
    )


def caution(vehicle: Vehicle) -> str:
    source = (
        f" Axle figures: {vehicle.axles.source}."
        if vehicle.axles is not None and vehicle.axles.source
        else ""
    )
    return (
        "Only a manufacturer or alterer sets gross and axle ratings; springs do not raise them. Tyres and wheels may "
        f"carry less than the axle. Local law and licensed practice decide.{source}"
    )
