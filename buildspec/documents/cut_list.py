"""Every piece of wire: size, colour, length, what goes on each end, what is written on each sleeve."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import show
from buildspec.documents import _cut_book as cut_book
from buildspec.documents import _joints as joints
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.looms import keypads
from buildspec.packet import Packet
from buildspec.worksheets import Workbook

TITLE = "Cut list"
ORDER = 40
WIDE = True
OWN_PAGE = True

FINGERS_M = 0.05
"""What is left between two loops that can still be laid; common practice, no source."""

COLUMNS = (
    "wire", "circuit", "size", "area_mm2", "colour", "cut_length_m", "from", "from_place", "from_terminal",
    "from_label", "to", "to_place", "to_terminal", "to_label", "cap",
)  # fmt: skip


def anchors(packet: Packet) -> tuple[str, ...]:
    """Wire designations."""
    return tuple(p.wire.designation for p in wires.pieces(packet))


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    practice = build.practice
    loop = show.small_length(practice.service_loop_m, practice)
    studs = joints.stud_of(packet)
    local = show.small_length(practice.local_m, practice)
    return {
        "intro": (
            f"Cut lengths hold a service loop of {loop} at each end of a wire that runs to another item. "
            f"A piece inside one place has the shop's default length ({local}, and the loops): measure before cutting. "
            f"{short_links(packet)}Sleeves go on before the terminals are crimped; flags and wraps of the label sheets "
            "after. Crimp, tug, look; then initials."
        ),
        "fuse_note": "A lead from a battery post to its fuse is as short as listed and no longer.",
        "wires": [line(packet, p, studs) for p in wires.pieces(packet)],
        "with_panels": [words.capital(keypads.words(build, lead)) for lead in keypads.leads(build)],
        "nothing": "No wire in this build.",
    }


def short_links(packet: Packet) -> str:
    """Pieces shorter than their loops: a fixed lead to a device right beside them."""
    loops_m = 2 * packet.sized.build.practice.service_loop_m
    found = [p.wire.designation for p in wires.pieces(packet) if p.wire.cut_m < loops_m + FINGERS_M]
    if not found:
        return ""
    return (
        f"{', '.join(found)}: short links to a device right beside their other end, without a loop; terminals go on "
        "at the bench, and the device is mounted to suit. "
    )


def line(packet: Packet, piece: wires.Piece, studs: Mapping[str, str]) -> dict[str, str]:
    wire = piece.wire
    return {
        "wire": wire.designation,
        "circuit": piece.circuit.number,
        "size": show.size(piece.conductor),
        "colour": wire.colour,
        "colour_words": show.colour(wire.colour),
        "length": show.length(wire.cut_m, packet.sized.build.practice),
        "from": f"{piece.near.at}, {words.place(packet.sized.build, piece.near.place)}",
        "from_end": joints.finish(packet, piece, piece.near, studs),
        "from_label": piece.near.label,
        "to": f"{piece.far.at}, {words.place(packet.sized.build, piece.far.place)}",
        "to_end": joints.finish(packet, piece, piece.far, studs),
        "to_label": piece.far.label,
        "made": words.BLANK,
        "checked": words.BLANK,
    }


def csv(packet: Packet) -> tuple[str, list[list[str]]]:
    """`cut-list.csv`: base units, for a cutting machine or a spreadsheet."""
    rows = [
        [
            p.wire.designation, p.circuit.number, show.size(p.conductor), f"{p.conductor.area_mm2:g}", p.wire.colour,
            f"{p.wire.cut_m:g}", p.near.at, p.near.place, p.near.terminal, p.near.label,
            p.far.at, p.far.place, p.far.terminal, p.far.label, p.far.cap or p.near.cap,
        ]
        for p in wires.pieces(packet)
    ]  # fmt: skip
    return "cut-list.csv", [list(COLUMNS), *rows]


def book(packet: Packet) -> Workbook:
    """`cut-list.xlsx`."""
    return cut_book.book(packet)
