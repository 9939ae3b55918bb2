"""Plain words for the owner: names of things, keys, and what to do with a dead battery."""

from __future__ import annotations

from collections import Counter
from typing import Any

from buildspec.documents import _words as words
from buildspec.drawings import pictograms
from buildspec.drawings.legend import legend_of, where
from buildspec.drawings.palette import INK, QUIET
from buildspec.model import Accessory, Channel, Isolation, Panel, Resolved
from buildspec.packet import Packet

HOLD_S = 10
"""The second battery lifts the empty one for this long before the starter turns; a published boost procedure."""
TRY_S = 15
REST_MIN = 2
"""A starter's longest turn and its rest; common practice, no source."""
WHEN = {"any time": "Any time", "ignition on": "With the ignition on", "engine on": "With the engine on"}


def short(text: str) -> str:
    """What comes before the first comma: `reverse, upfitter connector pin 7` → `reverse`."""
    return text.partition(",")[0].strip()


def lower(text: str) -> str:
    """First letter small, unless it is an abbreviation: `Panel van`, but `LED lamp`, `12 V outlet`."""
    return text if text[1:2].isupper() or text[1:2].isdigit() else text[:1].lower() + text[1:]


def plural(count: int, one: str, many: str) -> str:
    """`1 night`, `2 nights`."""
    return f"{count} {one if count == 1 else many}"


def names(build: Resolved) -> dict[str, str]:
    """Accessory → its name for people: the title, with its key or its place where two share a title."""
    titles = Counter(short(item.part.title) for item in build.accessories.values())
    return {name: name_of(build, item, titles) for name, item in build.accessories.items()}


def name_of(build: Resolved, item: Accessory, titles: Counter[str]) -> str:
    title = short(item.part.title)
    if item.legend:
        return f"{title} ({item.legend})"
    return title if titles[title] == 1 else f"{title} ({short(words.place(build, item.place))})"


def vehicle(build: Resolved) -> str:
    return lower(short(build.vehicle.description)) or "vehicle"


def contact(build: Resolved) -> str:
    shop = build.practice.shop
    return f"{shop.name}, {shop.contact}"


# ------------------------------------------------------------------------------------------- keys


def panels(packet: Packet) -> list[dict[str, Any]]:
    """Every panel with its keys, in the order in which they sit."""
    build = packet.sized.build
    found = [p for p in build.panels.values() if p.part.panel]
    return [
        {
            "heading": f"Your switches: {where(packet.sized, panel)}",
            "keys": [key(packet, panel, c) for c in build.channels if c.panel == panel.name],
        }
        for panel in found
    ]


def key(packet: Packet, panel: Panel, channel: Channel) -> dict[str, str]:
    ink = INK if channel.use in ("accessory", "link") else QUIET
    drawn = pictograms.group(
        channel.pictogram or "blank", x=0, y=0, size=pictograms.GRID, ink=ink, dashed=channel.use == "reserve"
    )
    return {
        "number": str(channel.number),
        "use": channel.use,
        "name": legend_of(channel) or "free",
        "picture": drawn,
        "does": does(packet, channel),
        "when": when(packet, channel),
    }


def does(packet: Packet, channel: Channel) -> str:
    """What happens when it is pressed, in one sentence."""
    build = packet.sized.build
    if channel.use == "accessory":
        item = build.accessories[channel.item]
        return item.owner or f"{short(item.part.title)}."
    if channel.use == "link":
        return build.isolation[channel.item].part.owner or "Joins both batteries."
    if channel.use == "reserve":
        return f"Reserved: {build.reserves[channel.item].purpose or 'not decided'}, not fitted yet."
    return "Free. No wire behind it."


def when(packet: Packet, channel: Channel) -> str:
    """When it works, in a few words; `` for a key that does nothing."""
    build = packet.sized.build
    if channel.use == "link":
        return "Any time, while you hold it" if channel.mode == "momentary" else "Any time"
    if channel.use != "accessory":
        return ""
    item = build.accessories[channel.item]
    signal = short(build.signals[item.trigger].words) if item.trigger else ""
    if signal and item.part.lamp and item.part.lamp.with_main_beam:
        return f"Only with {signal}"
    base = WHEN.get(item.works_when, "Any time")
    held = f"{base}, while you hold it" if channel.mode == "momentary" else base
    return f"{held}; also by itself with {signal}" if signal else held


# ------------------------------------------------------------------------------------- a dead battery


def assist(build: Resolved) -> Isolation | None:
    """The momentary link that helps to start, if one is fitted."""
    return next((i for i in build.isolation.values() if i.type == "momentary-link"), None)


def start_steps(packet: Packet) -> list[dict[str, str]]:
    """Five numbered steps with a link, three without one. `strong` is the key that is held."""
    build = packet.sized.build
    link = assist(build)
    if link is None:
        return [
            step("Switch off every lamp and everything that was added."),
            step(f"Call your breakdown service, or us: {contact(build)}."),
            step(
                "If another vehicle helps, follow this vehicle's own handbook; never join cables to what was added."
            ),
        ]
    key, where_it_is = assist_key(packet, link)
    return [
        step("Switch off every lamp and everything that was added."),
        step("Press and hold ", key, f" ({where_it_is}) for {HOLD_S} seconds. Keep holding."),
        step("Turn the ignition key while you hold it. Let go of both as soon as the engine runs."),
        step(
            f"Crank at most {try_s(link)} seconds a try, then let go. Wait {REST_MIN} minutes between tries."
        ),
        step(f"Three tries without success: stop and call us, {contact(build)}."),
    ]


def step(before: str, strong: str = "", after: str = "") -> dict[str, str]:
    return {"before": before, "strong": strong, "after": after}


def try_s(link: Isolation) -> int:
    """The shorter of what a starter stands and what the link is rated for at a starter's current [s]."""
    rated = link.part.link.short_time_s if link.part.link else None
    return TRY_S if rated is None else min(TRY_S, int(rated))


def assist_key(packet: Packet, link: Isolation) -> tuple[str, str]:
    """What is held, and where it is."""
    build = packet.sized.build
    for channel in build.channels:
        if channel.use == "link" and channel.item == link.name:
            return legend_of(
                channel
            ), f"key {channel.number}, {where(packet.sized, build.panels[channel.panel])}"
    return "the start-help button", words.place(build, link.place)


def start_caution(build: Resolved) -> str:
    """What to leave alone."""
    care = "Batteries give off gas that can explode: no flame and no smoking near them."
    hurt = "If a battery is hot, swollen, leaking or frozen, do not try: keep away and call."
    if assist(build) is not None:
        return f"{care} {hurt}"
    return (
        f"The second battery cannot start the engine. {care} {hurt}"
        if len(build.batteries) > 1
        else f"{care} {hurt}"
    )
