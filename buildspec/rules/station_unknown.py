"""Nobody says how far behind the front axle a place is, so no axle load can be worked out.

What
----
Where the spec gives `axles`, every place that bears something added, taken out, people or cargo has a
`station`: its distance behind the front axle, with a minus ahead of it.

Why
---
The same drawer is good over the middle and too much at the tail. One place without a station leaves both axles
unchecked.

Bad
---
    vehicle: {axles: {wheelbase: 3.2 m, front: {limit: 1500 kg, kerb: 1150 kg}, rear: {limit: 1900 kg, kerb: 950 kg}}}
    places: {load-bed: {environment: outside}}
    accessories: {drawer: {part: drawer-single, at: load-bed}}

Good
----
    vehicle: {axles: {wheelbase: 3.2 m, front: {limit: 1500 kg, kerb: 1150 kg}, rear: {limit: 1900 kg, kerb: 950 kg}}}
    places: {load-bed: {environment: outside, station: 2.9 m}}
    accessories: {drawer: {part: drawer-single, at: load-bed}}

Sources
-------
Light-truck body-builder manual, appendix on weight distribution.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _weights as weights

SEVERITY = "warning"
SOURCES = ("body-builder-weights",)


def check(sized: Sized) -> Iterator[Finding]:
    if sized.build.vehicle.axles is None:
        return
    for place, kg in mass.without_station(sized).items():
        yield Finding(
            ("places", place),
            f"cannot check the axle loads: {weights.shown(kg, sized.build.practice)} at `{place}`, and its distance "
            "from the front axle is not stated",
            "write `station:`, measured from the front axle to the rear, with a minus ahead of it",
        )
