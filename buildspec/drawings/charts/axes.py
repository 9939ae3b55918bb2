"""Scales of the charts: a value ↔ its place on the paper, and the ticks at which an axis is labelled."""

from __future__ import annotations

import math
from typing import NamedTuple

STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
"""Distances of ticks that people count in, times a power of ten."""
HOURS = (1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0, 168.0)
"""The same for hours: parts and multiples of a day, then weeks."""
NEAR = 1e-9


class Scale(NamedTuple):
    """`low` stands at `start`, `high` at `end`; `end` may lie before `start`, as heights do."""

    low: float
    high: float
    start: float
    end: float
    log: bool = False


def linear(low: float, high: float, *, start: float, end: float) -> Scale:
    """A scale of equal steps.

    Raises ValueError for a range of nothing.
    """
    if not high > low or start == end:
        raise ValueError(f"no scale from {low:g} to {high:g} on {start:g} to {end:g}")
    return Scale(low, high, start, end)


def logarithmic(low: float, high: float, *, start: float, end: float) -> Scale:
    """A scale of equal ratios.

    Raises ValueError for a range of nothing, or one that reaches zero.
    """
    if low <= 0:
        raise ValueError(f"a logarithmic scale cannot start at {low:g}")
    return linear(low, high, start=start, end=end)._replace(log=True)


def at(scale: Scale, value: float) -> float:
    """Where a value stands; values outside the range lie outside the scale.

    Raises ValueError for a value of zero or less on a logarithmic scale.
    """
    share = (
        math.log(value / scale.low) / math.log(scale.high / scale.low)
        if scale.log
        else (value - scale.low) / (scale.high - scale.low)
    )
    return scale.start + share * (scale.end - scale.start)


def value(scale: Scale, place: float) -> float:
    """What stands at a place: `at`, backwards."""
    share = (place - scale.start) / (scale.end - scale.start)
    if scale.log:
        return float(scale.low * (scale.high / scale.low) ** share)
    return scale.low + share * (scale.high - scale.low)


def holds(scale: Scale, number: float) -> bool:
    """Does a value lie within the range?"""
    room = NEAR * (scale.high - scale.low)
    return scale.low - room <= number <= scale.high + room


def step(span: float, count: int) -> float:
    """The smallest round step that cuts a span into at most `count` pieces.

    Examples
    --------
    >>> step(3500, 7), step(0.9, 6)
    (500.0, 0.2)
    """
    least = span / count
    power = 10.0 ** math.floor(math.log10(least))
    return next(float(f"{s * power:.12g}") for s in STEPS if s * power >= least * (1 - NEAR))


def hour_step(span_h: float, count: int) -> float:
    """The same for hours: what divides a day, then days and weeks."""
    least = span_h / count
    return next((s for s in HOURS if s >= least), 168.0 * math.ceil(least / 168.0))


def ticks(low: float, high: float, by: float) -> tuple[float, ...]:
    """Every multiple of a step within a range."""
    first, last = math.ceil(low / by - NEAR), math.floor(high / by + NEAR)
    return tuple(float(f"{n * by:.12g}") for n in range(first, last + 1))


def decades(low: float, high: float) -> tuple[float, ...]:
    """Every power of ten within a range.

    Examples
    --------
    >>> decades(0.5, 200)
    (1.0, 10.0, 100.0)
    """
    first, last = math.ceil(math.log10(low) - NEAR), math.floor(math.log10(high) + NEAR)
    return tuple(float(f"1e{n}") for n in range(first, last + 1))


def between(low: float, high: float) -> tuple[float, ...]:
    """2 to 9 times every power of ten within a range: the small ticks of a logarithmic axis."""
    first, last = math.floor(math.log10(low)), math.ceil(math.log10(high))
    found = (m * 10.0**n for n in range(first, last + 1) for m in range(2, 10))
    return tuple(v for v in found if low <= v <= high)


def whole_decades(low: float, high: float) -> tuple[float, float]:
    """The powers of ten around a range.

    Examples
    --------
    >>> whole_decades(0.3, 1203)
    (0.1, 10000.0)
    """
    first, last = math.floor(math.log10(low) + NEAR), math.ceil(math.log10(high) - NEAR)
    return float(f"1e{first}"), float(f"1e{max(last, first + 1)}")


def rounded_out(low: float, high: float) -> tuple[float, float]:
    """The range in ends of 1, 2 or 5 times a power of ten.

    Examples
    --------
    >>> rounded_out(0.3, 1203)
    (0.2, 2000.0)
    """
    below = [m * 10.0**n for n in (-1, 0) for m in (1.0, 2.0, 5.0)]
    power_low, power_high = 10.0 ** math.floor(math.log10(low)), 10.0 ** math.floor(math.log10(high))
    first = max(v * power_low for v in (*below, 1.0) if v * power_low <= low * (1 + NEAR))
    last = min(v * power_high for v in (1.0, 2.0, 5.0, 10.0) if v * power_high >= high * (1 - NEAR))
    return float(f"{first:.12g}"), float(f"{last:.12g}")
