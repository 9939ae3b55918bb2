"""Every label of a build: wire sleeves, fuse and device tags, reserves, positions that stay empty."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.joints import joints
from buildspec.model import Reserve, Resolved
from buildspec.packet import Packet

SLEEVE = "wire sleeve"


class Label(NamedTuple):
    """A text, how often it is printed, and where it goes."""

    kind: str
    text: str
    quantity: int
    where: str
    place: str


def labels(packet: Packet) -> tuple[Label, ...]:
    build = packet.sized.build
    return (*sleeves(packet), *tags(packet), *relays_and_grounds(build), *reserves(build), *empty(build))


def sleeves(packet: Packet) -> Iterator[Label]:
    """Two a wire: each end says where the other one is."""
    for piece in wires.pieces(packet):
        for side in (piece.near, piece.far):
            yield Label(SLEEVE, side.label, 1, f"{piece.wire.designation} at {side.at}", side.place)


def tags(packet: Packet) -> Iterator[Label]:
    """Fuses with the largest rating that may go in, then batteries, blocks, panels and link devices."""
    build = packet.sized.build
    for circuit in build.circuits:
        for device in packet.sized.sizings[circuit.key].devices:
            if device.kind == "fuse" and not circuit.existing:
                text = f"{device.designation} {circuit.number} {show.amps(device.rating_a)} max"
                yield Label("fuse tag", text, 1, words.position(build, device), device.place)
    for name, battery in build.batteries.items():
        if not battery.existing:
            yield Label(
                "device tag",
                f"{battery.designation} {name.upper()} BATTERY",
                1,
                "on the battery",
                battery.place,
            )
    for name, block in build.blocks.items():
        text, where = words.block(name), "on the cover"
        if block.feed is not None:
            fuse = f", {show.amps(block.feed.fuse_a)}" if block.feed.fuse_a else ""
            text, where = f"vehicle feed{fuse}", "beside the joint"
        yield Label("device tag", f"{block.designation} {text.upper()}", 1, where, block.place)
    for name, panel in build.panels.items():
        yield Label(
            "device tag", f"{panel.designation} {name.upper()} PANEL", 1, "on the module", panel.module_at
        )
    for name, item in build.isolation.items():
        yield Label("device tag", f"{item.designation} {name.upper()}", 1, "on the device", item.place)
    for name, supply_ in build.supplies.items():
        text = f"{supply_.designation} {name.replace('-', ' ').upper()}"
        yield Label("device tag", text, 1, "on the device", supply_.place)


def relays_and_grounds(build: Resolved) -> Iterator[Label]:
    """Relays and switches outside the panels, common points, then the studs that returns end at."""
    for circuit in build.circuits:
        for contact in circuit.contacts:
            if contact.part is not None and contact.kind != "link":
                what = f"{contact.kind.upper()} OF {circuit.number}"
                where = "on the socket" if contact.kind == "relay" else "beside the switch"
                yield Label("device tag", f"{contact.designation} {what}", 1, where, contact.place)
        if circuit.form == "star":
            point = circuit.feeds[0].start
            yield Label("device tag", f"{point.item} COMMON POINT", 1, "beside the joints", point.place)
    for joint in joints(build):
        if not joint.battery:
            yield Label("device tag", f"{joint.item} GROUND", 1, "beside the stud", joint.place)


def reserve_text(reserve: Reserve) -> str:
    """What stands on both ends of a reserve."""
    name = reserve.legend or reserve.name.replace("-", " ").upper()
    live = "LIVE" if reserve.powered else "NOT LIVE"
    return f"{reserve.designation} RESERVE {name}, max {show.amps(reserve.allow_a)}, {live}"


def reserves(build: Resolved) -> Iterator[Label]:
    for reserve in build.reserves.values():
        yield Label("reserve tag", reserve_text(reserve), 1, "far end", reserve.place)
        yield Label(
            "reserve tag",
            reserve_text(reserve),
            1,
            f"supply end, {supply(build, reserve)}",
            supply_place(build, reserve),
        )


def supply(build: Resolved, reserve: Reserve) -> str:
    """`main panel S1, key 5` or `rear block X4, position 3`."""
    name, _, position = (reserve.switch or reserve.fed_from).partition(".")
    what = "key" if reserve.switch else "position"
    return f"{words.node(build, name)}, {what} {position}" if position else words.node(build, name)


def supply_place(build: Resolved, reserve: Reserve) -> str:
    name = (reserve.switch or reserve.fed_from).partition(".")[0]
    if name in build.panels:
        return build.panels[name].module_at
    return build.blocks[name].place if name in build.blocks else build.batteries[name].place


def empty(build: Resolved) -> Iterator[Label]:
    for name, block in build.blocks.items():
        for position in sorted(block.empty):
            where = f"{words.block(name)} {block.designation}, position {position}"
            yield Label("stay-empty tag", "STAYS EMPTY", 1, where, block.place)
