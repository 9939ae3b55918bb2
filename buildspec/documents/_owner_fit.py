"""Two sides and no more: type size and columns, chosen from text widths alone; nothing is ever left out. In mm."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, NamedTuple, TypeVar

from buildspec.documents._owner_heights import (
    FOOT,
    MARGIN,
    MM_PER_PT,
    PAPERS,
    SWATCH_MM,
    Sheet,
    first_side,
    fuse_widths,
    second_side,
)
from buildspec.drawings.metrics import text_width

LARGEST, SMALLEST, STEP = 11.0, 7.0, 0.25
"""Type sizes [pt]; nothing is set smaller than the least, which a reader at arm's length still makes out."""
EASY = 8.5
"""Down to here four keys stand in a row; below, as many as fit."""
ROOMY = 8.0
"""Where the first side would be set smaller, it goes without the small panel: the second side has it large."""
COLUMNS = (4, 5, 6, 8)
T = TypeVar("T")


class Fit(NamedTuple):
    """What was chosen for the two sides."""

    first_pt: float
    second_pt: float
    columns: int
    nth_em: float
    tag_em: float
    rating_em: float
    """Widths of the parts of a fuse over the type size."""
    strip: bool
    """Does the first side show the small panel?"""
    long: bool
    """Even the least size takes more than two sides: the page then has more, and says so."""

    @property
    def check_mm(self) -> float:
        """Width of a fuse with all its parts."""
        parts = self.nth_em + self.tag_em + self.rating_em
        return round(parts * self.first_pt * MM_PER_PT + SWATCH_MM, 2)


def room(paper: str) -> tuple[float, float]:
    """Width and height inside the margins, footer taken off."""
    width, height = PAPERS[paper]
    return width - 2 * MARGIN, height - 2 * MARGIN - FOOT


def fit(view: dict[str, Any], paper: str) -> Fit:
    """The largest sizes at which each side holds all that belongs on it."""
    wide, high = room(paper)
    nth, tag, rating = fuse_widths(view)

    def sheet(size: float) -> Sheet:
        return Sheet(wide, size, nth + tag + rating)

    with_strip = largest(sizes(), lambda size: first_side(view, sheet(size)) <= high)
    strip = with_strip is not None and with_strip >= ROOMY
    bare = {**view, "panels": ()}
    first = with_strip if strip else largest(sizes(), lambda size: first_side(bare, sheet(size)) <= high)
    second = largest(tries(view, wide), lambda one: second_side(view, sheet(one[0]), one[1]) <= high)
    size, columns = second or (EASY, COLUMNS[0])
    long = first is None or second is None
    return Fit(first or EASY, size, columns, nth, tag, rating, strip, long)


def largest(found: Iterator[T], holds: Callable[[T], bool]) -> T | None:
    return next((one for one in found if holds(one)), None)


def sizes() -> Iterator[float]:
    count = round((LARGEST - SMALLEST) / STEP)
    return (LARGEST - n * STEP for n in range(count + 1))


def tries(view: dict[str, Any], wide: float) -> Iterator[tuple[float, int]]:
    """Sizes with the keys in a row at which no word on a key breaks, from the most comfortable down."""
    for size in sizes():
        for columns in COLUMNS if size <= EASY + STEP else COLUMNS[:1]:
            if columns == COLUMNS[0] or whole(view, wide, size, columns):
                yield size, columns


def whole(view: dict[str, Any], wide: float, size: float, columns: int) -> bool:
    """Does every word on a key fit its cell?"""
    cell = (wide - 2.2 * (columns - 1)) / columns - 18
    words = [word for panel in view["panels"] for key in panel["keys"] for word in key["name"].split(" ")]
    return all(text_width(w, size=size * 1.05, bold=True) * MM_PER_PT <= cell for w in words)
