"""What the job weighs and where: the sum, the axle loads, what may still be loaded, the load label.

The lines are those of the bill of materials: items, sheet goods by surface, conductors by length and size,
less what is taken out. Terminals, screws and tape are not in it; a job that weighs them writes them as an item.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from buildspec import fitted
from buildspec.calc import mass as calc
from buildspec.findings import Path
from buildspec.model import Axle, Axles, Carried, Resolved, Sized, Vehicle

SAME_KG = 1e-6
"""Masses closer than this are the same: what is written in pounds is a hair off in kilograms."""


class Line(NamedTuple):
    """One mass at one place."""

    kind: str
    """`item`, `goods`, `conductor`, `removed`."""
    what: str
    place: str
    kg: float | None
    """All of it, below zero where it is taken out; None where nobody states it."""
    at: Path


class Payload(NamedTuple):
    """Gross rating less everything [kg]."""

    gross_kg: float
    kerb_kg: float
    added_kg: float
    people_kg: float
    cargo_kg: float
    left_kg: float


class AxleLoad(NamedTuple):
    """One axle [kg]."""

    name: str
    axle: Axle
    added_kg: float
    people_kg: float
    cargo_kg: float

    @property
    def unladen_kg(self) -> float:
        """After the job, nobody in it."""
        return self.axle.kerb_kg + self.added_kg

    @property
    def laden_kg(self) -> float:
        """With its people and cargo."""
        return self.unladen_kg + self.people_kg + self.cargo_kg


class Label(NamedTuple):
    """The load label of 49 CFR 571.110."""

    limit_kg: float
    added_kg: float
    due: bool
    """More is added than the label forgives."""
    corrected_kg: float | None
    """What the corrected label says for people and cargo; None where the old one is not stated."""


def of_parts(build: Resolved) -> Iterator[Line]:
    """Items and sheet goods."""
    for item in fitted.items(build):
        kg = None if item.part.mass_kg is None else item.part.mass_kg * item.quantity
        count = f"{item.quantity} × " if item.quantity > 1 else ""
        yield Line("item", f"{item.designation} {count}{item.part.title}", item.place, kg, item.at)
    for name, goods in build.accessories.items():
        if goods.part.material is not None:
            surface = (goods.surface_m2 or 0.0) * goods.quantity
            kg = surface * goods.part.material.kg_per_m2 if surface else None
            yield Line("goods", goods.part.title, goods.place, kg, ("accessories", name))


def of_conductors(sized: Sized) -> Iterator[Line]:
    """Half of each conductor at either end, put together by place."""
    found: dict[str, float] = defaultdict(float)
    for circuit in (c for c in sized.build.circuits if not c.existing):
        area_mm2 = sized.sizings[circuit.key].conductor.area_mm2
        for wire in (*circuit.feeds, *circuit.returns):
            kg = calc.conductor_kg(area_mm2=area_mm2, length_m=wire.cut_m)
            for end in (wire.start, wire.end):
                found[end.place] += kg / 2
    for place in (p for p in sized.build.places if p in found):
        yield Line(
            "conductor", "conductors, half of each that ends here", place, found[place], ("places", place)
        )


def lines(sized: Sized) -> tuple[Line, ...]:
    """Everything that the job adds and takes out."""
    out = (Line("removed", r.what, r.place, -r.mass_kg, r.at) for r in sized.build.vehicle.removed)
    return (*of_parts(sized.build), *of_conductors(sized), *out)


def total_kg(found: tuple[Line, ...]) -> float:
    """The sum; what nobody states counts as nothing and is reported by a rule."""
    return sum(line.kg or 0.0 for line in found)


def parts_kg(build: Resolved) -> float:
    """Items and sheet goods alone, as the bill of materials says."""
    return total_kg(tuple(of_parts(build)))


def is_wanted(vehicle: Vehicle) -> bool:
    """Does the spec state anything that a mass is checked against?"""
    return vehicle.gross_kg is not None or vehicle.axles is not None


def kerb_kg(vehicle: Vehicle) -> float | None:
    """Kerb mass as stated, or the sum of its axles."""
    if vehicle.kerb_kg is not None or vehicle.axles is None:
        return vehicle.kerb_kg
    return vehicle.axles.front.kerb_kg + vehicle.axles.rear.kerb_kg


def payload(sized: Sized) -> Payload | None:
    """What may still be loaded; None without gross rating or kerb mass."""
    vehicle = sized.build.vehicle
    kerb = kerb_kg(vehicle)
    if vehicle.gross_kg is None or kerb is None:
        return None
    people, cargo = (sum(c.mass_kg for c in group) for group in (vehicle.occupants, vehicle.cargo))
    added = total_kg(lines(sized))
    left = calc.cargo_left_kg(
        capacity_kg=vehicle.gross_kg - kerb, people_kg=people, cargo_kg=cargo, added_kg=added
    )
    return Payload(vehicle.gross_kg, kerb, added, people, cargo, left)


def without_station(sized: Sized) -> dict[str, float]:
    """Place → mass there [kg], of the places that have mass and no station."""
    build, found = sized.build, defaultdict[str, float](float)
    for line in lines(sized):
        found[line.place] += line.kg or 0.0
    for one in (*build.vehicle.occupants, *build.vehicle.cargo):
        found[one.place] += one.mass_kg
    return {p: kg for p, kg in found.items() if build.places[p].station_m is None}


def axle_loads(sized: Sized) -> tuple[AxleLoad, AxleLoad] | None:
    """Front and rear; None without the axles' data, or while a place that bears mass has no station."""
    vehicle = sized.build.vehicle
    axles = vehicle.axles
    if axles is None or without_station(sized):
        return None
    groups = [
        on_axles(sized.build, axles, masses)
        for masses in (
            [(line.place, line.kg or 0.0) for line in lines(sized)],
            carried(vehicle.occupants),
            carried(vehicle.cargo),
        )
    ]
    front, rear = zip(*groups, strict=True)
    return AxleLoad("front", axles.front, *front), AxleLoad("rear", axles.rear, *rear)


def carried(group: tuple[Carried, ...]) -> list[tuple[str, float]]:
    return [(one.place, one.mass_kg) for one in group]


def on_axles(build: Resolved, axles: Axles, masses: list[tuple[str, float]]) -> tuple[float, float]:
    """(front, rear) of masses at places that have a station."""
    pairs = [
        calc.axle_change_kg(
            mass_kg=kg, station_m=build.places[place].station_m or 0.0, wheelbase_m=axles.wheelbase_m
        )
        for place, kg in masses
    ]
    return sum(front for front, _ in pairs), sum(rear for _, rear in pairs)


def centre_m(sized: Sized) -> float | None:
    """Station of the centre of what the job adds; None where a station is missing or nothing is added."""
    found = lines(sized)
    total = total_kg(found)
    if total <= 0 or any(sized.build.places[line.place].station_m is None for line in found):
        return None
    return sum((line.kg or 0.0) * (sized.build.places[line.place].station_m or 0.0) for line in found) / total


def label(sized: Sized) -> Label | None:
    """The load label; None without a gross rating, or above the ratings that the rule is for."""
    vehicle = sized.build.vehicle
    if vehicle.gross_kg is None or not calc.is_label_law(gross_kg=vehicle.gross_kg):
        return None
    added, limit = total_kg(lines(sized)), calc.label_threshold_kg(gross_kg=vehicle.gross_kg)
    corrected = None if vehicle.placard_kg is None else vehicle.placard_kg - added
    return Label(limit, added, added > limit + SAME_KG, corrected)
