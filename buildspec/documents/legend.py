"""Every key of every panel: what stands on it, what it does, what protects it, how it comes back after a trip."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from buildspec.documents import _owner as owner
from buildspec.documents import _words as words
from buildspec.documents._owner_heights import PAPERS
from buildspec.documents._owner_page import page
from buildspec.drawings.legend import MODES, legend_of, look, picture_words, where
from buildspec.model import Channel, Device, Panel
from buildspec.packet import Packet
from buildspec.tongues import Tongue, mark

TITLE = "Switch legend"
ORDER = 90
WIDE = True
SPOKEN = True
BEFORE_KEY = {"ignition on": mark("dead with the key off"), "engine on": mark("dead with the engine stopped")}
COLUMNS = (
    (mark("Key"), "position"), (mark("Text"), "text"), (mark("Second line"), "hint"), (mark("Picture"), "picture"),
    (mark("Colour"), "colour"), (mark("Function"), "function"), (mark("Load"), "load"),
    (mark("Limit or fuse"), "limit"), (mark("Interlock"), "interlock"), (mark("Key off"), "key_off"),
    (mark("Mode"), "mode"),
)  # fmt: skip
FAMILIES = {
    "mini-blade": mark("mini blade"), "blade": mark("blade"), "maxi-blade": mark("maxi blade"),
    "strip-m5": mark("strip, M5 studs"), "strip-m8": mark("strip, M8 studs"), "post-cube": mark("cube, on a stud"),
    "cartridge-a1": mark("cartridge A1"), "limiter-strip": mark("limiter strip"), "class-t": mark("class T"),
}  # fmt: skip


def view(packet: Packet) -> dict[str, Any]:
    build, t = packet.sized.build, owner.tongue(packet)
    panels = [p for p in build.panels.values() if p.part.panel]
    intro = t.say(
        "The strips are drawn at true size: print at 100 %, lay a rule on the 50 mm ruler, cut on the outer line."
    )
    job = t.say("job {number} revision {revision}", number=build.job.number, revision=build.job.revision)
    state = t.say("{state}, {date}", state=t.say(build.job.state), date=t.date(build.job.date))
    vehicle = (t.title(part) for part in (build.job.title, build.vehicle.description) if part)
    return {
        "title": t.say("Switch legend"),
        "headline": " · ".join((job, state, *vehicle)),
        "intro": intro if panels else t.say("No panel in this build."),
        "columns": [(t.say(heading), key) for heading, key in COLUMNS],
        "panels": [panel_view(packet, panel, t) for panel in panels],
    }


def html(packet: Packet) -> str:
    """The legend as a page of its own, landscape: each strip at true size over its table."""
    build, t = packet.sized.build, owner.tongue(packet)
    height, width = PAPERS[build.practice.paper]
    strips = [Markup(strip.svg) for strip in packet.strips]
    paper = {"width": f"{width:g}mm", "height": f"{height:g}mm"}
    return page("legend", {**view(packet), "lang": t.lang, "strips": strips, "paper": paper}, t.source)


def panel_view(packet: Packet, panel: Panel, t: Tongue) -> dict[str, Any]:
    trait = panel.part.panel
    assert trait is not None
    keys = [c for c in packet.sized.build.channels if c.panel == panel.name]
    place = t.own(where(packet.sized, panel))
    indicator = (
        t.say("A light at each key shows that it is on.")
        if trait.indicators
        else t.say("No light at the keys is stated: before you leave, look whether all is off.")
    )
    return {
        "heading": t.say("Panel {panel}: {place}", panel=panel.designation, place=place),
        "kind": t.say(
            "{title}; all keys together at most {amps}.",
            title=t.title(panel.part.title),
            amps=t.amps(trait.total_a),
        ),
        "after": t.say("After a trip: {what}", what=t.own(trait.after_trip)),
        "indicator": indicator,
        "keys": [key_view(packet, panel, channel, t) for channel in keys],
    }


def key_view(packet: Packet, panel: Panel, channel: Channel, t: Tongue) -> dict[str, str]:
    lamp = packet.sized.build.accessories[channel.item].part.lamp if channel.use == "accessory" else None
    return {
        "position": f"{panel.designation}.{channel.number}",
        "text": t.legend(legend_of(channel)) or words.NOT_APPLICABLE,
        "hint": look(channel, t).second or words.NOT_APPLICABLE,
        "picture": picture_words(channel, t) or words.NOT_APPLICABLE,
        "colour": t.say(lamp.colour) if lamp else words.NOT_APPLICABLE,
        "function": function(packet, channel, t),
        "load": load(packet, channel, t),
        "limit": limit(packet, channel, t),
        "interlock": interlock(packet, channel, t),
        "key_off": key_off(packet, channel, t),
        "mode": words.NOT_APPLICABLE if channel.use == "blank" else t.say(MODES[channel.mode]),
    }


def function(packet: Packet, channel: Channel, t: Tongue) -> str:
    build = packet.sized.build
    if channel.use == "accessory":
        return t.title(build.accessories[channel.item].part.title)
    if channel.use == "link":
        return t.title(build.isolation[channel.item].part.title)
    if channel.use == "reserve":
        purpose = build.reserves[channel.item].purpose
        return t.say("Reserved: {purpose}", purpose=t.own(purpose) if purpose else t.say("not decided"))
    return t.say("Free, no wire")


def load(packet: Packet, channel: Channel, t: Tongue) -> str:
    """Current through the key, and what a relay behind it carries."""
    if channel.use == "blank" or channel.circuit not in packet.sized.sizings:
        return words.NOT_APPLICABLE
    sizings = packet.sized.sizings
    through = t.amps(sizings[channel.circuit].design_a)
    if channel.use == "reserve":
        return t.say("at most {amps}", amps=through)
    behind = sizings.get(channel.item)
    if channel.circuit == channel.item or behind is None:
        return through
    return t.say("{coil} coil, {behind} behind it", coil=through, behind=t.amps(behind.design_a))


def limit(packet: Packet, channel: Channel, t: Tongue) -> str:
    """What protects the wire behind the key."""
    sizing = packet.sized.sizings.get(channel.circuit)
    if sizing is None or not sizing.devices:
        return t.say("at most {amps}", amps=t.amps(channel.limit_a))
    return ", ".join(device_words(d, t) for d in sizing.devices)


def device_words(device: Device, t: Tongue) -> str:
    """`10 A red, blade`; an electronic limit is `15 A electronic limit`."""
    if device.kind == "channel":
        return t.say("{amps} electronic limit", amps=t.amps(device.rating_a))
    colour = t.say(device.colour) if device.colour else ""
    family = t.say(FAMILIES[device.family]) if device.family in FAMILIES else t.own(device.family)
    return " ".join(w for w in (t.amps(device.rating_a), colour, family) if w)


def interlock(packet: Packet, channel: Channel, t: Tongue) -> str:
    """The vehicle's signal that has a say in it."""
    build = packet.sized.build
    if channel.use != "accessory" or not build.accessories[channel.item].trigger:
        return words.NOT_APPLICABLE
    item = build.accessories[channel.item]
    signal = t.title(build.signals[item.trigger].words)
    if item.part.lamp and item.part.lamp.with_main_beam:
        return t.say("only with {signal}", signal=signal)
    return t.say("also with {signal}", signal=signal)


def key_off(packet: Packet, channel: Channel, t: Tongue) -> str:
    """What it does with the vehicle's key off."""
    if channel.use in ("blank", "reserve"):
        return words.NOT_APPLICABLE
    if channel.use == "link":
        return t.say("works")
    item = packet.sized.build.accessories[channel.item]
    lamp = item.part.lamp
    if item.trigger and lamp and lamp.with_main_beam:
        return t.say("dead without main beam")
    return t.say(BEFORE_KEY.get(item.works_when, mark("works")))
