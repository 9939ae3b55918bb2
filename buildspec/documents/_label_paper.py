"""Label sheets as pages: rows of tape labels with their folds, then tags on the grid of a label sheet. In mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple
from xml.sax.saxutils import escape

from buildspec.documents._label_sheets import (
    SPACING,
    Setting,
    Strip,
    grid,
    rows_of,
    sheet_of,
    strips,
    tag,
    tagged,
)
from buildspec.documents._owner_heights import MM_PER_PT, PAPERS
from buildspec.drawings.metrics import FAMILY
from buildspec.drawings.palette import INK, RULE
from buildspec.model import LabelSheet
from buildspec.packet import Packet

MARGIN, HEAD, FOOT, GAP, SUBHEAD = 10.0, 14.0, 12.0, 1.5, 7.0
HEADING_MM = 2.6
BASELINE = 0.36
"""From the middle of a line down to where its letters stand, over the type size."""
NEEDS_HEAD = 9.0
"""A label sheet with less paper above its labels carries no heading."""
STRIPS = "Wire labels at true size"
FLAGS = "Flags for wires, tape {tape:g} mm wide: fold at the dashed lines round the wire, stick the halves together"
WRAPS = "Wraps for cables from 6 mm, tape {tape:g} mm wide: round the cable, the blank end over the beginning"
TAGS = "Tags: sheet of {columns} × {rows} labels of {width:g} mm × {height:g} mm"


class Page(NamedTuple):
    """One page: a heading, or ``, and everything that is drawn on it."""

    heading: str
    svg: str
    cut: bool
    """It is cut out of plain paper or film."""


class Band(NamedTuple):
    """A stripe across a page: words over what follows, or a row of labels."""

    height: float
    words: str
    row: tuple[Strip, ...]


def pages(packet: Packet) -> tuple[Page, ...]:
    """Flags, wraps, tags. Raises UsageError for a text that fits no label, or a sheet larger than the paper."""
    paper = PAPERS[packet.sized.build.practice.paper]
    flags, wraps = strips(packet)
    wide = paper[0] - 2 * MARGIN
    made = [
        strip_page(b, paper) for b in filled([*bands(flags, FLAGS, wide), *bands(wraps, WRAPS, wide)], paper)
    ]
    return (*made, *tag_pages([label.text for label in tagged(packet)], sheet_of(packet), paper))


def bands(found: Sequence[Strip], words: str, wide: float) -> Iterator[Band]:
    """A heading for each width of tape, then its rows."""
    for tape, same in groupby(found, key=lambda s: s.tape):
        yield Band(SUBHEAD, words.format(tape=tape), ())
        yield from (Band(tape + GAP, "", row) for row in rows_of(tuple(same), wide, GAP))


def filled(found: Sequence[Band], paper: tuple[float, float]) -> Iterator[list[Band]]:
    """Bands page by page; a heading stays with the row that follows it."""
    room = paper[1] - HEAD - FOOT
    page: list[Band] = []
    for n, band in enumerate(found):
        needed = band.height + (found[n + 1].height if band.words else 0.0)
        if page and sum(b.height for b in page) + needed > room:
            yield page
            page = []
        page.append(band)
    if page:
        yield page


def strip_page(found: Sequence[Band], paper: tuple[float, float]) -> Page:
    drawn: list[str] = []
    top = HEAD
    for band in found:
        if band.words:
            drawn.append(
                f'<text x="{MARGIN:g}" y="{top + 5:.2f}" font-size="{HEADING_MM}">{escape(band.words)}</text>'
            )
        drawn += row_marks(band.row, top)
        top += band.height
    return Page(STRIPS, svg(drawn, paper), True)


def row_marks(row: Sequence[Strip], top: float) -> Iterator[str]:
    left = MARGIN
    for strip in row:
        yield outline(left, top, strip.length, strip.tape, INK)
        for fold in strip.folds:
            yield (
                f'<path d="M{left + fold:.2f} {top:.2f}v{strip.tape:g}" stroke="{INK}" stroke-width="0.1" '
                'stroke-dasharray="0.8 0.8"/>'
            )
        for start, wide in strip.fields:
            yield text(strip.setting, left + start + wide / 2, top + strip.tape / 2)
        left += strip.length + GAP


def tag_pages(texts: Sequence[str], sheet: LabelSheet, paper: tuple[float, float]) -> Iterator[Page]:
    """Tags in reading order on the grid of the sheet."""
    across, down = grid(sheet)
    left, top = (paper[0] - across) / 2, (paper[1] - down) / 2
    wide, high = sheet.width_m * 1000, sheet.height_m * 1000
    step = wide + sheet.gap_across_m * 1000, high + sheet.gap_down_m * 1000
    heading = TAGS.format(columns=sheet.columns, rows=sheet.rows, width=wide, height=high)
    per_page = sheet.columns * sheet.rows
    for start in range(0, len(texts), per_page):
        drawn = []
        for n, words in enumerate(texts[start : start + per_page]):
            x, y = left + n % sheet.columns * step[0], top + n // sheet.columns * step[1]
            drawn += [outline(x, y, wide, high, RULE), text(tag(words, sheet), x + wide / 2, y + high / 2)]
        yield Page(heading if top >= NEEDS_HEAD else "", svg(drawn, paper), False)


def outline(left: float, top: float, wide: float, high: float, ink: str) -> str:
    return (
        f'<rect x="{left:.2f}" y="{top:.2f}" width="{wide:.2f}" height="{high:.2f}" fill="none" '
        f'stroke="{ink}" stroke-width="0.1"/>'
    )


def text(found: Setting, middle: float, centre: float) -> str:
    """Lines in the middle of their field."""
    size = found.size_pt * MM_PER_PT
    first = centre - (len(found.lines) - 1) / 2 * size * SPACING + BASELINE * size
    lines = "".join(
        f'<tspan x="{middle:.2f}" y="{first + n * size * SPACING:.2f}">{escape(line)}</tspan>'
        for n, line in enumerate(found.lines)
    )
    return f'<text font-size="{size:.3f}" font-weight="bold" text-anchor="middle" fill="{INK}">{lines}</text>'


def svg(drawn: Sequence[str], paper: tuple[float, float]) -> str:
    wide, high = paper
    body = "\n".join(drawn)
    return (
        f'<svg width="{wide:g}mm" height="{high:g}mm" viewBox="0 0 {wide:g} {high:g}" role="img" '
        f'font-family="{FAMILY}"><title>Labels at true size</title>\n{body}\n</svg>'
    )
