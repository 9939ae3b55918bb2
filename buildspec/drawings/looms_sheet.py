"""The layout: where the places are, what runs between them, and what shares each loom; one sheet or several."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.drawings import looms_picture, looms_table, supply_squeeze
from buildspec.drawings.ladder_heights import inside
from buildspec.drawings.looms_boxes import Leg
from buildspec.drawings.looms_picture import HEAD
from buildspec.drawings.marks import Box, Group
from buildspec.drawings.strands import Scene
from buildspec.looms import runs

TITLE = "Places and looms"
GAP = 40.0
"""Between the picture and the table."""


class Sheaf(NamedTuple):
    """One sheet: the picture or not, and rows of the table."""

    picture: bool
    rows: tuple[Leg, ...]


def sheaves(scene: Scene, area: Box) -> tuple[Sheaf, ...]:
    """What comes on which sheet; nothing for a build without runs."""
    inner, legs = inside(area), all_legs(scene)
    if not legs:
        return ()
    room = inner.bottom - inner.top
    if not drawable(scene, legs, inner):
        return tuple(
            Sheaf(False, tuple(rows)) for rows in looms_table.split(scene, legs, inner, room) if rows
        )
    _, high = picture(scene, legs, inner, alone=False)
    rows = looms_table.split(scene, legs, inner, room - high - GAP)
    if len(rows) == 1:
        return (Sheaf(True, tuple(rows[0])),)
    rest = looms_table.split(scene, legs, inner, room)
    return (Sheaf(True, ()), *(Sheaf(False, tuple(each)) for each in rest if each))


def all_legs(scene: Scene) -> tuple[Leg, ...]:
    return looms_picture.legs_of(scene.sized.build, runs.looms(scene.sized))


def drawable(scene: Scene, legs: tuple[Leg, ...], inner: Box) -> bool:
    """Is every column of places low enough for one sheet? Else the table alone says it all."""
    at = looms_picture.layout(scene, legs, inner.right - inner.left)
    room = inner.bottom - inner.top - HEAD
    _, high = looms_picture.heights(scene, legs, at, room)
    columns = [
        {key: h for key, h in high.items() if looms_picture.rank(key, at) == n}
        for n in range(len(at.columns))
    ]
    return supply_squeeze.least(columns) <= room


def picture(
    scene: Scene, legs: tuple[Leg, ...], inner: Box, *, alone: bool
) -> tuple[tuple[Group, ...], float]:
    at = looms_picture.layout(scene, legs, inner.right - inner.left)
    return looms_picture.picture(scene, legs, at, inner, inner.bottom - inner.top, alone=alone)


def draw(scene: Scene, sheaf: Sheaf, area: Box) -> tuple[Group, ...]:
    """One sheet of it."""
    inner = inside(area)
    made: tuple[Group, ...] = ()
    top = inner.top
    if sheaf.picture:
        made, high = picture(scene, all_legs(scene), inner, alone=not sheaf.rows)
        top += high + GAP
    return (*made, *(looms_table.table(scene, sheaf.rows, inner, top) if sheaf.rows else ()))
