"""The cut list as a spreadsheet: a row a wire, and for the store the sum of each size and colour."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from buildspec import show
from buildspec.documents import _joints as joints
from buildspec.documents import _materials as materials
from buildspec.documents import _units as units
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.packet import Packet
from buildspec.worksheets import HUNDREDTHS, WHOLE, Cell, Column, Formula, Workbook, Worksheet, cells

CUTS, TOTALS = "Cut list", "Wire for the store"
SIZE, COLOUR, CUT = 2, 4, 6
"""Columns of the cut list that the sums look at."""


def book(packet: Packet) -> Workbook:
    return Workbook("cut-list.xlsx", (cuts(packet), totals(packet)))


def cuts(packet: Packet) -> Worksheet:
    length = units.length(packet.sized.build.practice)
    studs = joints.stud_of(packet)
    columns = (
        Column("Wire"), Column("Circuit"), Column("Size"), Column("Area [mm²]", HUNDREDTHS), Column("Colour"),
        Column("Colour in words"), Column(f"Cut [{length.name}]", length.form), Column("From"),
        Column("From, place"), Column("On this end"), Column("Sleeve here"), Column("To"), Column("To, place"),
        Column("On that end"), Column("Sleeve there"), Column("Made"), Column("Checked"),
    )  # fmt: skip
    return Worksheet(CUTS, columns, tuple(cut_row(packet, p, studs) for p in wires.pieces(packet)))


def cut_row(packet: Packet, piece: wires.Piece, studs: Mapping[str, str]) -> tuple[Cell, ...]:
    build, wire = packet.sized.build, piece.wire
    length = units.length(build.practice)
    return (
        wire.designation, piece.circuit.number, show.size(piece.conductor), piece.conductor.area_mm2, wire.colour,
        show.colour(wire.colour), wire.cut_m / length.metres, *end(packet, piece, piece.near, studs),
        *end(packet, piece, piece.far, studs),
        words.TICK, words.TICK,
    )  # fmt: skip


def end(
    packet: Packet, piece: wires.Piece, side: wires.End, studs: Mapping[str, str]
) -> tuple[str, str, str, str]:
    return (
        side.at,
        words.place(packet.sized.build, side.place),
        joints.finish(packet, piece, side, studs),
        side.label,
    )


def totals(packet: Packet) -> Worksheet:
    practice = packet.sized.build.practice
    length = units.length(practice)
    columns = (
        Column("Size"), Column("Area [mm²]", HUNDREDTHS), Column("Colour"), Column("Colour in words"),
        Column("Pieces", WHOLE), Column(f"Cut in all [{length.name}]", length.form),
        Column(f"For crimp samples [{length.name}]", length.form),
        Column(f"Buy, rounded up [{units.bought(practice)}]", WHOLE), Column("Insulation [°C]", WHOLE),
        Column("Given out"),
    )  # fmt: skip
    return Worksheet(TOTALS, columns, tuple(total_rows(packet)), kept=0)


def total_rows(packet: Packet) -> Iterator[tuple[Cell, ...]]:
    practice = packet.sized.build.practice
    length, rows = units.length(practice), len(wires.pieces(packet))
    for row, one in enumerate(materials.conductors(packet), 2):
        cut = (one.length_m - materials.SAMPLE_M) / length.metres
        amount, _, _ = show.whole_length(one.length_m, practice).partition(" ")
        yield (
            show.size(one.conductor), one.conductor.area_mm2, one.colour, show.colour(one.colour),
            Formula(f"COUNTIFS({alike(rows, row)})", one.pieces),
            Formula(f"SUMIFS({cells(CUT, rows, sheet=CUTS)},{alike(rows, row)})", cut),
            materials.SAMPLE_M / length.metres, int(amount), practice.insulation_c, words.BLANK,
        )  # fmt: skip


def alike(rows: int, row: int) -> str:
    """Condition: size and colour of this row."""
    return f"{cells(SIZE, rows, sheet=CUTS)},$A{row},{cells(COLOUR, rows, sheet=CUTS)},$C{row}"
