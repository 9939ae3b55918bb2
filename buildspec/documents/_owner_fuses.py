"""Which fuse to look at when a thing is dead, in which order; those for the workshop; keys without a fuse."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _owner as owner
from buildspec.documents import _owner_spots as spots
from buildspec.documents._fuses import Fitted
from buildspec.model import Channel, Device, Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue, mark

SWATCHES = {
    "black": "#24272b", "grey": "#8c939a", "violet": "#7a3fa0", "pink": "#ef8fb0", "tan": "#c9a063", "brown": "#7a4a21",
    "red": "#c8102e", "blue": "#1f5fbf", "dark blue": "#163a78", "light blue": "#7fb4e6", "blue-green": "#1d8c8c",
    "yellow": "#f5c400", "clear": "#ffffff", "natural": "#ffffff", "white": "#ffffff", "green": "#1f8a3b",
    "orange": "#ea7a10",
}  # fmt: skip
COLOURS = (
    mark("black"), mark("grey"), mark("violet"), mark("pink"), mark("tan"), mark("brown"), mark("red"), mark("blue"),
    mark("dark blue"), mark("light blue"), mark("blue-green"), mark("yellow"), mark("clear"), mark("natural"),
    mark("white"), mark("green"), mark("orange"), mark("amber"),
)  # fmt: skip
"""Colours of fuses and lamps."""
ORDER = (mark("1st"), mark("2nd"), mark("3rd"), mark("4th"), mark("5th"), mark("6th"))
SUPPLY_WORDS = {"shore": mark("Mains charger"), "solar": mark("Solar charger")}


def row(what: str, text: str, **more: str) -> dict[str, str]:
    return {"what": what, "text": text, **more}


# ----------------------------------------------------------------------------------- what to look at


def dead_rows(packet: Packet) -> list[dict[str, Any]]:
    """For each thing that can be dead, its fuses in the order in which to look."""
    build, t = packet.sized.build, owner.tongue(packet)
    names = owner.names(build, t)
    found: dict[str, list[Fitted]] = {}
    for one in sorted(spots.fuses(packet), key=lambda f: first_to_look(build, f)):
        if one.circuit.kind != "feeder" and one.protection.fitted:
            found.setdefault(one.circuit.item, []).append(one)
    return [
        {"what": t.large(thing(build, names, item, t)), "checks": checks(packet, item, mine)}
        for item, mine in found.items()
    ]


def first_to_look(build: Resolved, one: Fitted) -> tuple[bool, bool, int, int]:
    """By hand before bolted, banks of switches before blocks before cables, then by number."""
    device = one.device
    hosts, places = [*build.panels, *build.blocks], list(build.places)
    at = hosts.index(device.host) if device.host else places.index(device.place)
    return not spots.by_hand(one), not device.host, at, device.position


def checks(packet: Packet, item: str, mine: list[Fitted]) -> list[dict[str, str]]:
    """Fuses of one thing: limit of its key, those a hand can pull, the workshop, the vehicle's own last."""
    t, letters = owner.tongue(packet), spots.spots(packet)
    found = [check(said=t.say("the key itself, see below"))] if is_limited(packet, item) else []
    for one in (f for f in mine if spots.by_hand(f)):
        found.append(check(spots.tag(one, letters), rating(one.device, t), swatch(one.device)))
    bolted = ", ".join(f.device.designation for f in mine if not spots.by_hand(f))
    if bolted:
        found.append(check(said=t.say("call us (bolted fuse {fuse})", fuse=bolted)))
    found += own_checks(packet, mine, letters)
    orders = [t.say(word) for word in ORDER]
    return [
        {**one, "nth": orders[min(n, len(orders) - 1)] if len(found) > 1 else ""}
        for n, one in enumerate(found)
    ]


def check(tag: str = "", rating: str = "", swatch: str = "", said: str = "") -> dict[str, str]:
    return {"tag": tag, "rating": rating, "swatch": swatch, "said": said}


