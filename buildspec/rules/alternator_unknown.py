"""The build charges from an alternator that nobody has described.

What
----
Where a charger or link charges a house battery from the start side, `vehicle.alternator` states its rating
and whether its voltage is controlled.

Why
---
Rating and control decide whether the charger fits and how it must be woken. Silence is not a pass.

Bad
---
    vehicle: {description: Panel van, system: 12 V}

Good
----
    vehicle: {description: Panel van, system: 12 V, alternator: {rated: 150 A, controlled: true}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    charging = [w for w in build.isolation.values() if w.type != "momentary-link"]
    if charging and build.vehicle.alternator is None:
        yield Finding(
            build.vehicle.at,
            f"cannot check `{charging[0].name}`: the alternator is not described",
            "write `alternator:` with `rated` and `controlled`, from the survey",
            tuple((w.at, "charges from it") for w in charging),
        )
