"""Where an owner finds fuses: a letter for each block, bank of switches, place in a cable, the vehicle's own box."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.documents import _owner as owner
from buildspec.documents._fuses import Fitted, fitted
from buildspec.model import Feed, Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue

HANDS = ("mini-blade", "blade", "maxi-blade")
"""Families that pull out by hand; the rest are bolted on at a battery."""
ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class Spot(NamedTuple):
    """Where a hand finds fuses. One of the three is set."""

    host: str
    """Block or panel, or ``."""
    place: str
    """Place of fuses in a cable, or ``."""
    fuse_at: str
    """The vehicle's own fuse, in words, or ``."""


def fuses(packet: Packet) -> list[Fitted]:
    return [f for f in fitted(packet) if f.device.kind == "fuse"]


def by_hand(one: Fitted) -> bool:
    return one.device.family in HANDS


def spot_of(one: Fitted) -> Spot:
    device = one.device
    return Spot(device.host, "" if device.host else device.place, "")


def own_feeds(build: Resolved) -> dict[str, Feed]:
    """Node of a feed of the vehicle that is used → the feed."""
    return {name: block.feed for name, block in build.blocks.items() if block.feed is not None}


def feed_spot(feed: Feed) -> Spot:
    return Spot("", "", feed.fuse_at)


def spots(packet: Packet) -> dict[Spot, str]:
    """Every spot with its letter: banks of switches, blocks, places in a cable, the vehicle's own fuses last."""
    build = packet.sized.build
    order = [*build.panels, *build.blocks]
    places = list(build.places)
    found = {spot_of(f) for f in fuses(packet) if by_hand(f)}
    added = sorted(
        found,
        key=lambda s: (not s.host, order.index(s.host) if s.host else places.index(s.place)),
    )
    own = dict.fromkeys(feed_spot(f) for f in own_feeds(build).values() if f.family in HANDS and f.fuse_at)
    return {spot: letter(n) for n, spot in enumerate([*added, *own])}


def letter(number: int) -> str:
    """`A` to `Z`, then `A2`, `B2`."""
    more, n = divmod(number, len(ALPHABET))
    return ALPHABET[n] + (str(more + 1) if more else "")


def rows(packet: Packet) -> list[dict[str, str]]:
    """For each spot where it is, how to get at it, and which positions hold no fuse."""
    build, t = packet.sized.build, owner.tongue(packet)
    return [
        {
            "letter": letter,
            "words": words(build, spot, t),
            "access": access(build, spot, t),
            "bare": " ".join(bare(packet, spot, t)),
        }
        for spot, letter in spots(packet).items()
    ]


def words(build: Resolved, spot: Spot, t: Tongue) -> str:
    if spot.fuse_at:
        return t.say("The vehicle's own fuse: {place}", place=t.own(spot.fuse_at))
    if spot.host in build.panels:
        panel = build.panels[spot.host]
        at = t.own(panel.words) if panel.words else owner.place(build, panel.module_at, t)
        return t.say("Beside the switches: {place}", place=at)
    if spot.host:
        return t.say("Fuse block: {place}", place=owner.place(build, build.blocks[spot.host].place, t))
    return t.say("Holders in the cable: {place}", place=owner.place(build, spot.place, t))


def access(build: Resolved, spot: Spot, t: Tongue) -> str:
    """How to get at it."""
    if spot.fuse_at:
        return t.say("See the vehicle's handbook.")
    if spot.host in build.panels:
        place = build.panels[spot.host].module_at
    else:
        place = build.blocks[spot.host].place if spot.host else spot.place
    said = t.own(build.places[place].access)
    return t.large(f"{said.rstrip('.')}.") if said else t.say("Ask us to show you how to get at it.")


def bare(packet: Packet, spot: Spot, t: Tongue) -> list[str]:
    """Positions without a fuse in them, so that nobody looks for one, and what a dead spot means."""
    said = []
    kept = sorted(
        f.device.position
        for f in fuses(packet)
        if f.device.host and f.device.host == spot.host and not f.protection.fitted
    )
    if kept:
        said.append(t.say("No fuse yet, kept for later: {positions}.", positions=numbers(kept)))
    free = [p for p in free_positions(packet, spot) if p not in kept]
    if free:
        said.append(t.say("Empty: {positions}.", positions=numbers(free)))
    feeder = main_fuses(packet, spot)
    if feeder:
        said.append(t.say("Everything here is dead: call us (bolted fuse {fuse}).", fuse=", ".join(feeder)))
    return said


def numbers(positions: list[int]) -> str:
    return ", ".join(str(p) for p in positions)


def free_positions(packet: Packet, spot: Spot) -> list[int]:
    build = packet.sized.build
    if spot.host in build.blocks:
        trait = build.blocks[spot.host].part.block
        count = trait.positions if trait else 0
    elif spot.host in build.panels:
        count = sum(c.panel == spot.host for c in build.channels)
    else:
        return []
    used = {f.device.position for f in fitted(packet) if f.device.host == spot.host}
    used |= {
        int(c.feeds[0].start.pin)
        for c in build.circuits
        if c.source == spot.host and c.unprotected and c.feeds
    }
    return [p for p in range(1, count + 1) if p not in used]


def main_fuses(packet: Packet, spot: Spot) -> list[str]:
    """Designations of the bolted fuses in front of a block or bank."""
    return [
        f.device.designation
        for f in fuses(packet)
        if spot.host and f.circuit.kind == "feeder" and f.circuit.target == spot.host and not by_hand(f)
    ]


def tag(one: Fitted, letters: dict[Spot, str]) -> str:
    """What the owner looks for: `B 5` in a block, `F16` on the label of a fuse in a cable."""
    at = letters[spot_of(one)]
    return f"{at} {one.device.position}" if one.device.host else f"{at} {one.device.designation}"
