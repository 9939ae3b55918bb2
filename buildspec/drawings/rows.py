"""Pieces in columns: which column each piece of a row takes, and the row drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from buildspec.drawings import strands
from buildspec.drawings.marks import Group, Point, Stroke
from buildspec.drawings.pieces import Piece
from buildspec.drawings.strands import PAD, Scene
from buildspec.model import Circuit


class Slot(NamedTuple):
    """A column of a ladder: its left edge and its width."""

    left: float
    width: float

    @property
    def middle(self) -> float:
        return self.left + self.width / 2


ORDER = (
    "lead",
    "fuse0",
    "hand",
    "wire0",
    "fuse1",
    "contact0",
    "wire1",
    "contact1",
    "wire2",
    "contact2",
    "wire3",
)


def named(pieces: Sequence[Piece]) -> tuple[tuple[str, Piece], ...]:
    """Column name of each piece: a lead before the first device, then devices and conductors by count."""
    made: list[tuple[str, Piece]] = []
    counts = {"wire": 0, "fuse": 0, "contact": 0}
    guarded = any(piece.protection for piece in pieces)
    met = False
    for place, piece in enumerate(pieces):
        wired = any(name.startswith(("wire", "lead")) for name, _ in made)
        if piece.wire and guarded and not met and place == 0:
            made.append(("lead", piece))
            continue
        if piece.contact and not wired:
            made.append(("hand", piece))
            continue
        kind = "wire" if piece.wire else "fuse" if piece.protection else "contact"
        met = met or kind == "fuse"
        made.append((f"{kind}{counts[kind]}", piece))
        counts[kind] += 1
    return tuple(made)


def widths(scene: Scene, rows: Sequence[tuple[Circuit, Sequence[Piece]]]) -> dict[str, float]:
    """Width of each column over all rows, in the order of the columns."""
    found: dict[str, float] = {}
    for circuit, pieces in rows:
        for name, piece in named(pieces):
            found[name] = max(found.get(name, 0), strands.piece_width(scene, circuit, piece))
    return dict(sorted(found.items(), key=lambda item: (rank(item[0]), item[0])))


def rank(name: str) -> int:
    return ORDER.index(name) if name in ORDER else len(ORDER)


def placed(columns: Mapping[str, float], left: float, extra: float = 0) -> dict[str, Slot]:
    """Columns side by side from `left`; every conductor's column gets `extra` more."""
    made: dict[str, Slot] = {}
    for name, wide in columns.items():
        wide += extra if name.startswith(("wire", "lead")) else 0
        made[name] = Slot(left, wide)
        left += wide
    return made


def row(
    scene: Scene,
    circuit: Circuit,
    pieces: Sequence[Piece],
    slots: Mapping[str, Slot],
    y: float,
    ends: tuple[float, float],
    tail: tuple[Point, ...] = (),
) -> tuple[Group, ...]:
    """A row at height y between its ends; the last conductor goes on along `tail`."""
    made: list[Group] = []
    steps = named(pieces)
    left = ends[0]
    for index, (name, piece) in enumerate(steps):
        if piece.wire:
            after = [slots[n].middle - strands.device_half(p) for n, p in steps[index + 1 :] if not p.wire]
            points = ((left, y), (after[0], y)) if after else ((left, y), (ends[1], y), *tail)
            tag = strands.tag(scene, circuit, piece.wire, slots[name].left + PAD, y)
            made += strands.conductor(scene, circuit, piece.wire, points, tag)
            continue
        middle, reach = slots[name].middle, strands.device_half(piece)
        if index == 0 or not steps[index - 1][1].wire:
            made.append(inner(scene, circuit, ((left, y), (middle - reach, y))))
        made.append(device(scene, circuit, piece, middle, y))
        left = middle + reach
    if not steps or not steps[-1][1].wire:
        made.append(inner(scene, circuit, ((left, y), (ends[1], y), *tail)))
    return tuple(made)


def free_end(pieces: Sequence[Piece], slots: Mapping[str, Slot], start: float) -> float:
    """Where the conductor after these pieces begins."""
    devices = [slots[n].middle + strands.device_half(p) for n, p in named(pieces) if not p.wire]
    return devices[-1] if devices else start


def device(scene: Scene, circuit: Circuit, piece: Piece, x: float, y: float) -> Group:
    if piece.protection:
        return strands.protection(scene, circuit, piece.protection, x, y)
    assert piece.contact is not None
    return strands.contact(scene, circuit, piece.contact, x, y)


def inner(scene: Scene, circuit: Circuit, points: tuple[Point, ...]) -> Group:
    """A connection inside a block, a panel or a post: no conductor of its own."""
    name = scene.id(f"inner-{circuit.number}")
    return Group(
        name,
        f"inside {circuit.source}",
        f"connection of circuit {circuit.number}",
        (Stroke(points),),
        circuit.number,
        layer=1,
    )
