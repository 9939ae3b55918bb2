"""Columns of a ladder: widths from what stands in them, cut where a sheet is narrow."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildspec.drawings import load_words, rows, strands
from buildspec.drawings.marks import Box
from buildspec.drawings.pieces import Piece, pieces
from buildspec.drawings.plan import Section
from buildspec.drawings.rows import Slot
from buildspec.drawings.strands import PAD, Scene
from buildspec.model import Circuit

INFO = 380.0


BUS = 58.0


LEAST_LOAD, LEAST_GROUND = 270.0, 190.0


SHORT_GROUND = 110.0


FLOORS = ((700.0, 420.0), (520.0, 360.0), (430.0, 300.0), (LEAST_LOAD, LEAST_GROUND))
"""Floors of load and ground while a narrow sheet cuts them, step by step."""


class Columns(NamedTuple):
    """Where the parts of a section stand."""

    bus: float
    number: float
    slots: dict[str, Slot]
    load: Slot
    back: Slot
    ground: Slot


class Right(NamedTuple):
    """Widths of the columns that all sections of a sheet share."""

    load: float
    back: float
    ground: float


def strip(circuit: Circuit) -> tuple[Piece, ...]:
    return () if circuit.kind in ("module", "branch") else pieces(circuit)


def right_widths(scene: Scene, circuits: Sequence[Circuit], *, short: bool) -> Right:
    """Natural widths of load, return and ground; `short`: grounds by their designation only."""
    grounds = [load_words.ground_width(scene, c, short=short) for c in circuits]
    return Right(
        load=max([LEAST_LOAD, *(load_words.words_width(scene, c) for c in circuits)]),
        back=max([0.0, *(load_words.return_width(scene, c) for c in circuits)]),
        ground=max([SHORT_GROUND if short else LEAST_GROUND, *grounds]),
    )


def number_width(section: Section) -> float:
    return max([0.0, *(strands.pill_width(c.number) for c in section.rows)]) + 2 * PAD


def left_width(scene: Scene, section: Section) -> float:
    """Everything left of the loads."""
    found = rows.widths(scene, [(c, strip(c)) for c in section.rows])
    return BUS + number_width(section) + sum(found.values())


def balanced(right: Right, room: float) -> Right:
    """Load and ground columns cut down to the room there is, the load first."""
    load, ground = right.load, right.ground
    for least_load, least_ground in FLOORS:
        load = max(min(load, least_load), min(load, room - right.back - ground))
        ground = max(min(ground, least_ground), min(ground, room - right.back - load))
    return Right(load, right.back, ground)


def columns(scene: Scene, section: Section, right: Right, area: Box) -> Columns:
    """Columns of a section; what room is left goes to its conductors."""
    bus = area.left + INFO
    number = bus + BUS
    found = rows.widths(scene, [(c, strip(c)) for c in section.rows])
    first = number + number_width(section)
    edge = area.right - right.load - right.back - right.ground
    spare = edge - first - sum(found.values())
    wires = sum(1 for name in found if name.startswith(("wire", "lead")))
    slots = rows.placed(found, first, max(0.0, spare) / wires if wires else 0)
    return Columns(
        bus,
        number,
        slots,
        Slot(edge, right.load),
        Slot(edge + right.load, right.back),
        Slot(edge + right.load + right.back, right.ground),
    )
