"""Which fuse to look at when a thing is dead: those a hand can pull, those for the workshop, keys without one."""

from __future__ import annotations

from buildspec.documents import _owner as owner
from buildspec.documents._fuses import Fitted, fitted
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
HANDS = ("mini-blade", "blade", "maxi-blade")
"""Families that pull out by hand; the rest are bolted on at a battery."""
SUPPLY_WORDS = {"shore": mark("Mains charger"), "solar": mark("Solar charger")}


def row(what: str, text: str, **more: str) -> dict[str, str]:
    return {"what": what, "text": text, "swatch": "", "group": "", **more}


def hand_rows(packet: Packet) -> list[dict[str, str]]:
    """Fuses that a hand can pull, by the place where it finds them."""
    return rows(packet, [f for f in fuses(packet) if f.device.family in HANDS])


def bolted_rows(packet: Packet) -> list[dict[str, str]]:
    """Fuses for the workshop."""
    return rows(packet, [f for f in fuses(packet) if f.device.family not in HANDS])


def fuses(packet: Packet) -> list[Fitted]:
    return [f for f in fitted(packet) if f.device.kind == "fuse"]


def rows(packet: Packet, found: list[Fitted]) -> list[dict[str, str]]:
    build, t = packet.sized.build, owner.tongue(packet)
    names = owner.names(build, t)
    ordered = sorted(found, key=lambda f: (group_order(build, f), f.device.position))
    return [fuse_row(build, names, one, t) for one in ordered]


def group_order(build: Resolved, one: Fitted) -> tuple[bool, int, str]:
    """Blocks and panels in their order, then what is in line, by place."""
    hosts = [*build.panels, *build.blocks]
    device = one.device
    places = list(build.places)
    return (
        not device.host,
        hosts.index(device.host) if device.host else places.index(device.place),
        device.host,
    )


def fuse_row(build: Resolved, names: dict[str, str], one: Fitted, t: Tongue) -> dict[str, str]:
    device = one.device
    colour = t.say(device.colour) if device.colour else ""
    rating = " ".join(w for w in (t.amps(device.rating_a), colour) if w)
    position = str(device.position) if device.host else ""
    return row(
        rating,
        feeds(build, names, one, t),
        group=fuse_group(build, one, t),
        swatch=SWATCHES.get(device.colour, ""),
        position=position,
    )


def fuse_group(build: Resolved, one: Fitted, t: Tongue) -> str:
    device = one.device
    here = owner.place(build, device.place, t)
    if device.host in build.panels:
        panel = build.panels[device.host]
        at = t.own(panel.words) if panel.words else owner.place(build, panel.module_at, t)
        return t.say("Beside the switches: {place}", place=at)
    if device.host:
        return t.say("Fuse block: {place}", place=here)
    return t.say("In the cable: {place}", place=here)


def feeds(build: Resolved, names: dict[str, str], one: Fitted, t: Tongue) -> str:
    """What goes dead with it."""
    circuit = one.circuit
    if circuit.kind == "reserve":
        return reserve(build, one, t)
    if circuit.kind == "feeder":
        return feeder(build, circuit.target, t)
    if circuit.item in build.supplies:
        return t.say(SUPPLY_WORDS[build.supplies[circuit.item].type])
    if circuit.kind == "charge-in":
        return t.say("charger of the second battery, in")
    if circuit.kind == "charge-out":
        return t.say("charger of the second battery, out")
    if circuit.kind == "link":
        return t.say("start help, {side}", side=side(build, one.protection.source, t))
    if circuit.item in names and circuit.kind not in ("signal", "coil"):
        return names[circuit.item]
    named = names.get(circuit.item) or t.own(circuit.item.replace("-", " "))
    return t.say("control wire: {thing}", thing=t.small(named))


def reserve(build: Resolved, one: Fitted, t: Tongue) -> str:
    purpose = build.reserves[one.circuit.item].purpose
    wanted = t.own(purpose) if purpose else t.say("not decided")
    if one.protection.fitted:
        return t.say("for later: {purpose}", purpose=wanted)
    return t.say("empty on purpose, for later: {purpose}", purpose=wanted)


def feeder(build: Resolved, target: str, t: Tongue) -> str:
    if target in build.panels:
        return t.say("all keys of the switch panel")
    if target in build.blocks:
        return t.say(
            "all of the fuse block: {place}", place=owner.place(build, build.blocks[target].place, t)
        )
    return t.own(target.replace("-", " "))


def side(build: Resolved, node: str, t: Tongue) -> str:
    if node not in build.batteries:
        return t.own(node.replace("-", " "))
    start = build.batteries[node].role == "start"
    return t.say("start battery side") if start else t.say("second battery side")


def limited_rows(packet: Packet) -> list[dict[str, str]]:
    """Keys that an electronic limit protects: what to do when one goes dead."""
    build, t = packet.sized.build, owner.tongue(packet)
    names = owner.names(build, t)
    found = []
    for panel in build.panels.values():
        keys = [c for c in build.channels if c.panel == panel.name and c.use in ("accessory", "link")]
        limited = [c for c in keys if any(d.kind == "channel" for d in sizing_devices(packet, c))]
        if limited and panel.part.panel:
            what = ", ".join(key_words(c, names, t) for c in limited)
            found.append(row(what, t.own(panel.part.panel.after_trip)))
    return found


def key_words(channel: Channel, names: dict[str, str], t: Tongue) -> str:
    """`Pump outlet (PUMP)`."""
    return names.get(channel.item) or t.legend(channel.legend or channel.item)


def sizing_devices(packet: Packet, channel: Channel) -> tuple[Device, ...]:
    sizing = packet.sized.sizings.get(channel.circuit)
    return sizing.devices if sizing else ()
