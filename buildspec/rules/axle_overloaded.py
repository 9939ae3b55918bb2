"""An axle carries more than it may, or is unloaded so far that it lifts.

What
----
Kerb load of each axle, plus its share of everything added, of people and of cargo, stays within its limit; and
no axle is left with nothing. Each mass stands at the station of its place: the rear axle takes m × x ÷ wheelbase,
the front axle the rest, so that what sits behind the rear axle unloads the front.

Why
---
A vehicle can be within its gross rating with one axle over. A drawer unit, a full fridge and a rack at the tail
take the rear springs and tyres over their limit and the steering off the road.

Bad
---
    vehicle: {axles: {wheelbase: 3.2 m, front: {limit: 1500 kg, kerb: 1150 kg}, rear: {limit: 1300 kg, kerb: 950 kg}},
              cargo: [{what: pumps, mass: 400 kg, at: tail}]}
    places: {tail: {environment: outside, station: 3.9 m}}

Good
----
    vehicle: {axles: {wheelbase: 3.2 m, front: {limit: 1500 kg, kerb: 1150 kg}, rear: {limit: 1300 kg, kerb: 950 kg}},
              cargo: [{what: pumps, mass: 400 kg, at: middle}]}
    places: {middle: {environment: outside, station: 1.6 m}}

Sources
-------
Light-truck body-builder manual, appendix on weight distribution. Weigh the finished vehicle on each axle: the sum
is an estimate.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _weights as weights

SEVERITY = "error"
SOURCES = ("body-builder-weights",)


def check(sized: Sized) -> Iterator[Finding]:
    for load in mass.axle_loads(sized) or ():
        most = max(load.unladen_kg, load.laden_kg)
        if most > load.axle.limit_kg + mass.SAME_KG:
            yield finding(
                sized, load, most, f"its limit is {weights.shown(load.axle.limit_kg, sized.build.practice)}"
            )
        least = min(load.unladen_kg, load.laden_kg)
        if least <= 0:
            yield finding(sized, load, least, "it stands on nothing")


def finding(sized: Sized, load: mass.AxleLoad, kg: float, limit: str) -> Finding:
    practice = sized.build.practice
    parts = [("people", load.people_kg), ("cargo", load.cargo_kg)] if kg == load.laden_kg else []
    terms = "".join(
        f" {'+' if share >= 0 else '−'} {weights.shown(abs(share), practice)} {name}"
        for name, share in [("added", load.added_kg), *parts]
        if share
    )
    return Finding(
        ("vehicle", "axles", load.name),
        f"{load.name} axle: {weights.shown(load.axle.kerb_kg, practice)} kerb{terms} = "
        f"{weights.shown(kg, practice, against=load.axle.limit_kg)}; {limit}",
        f"move mass towards the {'rear' if load.name == 'front' else 'front'}, or take some out",
    )
