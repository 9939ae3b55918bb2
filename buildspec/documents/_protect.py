"""How power comes on: tests without it, posts of the added batteries, the vehicle's own negative, then the fuses."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.documents import _fuses as fuses
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.documents._steps import HOLD, step
from buildspec.model import Battery
from buildspec.packet import Packet

POSITIVE, NEGATIVE = "+", "−"


def steps(packet: Packet) -> Iterator[dict[str, str]]:
    """In this order: what a meter shows without power, posts, fuses by number."""
    yield step(
        "Fill the rows “Before power” of the commissioning record", "continuity, polarity, fuses out", HOLD
    )
    yield step("Compare every wire with the cut list: number, size, both ends", hold=HOLD)
    yield from left_out(packet)
    yield from posts(packet)
    yield step("Fuses in one at a time, in this order", "a spark or a blown fuse stops the job")
    yield from fuses_in(packet)


def left_out(packet: Packet) -> Iterator[dict[str, str]]:
    for one in fuses.fitted(packet):
        feeds = f"{one.circuit.number} {one.circuit.title}"
        if fuses.goes_in(one):
            continue
        if one.device.kind == "fuse":
            yield step(f"{one.device.designation} stays out", f"{feeds}: fuse into the bag, marked")
        else:
            yield step(f"{one.device.designation} is set off", feeds)


def posts(packet: Packet) -> Iterator[dict[str, str]]:
    """The house side first; the negative of a battery after its positives, the start battery's last of all."""
    batteries = sorted(packet.sized.build.batteries.values(), key=lambda b: b.role == "start")
    for battery in batteries:
        name = words.node(packet.sized.build, battery.name)
        if not battery.existing:
            leads = at_post(packet, battery, POSITIVE)
            yield step(f"Positive leads on to {name}: {leads}", "their fuses still out")
        added = at_post(packet, battery, NEGATIVE)
        leads = f": {added}" if added else ""
        when = "last of all" if battery is batteries[-1] else "after its positives"
        yield step(
            f"Negative lead of the {name} on, {when}{leads}",
            "nobody in a seat, restraints connected",
            HOLD,
        )


def at_post(packet: Packet, battery: Battery, pin: str) -> str:
    """`W04, W09`: the wires that end at one post."""
    at = f"{battery.designation}:{pin}"
    return ", ".join(p.wire.designation for p in wires.pieces(packet) if at in (p.near.at, p.far.at))


def fuses_in(packet: Packet) -> Iterator[dict[str, str]]:
    fitted = [f for f in fuses.fitted(packet) if f.device.kind == "fuse" and fuses.goes_in(f)]
    for one in sorted(fitted, key=lambda f: wires.natural(f.device.designation)):
        yield step(
            f"{one.device.designation} in: {words.fuse(one.device)}",
            f"{one.circuit.number} {one.circuit.title}; {words.position(packet.sized.build, one.device)}",
        )
