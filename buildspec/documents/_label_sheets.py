"""Labels as they are printed: which go where on the paper, at true size. All in mm, type in pt.

Three kinds. A flag goes round a wire and is stuck to itself: both halves carry the text, the part between them goes
round. A wrap goes round a cable and over its own end, with the text on both sides of the cable. Tags are single
labels on a sheet with a grid.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from buildspec.documents import _wires as wires
from buildspec.documents._labels import Label, empty, relays_and_grounds, reserves, tags
from buildspec.documents._owner_heights import MM_PER_PT, PAPERS
from buildspec.drawings.measure import HELD, UNITS
from buildspec.drawings.metrics import text_width, wrapped
from buildspec.errors import UsageError
from buildspec.looms.runs import outside
from buildspec.model import LabelSheet
from buildspec.packet import Packet

TAPES = (9.0, 12.0, 18.0, 24.0)
"""Widths of laminated tape [mm]; common practice, no source."""
SHEETS = {
    "A4": LabelSheet(0.0381, 0.0212, 5, 13, 0.0025, 0.0),
    "Letter": LabelSheet(0.0667, 0.0254, 3, 10, 0.0032, 0.0),
}
"""A common sheet for each paper; common practice, no source."""
WRAP_FROM = 6.0
"""Outside diameter [mm] from which a cable gets a wrap: a flag on it would stand off."""
OVERLAP = 6.0
"""Of a wrap on its own end [mm]."""
LARGEST_TAG, LARGEST, COMFORTABLE, SMALLEST, STEP = 12.0, 7.5, 6.5, 5.0, 0.5
"""Type sizes [pt]: first tried on a tag and on tape, wanted on a tape, never smaller."""
SPACING, ROOM, PAD = 1.2, 1.08, 1.0
"""Height of a line over its size; room on top of the table of widths; free edge [mm]."""
LONGEST = 46.0
"""Half of a flag, at most [mm]."""


class Setting(NamedTuple):
    """Text as it is set."""

    size_pt: float
    lines: tuple[str, ...]
    wide: float
    high: float


class Strip(NamedTuple):
    """A label of tape: fields that carry the text, first and last of a flag or side by side on a wrap."""

    tape: float
    length: float
    fields: tuple[tuple[float, float], ...]
    """(left edge, width) of each field."""
    folds: tuple[float, ...]
    """Where a flag bends, or a wrap begins to overlap."""
    setting: Setting


def setting(text: str, size_pt: float, wide: float, *, inside: bool = False) -> Setting | None:
    """The text in lines of a width; None where a word is wider, unless it may be broken `inside`."""
    text = UNITS.sub(HELD + r"\1", text)
    if not inside and any(width(word, size_pt) > wide for word in text.split(" ")):
        return None
    lines = wrapped(text, width=wide / ROOM / MM_PER_PT, size=size_pt, bold=True)
    high = len(lines) * size_pt * SPACING * MM_PER_PT
    return Setting(size_pt, lines, max(width(line, size_pt) for line in lines), high)


def width(text: str, size_pt: float) -> float:
    """Of a line [mm], room included."""
    return text_width(text, size=size_pt, bold=True) * ROOM * MM_PER_PT


def fitted(
    text: str, wide: float, high: float, *, largest: float = LARGEST, least: float = SMALLEST
) -> Setting | None:
    """As large as it fits a field, its edge taken off; words are broken at the smallest size only."""
    tries = [(largest - n * STEP, False) for n in range(int((largest - least) / STEP) + 1)]
    for size, inside in (*tries, *([(least, True)] if least == SMALLEST else [])):
        found = setting(text, size, wide - 2 * PAD, inside=inside)
        if found is not None and found.high <= high - 2 * PAD:
            return found
    return None


def flag(text: str, diameter: float) -> Strip:
    """On the narrowest tape that takes the text at a comfortable size, no longer than it must be."""
    for least, tapes in ((COMFORTABLE, TAPES), (SMALLEST, TAPES[-1:])):
        for tape in tapes:
            found = fitted(text, LONGEST, tape, least=least)
            if found is not None:
                return flagged(text, tape, found.size_pt, diameter)
    raise too_long(text, LONGEST, TAPES[-1])


def flagged(text: str, tape: float, size_pt: float, diameter: float) -> Strip:
    """The shortest flag on which the text takes as many lines as the tape holds."""
    for half in range(4, int(LONGEST) + 1):
        found = setting(text, size_pt, half - 2 * PAD, inside=half == LONGEST)
        if found is not None and found.high <= tape - 2 * PAD:
            break
    assert found is not None, "the longest flag holds it"
    middle = math.pi * diameter + 1.0
    fields = ((0.0, float(half)), (half + middle, float(half)))
    return Strip(tape, 2 * half + middle, fields, (float(half), half + middle), found)


def wrap(text: str, diameter: float) -> Strip:
    """Round a cable, with the text on both of its sides."""
    around = math.pi * diameter
    for least in (COMFORTABLE, SMALLEST):
        for tape in TAPES:
            found = fitted(text, around / 2, tape, least=least)
            if found is not None:
                fields = ((0.0, around / 2), (around / 2, around / 2))
                return Strip(tape, around + OVERLAP, fields, (around,), found)
    raise too_long(text, around / 2, TAPES[-1])


def tag(text: str, sheet: LabelSheet) -> Setting:
    """On a label of the sheet."""
    wide, high = sheet.width_m * 1000, sheet.height_m * 1000
    found = fitted(text, wide - 2 * PAD, high - PAD, largest=LARGEST_TAG)
    if found is None:
        raise too_long(text, wide, high)
    return found


def too_long(text: str, wide: float, high: float) -> UsageError:
    return UsageError(
        f"label `{text}` does not fit {wide:.1f} mm x {high:.1f} mm at {SMALLEST:g} pt; shorten the names it is "
        "made of, or give a larger label in `label_sheet` of the practice"
    )


def strips(packet: Packet) -> tuple[tuple[Strip, ...], tuple[Strip, ...]]:
    """(flags, wraps), two a wire, in the order of the wires; by tape."""
    flags: list[Strip] = []
    wraps: list[Strip] = []
    for piece in wires.pieces(packet):
        diameter = outside(piece.conductor)[0] * 1000
        for side in (piece.near, piece.far):
            if diameter < WRAP_FROM:
                flags.append(flag(side.label, diameter))
            else:
                wraps.append(wrap(side.label, diameter))
    return tuple(sorted(flags, key=lambda s: s.tape)), tuple(sorted(wraps, key=lambda s: s.tape))


def tagged(packet: Packet) -> tuple[Label, ...]:
    """Labels that go on the sheet, one entry for each that is stuck on."""
    build = packet.sized.build
    found = (*tags(packet), *relays_and_grounds(build), *reserves(build), *empty(build))
    return tuple(label for label in found for _ in range(label.quantity))


def sheet_of(packet: Packet) -> LabelSheet:
    """The practice's sheet, or a common one. Raises UsageError for a sheet that is larger than the paper."""
    practice = packet.sized.build.practice
    sheet = practice.label_sheet or SHEETS[practice.paper]
    paper = PAPERS[practice.paper]
    for size, limit, word in zip(grid(sheet), paper, ("wide", "high"), strict=True):
        if size > limit:
            raise UsageError(
                f"`label_sheet` of the practice is {size:.1f} mm {word}, {practice.paper} is {limit:g} mm; "
                "fewer labels or smaller ones would fit"
            )
    return sheet


def grid(sheet: LabelSheet) -> tuple[float, float]:
    """Width and height of all labels together."""
    return (
        1000 * (sheet.columns * sheet.width_m + (sheet.columns - 1) * sheet.gap_across_m),
        1000 * (sheet.rows * sheet.height_m + (sheet.rows - 1) * sheet.gap_down_m),
    )


def rows_of(found: Sequence[Strip], wide: float, gap: float) -> Iterator[tuple[Strip, ...]]:
    """Strips of one tape side by side, as many as the width takes, in their order."""
    row: list[Strip] = []
    for one in found:
        used = sum(s.length + gap for s in row)
        if row and (used + one.length > wide or one.tape != row[0].tape):
            yield tuple(row)
            row = []
        row.append(one)
    if row:
        yield tuple(row)
