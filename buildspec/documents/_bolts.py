"""What holds the items: bolts with the thread they go into, their torque, and what one of them carries."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import fastenings, show
from buildspec.documents import _joints as joints
from buildspec.documents import _words as words
from buildspec.model import Accessory, Fastening, Practice
from buildspec.packet import Packet

MARKS = {"computed": " (computed)", "memory": " (recalled, confirm)", "yes": ""}


def lines(packet: Packet) -> Iterator[dict[str, str]]:
    """One line an item that says how it is held."""
    build = packet.sized.build
    for item in build.accessories.values():
        if item.fastening is not None:
            yield line(packet, item, item.fastening)


def line(packet: Packet, item: Accessory, held: Fastening) -> dict[str, str]:
    build = packet.sized.build
    tight, turns = fastenings.tightening(held), fastenings.spin_out_nm(held)
    weakest = min(fastenings.strengths(held), key=lambda s: s.may_n, default=None)
    return {
        "mark": item.designation,
        "item": f"{item.designation} {item.part.title}",
        "at": item.place,
        "place": words.place(build, item.place),
        "bolts": f"{held.quantity * item.quantity} × {held.bolt}, class {held.grade}",
        "into": into(held, build.practice),
        "engagement": (
            show.diameter(held.engagement_m, build.practice) if held.engagement_m else words.NOT_APPLICABLE
        ),
        "thread": held.lubrication,
        "carries": words.NOT_APPLICABLE if weakest is None else show.force(weakest.may_n, build.practice),
        "torque": words.BLANK if tight is None else joints.newton_metres(tight.nm),
        "source": words.NOT_APPLICABLE if tight is None else f"{tight.source}{MARKS[tight.verified]}",
        "turns": words.NOT_APPLICABLE if turns is None else joints.newton_metres(turns),
        "initials": words.BLANK,
        "due": words.BLANK,
    }


def into(held: Fastening, practice: Practice) -> str:
    sheet = f", {show.diameter(held.sheet_m, practice)} {held.metal}" if held.sheet_m else ""
    return " ".join(w for w in (held.body, held.into) if w) + sheet