def own_checks(packet: Packet, mine: list[Fitted], letters: dict[spots.Spot, str]) -> list[dict[str, str]]:
    """The vehicle's own fuse in front of what hangs on one of its feeds."""
    build, t = packet.sized.build, owner.tongue(packet)
    feeds = spots.own_feeds(build)
    found = []
    for name in dict.fromkeys(f.circuit.source for f in mine if f.circuit.source in feeds):
        feed = feeds[name]
        circuit = next(c for c in build.circuits if c.target == name and c.kind == "feeder")
        device = packet.sized.sizings[circuit.key].devices[0]
        at = letters.get(spots.feed_spot(feed), "")
        if at:
            found.append(check(at, rating(device, t), swatch(device)))
        elif feed.family in spots.HANDS:
            found.append(
                check(
                    said=t.say("the vehicle's own fuse, {rating}: see its handbook", rating=rating(device, t))
                )
            )
        else:
            found.append(check(said=t.say("call us (the vehicle's own bolted fuse)")))
    return found


def rating(device: Device, t: Tongue) -> str:
    """`7.5 A brown`."""
    colour = t.say(device.colour) if device.colour else ""
    return " ".join(w for w in (t.amps(device.rating_a), colour) if w)


def swatch(device: Device) -> str:
    return SWATCHES.get(device.colour, "")


def thing(build: Resolved, names: dict[str, str], item: str, t: Tongue) -> str:
    """What an owner calls it."""
    if item in build.supplies:
        return t.say(SUPPLY_WORDS[build.supplies[item].type])
    if item in build.isolation:
        way = build.isolation[item]
        if way.type == "dc-dc":
            return t.say("charger of the second battery")
        key = next((c for c in build.channels if c.use == "link" and c.item == item), None)
        helped = t.say("start help")
        return f"{helped} ({t.legend(key.legend)})" if key and key.legend else helped
    if item in build.reserves:
        purpose = build.reserves[item].purpose
        return t.say("for later: {purpose}", purpose=t.own(purpose) if purpose else t.say("not decided"))
    return names.get(item) or t.own(item.replace("-", " "))


# ---------------------------------------------------------------------------------- for the workshop


def bolted_rows(packet: Packet) -> list[dict[str, str]]:
    """Fuses for the workshop: place by place, their designations and ratings."""
    build, t = packet.sized.build, owner.tongue(packet)
    found = [f.device for f in spots.fuses(packet) if not spots.by_hand(f)]
    return [
        row(
            t.large(owner.place(build, place, t)),
            f"{', '.join(f'{d.designation} {t.amps(d.rating_a)}' for d in found if d.place == place)}.",
        )
        for place in build.places
        if any(d.place == place for d in found)
    ]


# ------------------------------------------------------------------------------- keys without a fuse


def limited_rows(packet: Packet) -> list[dict[str, str]]:
    """Keys that an electronic limit protects: what to do when one goes dead."""
    build, t = packet.sized.build, owner.tongue(packet)
    names = owner.names(build, t)
    found = []
    for panel in build.panels.values():
        keys = [c for c in build.channels if c.panel == panel.name and c.use in ("accessory", "link")]
        limited = [c for c in keys if is_limited(packet, c.item)]
        if limited and panel.part.panel:
            what = ", ".join(key_words(c, names, t) for c in limited)
            again = t.say(
                "Unplug what is in its outlet first. If it happens again, leave it off and call us."
            )
            found.append(row(what, f"{t.own(panel.part.panel.after_trip)} {again}".strip()))
    return found


def is_limited(packet: Packet, item: str) -> bool:
    """Does an electronic limit of a panel stand in one of its circuits?"""
    found = (c for c in packet.sized.build.circuits if c.item == item and c.key in packet.sized.sizings)
    return any(d.kind == "channel" for c in found for d in packet.sized.sizings[c.key].devices)


def key_words(channel: Channel, names: dict[str, str], t: Tongue) -> str:
    """`Pump outlet (PUMP)`."""
    return names.get(channel.item) or t.legend(channel.legend or channel.item)
