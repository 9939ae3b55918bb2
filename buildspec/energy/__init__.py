"""How long the build may stand parked, what a drive refills, what the alternator has left.

Every result is a `Sum`: a value with its formula and its terms, each with its source, so that a document
can print the whole of it. Currents in A, charge in Ah, times in h or d.
"""

from __future__ import annotations

from typing import NamedTuple

from buildspec.energy.capacity import COLD_C, START_DEPTH, cold_hours, lasting
from buildspec.energy.draws import Draw, battery_behind, draws_on
from buildspec.energy.parked import (
    EVENING,
    MORNING,
    Parked,
    Standing,
    nights,
    parked_on,
    resting_on,
    standing_on,
)
from buildspec.energy.refill import LAST_FIFTH_H
from buildspec.energy.terms import Sum, Term, spelled
from buildspec.model import Resolved

__all__ = (
    "COLD_C",
    "EVENING",
    "LAST_FIFTH_H",
    "MORNING",
    "START_DEPTH",
    "Draw",
    "Energy",
    "Parked",
    "Standing",
    "Sum",
    "Term",
    "battery_behind",
    "cold_hours",
    "draws_on",
    "energy",
    "lasting",
    "nights",
    "spelled",
)


class Energy(NamedTuple):
    """The parked scenario of a build."""

    parked: tuple[Parked, ...]
    standing: tuple[Standing, ...]
    resting: tuple[Standing, ...]
    """House batteries with everything off that has a switch; those that then feed nothing are left out."""


def energy(build: Resolved) -> Energy:
    """The parked scenario: accessories with `hours_per_day`, and standby draws, battery by battery."""
    parked = [parked_on(build, item) for item in build.batteries.values()]
    standing = [
        standing_on(build, item)
        for item in build.batteries.values()
        if item.role == "start" and item.part.battery is not None
    ]
    resting = [resting_on(build, item) for item in build.batteries.values() if item.role != "start"]
    return Energy(
        tuple(p for p in parked if p is not None), tuple(standing), tuple(r for r in resting if r is not None)
    )
