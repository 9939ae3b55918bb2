"""A lithium battery stands in the engine space.

What
----
No battery of lithium iron phosphate is at a place whose environment is `engine`.

Why
---
Its manager stops the charge above 60 °C and below 0 °C, and the discharge above 60 °C, so it is dead when the
engine is hot and takes no charge on a winter morning. Cells that are charged there all the same swell.

Bad
---
    batteries:
      house: {chemistry: lithium-iron-phosphate, capacity: 100 Ah, at: engine-bay}

Good
----
    batteries:
      house: {chemistry: lithium-iron-phosphate, capacity: 100 Ah, at: left-seat}

Sources
-------
Module manual of a lithium-iron-phosphate battery: no charge above 60 °C or below 0 °C. 33 CFR 183.425 table 5 takes
an engine space at 50 °C; a federal ambulance specification takes 93 °C under the bonnet.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("lithium-module-manual",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    cooler = [p.name for p in build.places.values() if p.environment == "cabin"]
    for battery in build.batteries.values():
        trait, place = battery.part.battery, build.places[battery.place]
        if trait and trait.chemistry == "lithium-iron-phosphate" and place.environment == "engine":
            where = f"such as `{cooler[0]}`" if cooler else "in the cabin"
            yield Finding(
                (*battery.at, "at"),
                f"`{battery.name}` (lithium-iron-phosphate) stands in `{battery.place}`, an engine space: no charge "
                "above 60 °C or below 0 °C (battery module manual)",
                f"a place that stays cool, {where}, or an agm battery; where its maker allows the place, a waiver "
                "that names the sheet",
                ((place.at, "an engine space"),),
            )
