"""Rows → CSV as RFC 4180 asks, UTF-8, with cells that a spreadsheet would run made harmless."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

RUN = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A cell that starts with one of these is a formula to a spreadsheet."""


def text(rows: Iterable[Sequence[str]]) -> str:
    """CSV with CRLF line ends; such cells get an apostrophe in front."""
    stream = io.StringIO(newline="")
    csv.writer(stream, lineterminator="\r\n").writerows([[harmless(c) for c in row] for row in rows])
    return stream.getvalue()


def harmless(cell: str) -> str:
    return f"'{cell}" if cell.startswith(RUN) else cell
