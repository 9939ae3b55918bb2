"""Units of numbers in a spreadsheet, by practice; the unit itself stands in the head of the column."""

from __future__ import annotations

from typing import NamedTuple

from buildspec import show
from buildspec.model import Practice
from buildspec.worksheets import HUNDREDTHS, TENTHS


class Length(NamedTuple):
    name: str
    metres: float
    """In one of it."""
    form: str


def length(practice: Practice) -> Length:
    """What wire is cut by."""
    metric = practice.units == "metric"
    return Length("m", 1.0, HUNDREDTHS) if metric else Length("in", show.M_PER_IN, TENTHS)


def bought(practice: Practice) -> str:
    """What conductor is sold by."""
    return "m" if practice.units == "metric" else "ft"


class Mass(NamedTuple):
    name: str
    kilograms: float
    """In one of it."""


def mass(practice: Practice) -> Mass:
    return Mass("kg", 1.0) if practice.units == "metric" else Mass("lb", 1 / show.LB_PER_KG)
