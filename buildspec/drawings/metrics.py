"""Text set without a font at hand: widths from a table, so that no installed font moves anything."""

from __future__ import annotations

from functools import lru_cache

from buildspec.drawings.advances import BOLD, REGULAR, WIDEST

FAMILY = "DejaVu Sans, Verdana, sans-serif"


@lru_cache(maxsize=1 << 16)
def text_width(text: str, *, size: float, bold: bool = False) -> float:
    """Width of one line at a type size, in the unit of `size`."""
    table = BOLD if bold else REGULAR
    return size * sum(table.get(letter, WIDEST) for letter in text) / 1000


def wrapped(text: str, *, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width`, broken at spaces, and inside a word only where it is too wide itself.

    No-break spaces hold words together.
    """
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        joined = f"{line} {word}" if line else word
        if text_width(joined, size=size, bold=bold) <= width:
            line = joined
            continue
        lines += [line] if line else []
        *full, line = _pieces(word, width, size, bold)
        lines += full
    return (*lines, line) if line else tuple(lines)


def _pieces(word: str, width: float, size: float, bold: bool) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, size=size, bold=bold) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def fitted(
    text: str, *, width: float, largest: float, smallest: float, bold: bool = False
) -> tuple[float, tuple[str, ...]]:
    """(size, lines): one line as large as fits; below `smallest` it wraps at that size instead."""
    needed = text_width(text, size=1, bold=bold)
    size = min(largest, width / needed) if needed else largest
    if size >= smallest:
        return size, (text,)
    return smallest, wrapped(text, width=width, size=smallest, bold=bold)
