"""The typeface that everything is printed in, shipped with the program, and which characters it holds.

Source of the layout of a font file: ISO/IEC 14496-22 (OpenType), table `cmap`, format 12.
"""

from __future__ import annotations

import struct
from functools import cache
from pathlib import Path

from buildspec.resources import PACKAGE

FOLDER = PACKAGE / "fonts"
FILES = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf", "DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf")
FULL_UNICODE = (3, 10)
"""Platform and encoding of the subtable that holds all of Unicode."""
LATIN_END = "\u0180"
UNPRINTED = frozenset("\t\n\r\u00ad\u200b\u2060\ufeff\ufe0e\ufe0f")
"""White space, and characters that have no picture of their own."""


def lacks(letter: str) -> bool:
    """Whether the typeface has no picture for a character, so that a box would be printed."""
    return letter >= LATIN_END and letter not in UNPRINTED and ord(letter) not in _held()


@cache
def _held() -> frozenset[int]:
    """Code points that every one of the files holds."""
    return frozenset.intersection(*(code_points(FOLDER / name) for name in FILES))


def code_points(file: Path) -> frozenset[int]:
    """Code points that a font file holds."""
    data = file.read_bytes()
    start = _cmap(data)
    (count,) = struct.unpack_from(">H", data, start + 2)
    tables = (struct.unpack_from(">HHI", data, start + 4 + 8 * n) for n in range(count))
    at = next(start + offset for *platform, offset in tables if tuple(platform) == FULL_UNICODE)
    (groups,) = struct.unpack_from(">I", data, at + 12)
    ranges = (struct.unpack_from(">II", data, at + 16 + 12 * n) for n in range(groups))
    return frozenset(code for first, last in ranges for code in range(first, last + 1))


def _cmap(data: bytes) -> int:
    (count,) = struct.unpack_from(">H", data, 4)
    tables = (struct.unpack_from(">4s4xI", data, 12 + 16 * n) for n in range(count))
    return next(int(offset) for tag, offset in tables if tag == b"cmap")
