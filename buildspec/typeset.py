"""What holds together at the end of a line: numbers with their units, short names with the word before them."""

from __future__ import annotations

import re
from typing import Any

HELD, NARROW = "\u00a0", "\u202f"
_UNIT = re.compile(
    r"(?<=\d) (?=(?:A|V|W|Ah|mA|h|min|s|d|kg|lb|lbf|km|m|mm|in|ft|pt|N|mi|mph"
    r"|°C|°F|%|PM|AM|[ap]\. ?m\.|miles|millas)(?!\w))"
)
_LAST = re.compile(r"(?<=[^\W_.]) (?=(?:\d{1,2}|[A-Z0-9]{1,2})(?![\w'’\-.]\w))")
_NUMBERED = re.compile(r"\b(n\.º|N\.º|no\.|No\.|Nr\.|n°|N°) (?=\d)")
_FRENCH = re.compile(r"[ \u00a0\u202f](?=[:;!?»])|(?<=«)[ \u00a0\u202f]")


def held(text: str, lang: str) -> str:
    """The text with no-break spaces where a line must not end; French gets its narrow ones before `: ; ! ?`."""
    text = _NUMBERED.sub(rf"\1{HELD}", _UNIT.sub(HELD, text))
    text = _LAST.sub(HELD, text)
    return _FRENCH.sub(NARROW, text) if lang.startswith("fr") else text


def held_view(value: Any, lang: str) -> Any:
    """The same for every text of a view."""
    if type(value) is str:
        return held(value, lang)
    if isinstance(value, dict):
        return {key: one if key in KEPT else held_view(one, lang) for key, one in value.items()}
    if type(value) in (list, tuple):
        return type(value)(held_view(one, lang) for one in value)
    return value


KEPT = ("picture", "id", "use", "swatch", "address", "contact")
"""What is no running text."""
