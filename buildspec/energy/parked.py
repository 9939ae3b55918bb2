"""The parked scenario: how long a battery lasts, how long the start battery still cranks."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.builtin_sources import SOURCES
from buildspec.calc import battery
from buildspec.energy import capacity, refill
from buildspec.energy.draws import Draw, draws_on, key_off_a, mean_a
from buildspec.energy.terms import Sum, Term
from buildspec.model import Battery, Resolved

EVENING, MORNING = 18, 8
"""A night is parked from one to the other; common practice, no source."""
NIGHT_H = 24 - EVENING + MORNING


class Parked(NamedTuple):
    """A battery that feeds things while the vehicle stands."""

    battery: str
    draws: tuple[Draw, ...]
    usable: Sum
    hours: Sum
    """With everything that a usual day asks for [h]."""
    cold: Sum | None
    """The same at 0 °C; None where no published figure covers the chemistry."""
    alone: tuple[tuple[str, Sum], ...]
    """(accessory, hours) of each one that runs round the clock, with nothing but standby beside it."""
    nights: int
    refill: Sum | None
    refill_note: str
    """Why there is no refill time, or what it leaves out."""
    outside: tuple[refill.Outside, ...]


class Standing(NamedTuple):
    """The start battery with everything off."""

    battery: str
    draws: tuple[Draw, ...]
    days: Sum


def nights(parked_h: float) -> int:
    """Whole nights from an evening, with no drive between them."""
    return 0 if parked_h < NIGHT_H else 1 + int((parked_h - NIGHT_H) // 24)


def parked_on(build: Resolved, item: Battery) -> Parked | None:
    """The parked scenario of one battery; None when nothing on it runs while parked."""
    draws = draws_on(build, item.name)
    if item.part.battery is None or not any(d.hours_per_day > 0 for d in draws):
        return None
    mean = mean_a(build, item)
    whole = capacity.hours(item, mean)
    back, note = refill.refilling(build, item, mean)
    return Parked(
        battery=item.name,
        draws=draws,
        usable=capacity.usable(item),
        hours=whole,
        cold=capacity.cold_hours(item, whole),
        alone=alone(build, item, draws),
        nights=nights(whole.value),
        refill=back,
        refill_note=note,
        outside=refill.outside(build, item, mean),
    )


def alone(build: Resolved, item: Battery, draws: tuple[Draw, ...]) -> tuple[tuple[str, Sum], ...]:
    """Hours with one round-the-clock accessory and the others on standby."""
    found = []
    for draw in (d for d in draws if d.hours_per_day >= 24):
        rest = sum(d.standby_a for d in draws if d is not draw) + key_off_a(build, item)
        found.append((draw.item, capacity.hours(item, draw.mean_a + rest)))
    return tuple(found)


def standing_on(build: Resolved, item: Battery) -> Standing:
    """Days until a start battery with everything off can no longer crank."""
    draws = tuple(d for d in draws_on(build, item.name) if d.standby_a > 0)
    added = sum(d.standby_a for d in draws)
    held, depth, own = capacity.capacity_term(item), capacity.depth_term(item), key_off_term(build)
    terms = (held, depth, own, Term("standby of what was added", added, "A", "sum of what draws", "computed"))
    value = battery.days_standing(capacity_ah=held.value, depth=depth.value, current_a=own.value + added)
    return Standing(
        item.name, draws, Sum(value, "d", "capacity × share / (draws × 24 h)", terms, "arithmetic")
    )


def resting_on(build: Resolved, item: Battery) -> Standing | None:
    """Days until a house battery with everything off is at its allowed depth; None where nothing draws on."""
    draws = tuple(d for d in draws_on(build, item.name) if d.standby_a > 0)
    added = sum(d.standby_a for d in draws)
    if item.part.battery is None or added <= 0:
        return None
    held, depth = capacity.capacity_term(item), capacity.depth_term(item)
    terms = (held, depth, Term("standby of what hangs on it", added, "A", "sum of what draws", "computed"))
    value = battery.days_standing(capacity_ah=held.value, depth=depth.value, current_a=added)
    return Standing(
        item.name, draws, Sum(value, "d", "capacity × share / (draws × 24 h)", terms, "arithmetic")
    )


def key_off_term(build: Resolved) -> Term:
    """What the vehicle itself draws: as measured or stated, else as the practice has it, a default to override."""
    what, stated = "drawn by the vehicle itself with the key off", build.vehicle.own_a.get("off")
    if stated is not None:
        return Term(what, stated, "A", build.vehicle.own_source or "as written in the spec", "spec")
    source = build.practice.sources.get("key_off_current", "")
    mark = "memory" if source == SOURCES["key_off_current"] else "spec"
    return Term(what, build.practice.key_off_a, "A", source, mark)
