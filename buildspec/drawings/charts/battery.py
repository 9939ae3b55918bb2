"""The figures of the battery charts: what is left while it stands, and how fast it comes back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import energy, show
from buildspec.calc import charge
from buildspec.drawings import labels
from buildspec.energy import Parked, Standing, Sum, cut_offs
from buildspec.energy.capacity import COLD_C, chemistry_of
from buildspec.model import Battery, Sized

DAY_H = 24.0
A_SHEET = 2


class Line(NamedTuple):
    """Charge against time, straight at the mean current."""

    name: str
    """For the mark on the paper: `usual`, `cold`, `shore`."""
    words: str
    hours: float
    """From full to the level, or from the level to full."""


class Cut(NamedTuple):
    """What opens by itself before the battery is empty."""

    name: str
    """Its designation."""
    words: str
    left: float
    """Share of the charge that is left when it opens at the mean current."""


class State(NamedTuple):
    """One battery while it stands, or while nothing but standby draws from it."""

    battery: Battery
    kind: str
    """`parked` or `standing`."""
    level: float
    """Share of its charge at which it is to be stopped."""
    usable_ah: float
    lines: tuple[Line, ...]
    refills: tuple[Line, ...]
    cuts: tuple[Cut, ...]
    notes: tuple[str, ...]


def states(sized: Sized) -> tuple[State, ...]:
    """Parked batteries first, then the start battery with everything off."""
    found, batteries = energy.energy(sized.build), sized.build.batteries
    return (
        *(parked(sized, batteries[one.battery], one) for one in found.parked),
        *(standing(batteries[one.battery], one) for one in found.standing),
    )


def leaves(sized: Sized) -> tuple[tuple[State, ...], ...]:
    """The batteries of each sheet."""
    found = states(sized)
    return tuple(found[n : n + A_SHEET] for n in range(0, len(found), A_SHEET))


def parked(sized: Sized, item: Battery, one: Parked) -> State:
    refills, opening = tuple(refilled(sized, one)), tuple(cuts(sized, item))
    return State(
        battery=item,
        kind="parked",
        level=1.0 - term(one.usable, 1),
        usable_ah=one.usable.value,
        lines=tuple(drained(sized, one)),
        refills=refills,
        cuts=tuple(cut for cut, _ in opening if cut is not None),
        notes=tuple(dict.fromkeys([*(note for _, note in opening), *remarks(sized, one)])),
    )


def term(result: Sum, index: int) -> float:
    return result.terms[index].value


def cuts(sized: Sized, item: Battery) -> Iterator[tuple[Cut | None, str]]:
    """Every low-voltage disconnect on the battery: its place on the scale, None where no published row has it."""
    for one in cut_offs.disconnects(sized):
        if one.battery.name != item.name:
            continue
        amps, sag_v = cut_offs.mean_sag_v(sized, one)
        rest_v = (one.trait.opens_v + sag_v) / cut_offs.scale(sized)
        left = charge.charge_at(chemistry_of(item), rest_v=rest_v)
        name = labels.designation(sized.build, one.name)
        opens = f"{name} opens at {show.volts(one.trait.opens_v)}"
        if left is None:
            yield None, f"{opens}, outside the published rest voltages of this chemistry"
        else:
            yield (
                Cut(name, opens, left),
                f"{opens}, with about {show.percent(left)} left at {show.amps(amps)}",
            )


def drained(sized: Sized, one: Parked) -> Iterator[Line]:
    yield Line("usual", "a usual day's use", one.hours.value)
    if one.cold is not None:
        yield Line("cold", f"the same at {COLD_C:g} °C", one.cold.value)
    for name, result in one.alone:
        yield Line(f"alone-{name}", f"{sized.build.accessories[name].designation} alone", result.value)
    for out in one.outside:
        if out.lasts is not None:
            mark = sized.build.supplies[out.supply].designation
            yield Line(f"sun-{out.supply}", f"with {mark} in the sun", out.lasts.value)


def refilled(sized: Sized, one: Parked) -> Iterator[Line]:
    if one.refill is not None:
        yield Line("driving", "driving", one.refill.value)
    for out in one.outside:
        supply = sized.build.supplies[out.supply]
        if out.refill is not None:
            yield Line(out.supply, f"on {supply.type}, {supply.designation}", out.refill.value)


def remarks(sized: Sized, one: Parked) -> Iterator[str]:
    """What a line cannot say."""
    if one.refill_note:
        yield f"refilling: {one.refill_note[:1].lower()}{one.refill_note[1:]}"
    for out in one.outside:
        if out.note and out.refill is None:
            yield f"{sized.build.supplies[out.supply].designation}: {out.note}"
    if one.cold is None:
        yield f"at {COLD_C:g} °C: no published figure for this chemistry"


def standing(item: Battery, one: Standing) -> State:
    depth, capacity = term(one.days, 1), term(one.days, 0)
    lines = (Line("standing", "everything off", one.days.value * DAY_H),)
    return State(item, "standing", 1.0 - depth, capacity * depth, lines, (), (), ())
