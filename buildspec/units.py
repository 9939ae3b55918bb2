"""The one table of units: what a writer may put after a number, and what it is worth inside.

Inside the program every number is in its dimension's base unit. Factors are exact by definition: SI
Brochure, 9th edition; inch, foot and pound from the international yard and pound agreement of 1959;
pound-force with standard gravity 9.80665 m/s2 (NIST SP 811, appendix B).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Literal, NamedTuple

System = Literal["metric", "imperial", "awg"]

LARGEST_AWG, SMALLEST_AWG = -3, 40
"""4/0 and 40: the range of gauge numbers met in conductors."""


class Unit(NamedTuple):
    """`base = (number + offset) * factor`."""

    factor: Decimal
    offset: Decimal = Decimal(0)
    system: System = "metric"


class Dimension(NamedTuple):
    """What is measured: how a sentence names it, its base unit, how it is shown, how to write it."""

    name: str
    a: str
    base: str
    shown: str
    write: tuple[str, ...]
    units: Mapping[str, Unit]


def _metric(**factors: str) -> dict[str, Unit]:
    return {spelling: Unit(Decimal(factor)) for spelling, factor in factors.items()}


def _imperial(**factors: str) -> dict[str, Unit]:
    return {spelling: Unit(Decimal(factor), system="imperial") for spelling, factor in factors.items()}


def _alike(factor: str, *spellings: str, system: System = "metric") -> dict[str, Unit]:
    return {spelling: Unit(Decimal(factor), system=system) for spelling in spellings}


_CELSIUS = Unit(Decimal(1))
_FAHRENHEIT = Unit(Decimal(5) / Decimal(9), Decimal(-32), "imperial")
_LBF_FT, _LBF_IN, _FT2 = "1.3558179483314004", "0.1129848290276167", "0.09290304"

_ALL = (
    Dimension("current", "a current", "A", "A", ("A",), _metric(A="1", mA="0.001", kA="1000")),
    Dimension("voltage", "a voltage", "V", "V", ("V",), _metric(V="1", mV="0.001")),
    Dimension("power", "a power", "W", "W", ("W",), _metric(W="1", kW="1000")),
    Dimension(
        "resistance",
        "a resistance",
        "ohm",
        "Ω",
        ("ohm",),
        _alike("1", "ohm", "Ω") | _alike("0.001", "mohm", "mΩ"),
    ),
    Dimension(
        "length",
        "a length",
        "m",
        "m",
        ("m", "ft"),
        _metric(m="1", mm="0.001", cm="0.01") | _imperial(ft="0.3048", **{"in": "0.0254"}),
    ),
    Dimension("area", "a conductor cross-section", "mm2", "mm²", ("mm2", "AWG"), _alike("1", "mm2", "mm²")),
    Dimension(
        "surface",
        "a surface area",
        "m2",
        "m²",
        ("m2", "ft2"),
        _alike("1", "m2", "m²") | _alike(_FT2, "ft2", "ft²", system="imperial"),
    ),
    Dimension(
        "mass",
        "a mass",
        "kg",
        "kg",
        ("kg", "lb"),
        _metric(kg="1", g="0.001") | _imperial(lb="0.45359237", oz="0.028349523125"),
    ),
    Dimension(
        "force",
        "a force",
        "N",
        "N",
        ("N",),
        _metric(N="1", kN="1000", daN="10") | _imperial(lbf="4.4482216152605"),
    ),
    Dimension(
        "torque",
        "a torque",
        "N m",
        "N m",
        ("N m", "lbf ft"),
        _alike("1", "N m", "Nm", "N·m") | _imperial(**{"lbf ft": _LBF_FT, "lbf in": _LBF_IN}),
    ),
    Dimension("charge", "a battery capacity", "Ah", "Ah", ("Ah",), _metric(Ah="1", mAh="0.001")),
    Dimension(
        "time", "a time", "s", "s", ("s", "h"), _metric(s="1", ms="0.001", min="60", h="3600", d="86400")
    ),
    Dimension(
        "temperature",
        "a temperature",
        "degC",
        "°C",
        ("°C", "°F"),
        {"°C": _CELSIUS, "degC": _CELSIUS, "°F": _FAHRENHEIT, "degF": _FAHRENHEIT},
    ),
    Dimension("ratio", "a percentage", "1", "%", ("%",), _alike("0.01", "%")),
    Dimension("volume", "a volume", "L", "L", ("L",), _alike("1", "L", "l") | _alike("0.001", "mL", "ml")),
)

DIMENSIONS: Mapping[str, Dimension] = {dimension.name: dimension for dimension in _ALL}

DIMENSION_OF: Mapping[str, str] = {unit: d.name for d in _ALL for unit in d.units} | {"AWG": "area"}
"""Each spelling belongs to one dimension, so a wrong unit can be named for what it is."""

MEANT: Mapping[str, str] = {
    "'": "ft", '"': "in", "''": "in", "foot": "ft", "feet": "ft", "inch": "in", "inches": "in",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "amp": "A", "amps": "A", "ampere": "A",
    "amperes": "A", "volt": "V", "volts": "V", "vdc": "V", "watt": "W", "watts": "W", "ohms": "ohm",
    "lbs": "lb", "pound": "lb", "pounds": "lb", "kgs": "kg", "kilo": "kg", "gram": "g", "grams": "g",
    "ounce": "oz", "ounces": "oz", "newton": "N", "newtons": "N", "n-m": "N m", "n.m": "N m", "n⋅m": "N m",
    "ft-lb": "lbf ft", "ft lb": "lbf ft", "ft-lbs": "lbf ft", "lb-ft": "lbf ft", "lb ft": "lbf ft",
    "ft-lbf": "lbf ft", "ft lbf": "lbf ft", "in-lb": "lbf in", "in lb": "lbf in", "in-lbs": "lbf in",
    "lb-in": "lbf in", "lb in": "lbf in", "in-lbf": "lbf in", "sqmm": "mm2", "sq mm": "mm2", "mm^2": "mm2",
    "mm sq": "mm2", "sq m": "m2", "sqm": "m2", "m^2": "m2", "sq ft": "ft2", "sqft": "ft2", "ft^2": "ft2",
    "amp hours": "Ah", "amp-hours": "Ah", "sec": "s", "secs": "s", "second": "s", "seconds": "s",
    "mins": "min", "minute": "min", "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h",
    "day": "d", "days": "d", "c": "°C", "deg c": "°C", "° c": "°C", "f": "°F", "deg f": "°F", "° f": "°F",
    "percent": "%", "pct": "%", "litre": "L", "litres": "L", "liter": "L", "liters": "L", "cc": "mL",
}  # fmt: skip
"""Spellings people use that are refused with the one to write; keys in lower case."""


def awg_number(text: str) -> int | None:
    """The number of a gauge as it is written: `14`, `0`, `1/0`, `4/0`, `0000`; None when it is not one."""
    if re.fullmatch(r"0{1,4}", text):
        return 1 - len(text)
    if ought := re.fullmatch(r"([1-4])/0", text):
        return 1 - int(ought[1])
    if re.fullmatch(r"[1-9][0-9]?", text) and int(text) <= SMALLEST_AWG:
        return int(text)
    return None


def awg_area_mm2(number: int) -> float:
    """Area in mm2 of a solid round conductor of that gauge; 4/0 is -3, 1/0 is 0.

    Diameter 0.127 mm * 92 ** ((36 - n) / 39): ASTM B258.
    """
    if not LARGEST_AWG <= number <= SMALLEST_AWG:
        raise ValueError(f"no gauge number {number}")
    diameter_mm = 0.127 * 92 ** ((36 - number) / 39)
    return float(math.pi / 4 * diameter_mm**2)
