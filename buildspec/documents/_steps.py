"""A step of the work order, to be ticked and initialled."""

from __future__ import annotations

from buildspec.documents import _words as words

HOLD = "HOLD"


def step(text: str, detail: str = "", hold: str = "") -> dict[str, str]:
    return {
        "done": words.TICK,
        "hold": hold or words.NOT_APPLICABLE,
        "step": text,
        "detail": detail or words.NOT_APPLICABLE,
        "initials": words.BLANK,
    }
