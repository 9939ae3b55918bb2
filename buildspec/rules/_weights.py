"""Masses in messages: in the practice's unit with the other beside it, never rounded onto their limit."""

from __future__ import annotations

from buildspec import quantity
from buildspec.model import Practice

DIGITS = 4


def shown(kg: float, practice: Practice, *, against: float | None = None) -> str:
    """`43.09 kg (95 lb)`, or the other way round."""
    first, second = ("kg", "lb") if practice.units != "imperial" else ("lb", "kg")
    one, other = (
        quantity.show(kg, "mass", unit=unit, digits=DIGITS, against=against) for unit in (first, second)
    )
    return f"{one} ({other})"
