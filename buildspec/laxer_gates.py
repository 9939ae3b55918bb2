"""Opening times of a fuse that ask for less than those that held before: a later soonest, or a sooner latest opening.

A later soonest opening lets an inrush pass and tells two fuses apart, a sooner latest one clears a short.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from buildspec.calc import opening
from buildspec.calc.opening import Curve
from buildspec.values import maybe, number

Rows = Sequence[Mapping[str, Any]]
BEYOND = 2.0
"""Times the last gate: beyond it both curves run on alike, so one more point tells."""


def curve(rows: Rows) -> Curve:
    """Gates as a practice writes them, ascending by current."""
    gates = [
        opening.Gate(number(r["at"], "ratio"), maybe(r, "min", "time"), maybe(r, "max", "time"), "no")
        for r in rows
    ]
    return tuple(sorted(gates, key=lambda gate: gate.multiple))


def asks_less(family: str, now: Rows, before: Rows | None) -> str:
    """Where and how `now` asks for less than `before`, or the built-in curve of the family; `` where nowhere."""
    new, old = curve(now), curve(before) if before is not None else opening.curve(family)
    multiples = sorted({gate.multiple for gate in (*new, *old)})
    for multiple in (*multiples, multiples[-1] * BEYOND):
        soonest, latest = opening.opening_s(new, multiple=multiple)
        was_soonest, was_latest = opening.opening_s(old, multiple=multiple)
        if later(soonest, was_soonest):
            return words(multiple, "sooner", soonest, was_soonest)
        if latest is not None and (was_latest is None or later(was_latest, latest)):
            return words(multiple, "later", latest, was_latest)
    return ""


def later(a: float | None, b: float | None) -> bool:
    """Is time `a` later than `b`, where None claims nothing?"""
    return a is not None and (b is None or a > b * (1 + 1e-9))


def words(multiple: float, which: str, now_s: float | None, before_s: float | None) -> str:
    was = f"instead of {before_s:.3g} s" if before_s is not None else "where no time held"
    return f"at {multiple * 100:.4g} % it opens no {which} than {now_s:.3g} s {was}"
