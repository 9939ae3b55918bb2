"""People, cargo and what is fitted weigh more than the vehicle may carry.

What
----
Kerb mass, what the job adds less what it takes out, the people and the cargo that the spec states stay within
the gross rating. Where the load label's figure is stated, people, cargo and added mass stay within that too.

Why
---
A vehicle that is too heavy before the first tool goes in brakes late and breaks springs; only its maker or an
alterer with a certificate sets the gross rating, new springs do not raise it.

Bad
---
    vehicle: {gross_mass: 3100 kg, kerb_mass: 2900 kg, occupants: [{people: 3, at: cab}]}

Good
----
    vehicle: {gross_mass: 3500 kg, kerb_mass: 2900 kg, occupants: [{people: 3, at: cab}]}

Sources
-------
49 CFR 571.110 S4.3(a): capacity is not above the gross rating less the unladen mass; 68 kg (150 lb) a person.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _weights as weights

SEVERITY = "error"
SOURCES = ("49cfr571-110-s4-3", "49cfr575-6")


def check(sized: Sized) -> Iterator[Finding]:
    found, vehicle = mass.payload(sized), sized.build.vehicle
    if found is None:
        return
    if found.left_kg < -mass.SAME_KG:
        yield over(sized, found, "gross_mass", "gross rating less kerb mass", found.gross_kg - found.kerb_kg)
    elif vehicle.placard_kg is not None and carried(found) > vehicle.placard_kg + mass.SAME_KG:
        yield over(sized, found, "label_capacity", "load label", vehicle.placard_kg)


def carried(found: mass.Payload) -> float:
    return found.added_kg + found.people_kg + found.cargo_kg


def over(sized: Sized, found: mass.Payload, key: str, limit: str, limit_kg: float) -> Finding:
    practice = sized.build.practice
    parts = [("added", found.added_kg), ("people", found.people_kg), ("cargo", found.cargo_kg)]
    terms = " + ".join(f"{weights.shown(kg, practice)} {name}" for name, kg in parts)
    sum_kg = carried(found)
    return Finding(
        ("vehicle", key),
        f"{terms} = {weights.shown(sum_kg, practice, against=limit_kg)}; the {limit} allows "
        f"{weights.shown(limit_kg, practice)}",
        f"take {weights.shown(sum_kg - limit_kg, practice)} out, or a vehicle with a larger rating",
    )
