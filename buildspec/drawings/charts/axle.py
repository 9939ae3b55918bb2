"""The figures of the mass charts: what each axle and the whole vehicle bears, step by step, against its limit."""

from __future__ import annotations

from typing import NamedTuple

from buildspec import mass
from buildspec.mass import AxleLoad, Payload
from buildspec.model import Sized


class Bar(NamedTuple):
    """One mass on top of those before it; below zero where it takes weight off an axle [kg]."""

    name: str
    kg: float


class Stack(NamedTuple):
    """An axle, or the whole vehicle."""

    name: str
    bars: tuple[Bar, ...]
    limit_kg: float
    unladen_kg: float

    @property
    def laden_kg(self) -> float:
        return sum(bar.kg for bar in self.bars)

    @property
    def left_kg(self) -> float:
        """To the limit, laden or not, whichever is heavier."""
        return self.limit_kg - max(self.laden_kg, self.unladen_kg)


def stacks(sized: Sized) -> tuple[Stack, ...]:
    """Front axle, rear axle, whole vehicle: those that the spec states enough for."""
    loads, whole = mass.axle_loads(sized), mass.payload(sized)
    return (*(of_axle(load) for load in loads or ()), *((of_vehicle(whole),) if whole is not None else ()))


def of_axle(load: AxleLoad) -> Stack:
    bars = steps(load.axle.kerb_kg, load.added_kg, load.people_kg, load.cargo_kg)
    return Stack(f"{load.name} axle", bars, load.axle.limit_kg, load.unladen_kg)


def of_vehicle(whole: Payload) -> Stack:
    bars = steps(whole.kerb_kg, whole.added_kg, whole.people_kg, whole.cargo_kg)
    return Stack("whole vehicle", bars, whole.gross_kg, whole.kerb_kg + whole.added_kg)


def steps(kerb_kg: float, added_kg: float, people_kg: float, cargo_kg: float) -> tuple[Bar, ...]:
    named = zip(("kerb", "added", "people", "cargo"), (kerb_kg, added_kg, people_kg, cargo_kg), strict=True)
    return tuple(Bar(name, kg) for name, kg in named)
