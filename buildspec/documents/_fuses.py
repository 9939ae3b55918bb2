"""Every position that can hold a protective device, used or not, grouped by where a hand finds it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.documents import _words as words
from buildspec.model import Circuit, Device, Protection, Resolved
from buildspec.packet import Packet

OWN = "The vehicle's own, in front of what we joined to it"
"""Heading over the fuses that came with the vehicle."""


BOLTED = ("strip-m5", "strip-m8", "post-cube", "limiter-strip", "class-t")
AGAIN = "its nuts to their torque and marked anew"


class Fitted(NamedTuple):
    """A device in its circuit."""

    circuit: Circuit
    protection: Protection
    device: Device


def bolted(one: Fitted) -> bool:
    """Does a nut hold it, often the one that holds its lugs?"""
    return one.device.family in BOLTED


def fitted(packet: Packet) -> tuple[Fitted, ...]:
    sized = packet.sized
    return tuple(
        Fitted(circuit, protection, device)
        for circuit in sized.build.circuits
        if not circuit.existing
        for protection, device in zip(circuit.protections, sized.sizings[circuit.key].devices, strict=True)
    )


def groups(packet: Packet) -> Iterator[tuple[str, list[dict[str, str]]]]:
    """(heading, positions) of everything in line by place, then each block, then each panel."""
    build, devices = packet.sized.build, fitted(packet)
    for name in build.places:
        here = [f for f in devices if not f.device.host and f.device.place == name]
        if here:
            yield f"In line: {words.place(build, name)}", [line(build, f, "in line") for f in here]
    own = [own_line(packet, block.name) for block in build.blocks.values() if block.feed is not None]
    if own:
        yield OWN, own
    for name, block in ((n, b) for n, b in build.blocks.items() if b.feed is None):
        count = block.part.block.positions if block.part.block else 0
        where = words.place(build, block.place)
        yield f"{words.capital(words.node(build, name))}: {where}", hosted(build, devices, name, count)
    for name, panel in build.panels.items():
        count = panel.part.panel.channels if panel.part.panel else 0
        where = words.place(build, panel.module_at)
        yield f"{words.capital(words.node(build, name))}: {where}", hosted(build, devices, name, count)


def own_line(packet: Packet, name: str) -> dict[str, str]:
    """The vehicle's own fuse of a feed that is used."""
    build = packet.sized.build
    feed = build.blocks[name].feed
    circuit = next(c for c in build.circuits if c.target == name and c.kind == "feeder")
    device = packet.sized.sizings[circuit.key].devices[0]
    assert feed is not None
    return {
        "position": "the vehicle's fuse box",
        "origin": "the vehicle's own",
        "device": device.designation,
        "rating": show.amps(device.rating_a),
        "type": show.family(feed.family) if feed.family else "see the vehicle's manual",
        "colour": device.colour if feed.family and device.colour else words.NOT_APPLICABLE,
        "feeds": f"{circuit.number} {circuit.title}: "
        + ", ".join(f"{c.number} {c.title}" for c in build.circuits if c.source == name),
        "no_more": show.amps(device.rating_a),
        "spare": words.NOT_APPLICABLE,
        "state": "the vehicle's own",
        "after": words.after_trip(build, device),
    }


def hosted(build: Resolved, devices: tuple[Fitted, ...], host: str, count: int) -> list[dict[str, str]]:
    """Each position of a block or panel, free ones included."""
    by_position = {f.device.position: f for f in devices if f.device.host == host}
    empty = build.blocks[host].empty if host in build.blocks else {}
    bare = {c.feeds[0].start.pin: c for c in build.circuits if c.source == host and c.unprotected and c.feeds}
    found = []
    for position in range(1, count + 1):
        if position in by_position:
            found.append(line(build, by_position[position], str(position)))
        elif str(position) in bare:
            found.append(
                free(
                    position,
                    f"no device, as the spec says: {bare[str(position)].number} {bare[str(position)].title}",
                )
            )
        else:
            found.append(
                free(position, f"must stay empty: {empty[position]}" if position in empty else "free")
            )
    return found


def line(build: Resolved, one: Fitted, position: str) -> dict[str, str]:
    device, circuit = one.device, one.circuit
    fuse = device.kind == "fuse"
    return {
        "position": position,
        "device": device.designation,
        "rating": show.amps(device.rating_a),
        "type": show.family(device.family) if fuse else "electronic limit",
        "colour": device.colour or words.NOT_APPLICABLE,
        "feeds": f"{circuit.number} {circuit.title}",
        "no_more": show.amps(device.rating_a) if fuse else words.NOT_APPLICABLE,
        "spare": f"1 of {show.amps(device.rating_a)}" if fuse else words.NOT_APPLICABLE,
        "state": state(one),
        "after": words.after_trip(build, device),
        "origin": "added",
    }


def goes_in(one: Fitted) -> bool:
    """False for what stays out or off when the vehicle is handed over."""
    return one.protection.fitted and not one.circuit.open_reason


def state(one: Fitted) -> str:
    if one.circuit.open_reason:
        return f"out: {one.circuit.open_reason}"
    if one.protection.fitted:
        return "fitted" if one.device.kind == "fuse" else "on"
    return "out until used" if one.device.kind == "fuse" else "off until used"


def free(position: int, state: str) -> dict[str, str]:
    keys = ("device", "rating", "type", "colour", "feeds", "no_more", "spare", "after", "origin")
    return {"position": str(position), **dict.fromkeys(keys, words.NOT_APPLICABLE), "state": state}
