"""Type sizes of the sheets, and how text is fitted into them: 8 % room on top of the table of widths.

Lengths are in tenths of a millimetre, as everywhere on the sheets.
"""

from __future__ import annotations

import re

from buildspec.drawings.metrics import text_width

ROOM = 1.08
"""Room for other fonts of the family list and for rounding."""

SMALL = 25.0
"""7.1 pt, the least size that is printed."""
BODY = 28.0
STRONG = 32.0
LARGE = 36.0
TITLE = 42.0
CAP = 0.73
"""Height of a capital as a share of the type size."""
ELLIPSIS = "…"
HELD = "\u00a0"
UNITS = re.compile(r"(?<=\d) ((?:m?[AVW]|Ah|mm²?|m|mΩ|AWG|in|ft|l|kg|%)(?![\w²]))")
"""A number and its unit stay on one line."""


def width(text: str, size: float = SMALL, *, bold: bool = False) -> float:
    """Width that `text` may take, room included."""
    return text_width(text, size=size, bold=bold) * ROOM


def fit(text: str, room: float, size: float = SMALL, *, bold: bool = False) -> str:
    """`text`, shortened with an ellipsis until it is no wider than `room`; `` if not even that fits."""
    if width(text, size, bold=bold) <= room:
        return text
    for end in range(len(text) - 1, -1, -1):
        short = text[:end].rstrip(" ,;·") + ELLIPSIS
        if width(short, size, bold=bold) <= room:
            return short
    return ""


def wrap(
    text: str, room: float, size: float = SMALL, *, bold: bool = False, indent: float = 0.0
) -> tuple[str, ...]:
    """All of `text` in lines no wider than `room`, the first one by `indent` less.

    A word that is too wide by itself is broken.
    """
    made: list[str] = []
    words = [word.replace(HELD, " ") for word in UNITS.sub(HELD + r"\1", text).split(" ") if word]
    while words:
        left = room - (0.0 if made else indent)
        count = 1
        while count < len(words) and width(" ".join(words[: count + 1]), size, bold=bold) <= left:
            count += 1
        line = " ".join(words[:count])
        words = words[count:]
        if width(line, size, bold=bold) > left:
            line, rest = broken(line, left, size, bold=bold)
            words = [rest, *words] if rest else words
        made.append(line)
    return tuple(made)


def broken(word: str, room: float, size: float, *, bold: bool) -> tuple[str, str]:
    """A word in two, the first part no wider than `room` unless it is a single letter."""
    end = len(word)
    while end > 1 and width(word[:end], size, bold=bold) > room:
        end -= 1
    return word[:end], word[end:]


def largest(text: str, room: float, sizes: tuple[float, ...], *, bold: bool = False) -> float:
    """The first of `sizes`, largest first, at which `text` fits, or the last one."""
    return next((size for size in sizes if width(text, size, bold=bold) <= room), sizes[-1])
