"""What is known of the vehicle, with the document behind every value, and a blank for what was found on this one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.documents import _findings as findings
from buildspec.documents import _words as words
from buildspec.model import Battery, Feed, Resolved, Vehicle
from buildspec.packet import Packet

TITLE = "Vehicle survey sheet"
ORDER = 15
WIDE = True
UNKNOWN = "not surveyed"
OWN = {
    "off": "Own current, key off",
    "stopped": "Own current, key on",
    "idle": "Own current, idling",
    "driving": "Own current, driving",
    "crank": "Own current, cranking",
}
STATES = {"any": "always", "ignition": "ignition", "engine": "engine running"}
FORBIDDEN = {
    "battery_posts": "Anything joined to the posts of the vehicle's battery",
    "occupied_fuses": "A tap at a fuse that feeds something already",
    "unlisted_points": "Feeds, grounds and signals that the data do not list",
}
CANNOT = "cannot check"
"""What a finding begins with that lacks a fact."""


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    vehicle = build.vehicle
    return {
        "intro": intro(vehicle),
        "facts": [*identity(build), *masses(build), *current(build), *batteries(build)],
        "feeds": [feed_line(packet, feed) for feed in vehicle.feeds.values()],
        "no_feeds": "The data list no feed: everything is fed from the batteries.",
        "groups": [
            f"{words.capital(g.name.replace('-', ' '))}: together at most "
            + ", ".join(
                text
                for text in (
                    show.amps(g.allows_a) if g.allows_a is not None else "",
                    words.count(g.circuits, "circuit") if g.circuits else "",
                )
                if text
            )
            + f" ({g.source or UNKNOWN})."
            for g in vehicle.feed_groups.values()
        ],
        "points": list(points(build)),
        "no_points": "No ground and no signal.",
        "ties": list(ties(build)),
        "no_ties": "No anchor point of the vehicle is stated.",
        "zones": list(zones(build)),
        "no_zones": "No zone is stated: look for airbags, tank, pipes and high-voltage cables before drilling.",
        "forbidden": [
            {"what": FORBIDDEN[key], "source": source, "done": words.TICK}
            for key, source in vehicle.forbids.items()
        ],
        "no_forbidden": "The data forbid nothing beyond the zones.",
        "untouched": vehicle.untouched,
        "no_untouched": "Nothing is named.",
        "open": [findings.line(d) for d in packet.diagnostics if CANNOT in d.message],
        "no_open": "Nothing that a rule needs is missing.",
        "signatures": [
            {"role": role, "name": words.BLANK, "signature": words.BLANK, "date": words.BLANK}
            for role in ("Surveyed", "Checked against the vehicle")
        ],
    }


def intro(vehicle: Vehicle) -> str:
    """Which data, for which variant, and what to do with the sheet."""
    if vehicle.origin is None:
        known = "No vehicle data file: the values are the spec's own"
        known += f", from {vehicle.document}." if vehicle.document else "."
    else:
        known = f"Data: {vehicle.origin.name}, variant {vehicle.origin.variant}, {vehicle.origin.document}."
    return (
        f"{known} Write beside each value what you find on this vehicle. Where it differs, stop: the packet was made "
        "from the value printed here."
    )


def source_of(vehicle: Vehicle, key: str) -> str:
    """The document behind a fact under `vehicle`."""
    if vehicle.origin is not None and ("vehicle", key) in vehicle.origin.facts:
        return vehicle.origin.document
    return vehicle.document or UNKNOWN


def fact(what: str, value: str, source: str) -> dict[str, str]:
    return {
        "what": what,
        "is": value or UNKNOWN,
        "source": source if value else words.NOT_APPLICABLE,
        "found": words.BLANK,
        "done": words.TICK,
    }


def identity(build: Resolved) -> Iterator[dict[str, str]]:
    vehicle, engine = build.vehicle, build.vehicle.engine
    yield fact("Vehicle", vehicle.description, source_of(vehicle, "description"))
    yield fact("Variant", vehicle.origin.variant if vehicle.origin else "", "as read from the vehicle")
    yield fact("Registration", vehicle.registration, "as read from the vehicle")
    yield fact("Vehicle identification number", "", "")
    yield fact("Year of build", "", "")
    yield fact("Sale", vehicle.sold, source_of(vehicle, "sold"))
    litres = f", {show.plain(engine.displacement_l, 1)} l" if engine and engine.displacement_l else ""
    yield fact("Engine", f"{engine.fuel}{litres}" if engine else "", source_of(vehicle, "engine"))
    yield fact("System", f"{show.plain(vehicle.system_v, 0)} V", source_of(vehicle, "system"))


def masses(build: Resolved) -> Iterator[dict[str, str]]:
    vehicle, practice = build.vehicle, build.practice
    for what, key, value in (
        ("Gross mass", "gross_mass", vehicle.gross_kg),
        ("Kerb mass", "kerb_mass", vehicle.kerb_kg),
        ("People and cargo by the load label", "label_capacity", vehicle.placard_kg),
    ):
        text = show.mass(value, practice) if value is not None else ""
        yield fact(what, text, source_of(vehicle, key))
    axles = vehicle.axles
    source = axles.source if axles else ""
    yield fact("Wheelbase", show.length(axles.wheelbase_m, practice) if axles else "", source)
    for name, axle in (
        ("Front axle", axles.front if axles else None),
        ("Rear axle", axles.rear if axles else None),
    ):
        limit = f"{show.mass(axle.limit_kg, practice)} at most" if axle else ""
        kerb = f", {show.mass(axle.kerb_kg, practice)} unladen" if axle else ""
        yield fact(name, f"{limit}{kerb}", source)


def current(build: Resolved) -> Iterator[dict[str, str]]:
    vehicle, alternator = build.vehicle, build.vehicle.alternator
    source = alternator.source if alternator else ""
    kind = ("controlled" if alternator.controlled else "conventional") if alternator else ""
    yield fact("Alternator", f"{show.amps(alternator.rated_a)}, {kind}" if alternator else "", source)
    for what, amps in (
        ("Alternator at idle, hot", alternator.idle_a if alternator else None),
        ("Allowed for accessories", alternator.allowance_a if alternator else None),
    ):
        yield fact(what, show.amps(amps) if amps is not None else "", source)
    highest = alternator.voltage_v if alternator else None
    yield fact("Highest charging voltage", show.volts(highest) if highest is not None else "", source)
    for state, what in OWN.items():
        amps = vehicle.own_a.get(state)
        yield fact(what, show.amps(amps) if amps is not None else "", vehicle.own_source)
    yield fact(
        "Battery sensor on the negative post of", vehicle.sensed_post, source_of(vehicle, "sensed_post")
    )


def batteries(build: Resolved) -> Iterator[dict[str, str]]:
    for battery in build.batteries.values():
        if battery.existing:
            yield fact(f"Battery “{battery.name}”", battery_words(build, battery), origin_of(build, battery))


def origin_of(build: Resolved, battery: Battery) -> str:
    origin = build.vehicle.origin
    from_data = origin is not None and ("batteries", battery.name) in origin.facts
    return origin.document if origin is not None and from_data else build.vehicle.document or UNKNOWN


def battery_words(build: Resolved, battery: Battery) -> str:
    trait = battery.part.battery
    figures = (
        f"{trait.chemistry}, {show.plain(trait.capacity_ah, 0)} Ah" if trait else "",
        f"{show.amps(trait.cranking_a)} cold cranking" if trait and trait.cranking_a else "",
        words.place(build, battery.place),
    )
    return ", ".join(text for text in figures if text)


def feed_line(packet: Packet, feed: Feed) -> dict[str, str]:
    build = packet.sized.build
    joined = [c.number for c in build.circuits if c.source == feed.name]
    taken = packet.sized.loads_a.get(feed.name)
    wire = ", ".join(
        text
        for text in (
            f"{show.plain(feed.area_mm2, 2)} mm²" if feed.area_mm2 is not None else "",
            show.length(feed.length_m, build.practice) if feed.length_m is not None else "",
        )
        if text
    )
    return {
        "feed": feed.words,
        "where": words.place(build, feed.place),
        "fuse": show.amps(feed.fuse_a) if feed.fuse_a is not None else UNKNOWN,
        "allows": show.amps(feed.allows_a) if feed.allows_a is not None else UNKNOWN,
        "live": STATES[feed.state] + (f", by {feed.switch}" if feed.switch else ""),
        "wire": wire or UNKNOWN,
        "use": f"feeds {feed.occupied} already: not used"
        if feed.occupied and not joined
        else f"{', '.join(joined)}: {show.amps(taken)}"
        if joined and taken is not None
        else "free",
        "source": feed.source or UNKNOWN,
        "found": words.BLANK,
        "done": words.TICK,
    }


def points(build: Resolved) -> Iterator[dict[str, str]]:
    """Grounds and signals of the vehicle."""
    for ground in build.grounds.values():
        kind = f"ground, {ground.stud}" if ground.stud else "ground"
        yield point(ground.words, words.place(build, ground.place), kind, words.NOT_APPLICABLE, ground.source)
    for signal in build.signals.values():
        pulsed = ", pulsed" if signal.pulsed else ""
        gives = show.amps(signal.allowance_a) if signal.allowance_a is not None else UNKNOWN
        yield point(
            signal.words, words.place(build, signal.place), f"{signal.kind}{pulsed}", gives, signal.source
        )


def point(what: str, where: str, kind: str, gives: str, source: str) -> dict[str, str]:
    return {
        "point": what,
        "where": where,
        "kind": kind,
        "gives": gives,
        "source": source or UNKNOWN,
        "found": words.BLANK,
        "done": words.TICK,
    }


def ties(build: Resolved) -> Iterator[dict[str, str]]:
    for tie in build.vehicle.tie_downs.values():
        holds = show.force(tie.rating_n, build.practice) if tie.rating_n is not None else UNKNOWN
        yield point(tie.words, words.place(build, tie.place), "anchor for cargo", holds, tie.source)


def zones(build: Resolved) -> Iterator[dict[str, str]]:
    for zone in build.vehicle.zones.values():
        yield {
            "zone": zone.words,
            "what": zone.what,
            "where": ", ".join(words.place(build, name) for name in zone.places),
            "forbids": ", ".join(zone.forbids),
            "source": zone.source or UNKNOWN,
            "done": words.TICK,
        }
