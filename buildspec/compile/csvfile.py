"""Rows → CSV as RFC 4180 asks, UTF-8, with cells that a spreadsheet would run made harmless."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Iterable, Sequence

RUN = ("=", "+", "-", "@")
"""A cell that starts with one of these is a formula to a spreadsheet, in wide and small letters too."""
BREAKS = ("\t", "\r", "\n")


def text(rows: Iterable[Sequence[str]]) -> str:
    """CSV with CRLF line ends; such cells get an apostrophe in front."""
    stream = io.StringIO(newline="")
    csv.writer(stream, lineterminator="\r\n").writerows([[harmless(c) for c in row] for row in rows])
    return stream.getvalue()


def harmless(cell: str) -> str:
    return f"'{cell}" if runs(cell) else cell


def runs(cell: str) -> bool:
    """Whether a spreadsheet may take a cell for a formula: spaces and unseen characters in front are no cover."""
    if cell.startswith(BREAKS):
        return True
    seen = next((c for c in cell if not unseen(c)), "")
    return unicodedata.normalize("NFKC", seen).startswith(RUN)


def unseen(letter: str) -> bool:
    """Spaces, control and format characters."""
    return letter.isspace() or unicodedata.category(letter) in ("Cc", "Cf", "Zs")
