"""Every key of every panel: what stands on it, what it does, what protects it, how it comes back after a trip."""

from __future__ import annotations

from typing import Any

from buildspec import show
from buildspec.documents import _words as words
from buildspec.drawings.legend import legend_of, where
from buildspec.drawings.pictograms import PICTURES
from buildspec.model import Channel, Panel
from buildspec.packet import Packet

TITLE = "Switch legend"
ORDER = 90
WIDE = True
BEFORE_KEY = {"ignition on": "dead with the key off", "engine on": "dead with the engine stopped"}
KINDS = {"latching": "press on, press off", "momentary": "only while held", "triggered": "key, or by itself"}


def view(packet: Packet) -> dict[str, Any]:
    panels = [p for p in packet.sized.build.panels.values() if p.part.panel]
    return {
        "intro": (
            "The strips are drawn at true size: print at 100 %, lay a rule on the 50 mm ruler, cut on the outer line."
            if panels
            else "No panel in this build."
        ),
        "panels": [panel_view(packet, panel) for panel in panels],
    }


def panel_view(packet: Packet, panel: Panel) -> dict[str, Any]:
    trait = panel.part.panel
    assert trait is not None
    keys = [c for c in packet.sized.build.channels if c.panel == panel.name]
    return {
        "heading": f"Panel {panel.designation}: {where(packet.sized, panel)}",
        "kind": f"{panel.part.title}; all keys together at most {show.amps(trait.total_a)}.",
        "after": f"After a trip: {trait.after_trip}",
        "keys": [key_view(packet, panel, channel) for channel in keys],
    }


def key_view(packet: Packet, panel: Panel, channel: Channel) -> dict[str, str]:
    lamp = packet.sized.build.accessories[channel.item].part.lamp if channel.use == "accessory" else None
    return {
        "position": f"{panel.designation}.{channel.number}",
        "text": legend_of(channel) or words.NOT_APPLICABLE,
        "hint": channel.hint or words.NOT_APPLICABLE,
        "picture": PICTURES[channel.pictogram].title.partition(":")[0]
        if channel.pictogram
        else words.NOT_APPLICABLE,
        "colour": lamp.colour if lamp else words.NOT_APPLICABLE,
        "function": function(packet, channel),
        "load": load(packet, channel),
        "limit": limit(packet, channel),
        "interlock": interlock(packet, channel),
        "key_off": key_off(packet, channel),
        "mode": words.NOT_APPLICABLE if channel.use == "blank" else KINDS[channel.mode],
    }


def function(packet: Packet, channel: Channel) -> str:
    build = packet.sized.build
    if channel.use == "accessory":
        return build.accessories[channel.item].part.title
    if channel.use == "link":
        return build.isolation[channel.item].part.title
    if channel.use == "reserve":
        return f"Reserved: {build.reserves[channel.item].purpose or 'not decided'}"
    return "Free, no wire"


def load(packet: Packet, channel: Channel) -> str:
    """Current through the key, and what a relay behind it carries."""
    if channel.use == "blank" or channel.circuit not in packet.sized.sizings:
        return words.NOT_APPLICABLE
    sizings = packet.sized.sizings
    through = show.amps(sizings[channel.circuit].design_a)
    if channel.use == "reserve":
        return f"at most {through}"
    behind = sizings.get(channel.item)
    if channel.circuit == channel.item or behind is None:
        return through
    return f"{through} coil, {show.amps(behind.design_a)} behind it"


def limit(packet: Packet, channel: Channel) -> str:
    """What protects the wire behind the key."""
    sizing = packet.sized.sizings.get(channel.circuit)
    if sizing is None or not sizing.devices:
        return f"{show.amps(channel.limit_a)} at most"
    return ", ".join(words.fuse(d) for d in sizing.devices)


def interlock(packet: Packet, channel: Channel) -> str:
    """The vehicle's signal that has a say in it."""
    build = packet.sized.build
    if channel.use != "accessory" or not build.accessories[channel.item].trigger:
        return words.NOT_APPLICABLE
    item = build.accessories[channel.item]
    verb = "only with" if item.part.lamp and item.part.lamp.with_main_beam else "also with"
    return f"{verb} {build.signals[item.trigger].words}"


def key_off(packet: Packet, channel: Channel) -> str:
    """What it does with the vehicle's key off."""
    if channel.use in ("blank", "reserve"):
        return words.NOT_APPLICABLE
    if channel.use == "link":
        return "works"
    item = packet.sized.build.accessories[channel.item]
    lamp = item.part.lamp
    if item.trigger and lamp and lamp.with_main_beam:
        return "dead without main beam"
    return BEFORE_KEY.get(item.works_when, "works")
