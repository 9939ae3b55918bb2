"""QR codes (ISO/IEC 18004) as SVG at true size: level M or better, with their quiet zone."""

from __future__ import annotations

from itertools import groupby
from typing import NamedTuple
from xml.sax.saxutils import escape

import segno

QUIET = 4
"""Modules left white on each side, as ISO/IEC 18004 asks."""
MODULE_MM = 0.5
"""Width of a module: what a telephone reads from a matt print at arm's length."""
INK = "#000"


class Code(NamedTuple):
    """A code that stands in a page, quiet zone included."""

    text: str
    svg: str
    size_mm: float


def code(text: str, *, title: str) -> Code:
    """The code that says `text`; raises segno.DataOverflowError above 2331 bytes."""
    made = segno.make_qr(text, error="m", mode="byte", encoding="utf-8")
    rows = [tuple(row) for row in made.matrix]
    modules = len(rows) + 2 * QUIET
    size_mm = modules * MODULE_MM
    svg = (
        f'<svg class="qr" width="{size_mm:g}mm" height="{size_mm:g}mm" viewBox="0 0 {modules} {modules}" '
        f'role="img" shape-rendering="crispEdges"><title>{escape(title)}</title>'
        f'<rect width="{modules}" height="{modules}" fill="#fff"/>'
        f'<path fill="{INK}" d="{"".join(_runs(rows))}"/></svg>'
    )
    return Code(text, svg, size_mm)


def _runs(rows: list[tuple[int, ...]]) -> list[str]:
    """Dark modules as one box for each run of a row."""
    made = []
    for y, row in enumerate(rows, start=QUIET):
        x = QUIET
        for dark, run in groupby(row):
            length = len(list(run))
            made += [f"M{x} {y}h{length}v1h-{length}z"] if dark else []
            x += length
    return made
