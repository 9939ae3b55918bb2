"""Each piece of conductor that is cut, with what is crimped on and written at each of its ends."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import branches
from buildspec.model import Circuit, Conductor, Resolved, Terminal, Wire
from buildspec.packet import Packet

RING_FAMILIES = ("strip-m5", "strip-m8", "post-cube", "limiter-strip", "class-t", "cartridge-a1")
RING, RECEPTACLE, HOLDER = "ring", "receptacle 6.3 mm", "terminal of the fuse holder"
WIDE_RECEPTACLE, WIDE_FROM_A = "receptacle 9.5 mm, see the socket's sheet", 40.0
"""Main contacts of a relay rated above this have wider blades; common practice, no source."""
STUD_FROM_A = 80.0
"""Above this the main contacts are studs; common practice, no source."""
CONTACT = "contact of connector"
JOINT = "sealed joint"
"""Of a star's common point, or of two links of a chain with the lead of an item; common practice, no source."""
BLOCK, PANEL, TAP, DEVICE = (
    "terminal of the block",
    "terminal of the panel",
    "terminal of the vehicle connector",
    "to suit the device",
)


class End(NamedTuple):
    """One end of a wire."""

    at: str
    """Designation and pin: `X4:3`."""
    place: str
    terminal: str
    label: str
    cap: str
    """What closes an end that nothing is connected to, or ``."""


class Piece(NamedTuple):
    """A wire with its circuit, its conductor and its two ends."""

    circuit: Circuit
    wire: Wire
    conductor: Conductor
    near: End
    far: End


def pieces(packet: Packet) -> tuple[Piece, ...]:
    """All wires to cut, by designation."""
    found = [piece(packet, circuit, wire) for circuit, wire in cut(packet.sized.build)]
    return tuple(sorted(found, key=lambda p: natural(p.wire.designation)))


def cut(build: Resolved) -> Iterator[tuple[Circuit, Wire]]:
    for circuit in build.circuits:
        if not circuit.existing:
            yield from ((circuit, wire) for wire in (*circuit.feeds, *circuit.returns))


def natural(designation: str) -> tuple[str, int]:
    """`W9` before `W10`."""
    letters = designation.rstrip("0123456789")
    digits = designation[len(letters) :]
    return letters, int(digits) if digits else 0


def piece(packet: Packet, circuit: Circuit, wire: Wire) -> Piece:
    build = packet.sized.build
    start, end = wire.start, wire.end
    return Piece(
        circuit,
        wire,
        packet.sized.sizings[circuit.key].conductor,
        End(
            name(start),
            start.place,
            terminal(packet, circuit, start),
            label(circuit, wire, end),
            cap(build, start),
        ),
        End(
            name(end), end.place, terminal(packet, circuit, end), label(circuit, wire, start), cap(build, end)
        ),
    )


def finish(side: End) -> str:
    """Terminal of an end, and the cap of one that nothing is connected to."""
    if not side.cap:
        return side.terminal
    return side.cap if side.terminal == "none" else f"{side.terminal}; {side.cap}"


def name(end: Terminal) -> str:
    return f"{end.item}:{end.pin}"


def label(circuit: Circuit, wire: Wire, other: Terminal) -> str:
    """Text for one end: circuit, wire, and where the other end is."""
    return f"{circuit.number} {wire.designation} → {name(other)}"


def cap(build: Resolved, end: Terminal) -> str:
    """How an end of a reserve is closed."""
    reserve = next((r for r in build.reserves.values() if r.designation == end.item), None)
    return "" if reserve is None else reserve.cap or "cap it"


def terminal(packet: Packet, circuit: Circuit, end: Terminal) -> str:
    """What is crimped on an end, as far as the kind of item decides it."""
    build = packet.sized.build
    reserve = next((r for r in build.reserves.values() if r.designation == end.item), None)
    if reserve is not None:
        return f"{CONTACT}, {reserve.connector}" if reserve.connector != "none" else "none"
    if end.pin == "stud" or end.item in {b.designation for b in build.batteries.values()}:
        return RING
    device = next((d for d in packet.sized.sizings[circuit.key].devices if d.designation == end.item), None)
    if device is not None:
        return RING if device.family in RING_FAMILIES else HOLDER
    if end.item in {p.designation for p in build.panels.values()}:
        return RING if end.pin == "+" else PANEL
    block = next((b for b in build.blocks.values() if b.designation == end.item), None)
    if block is not None and block.feed is not None:
        return RING if block.feed.family in RING_FAMILIES else TAP
    if block is not None:
        studs = block.part.block is not None and block.part.block.family in RING_FAMILIES
        return RING if studs or end.pin == "+" else BLOCK
    return other_terminal(build, circuit, end)


def jointed(build: Resolved) -> dict[tuple[str, str], branches.Joint]:
    """(item, pin) → the joint there, of all branches."""
    found = (j for c in build.circuits if c.kind == "branch" for j in branches.joints(c))
    return {(joint.terminal.item, joint.terminal.pin): joint for joint in found}


def other_terminal(build: Resolved, circuit: Circuit, end: Terminal) -> str:
    if (end.item, end.pin) in jointed(build):
        return JOINT
    links = {i.designation for i in build.isolation.values() if i.type != "dc-dc"}
    if end.item in links:
        return RING if end.pin in ("30", "30a") else RECEPTACLE
    if end.pin in ("30", "87"):
        rating = max((c.rating_a for c in circuit.contacts if c.designation == end.item), default=0.0)
        if rating > STUD_FROM_A:
            return RING
        return WIDE_RECEPTACLE if rating > WIDE_FROM_A else RECEPTACLE
    if end.pin in ("85", "86"):
        return RECEPTACLE
    return TAP if end.item in build.signals else DEVICE
