"""What a drawn sheet is checked for: crossings, and whatever lies on something else."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from buildspec.drawings.marks import Box, Group, Line, Mark, Page, Stroke, Text
from buildspec.drawings.measure import ROOM, SMALL, width
from buildspec.drawings.palette import EDGE, PAPER, QUIET
from buildspec.drawings.titleblock import MARGIN
from buildspec.packet import DrawingChecks

CONNECTIONS = 1
"""Layer of conductors, and of connections that are no conductor of their own."""
TOUCH = 1.0
"""Shared edges are no overlap [tenths of a millimetre]."""
END = 7.0
"""As far as a conductor reaches into the symbol that it ends at."""
BELOW = 34.0
"""From the frame to the line that tells of the checks."""


def checked(page: Page) -> DrawingChecks:
    """The counts of one sheet."""
    pieces = tuple(connections(page))
    texts = tuple(text_box(mark) for group in page.groups for mark in group.marks if isinstance(mark, Text))
    bodies = tuple(group.body for group in page.groups if group.body is not None)
    return DrawingChecks(
        crossings=sum(crosses(a, b) for a, b in combinations(pieces, 2)),
        texts_on_texts=sum(overlap(a, b, TOUCH) for a, b in combinations(texts, 2)),
        lines_through_texts=sum(overlap(box, text, TOUCH) for _, box, _ in pieces for text in texts),
        lines_through_things=sum(overlap(box, body, END) for _, box, _ in pieces for body in bodies),
    )


def connections(page: Page) -> Iterator[tuple[str, Box, bool]]:
    """(group, box, level) of every straight piece of every connection."""
    for group in page.groups:
        if group.layer == CONNECTIONS:
            for mark in group.marks:
                yield from ((group.id, box, level) for box, level in straight(mark))


def straight(mark: Mark) -> Iterator[tuple[Box, bool]]:
    if not isinstance(mark, (Line, Stroke)) or (isinstance(mark, Stroke) and mark.colour == PAPER):
        return
    half = mark.width / 2 + (EDGE if isinstance(mark, Line) else 0.0)
    for (x0, y0), (x1, y1) in pairwise(mark.points):
        level = abs(y1 - y0) < abs(x1 - x0)
        wide, high = (0.0, half) if level else (half, 0.0)
        yield Box(min(x0, x1) - wide, min(y0, y1) - high, max(x0, x1) + wide, max(y0, y1) + high), level


def crosses(a: tuple[str, Box, bool], b: tuple[str, Box, bool]) -> bool:
    """Do two pieces of different groups cross, each passing right through the other?"""
    if a[0] == b[0] or a[2] == b[2]:
        return False
    level, upright = (a[1], b[1]) if a[2] else (b[1], a[1])
    x, y = (upright.left + upright.right) / 2, (level.top + level.bottom) / 2
    return level.left + END < x < level.right - END and upright.top + END < y < upright.bottom - END


def text_box(mark: Text) -> Box:
    """Where a text stands by the table of widths."""
    wide = width(mark.text, mark.size, bold=mark.bold) / ROOM
    left = mark.x - {"start": 0.0, "middle": wide / 2, "end": wide}[mark.anchor]
    return Box(left, mark.y - mark.size * 0.74, left + wide, mark.y + mark.size * 0.2)


def overlap(a: Box, b: Box, by: float) -> bool:
    return a.left < b.right - by and b.left < a.right - by and a.top < b.bottom - by and b.top < a.bottom - by


def line(page: Page, found: DrawingChecks) -> Group:
    """The counts in words, under the frame."""
    faults = found.texts_on_texts + found.lines_through_texts + found.lines_through_things
    crossings = f"{found.crossings} crossing{'' if found.crossings == 1 else 's'}"
    words = f"checked as drawn: {crossings}, {faults or 'no'} overlap{'' if faults == 1 else 's'}"
    text = Text(page.width - MARGIN, page.height - MARGIN + BELOW, words, SMALL, anchor="end", colour=QUIET)
    return Group(f"{page.id}-checks", "checks of this sheet", words, (text,), layer=3)
