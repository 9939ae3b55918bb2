"""Heights of a ladder: what each row needs above and below its conductor, and whether sections fit on one sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from buildspec.drawings import branch_rows, ladder_notes, load_words, strands
from buildspec.drawings.ladder_columns import INFO, Right, balanced, left_width, right_widths
from buildspec.drawings.ladder_source import info_height, signal_lines
from buildspec.drawings.marks import Box
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import ASCENT, LEADING, Scene
from buildspec.model import Circuit

UP, DOWN = 46.0, 42.0
"""Above a conductor: its tag or a device's designation; below it: colour and length, or a rating."""


MOST_ROW = 175.0


ROW_EDGE = 8.0
"""Clear between the words of two rows."""


SECTION_GAP = 60.0


HEAD = 60.0
"""Above the rows of a section that has a heading of its own."""


class Row(NamedTuple):
    """Height above and below a conductor."""

    up: float
    down: float

    @property
    def height(self) -> float:
        return self.up + self.down


class Heights(NamedTuple):
    """A sheet measured: its right columns, its rows, its notes."""

    right: Right
    rows: tuple[tuple[Row, ...], ...]
    """Of each section."""
    sections: tuple[float, ...]
    """Height of each section without its note."""
    notes: tuple[tuple[str, ...], ...]
    """Of each section."""
    grounds: tuple[str, ...]
    """Where the grounds are, when that does not stand beside each."""
    total: float
    short: bool


def measured(scene: Scene, sections: Sequence[Section], area: Box) -> Heights:
    """The sheet with everything beside its symbol; where that is too high, with the grounds in a note."""
    whole = heights(scene, sections, area, short=False)
    if whole.total <= area.bottom - area.top:
        return grown(scene, sections, area, whole)
    return grown(scene, sections, area, heights(scene, sections, area, short=True))


def heights(scene: Scene, sections: Sequence[Section], area: Box, *, short: bool) -> Heights:
    circuits = [c for s in sections for c in s.rows]
    across = area.right - area.left
    room = across - INFO - max([0.0, *(left_width(scene, s) for s in sections)])
    inline = [c for c in circuits if c.kind != "branch"]
    right = balanced(right_widths(scene, inline, short=short), room)
    rows = tuple(
        tuple(
            Row(*branch_rows.need(scene, c, area))
            if c.kind == "branch"
            else need(scene, s, c, right, short=short)
            for c in s.rows
        )
        for s in sections
    )
    notes = tuple(ladder_notes.positions(scene.sized.build, s, across) for s in sections)
    grounds = ladder_notes.grounds(scene, circuits, across) if short else ()
    return summed(scene, sections, Heights(right, rows, (), notes, grounds, 0, short))


def summed(scene: Scene, sections: Sequence[Section], found: Heights) -> Heights:
    """With the height of each section, never less than the words at its left need, and of the whole."""
    each = tuple(
        max(sum(r.height for r in rows), info_height(scene, s) if s.kind == "host" else 0.0)
        for s, rows in zip(sections, found.rows, strict=True)
    )
    heads = sum(HEAD for s in sections if s.kind != "host")
    notes = sum(ladder_notes.height(lines) for lines in (*found.notes, found.grounds))
    total = sum(each) + notes + heads + SECTION_GAP * (len(sections) - 1)
    return found._replace(sections=each, total=total)


def grown(scene: Scene, sections: Sequence[Section], area: Box, found: Heights) -> Heights:
    """Rows spread out over the height that is left, as far as they should be."""
    count = sum(len(rows) for rows in found.rows)
    spare = area.bottom - area.top - found.total
    if spare <= 0 or not count:
        return found
    each = spare / count
    rows = tuple(tuple(spread(row, each) for row in rows) for rows in found.rows)
    made = summed(scene, sections, found._replace(rows=rows))
    return made if made.total <= area.bottom - area.top else found


def spread(row: Row, by: float) -> Row:
    by = max(0.0, min(by, MOST_ROW - row.height))
    return Row(row.up + by / 2, row.down + by / 2)


def need(scene: Scene, section: Section, circuit: Circuit, right: Right, *, short: bool) -> Row:
    """What one row needs at the least."""
    ups, downs = [UP], [DOWN]
    if circuit.kind == "feeder":
        head, below = load_words.flag_words(scene, circuit)
        wide = min(right.load - strands.PAD, load_words.flag_width(scene, circuit))
        half = load_words.flag_height(head, below, wide) / 2 + ROW_EDGE / 2
        ups.append(half)
        downs.append(half)
    elif circuit.kind != "module":
        above, under = load_words.beside(scene, circuit, right.load)
        over, low = strands.clear(scene, circuit)
        ups.append(over + ASCENT + LEADING * (len(above) - 1) + ROW_EDGE)
        downs.append(lines_below(low, under))
    downs.append(lines_below(8, load_words.ground_lines(scene, circuit, right.ground, short=short)))
    downs += [strands.contact_depth(scene, c) + ROW_EDGE for c in circuit.contacts]
    if section.kind == "signals":
        half = len(signal_lines(scene, circuit)) * LEADING / 2 + ROW_EDGE
        ups.append(half)
        downs.append(half)
    return Row(max(ups), max(downs))


def lines_below(start: float, lines: Sequence[str]) -> float:
    return start + ASCENT + LEADING * (len(lines) - 1) + ROW_EDGE + 3 if lines else 0.0


def levels(rows: Iterable[Row], top: float) -> list[float]:
    """Height of each conductor."""
    made: list[float] = []
    for row in rows:
        made.append(top + row.up)
        top += row.height
    return made


def fits(scene: Scene, sections: Sequence[Section], area: Box) -> bool:
    """Is there room for these sections on one sheet?"""
    inner = inside(area)
    return heights(scene, sections, inner, short=True).total <= inner.bottom - inner.top or (
        heights(scene, sections, inner, short=False).total <= inner.bottom - inner.top
    )


def inside(area: Box) -> Box:
    return Box(area.left + 30, area.top + 16, area.right - 24, area.bottom - 20)
