"""Colours and line widths, all in one place.

Text colours keep 4.5 : 1 against every ground they stand on (WCAG 2.1, 1.4.3), symbols and edges of
wires 3 : 1 (1.4.11). A wire is never told by its colour alone: its letters stand beside it.
"""

from __future__ import annotations

import math

INK = "#1c2128"
QUIET = "#57606a"
PAPER = "#ffffff"
BAND = "#f2f4f5"
BAND_INNER = "#e7ebee"
RULE = "#b6bec6"

WIRES = {
    "BK": "#24272b", "BN": "#7a4a21", "RD": "#c8102e", "OG": "#ea7a10", "YE": "#f5c400", "GN": "#1f8a3b",
    "BU": "#1f5fbf", "VT": "#7a3fa0", "GY": "#8c939a", "WH": "#ffffff", "PK": "#ef8fb0", "TQ": "#21b5b0",
}  # fmt: skip
"""IEC 60757 letters → colour on screen and paper."""

FUSES = {
    "black": "#24272b", "grey": "#8c939a", "violet": "#7a3fa0", "pink": "#ef8fb0", "tan": "#cfa671", "brown": "#7a4a21",
    "red": "#c8102e", "blue": "#1f5fbf", "yellow": "#f5c400", "clear": "#ffffff", "natural": "#ffffff",
    "white": "#ffffff",
    "green": "#1f8a3b", "blue-green": "#21b5b0", "orange": "#ea7a10", "dark blue": "#16337a", "light blue": "#7db7e8",
}  # fmt: skip
"""Colour of a fuse in words → its chip; the word stands beside it."""

LINE = 3.0
HEAVY = 5.0
EDGE = 1.6
"""Dark edge on each side of a wire."""


def wire_colours(letters: str) -> tuple[str, str]:
    """Ground colour and tracer colour (`` for none) of a wire."""
    pairs = [letters[n : n + 2] for n in range(0, len(letters), 2)]
    found = [WIRES.get(pair, WIRES["GY"]) for pair in pairs] or [WIRES["GY"]]
    return found[0], found[1] if len(found) > 1 else ""


def wire_width(area_mm2: float | None) -> float:
    """Drawn width: grows with the square root of the section, 0.7 mm at 1 mm², 2.2 mm at 120 mm²."""
    return 5.5 + 1.55 * math.sqrt(min(area_mm2 or 1.0, 150.0))


THIN = 5.0
"""Drawn width of signals and coil circuits."""
