"""From checked text to numbers: reading a quantity out of a group of keys that the schema has passed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import quantity

Raw = Mapping[str, Any]


def number(text: str, dimension: str) -> float:
    """Value of `text` in the base unit of `dimension`.

    Raises ValueError for text that the schema should have refused: our bug, not the writer's.
    """
    parsed = quantity.parse(text, dimension)
    if isinstance(parsed, quantity.Fault):
        raise ValueError(parsed.message)
    return parsed.value


def maybe(raw: Raw, key: str, dimension: str) -> float | None:
    """Value of `raw[key]`, or None where the key is not written."""
    return number(raw[key], dimension) if key in raw else None


def signed(raw: Raw, key: str, dimension: str) -> float | None:
    """As `maybe`, for a quantity that may have a minus before it."""
    if key not in raw:
        return None
    parsed = quantity.parse(raw[key], dimension, signed=True)
    if isinstance(parsed, quantity.Fault):
        raise ValueError(parsed.message)
    return parsed.value


def value(raw: Raw, key: str, dimension: str, default: float) -> float:
    """Value of `raw[key]`, or `default` (base unit) where the key is not written."""
    return number(raw[key], dimension) if key in raw else default
