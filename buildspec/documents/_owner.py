"""Plain words for the owner: names of things, keys, and what to do with a dead battery."""

from __future__ import annotations

from collections import Counter
from typing import Any

from buildspec.drawings import pictograms
from buildspec.drawings.legend import legend_of, where
from buildspec.drawings.palette import INK, QUIET
from buildspec.model import Accessory, Channel, Isolation, Panel, Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue, mark, of
from buildspec.typeset import HELD

HOLD_S = 10
"""The second battery lifts the empty one for this long before the starter turns; a published boost procedure."""
TRY_S = 15
REST_MIN = 2
"""A starter's longest turn and its rest; common practice, no source."""
STATES = {"as designed": mark("as planned"), "as built": mark("as built")}
WHEN = {
    ("any time", False): mark("Any time"),
    ("any time", True): mark("Any time, while you hold it"),
    ("ignition on", False): mark("With the ignition on"),
    ("ignition on", True): mark("With the ignition on, while you hold it"),
    ("engine on", False): mark("With the engine on"),
    ("engine on", True): mark("With the engine on, while you hold it"),
}


def short(text: str) -> str:
    """What comes before the first comma: `reverse, upfitter connector pin 7` → `reverse`."""
    return text.partition(",")[0].strip()


def tongue(packet: Packet) -> Tongue:
    """The language that a packet's papers for owners speak."""
    return of(packet.sized.build, packet.lang)


def names(build: Resolved, t: Tongue) -> dict[str, str]:
    """Accessory → its name for people: the title, with its key or its place where two share a title."""
    items = build.accessories.values()
    titles = Counter(t.own_short(item.part.title) for item in items)
    placed = Counter((t.own_short(item.part.title), item.place) for item in items if not item.legend)
    return {name: name_of(build, item, titles, placed, t) for name, item in build.accessories.items()}


def name_of(
    build: Resolved, item: Accessory, titles: Counter[str], placed: Counter[tuple[str, str]], t: Tongue
) -> str:
    """`Roof fan (FAN)`; of two alike at one place each has the number on its label: `USB outlet (bench, E12)`."""
    title = t.own_short(item.part.title)
    if item.legend:
        return f"{title} ({t.legend(item.legend)})"
    if titles[title] == 1:
        return title
    at = t.own_short(build.places[item.place].words)
    return f"{title} ({at}, {item.designation})" if placed[title, item.place] > 1 else f"{title} ({at})"


def place(build: Resolved, name: str, t: Tongue) -> str:
    """Where it is, in words."""
    return t.own(build.places[name].words)


def vehicle(build: Resolved, t: Tongue) -> str:
    return t.own_short(build.vehicle.description)


def contact(build: Resolved) -> str:
    """The shop's telephone, or else what it gives."""
    shop = build.practice.shop
    return f"{shop.name}, {shop.phone.replace(' ', HELD) or shop.contact}"


# ------------------------------------------------------------------------------------------- keys


def panels(packet: Packet) -> list[dict[str, Any]]:
    """Every panel with its keys, in the order in which they sit."""
    build, t = packet.sized.build, tongue(packet)
    found = [p for p in build.panels.values() if p.part.panel]
    return [
        {
            "heading": t.say("Your switches: {place}", place=t.own(where(packet.sized, panel))),
            "keys": [key(packet, panel, c, t) for c in build.channels if c.panel == panel.name],
        }
        for panel in found
    ]


def key(packet: Packet, panel: Panel, channel: Channel, t: Tongue) -> dict[str, str]:
    ink = INK if channel.use in ("accessory", "link") else QUIET
    drawn = pictograms.group(
        channel.pictogram or "blank", x=0, y=0, size=pictograms.GRID, ink=ink, dashed=channel.use == "reserve"
    )
    return {
        "number": str(channel.number),
        "use": channel.use,
        "name": t.legend(legend_of(channel)) or t.say("free"),
        "picture": drawn,
        "does": does(packet, channel, t),
        "when": when(packet, channel, t),
    }


