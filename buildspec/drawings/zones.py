"""The grid of a sheet: letters down, numbers across, so that a reference leads to a hand's width of paper.

Fields as on an A4 sheet of ISO 5457 (six across, four down; recalled, not seen): named at the top and at the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from buildspec.drawings.marks import Group, Mark, Page, Point, Stroke, Text
from buildspec.drawings.measure import SMALL
from buildspec.drawings.palette import QUIET
from buildspec.drawings.titleblock import MARGIN

ACROSS = 6
DOWN = "ABCD"
TICK = 14.0
INSET = 18.0
"""From the frame to the names of the fields, which stay on what a printer reaches."""


def zone(at: Point, size: tuple[float, float]) -> str:
    """`B4` for a point of a sheet."""
    (x, y), (width, height) = at, size
    column = int((x - MARGIN) / (width - 2 * MARGIN) * ACROSS)
    row = int((y - MARGIN) / (height - 2 * MARGIN) * len(DOWN))
    return f"{DOWN[max(0, min(row, len(DOWN) - 1))]}{max(0, min(column, ACROSS - 1)) + 1}"


def grid(sheet_id: str, size: tuple[float, float]) -> Group:
    """Names of the fields outside the frame."""
    width, height = size
    across, down = (width - 2 * MARGIN) / ACROSS, (height - 2 * MARGIN) / len(DOWN)
    marks: list[Mark] = []
    for n in range(ACROSS):
        x = MARGIN + across * (n + 0.5)
        marks.append(Text(x, MARGIN - INSET, str(n + 1), anchor="middle", colour=QUIET))
        if n:
            marks.append(Stroke(((x - across / 2, MARGIN - TICK), (x - across / 2, MARGIN)), 2, QUIET))
    right = width - MARGIN
    for n, letter in enumerate(DOWN):
        y = MARGIN + down * (n + 0.5)
        marks.append(Text(right + INSET, y + SMALL * 0.36, letter, anchor="middle", colour=QUIET))
        if n:
            marks.append(Stroke(((right, y - down / 2), (right + TICK, y - down / 2)), 2, QUIET))
    return Group(
        f"{sheet_id}-zones", "zones of the sheet", "letters down, numbers across", tuple(marks), layer=0
    )


def anchors(pages: Iterable[Page]) -> Mapping[str, str]:
    """Anchor → zone, of everything that another sheet refers to."""
    found: dict[str, str] = {}
    for page in pages:
        for group in page.groups:
            if group.anchor:
                found.setdefault(group.anchor, zone(middle(group), (page.width, page.height)))
    return found


def middle(group: Group) -> Point:
    """Where a thing stands: the middle of its body, or its first text."""
    if group.body is not None:
        return (group.body.left + group.body.right) / 2, (group.body.top + group.body.bottom) / 2
    return next((point(mark) for mark in group.marks if isinstance(mark, Text)), (MARGIN, MARGIN))


def point(mark: Text) -> Point:
    return mark.x, mark.y
