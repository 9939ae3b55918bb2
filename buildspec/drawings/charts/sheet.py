"""One chart sheet: the frame of the drawings around what a chart draws."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec.drawings import titleblock
from buildspec.drawings.marks import Box, Group, Page
from buildspec.drawings.svg import distinct
from buildspec.model import Resolved

LETTER = "C"


def size(build: Resolved) -> tuple[float, float]:
    return titleblock.PAPERS.get(build.practice.paper, titleblock.PAPERS["A4"])


def area(build: Resolved) -> Box:
    """Where charts may stand."""
    return titleblock.area(*size(build))


def page(
    build: Resolved, *, slug: str, title: str, desc: str, number: int, count: int, groups: Sequence[Group]
) -> Page:
    """A sheet with its frame, heading and title block."""
    name = f"c{number}-{slug}"
    frame = titleblock.frame(
        build,
        sheet_id=name,
        kind="Chart",
        title=title,
        number=number,
        count=count,
        size=size(build),
        letter=LETTER,
    )
    wide, high = size(build)
    return Page(name, number, title, desc, wide, high, tuple(distinct((*frame, *groups))))