def does(packet: Packet, channel: Channel, t: Tongue) -> str:
    """What happens when it is pressed, in one sentence."""
    build = packet.sized.build
    if channel.use == "accessory":
        item = build.accessories[channel.item]
        return t.own(item.owner) or f"{t.own_short(item.part.title)}."
    if channel.use == "link":
        way = build.isolation[channel.item]
        return t.own(way.part.owner) or t.say("Joins both batteries.")
    if channel.use == "reserve":
        purpose = build.reserves[channel.item].purpose
        wanted = t.own(purpose) if purpose else t.say("not decided")
        return t.say("Reserved: {purpose}, not fitted yet.", purpose=wanted)
    return t.say("Free. No wire behind it.")


def when(packet: Packet, channel: Channel, t: Tongue) -> str:
    """When it works, in a few words; `` for a key that does nothing."""
    build = packet.sized.build
    held = channel.mode == "momentary"
    if channel.use == "link":
        return t.say(WHEN["any time", held])
    if channel.use != "accessory":
        return ""
    item = build.accessories[channel.item]
    signal = t.own_short(build.signals[item.trigger].words) if item.trigger else ""
    if signal and item.part.lamp and item.part.lamp.with_main_beam:
        return t.say("Only with {signal} on", signal=signal)
    base = t.say(WHEN.get((item.works_when, held), WHEN["any time", held]))
    return f"{base}; {t.say('also by itself with {signal}', signal=signal)}" if signal else base


# ------------------------------------------------------------------------------------- a dead battery


def assist(build: Resolved) -> Isolation | None:
    """The momentary link that helps to start, if one is fitted."""
    return next((i for i in build.isolation.values() if i.type == "momentary-link"), None)


def start_steps(packet: Packet) -> list[dict[str, str]]:
    """Five numbered steps with a link, three without one. `strong` is the key that is held."""
    build, t = packet.sized.build, tongue(packet)
    link = assist(build)
    first = step(t.say("Switch off every lamp and everything that was added."))
    if link is None:
        follow = t.say(
            "If another vehicle helps, follow this vehicle's own handbook; never join cables to what was added."
        )
        call = t.say("Call your breakdown service, or us: {contact}.", contact=contact(build))
        return [first, step(call), step(follow)]
    name, at = assist_key(packet, link, t)
    hold = t.say(
        "Press and hold {key} ({place}) for {seconds} seconds. Keep holding.",
        key="\0",
        place=at,
        seconds=HOLD_S,
    )
    before, _, after = hold.partition("\0")
    tries = t.say(
        "Crank at most {seconds} seconds a try, then let go. Wait {minutes} minutes between tries.",
        seconds=try_s(link),
        minutes=REST_MIN,
    )
    return [
        first,
        step(before, name, after),
        step(
            t.say("Turn the ignition key while you hold it. Let go of both keys as soon as the engine runs.")
        ),
        step(tries),
        step(t.say("Three tries without success: stop and call us, {contact}.", contact=contact(build))),
    ]


def step(before: str, strong: str = "", after: str = "") -> dict[str, str]:
    return {"before": before, "strong": strong, "after": after}


def try_s(link: Isolation) -> int:
    """The shorter of what a starter stands and what the link is rated for at a starter's current [s]."""
    rated = link.part.link.short_time_s if link.part.link else None
    return TRY_S if rated is None else min(TRY_S, int(rated))


def assist_key(packet: Packet, link: Isolation, t: Tongue) -> tuple[str, str]:
    """What is held, and where it is."""
    build = packet.sized.build
    for channel in build.channels:
        if channel.use == "link" and channel.item == link.name:
            panel = build.panels[channel.panel]
            place_of_it = t.own(where(packet.sized, panel))
            at = t.say("key {number}, {place}", number=channel.number, place=place_of_it)
            return t.legend(legend_of(channel)), at
    return t.say("the start-help button"), place(build, link.place, t)


def start_caution(build: Resolved, t: Tongue) -> str:
    """What to leave alone."""
    said = [
        t.say("If a battery is hot, swollen, leaking or frozen, do not try: keep away and call."),
        t.say("Batteries give off gas that can explode: no flame and no smoking near them."),
    ]
    if assist(build) is None and len(build.batteries) > 1:
        said.append(t.say("The second battery cannot start the engine."))
    return " ".join(said)
