"""The second side of the owner's sheet: fuses, what waits for later, what works by itself, what to leave alone."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.documents import _owner as owner
from buildspec.documents import _words as words
from buildspec.documents._fuses import Fitted, fitted
from buildspec.model import Accessory, Channel, Device, Reserve, Resolved
from buildspec.packet import Packet

SWATCHES = {
    "black": "#24272b", "grey": "#8c939a", "violet": "#7a3fa0", "pink": "#ef8fb0", "tan": "#c9a063", "brown": "#7a4a21",
    "red": "#c8102e", "blue": "#1f5fbf", "dark blue": "#163a78", "light blue": "#7fb4e6", "blue-green": "#1d8c8c",
    "yellow": "#f5c400", "clear": "#ffffff", "natural": "#ffffff", "white": "#ffffff", "green": "#1f8a3b",
    "orange": "#ea7a10",
}  # fmt: skip
HANDS = ("mini-blade", "blade", "maxi-blade")
"""Families that pull out by hand; the rest are bolted on at a battery."""
GRAVITY = 9.80665
MILE_KM = 1.609344


def sections(packet: Packet) -> list[dict[str, Any]]:
    """Every list of the second side that has something in it: heading, a line on top, rows."""
    build = packet.sized.build
    found = [
        {"id": "fuses", "heading": "Fuses that were added", "lead": FUSE_LEAD, "rows": fuse_rows(packet)},
        {"id": "no-fuse", "heading": "Keys without a fuse", "lead": "", "rows": limited_rows(packet)},
        {
            "id": "later",
            "heading": "Prepared for later",
            "lead": reserve_lead(build),
            "rows": reserve_rows(packet),
        },
        {"id": "itself", "heading": "Works by itself", "lead": "", "rows": list(automatic(build))},
        {"id": "outlets", "heading": "Outlets", "lead": "", "rows": list(outlets(build))},
        {
            "id": "no-key",
            "heading": "Without a key on the panel",
            "lead": "",
            "rows": list(unswitched(build)),
        },
        {
            "id": "loads",
            "heading": "Rings and rails: cargo only, never people",
            "lead": "",
            "rows": list(anchors(build)),
        },
        {"id": "fitted", "heading": "Also fitted", "lead": "", "rows": list(plain_things(build))},
    ]
    return [{**section, "left": "", "count": 0} for section in found if section["rows"]]


def row(what: str, text: str, **more: str) -> dict[str, str]:
    return {"what": what, "text": text, "swatch": "", "group": "", **more}


# ------------------------------------------------------------------------------------------- fuses

FUSE_LEAD = (
    "Pull the dead fuse, fit one of the same colour and number from the bag (one spare of each). "
    "If it blows again, leave it out and call us."
)


def fuse_rows(packet: Packet) -> list[dict[str, str]]:
    """Fuses by the place where a hand finds them; the bolted ones last."""
    build, names = packet.sized.build, owner.names(packet.sized.build)
    found = [f for f in fitted(packet) if f.device.kind == "fuse"]
    ordered = sorted(
        found, key=lambda f: (f.device.family not in HANDS, group_order(build, f), f.device.position)
    )
    return [fuse_row(build, names, one) for one in ordered]


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


def fuse_row(build: Resolved, names: dict[str, str], one: Fitted) -> dict[str, str]:
    device = one.device
    rating = " ".join(w for w in (show.amps(device.rating_a), device.colour) if w)
    position = str(device.position) if device.host else ""
    return row(
        rating,
        feeds(build, names, one),
        group=fuse_group(build, one),
        swatch=SWATCHES.get(device.colour, ""),
        position=position,
    )


def fuse_group(build: Resolved, one: Fitted) -> str:
    device = one.device
    if device.family not in HANDS:
        return f"{words.capital(words.place(build, device.place))}: bolted, for the workshop only"
    if device.host in build.panels:
        panel = build.panels[device.host]
        return f"Beside the switches: {panel.words or words.place(build, panel.module_at)}"
    if device.host:
        return f"Fuse block: {words.place(build, device.place)}"
    return f"In the cable: {words.place(build, device.place)}"


SUPPLY_WORDS = {"shore": "mains charger", "solar": "solar charger"}
SUPPLY_OWNER = {
    "shore": "charges the second battery while its mains lead is plugged in.",
    "solar": "charges the second battery while the sun shines.",
}


def feeds(build: Resolved, names: dict[str, str], one: Fitted) -> str:
    """What goes dead with it."""
    circuit = one.circuit
    if circuit.kind == "reserve":
        state = "" if one.protection.fitted else "empty on purpose: "
        return f"{state}for {build.reserves[circuit.item].purpose or 'later'}"
    if circuit.kind == "feeder":
        return (
            "all keys of the switch panel"
            if circuit.target in build.panels
            else f"all of {target(build, circuit.target)}"
        )
    if circuit.item in build.supplies:
        return f"{SUPPLY_WORDS[build.supplies[circuit.item].type]}, out"
    if circuit.kind in ("charge-in", "charge-out"):
        return f"charger of the second battery, {'in' if circuit.kind == 'charge-in' else 'out'}"
    if circuit.kind == "link":
        return f"start help, {short_node(build, one.protection.source)}"
    if circuit.item in names:
        control = "control wire of the " if circuit.kind in ("signal", "coil") else ""
        return f"{control}{owner.lower(names[circuit.item])}" if control else names[circuit.item]
    return f"control wire of the {circuit.item.replace('-', ' ')}"


def target(build: Resolved, block: str) -> str:
    return (
        f"the fuse block, {words.place(build, build.blocks[block].place)}" if block in build.blocks else block
    )


def short_node(build: Resolved, node: str) -> str:
    return f"{node} battery side" if node in build.batteries else node


def limited_rows(packet: Packet) -> list[dict[str, str]]:
    """Keys that an electronic limit protects: what to do when one goes dead."""
    build = packet.sized.build
    found = []
    for panel in build.panels.values():
        keys = [c for c in build.channels if c.panel == panel.name and c.use in ("accessory", "link")]
        limited = [c for c in keys if any(d.kind == "channel" for d in sizing_devices(packet, c))]
        if limited and panel.part.panel:
            found.append(row(", ".join(c.legend or c.item for c in limited), panel.part.panel.after_trip))
    return found


def sizing_devices(packet: Packet, channel: Channel) -> tuple[Device, ...]:
    sizing = packet.sized.sizings.get(channel.circuit)
    return sizing.devices if sizing else ()


# -------------------------------------------------------------------------------------- for later


def reserve_lead(build: Resolved) -> str:
    count = owner.plural(len(build.reserves), "cable is", "cables are")
    off = "" if any(r.powered for r in build.reserves.values()) else "; its fuse or key is off until then"
    return f"{count} already laid. Only a licensed workshop, or we, may connect to one{off}."


def reserve_rows(packet: Packet) -> list[dict[str, str]]:
    build = packet.sized.build
    found = []
    for item in build.reserves.values():
        most = most_of(item.allow_a, build)
        end = f"Its end: {item.end or words.place(build, item.place)}."
        what = words.capital(item.purpose or item.name.replace("-", " "))
        found.append(row(what, f"{most}. {words.capital(fed_by(packet, item))}. {end}"))
    return found


def fed_by(packet: Packet, item: Reserve) -> str:
    """The key or the fuse place that waits for it."""
    build = packet.sized.build
    for key in build.channels:
        if key.use == "reserve" and key.item == item.name:
            return f"key {key.number} {key.legend}".strip()
    for device in packet.sized.sizings[item.name].devices:
        if device.host:
            return f"fuse place {device.position}, {words.place(build, device.place)}"
    return f"no key, {words.place(build, item.place)}"


# --------------------------------------------------------------------------------------- by itself


def automatic(build: Resolved) -> Iterator[dict[str, str]]:
    """What starts or stops without a hand."""
    names = owner.names(build)
    for item in build.accessories.values():
        if item.trigger and not item.switch:
            yield row(names[item.name], f"comes on with {owner.short(build.signals[item.trigger].words)}.")
    for device in build.isolation.values():
        if device.type == "dc-dc":
            yield row("Charger", device.part.owner or "charges the second battery while the engine runs.")
        elif device.type == "voltage-relay":
            yield row(
                "Battery relay", device.part.owner or "joins both batteries while the engine charges them."
            )
    for supply in build.supplies.values():
        name, usual = words.capital(SUPPLY_WORDS[supply.type]), SUPPLY_OWNER[supply.type]
        yield row(name, supply.part.owner or usual)
    for item in build.accessories.values():
        cut = item.part.electrical.cut_out_v if item.part.electrical else None
        if cut is not None:
            yield row(
                names[item.name], f"stops at {show.plain(cut, 1)} V, so that the battery is not emptied."
            )


def outlets(build: Resolved) -> Iterator[dict[str, str]]:
    """Where something may be plugged in, and how strong it may be."""
    for item in build.accessories.values():
        if not is_outlet(item):
            continue
        most = item.owner
        if item.part.outlet:
            most = f"{most_of(item.part.outlet.rating_a, build)} on its label."
        key = f" ({item.legend})" if item.legend else ""
        yield row(f"{owner.short(item.part.title)}{key}, {owner.short(words.place(build, item.place))}", most)


def most_of(amps: float, build: Resolved) -> str:
    """`at most 4 A, that is 48 W`: what an owner compares with a label."""
    return f"at most {show.amps(amps)}, that is {show.plain(amps * build.practice.nominal_v, 0)} W"


def is_outlet(item: Accessory) -> bool:
    return item.part.category == "outlet" or item.part.outlet is not None


def unswitched(build: Resolved) -> Iterator[dict[str, str]]:
    """Electrical things with no key and no trigger; outlets are listed on their own."""
    names = owner.names(build)
    fed = {c.item for c in build.circuits if c.kind == "load"}
    for item in build.accessories.values():
        if item.name in fed and not (item.switch or item.trigger or is_outlet(item)):
            yield row(names[item.name], item.owner or f"{words.place(build, item.place)}.")


# ------------------------------------------------------------------------------------ without current


def anchors(build: Resolved) -> Iterator[dict[str, str]]:
    """Working load of each point, as the weight that may pull on it; rounded down."""
    names = owner.names(build)
    for item in build.accessories.values():
        if item.part.anchor:
            newtons = min(item.part.anchor.working_load_n, item.anchored_load_n or math.inf)
            yield row(
                f"{item.quantity} × {owner.lower(names[item.name])}"
                if item.quantity > 1
                else names[item.name],
                f"at most {weight(newtons, build)} on each point, {words.place(build, item.place)}.",
            )


def weight(newtons: float, build: Resolved) -> str:
    kilograms = newtons / GRAVITY
    if build.practice.units == "metric":
        return f"{math.floor(kilograms)} kg"
    return f"{math.floor(kilograms * show.LB_PER_KG)} lb"


def plain_things(build: Resolved) -> Iterator[dict[str, str]]:
    """What is neither electrical nor an anchor: what it is for, once each."""
    names = owner.names(build)
    fed = {c.item for c in build.circuits}
    for item in build.accessories.values():
        if item.name not in fed and item.part.anchor is None and bare(item):
            yield row(names[item.name], item.owner)


def bare(item: Accessory) -> bool:
    return bool(item.owner) and item.part.material is None
