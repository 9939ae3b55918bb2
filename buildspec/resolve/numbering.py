"""Designations that never move: kept from the numbering file, continued for what is new.

A number once given stays with its key for good. A key that disappears keeps its line in the file, so
that its number is not given to something else later.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

_PARTS = re.compile(r"^([A-Z]+)([0-9]+)$")


class Numbers:
    """Gives designations in the order in which they are asked for, and remembers them all.

    Keys that start with `circuit ` number circuits; they count apart from the designations of items.
    """

    def __init__(self, kept: Mapping[str, str]) -> None:
        self._given = dict(kept)
        self._last: dict[tuple[bool, str], int] = {}
        for key, designation in kept.items():
            match = _PARTS.match(designation)
            if match:
                series = (key.startswith("circuit "), match[1])
                self._last[series] = max(int(match[2]), self._last.get(series, 0))

    def name(self, key: str, letter: str, width: int = 1) -> str:
        """The designation of `key`: the one it has, or the next one of its letter."""
        if key not in self._given:
            series = (key.startswith("circuit "), letter)
            self._last[series] = self._last.get(series, 0) + 1
            self._given[key] = f"{letter}{self._last[series]:0{width}d}"
        return self._given[key]

    def all(self) -> dict[str, str]:
        """Every key with its designation, removed ones included, ordered for the file."""
        return dict(sorted(self._given.items()))
