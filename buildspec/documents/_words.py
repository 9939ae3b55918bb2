"""Names of things as every document prints them."""

from __future__ import annotations

import re
from collections.abc import Iterable

from buildspec import show
from buildspec.model import Circuit, Conductor, Device, Resolved
from buildspec.packet import Packet

NOT_APPLICABLE = "–"
TICK = "☐"
BLANK = ""
"""A cell to fill in by hand."""


def place(build: Resolved, name: str) -> str:
    """Where it is, in words."""
    return build.places[name].words


def capital(text: str) -> str:
    """First letter upper case, the rest as it is."""
    return text[:1].upper() + text[1:]


def quoted(text: str) -> str:
    """Names in backticks, as a terminal shows them, in quotation marks on paper."""
    return re.sub(r"`([^`]*)`", r"“\1”", text)


def count(number: int, noun: str) -> str:
    """`1 warning`, `no warnings`, `3 warnings`."""
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"


def node(build: Resolved, name: str) -> str:
    """What a circuit starts from or goes to: `house battery G3`, `rear block X4`, `panel S1`."""
    if name in build.batteries:
        return f"{name} battery {build.batteries[name].designation}"
    if name in build.blocks and (feed := build.blocks[name].feed) is not None:
        return f"the vehicle's own feed {build.blocks[name].designation} ({feed.words})"
    if name in build.blocks:
        return f"{block(name)} {build.blocks[name].designation}"
    if name in build.panels:
        return f"{name} panel {build.panels[name].designation}"
    if name in build.isolation:
        return f"{name} {build.isolation[name].designation}"
    if name in build.supplies:
        return f"{name.replace('-', ' ')} {build.supplies[name].designation}"
    if name in build.signals:
        return build.signals[name].words
    if name in build.grounds:
        return f"{build.grounds[name].words} {build.grounds[name].letter_name}"
    return name.replace("-", " ")


def size_and_colour(conductor: Conductor, letters: str) -> str:
    """`2.5 mm² RDBU`."""
    return f"{show.size(conductor)} {letters}"


def gaps(letter: str, listed: Iterable[str]) -> str:
    """`W01, W58`: numbers below the highest that a list does not hold, written as it writes them; `` if none."""
    known = {int(name.removeprefix(letter)): name for name in listed if name.removeprefix(letter).isdigit()}
    wide = max((len(name) - len(letter) for name in known.values()), default=1)
    zeros = any(name.startswith(f"{letter}0") for name in known.values())
    absent = [n for n in range(1, max(known, default=0)) if n not in known]
    return ", ".join(f"{letter}{n:0{wide if zeros else 1}d}" for n in absent)


def block(name: str) -> str:
    """`rear` → `rear block`; `rear-block` stays one."""
    words = name.replace("-", " ")
    return words if "block" in words else f"{words} block"


def fuse(device: Device) -> str:
    """`10 A red blade`; an electronic limit is `15 A limit`."""
    if device.kind == "channel":
        return f"{show.amps(device.rating_a)} electronic limit"
    return " ".join(w for w in (show.amps(device.rating_a), device.colour, show.family(device.family)) if w)


def position(build: Resolved, device: Device) -> str:
    """Where a protective device sits: `rear block X4, position 3`."""
    if device.host:
        what = "key" if device.host in build.panels else "position"
        return f"{node(build, device.host)}, {what} {device.position}"
    return f"in line, {place(build, device.place)}"


def after_trip(build: Resolved, device: Device) -> str:
    """What brings the circuit back."""
    panel = build.panels[device.host].part.panel if device.host in build.panels else None
    if device.kind == "channel" and panel is not None:
        return panel.after_trip
    return "find the fault, fit the same again"


def key_of(packet: Packet, circuit: Circuit) -> str:
    """The key that works a circuit: `S1.2 BAR`, or a dash."""
    build = packet.sized.build
    for channel in build.channels:
        if (
            channel.item == circuit.item
            and channel.use != "blank"
            and circuit.kind in ("load", "reserve", "coil", "link")
        ):
            legend = f" {channel.legend}" if channel.legend else ""
            return f"{build.panels[channel.panel].designation}.{channel.number}{legend}"
    return NOT_APPLICABLE
