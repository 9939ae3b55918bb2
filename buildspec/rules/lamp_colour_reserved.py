"""A lamp has a colour that the law commonly keeps for another use.

What
----
Tail lamps are red, reverse lamps white, and beacons neither blue nor red.

Why
---
Red to the rear means tail or stop, white to the rear means reversing; blue and red beacons are commonly kept
for emergency services. Local law and licensed practice decide; where a permit exists, name it in a waiver.

Bad
---
    accessories: {beacon: {at: roof, switch: main.1, legend: BEACON, lamp: {kind: beacon, colour: blue}}}

Good
----
    accessories: {beacon: {at: roof, switch: main.1, legend: BEACON, lamp: {kind: beacon, colour: amber}}}

Sources
-------
49 CFR 571.108 for tail and backup lamps, recalled; beacons: common practice, no source. Local law decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)
ALLOWED = {"tail": ("red",), "reverse": ("white",), "beacon": ("amber", "green", "white")}


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        lamp = item.part.lamp
        if lamp is not None and lamp.kind in ALLOWED and lamp.colour not in ALLOWED[lamp.kind]:
            yield Finding(
                item.at,
                f"{lamp.kind} lamp `{item.name}` is {lamp.colour}; commonly it is {' or '.join(ALLOWED[lamp.kind])}",
                "choose the usual colour, or waive it with the permit; local law decides",
            )
