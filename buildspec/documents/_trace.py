"""Lines of the trace record: parts, fuses by rating, wire by reel, crimp samples, torques reached."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.documents import _bolts as bolts
from buildspec.documents import _bought as bought
from buildspec.documents import _fuses as fuses
from buildspec.documents import _joints as joints
from buildspec.documents import _materials as materials
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.model import Part
from buildspec.packet import Packet

Line = dict[str, str]


def parts(packet: Packet) -> Iterator[Line]:
    """One line a piece: of six rings each has its own."""
    build = packet.sized.build
    for item in materials.items(build):
        for n in range(1, item.quantity + 1):
            mark = item.designation if item.quantity == 1 else f"{item.designation}, {n} of {item.quantity}"
            yield part_line(packet, mark, item.part, item.place)
    for goods in materials.goods(build):
        yield part_line(packet, goods.item.designation, goods.item.part, goods.item.place)


def part_line(packet: Packet, mark: str, part: Part, place: str) -> Line:
    return {
        "mark": mark,
        "item": part.title,
        "place": words.place(packet.sized.build, place),
        "from": "customer" if part.supplied_by == "customer" else "shop",
        "maker": bought.identity(part),
        **dict.fromkeys(("serial", "lot", "by"), words.BLANK),
    }


def fuse_lots(packet: Packet) -> Iterator[Line]:
    """Fuses of one family and rating come from one bag; holders on the line with them."""
    marks: dict[tuple[str, float], list[str]] = {}
    for one in fuses.fitted(packet):
        if one.device.kind == "fuse":
            marks.setdefault((one.device.family, one.device.rating_a), []).append(one.device.designation)
    for (family, rating), found in sorted(marks.items()):
        yield {
            "fuse": f"{words.capital(show.family(family))}, {show.amps(rating)}",
            "marks": ", ".join(found),
            "maker": bought.fuse_identity(packet, family),
            **dict.fromkeys(("lot", "holder", "by"), words.BLANK),
        }


def reels(packet: Packet) -> Iterator[Line]:
    """Wires cut from one reel: each size and colour."""
    found: dict[tuple[float, str, str], list[wires.Piece]] = {}
    for piece in wires.pieces(packet):
        key = (piece.conductor.area_mm2, piece.conductor.name, piece.wire.colour)
        found.setdefault(key, []).append(piece)
    for (_, _, colour), pieces in sorted(found.items()):
        yield {
            "reel": words.size_and_colour(pieces[0].conductor, colour),
            "wires": ", ".join(p.wire.designation for p in pieces),
            **dict.fromkeys(("maker", "lot", "by"), words.BLANK),
        }


def samples(packet: Packet) -> Iterator[Line]:
    """A sample of each kind of crimp, pulled before the first one."""
    for line in joints.crimps(packet):
        yield {
            "terminal": line["terminal"],
            "size": line["size"],
            "count": line["count"],
            "pull": line["pull"],
            **dict.fromkeys(("lot", "tool", "held", "by"), words.BLANK),
        }


def torques(packet: Packet) -> Iterator[Line]:
    """Studs and bolts with their figure, to be filled with what was reached."""
    for line in joints.compact(joints.lines(packet)):
        yield torque_line(line["joint"], line["place"], line["stud"], line["torque"])
    for line in bolts.lines(packet):
        yield torque_line(line["item"], line["place"], line["bolts"], line["torque"])


def torque_line(joint: str, place: str, thread: str, torque: str) -> Line:
    return {
        "joint": joint,
        "place": place,
        "thread": thread,
        "torque": torque or "by its sheet: …",
        **dict.fromkeys(("tool", "reached", "by"), words.BLANK),
    }
