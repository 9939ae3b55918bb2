"""What waits for later, what works by itself, outlets, what still may be loaded, rings and rails."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from buildspec import mass
from buildspec.documents import _owner as owner
from buildspec.documents import _words as words
from buildspec.documents._owner_fuses import SUPPLY_WORDS, bolted_rows, rating, row
from buildspec.documents._owner_spots import Spot, spots
from buildspec.documents._owner_units import at_least, at_most, power
from buildspec.model import Accessory, Reserve, Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue, mark

GRAVITY = 9.80665
SUPPLY_OWNER = {
    "shore": mark("Charges the second battery while its mains lead is plugged in."),
    "solar": mark("Charges the second battery while the sun shines."),
}


def sections(packet: Packet) -> list[dict[str, Any]]:
    """Every list of the second side that has something in it: heading, a line on top, rows."""
    build, t = packet.sized.build, owner.tongue(packet)
    found: list[tuple[str, str, str, list[dict[str, str]]]] = [
        ("itself", t.say("Works by itself"), "", list(automatic(build, t))),
        ("outlets", t.say("Outlets"), "", list(outlets(build, t))),
        ("no-key", t.say("Without a key on the panel"), "", list(unswitched(build, t))),
        ("mains", t.say("Mains voltage: it can kill"), mains_lead(t), list(mains(build, t))),
        ("loads", t.say("Rings and rails: cargo only, never people"), rings_lead(t), list(anchors(build, t))),
        ("fitted", t.say("Also fitted"), "", list(plain_things(build, t))),
        ("bolted", t.say("Bolted fuses, for the workshop only"), "", bolted_rows(packet)),
    ]
    return [
        {"id": name, "heading": heading, "lead": lead, "rows": rows}
        for name, heading, lead, rows in found
        if rows
    ]


# -------------------------------------------------------------------------------------- for later


def later(packet: Packet) -> dict[str, Any]:
    """What may be added where, by whom, and how strong it may be."""
    build, t = packet.sized.build, owner.tongue(packet)
    return {"lead": reserve_lead(build, t), "rows": reserve_rows(packet, t)}


def reserve_lead(build: Resolved, t: Tongue) -> str:
    if not build.reserves:
        return t.say("No cable was laid for later. Ask us before anything is added.")
    laid = t.many("{count} cable is already laid.", "{count} cables are already laid.", len(build.reserves))
    who = t.say("Only a licensed workshop, or we, may connect to one.")
    return f"{laid} {who}"


def reserve_rows(packet: Packet, t: Tongue) -> list[dict[str, str]]:
    build = packet.sized.build
    found = []
    for item in build.reserves.values():
        most = t.large(power(item.allow_a, build.practice.nominal_v, t))
        at = t.own(item.end) if item.end else owner.place(build, item.place, t)
        what = t.large(t.own(item.purpose or item.name.replace("-", " ")))
        end = t.say("Its end: {place}.", place=at)
        said = [f"{most}.", f"{t.large(fed_by(packet, item, t))}.", off_until_then(packet, item, t), end]
        found.append(row(what, " ".join(one for one in said if one)))
    return found


def off_until_then(packet: Packet, item: Reserve, t: Tongue) -> str:
    """What keeps it dead: no fuse in its place, or a key that is off."""
    if item.powered:
        return t.say("It is live already: keep its cap on.")
    fuse = next((d for d in packet.sized.sizings[item.name].devices if d.kind == "fuse"), None)
    if fuse is not None:
        return t.say("No fuse in it yet; takes {rating}.", rating=rating(fuse, t))
    return t.say("Its key is off until then.")


def fed_by(packet: Packet, item: Reserve, t: Tongue) -> str:
    """The key or the fuse place that waits for it."""
    build = packet.sized.build
    for key in build.channels:
        if key.use == "reserve" and key.item == item.name:
            return t.say("key {number} {legend}", number=key.number, legend=t.legend(key.legend)).strip()
    letters = spots(packet)
    for device in packet.sized.sizings[item.name].devices:
        if device.host:
            at = letters.get(Spot(device.host, "", "")) or owner.place(build, device.place, t)
            return t.say("fuse place {number}, {place}", number=device.position, place=at)
    return t.say("no key, {place}", place=owner.place(build, item.place, t))


# --------------------------------------------------------------------------------------- by itself


def automatic(build: Resolved, t: Tongue) -> Iterator[dict[str, str]]:
    """What starts or stops without a hand."""
    names = owner.names(build, t)
    for item in build.accessories.values():
        if item.trigger and not item.switch:
            signal = t.own_short(build.signals[item.trigger].words)
            yield row(names[item.name], t.say("comes on by itself: {signal}.", signal=signal))
    for device in build.isolation.values():
        if device.type == "dc-dc":
            usual = t.say("Charges the second battery while the engine runs.")
            yield row(t.say("Charger"), t.own(device.part.owner) or usual)
        elif device.type == "voltage-relay":
            usual = t.say("Joins both batteries while the engine charges them.")
            yield row(t.say("Battery relay"), t.own(device.part.owner) or usual)
    for supply in build.supplies.values():
        usual = t.say(SUPPLY_OWNER[supply.type])
        yield row(t.say(SUPPLY_WORDS[supply.type]), t.own(supply.part.owner) or usual)
    for item in build.accessories.values():
        if cut_off(item, t) and not is_unswitched(build, item):
            yield row(names[item.name], t.large(cut_off(item, t)))


def cut_off(item: Accessory, t: Tongue) -> str:
    """Where it stops by itself, or ``."""
    cut = item.part.electrical.cut_out_v if item.part.electrical else None
    if cut is None:
        return ""
    return t.say("stops by itself at {volts} V, so that the battery is not emptied.", volts=t.number(cut, 1))


def outlets(build: Resolved, t: Tongue) -> Iterator[dict[str, str]]:
    """Where something may be plugged in, and how strong it may be."""
    names = owner.names(build, t)
    for item in build.accessories.values():
        if not is_outlet(item):
            continue
        most = t.own(item.owner)
        if item.part.outlet:
            strong = power(item.part.outlet.rating_a, build.practice.nominal_v, t)
            most = t.say("{most} on the label of what you plug in.", most=strong)
        at = t.own_short(words.place(build, item.place))
        name = names[item.name]
        yield row(name if f"({at}" in name else f"{name}, {at}", most)


def is_outlet(item: Accessory) -> bool:
    return item.part.category == "outlet" or item.part.outlet is not None


def unswitched(build: Resolved, t: Tongue) -> Iterator[dict[str, str]]:
    """Electrical things with no key and no trigger; outlets are listed on their own."""
    names = owner.names(build, t)
    for item in build.accessories.values():
        if is_unswitched(build, item):
            said = t.own(item.owner) or f"{owner.place(build, item.place, t)}."
            yield row(names[item.name], f"{said} {t.large(cut_off(item, t))}".strip())


def is_unswitched(build: Resolved, item: Accessory) -> bool:
    fed = any(c.item == item.name and c.kind == "load" for c in build.circuits)
    return fed and not (item.switch or item.trigger or is_outlet(item))


# ------------------------------------------------------------------------------------------- mains


def mains_lead(t: Tongue) -> str:
    return t.say(
        "The fuses on this sheet do not protect the mains side. Local rules and a licensed electrician come first."
    )


def mains(build: Resolved, t: Tongue) -> Iterator[dict[str, str]]:
    """Things with mains voltage in them: what an owner does with them, and what only an electrician may."""
    names = owner.names(build, t)
    for item in build.accessories.values():
        if item.part.category == "inverter":
            off = (
                t.say(
                    "key {number} {legend}",
                    number=item.switch.partition(".")[2],
                    legend=t.legend(item.legend),
                )
                if item.switch
                else t.say("on the device itself, {place}", place=owner.place(build, item.place, t))
            )
            yield row(names[item.name], t.say(
                "makes mains voltage even with the vehicle unplugged. Switch it off ({where}) before you plug in or "
                "out; keep it dry, closed and free to breathe; use no damaged lead.",
                where=off.strip(),
            ))  # fmt: skip
    for supply in build.supplies.values():
        if supply.type == "shore":
            yield row(t.say(SUPPLY_WORDS["shore"]), t.say(
                "its plug and lead carry mains voltage. Plug it only into an earthed outlet behind a protective switch "
                "(RCD) that is tested as its label says; look the lead over each time; unplug it before you drive or "
                "open anything at {place}.",
                place=owner.place(build, supply.place, t),
            ))  # fmt: skip


# ------------------------------------------------------------------------------------ what it carries


def payload(packet: Packet) -> dict[str, str]:
    """What may still be loaded, and what is counted already."""
    t, found = owner.tongue(packet), mass.payload(packet.sized)
    added = t.say("What was added weighs {mass}.", mass=at_least(mass.total_kg(mass.lines(packet.sized)), t))
    plate = t.say("The plate on the vehicle and the limits of its axles decide.")
    if found is None:
        ask = t.say("What may still be loaded was not worked out; weigh the vehicle first.")
        return {"big": "–", "small": f"{ask} {added} {plate}"}
    small = t.say("may still be loaded.")
    counted = t.say(
        "Already counted: {people} of people, {cargo} of cargo.",
        people=at_least(found.people_kg, t),
        cargo=at_least(found.cargo_kg, t),
    )
    loaded = found.people_kg + found.cargo_kg > 0
    said = [small, counted, added, plate] if loaded else [small, added, plate]
    return {"big": at_most(max(found.left_kg, 0.0), t), "small": " ".join(said)}


def rings_lead(t: Tongue) -> str:
    return t.say(
        "Each figure is for one point and they do not add up: how much you may carry is under “{heading}”.",
        heading=t.say("What you may still load"),
    )


def anchors(build: Resolved, t: Tongue) -> Iterator[dict[str, str]]:
    """Working load of each point, as the weight that may pull on it; rounded down."""
    names = owner.names(build, t)
    for item in (i for i in build.accessories.values() if is_lashing(i)):
        assert item.part.anchor is not None
        newtons = min(item.part.anchor.working_load_n, item.anchored_load_n or math.inf)
        name = f"{item.quantity} × {t.small(names[item.name])}" if item.quantity > 1 else names[item.name]
        at = owner.place(build, item.place, t) if item.owner in t.known else t.own(item.owner)
        most = at_most(newtons / GRAVITY, t)
        yield row(
            name, t.say("at most {mass} on each point; {place}.", mass=most, place=t.small(at.rstrip(".")))
        )


def is_lashing(item: Accessory) -> bool:
    """Straps go there; what only stands on fixings, such as a drawer, has a limit of its own."""
    return item.part.anchor is not None and item.part.category == "anchor"


def plain_things(build: Resolved, t: Tongue) -> Iterator[dict[str, str]]:
    """What is neither electrical nor an anchor: what it is for, once each."""
    names = owner.names(build, t)
    fed = {c.item for c in build.circuits}
    for item in build.accessories.values():
        if item.name not in fed and not is_lashing(item) and bare(item):
            yield row(names[item.name], t.own(item.owner))


def bare(item: Accessory) -> bool:
    return bool(item.owner) and item.part.material is None
