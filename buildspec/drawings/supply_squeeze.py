"""A page that the layout engine made too high, pressed together: the order in each column stays."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

GAP = 20.0
"""Least distance between two boxes of a column."""


def squeezed(
    columns: Sequence[Mapping[str, float]], heights: Mapping[str, float], room: float
) -> dict[str, float]:
    """Middles of all boxes within a height `room`; as they were where a column cannot be that low.

    `columns`: key → height of the boxes of each column; `heights`: key → middle.
    """
    boxes = [(heights[key], high) for column in columns for key, high in column.items()]
    top = min((y - high / 2 for y, high in boxes), default=0.0)
    bottom = max((y + high / 2 for y, high in boxes), default=0.0)
    if bottom - top <= room or least(columns) > room:
        return dict(heights)
    scale = room / (bottom - top)
    made = dict(heights)
    for column in columns:
        wanted = {key: (heights[key] - top) * scale for key in column}
        made |= apart(column, wanted, room)
    return made


def least(columns: Sequence[Mapping[str, float]]) -> float:
    """The least height of a page with these columns."""
    return max((sum(c.values()) + GAP * (len(c) - 1) for c in columns), default=0.0)


def apart(column: Mapping[str, float], wanted: Mapping[str, float], room: float) -> dict[str, float]:
    """Middles as near as possible to the wanted ones: pushed down from above, then up from below."""
    order = sorted(column, key=lambda key: wanted[key])
    made: dict[str, float] = {}
    edge = 0.0
    for key in order:
        made[key] = max(wanted[key], edge + column[key] / 2)
        edge = made[key] + column[key] / 2 + GAP
    edge = room
    for key in reversed(order):
        made[key] = min(made[key], edge - column[key] / 2)
        edge = made[key] - column[key] / 2 - GAP
    return made
