"""What a fitter needs at one place beyond the items: wire ends, devices, joints, holes, looms, labels, steps."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.documents import _bolts as bolts
from buildspec.documents import _fuses as fuses
from buildspec.documents import _joints as joints
from buildspec.documents import _labels as labels
from buildspec.documents import _routing as routing
from buildspec.documents import _surfaces as surfaces
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.looms import holes, runs
from buildspec.model import Accessory
from buildspec.packet import Packet

POST_OFF = "post end stays off until phase 7"
PHASES = {"remove": "in phase 3", "move": "in phase 3"}
"""Kind of work that is not bodywork → phase of the work order; what is fitted by place has none."""
LEAVES, ARRIVES = "leaves", "arrives"
Line = dict[str, str]


def ends(packet: Packet, place: str) -> list[Line]:
    """Every wire end at a place, by item and pin; at a post of an added battery it is made up and left off."""
    late = {b.designation for b in packet.sized.build.batteries.values() if not b.existing}
    studs = joints.stud_of(packet)
    found = [
        (here, end_line(packet, piece, here, there, way, late, ring))
        for piece in wires.pieces(packet)
        for here, there, way in ((piece.near, piece.far, LEAVES), (piece.far, piece.near, ARRIVES))
        if here.place == place
        for ring in [joints.ring_or_other(packet, piece, here, studs).partition(", hole")[0]]
    ]
    return [row for _, row in sorted(found, key=lambda one: by_pin(one[0].at))]


def by_pin(at: str) -> tuple[tuple[str, int], tuple[str, int]]:
    """`X6:2` before `X6:10`, `X6` before `X10`."""
    item, _, pin = at.rpartition(":")
    return wires.natural(item), wires.natural(pin)


def end_line(
    packet: Packet, piece: wires.Piece, here: wires.End, there: wires.End, way: str, late: set[str], ring: str
) -> Line:
    terminal = ring if not here.cap or here.terminal != "none" else here.cap
    off = f"; {POST_OFF}" if here.at.rpartition(":")[0] in late else ""
    away = "" if there.place == here.place else f", {words.place(packet.sized.build, there.place)}"
    return {
        "at": here.at,
        "wire": piece.wire.designation,
        "circuit": piece.circuit.number,
        "size": words.size_and_colour(piece.conductor, piece.wire.colour),
        "way": way,
        "other": f"{there.at}{away}",
        "terminal": terminal + off,
        "done": words.TICK,
    }


def devices(packet: Packet, place: str) -> list[Line]:
    """Fuses and electronic limits that sit here, with their state when the vehicle is handed over."""
    build = packet.sized.build
    return [
        {
            "device": one.device.designation,
            "rating": words.fuse(one.device),
            "position": words.position(build, one.device) if one.device.host else "in line",
            "feeds": f"{one.circuit.number} {one.circuit.title}",
            "state": fuses.state(one),
            "done": words.TICK,
        }
        for one in fuses.fitted(packet)
        if one.device.place == place
    ]


def studs(packet: Packet, place: str) -> list[Line]:
    """Posts, grounds and bolted terminals here, with their lugs and torque."""
    return joints.compact(line for line in joints.lines(packet) if line["at"] == place)


def held(packet: Packet, place: str) -> list[Line]:
    return [line for line in bolts.lines(packet) if line["at"] == place]


def made_holes(packet: Packet, place: str) -> list[Line]:
    """Holes at this place, with what lies near and behind them."""
    return [
        routing.hole_line(packet, one) | routing.edge_line(packet, one.hole)
        for one in holes.passages(packet.sized)
        if one.hole.place == place and (one.made or routing.is_there(one.hole))
    ]


def looms(packet: Packet, place: str) -> list[Line]:
    """Runs that begin or end here, and the wires in them."""
    build, found = packet.sized.build, []
    for one in runs.looms(packet.sized):
        if one.lying and place in (one.run.a, one.run.b):
            other = one.run.b if one.run.a == place else one.run.a
            through = ", ".join(hole.name for hole in holes.passed(build, one.run))
            size = routing.size_line(packet, one)
            found.append(
                {
                    "to": f"{runs.number(build, one.run)} · {words.place(build, other)}",
                    "through": ": ".join(t for t in (one.run.through, through) if t) or words.NOT_APPLICABLE,
                    "wires": ", ".join(lying.wire.designation for lying in one.lying),
                    "sleeve": size["sleeve"],
                    "supports": size["supports"],
                }
            )
    return found


def tags(packet: Packet, place: str) -> list[str]:
    """Texts of the labels here, wire sleeves left out: those are in the table of ends."""
    found = (label for label in labels.labels(packet) if label.place == place and label.kind != labels.SLEEVE)
    return [f"{label.text} ({label.where})" for label in found]


def steps(packet: Packet, place: str) -> list[Line]:
    """Bodywork and trim of the items at this place."""
    return [
        {"step": text, "detail": detail, "done": words.TICK, "initials": words.BLANK}
        for item in packet.sized.build.accessories.values()
        if item.place == place
        for text, detail in item_steps(item)
    ]


def item_steps(item: Accessory) -> Iterator[tuple[str, str]]:
    for work in item.works:
        where = f", {work.where}" if work.where else ""
        undo = f"to undo: {work.reversal}" if work.reversal else ""
        phase = surfaces.when(item) if work.do == "fit" else PHASES.get(work.do, "in phase 4")
        details = (phase, f"for {item.designation}", work.note.rstrip("."), undo)
        yield f"{words.capital(work.do)}: {work.what}{where}", "; ".join(d for d in details if d)
