"""Nobody says which battery post carries the vehicle's sensor.

What
----
With a controlled alternator `vehicle.sensed_post` names the battery whose negative post carries the sensor.

Why
---
Such alternators are run by a sensor on the negative post. A return that ends on that post is not measured:
the computer sees a flat battery, and start-stop and charging fail.

Bad
---
    vehicle: {description: Van, system: 12 V, alternator: {rated: 180 A, controlled: true}}

Good
----
    vehicle: {description: Van, system: 12 V, alternator: {rated: 180 A, controlled: true}, sensed_post: start}

Sources
-------
Makers' bulletins on battery sensors.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    vehicle = sized.build.vehicle
    if vehicle.alternator is not None and vehicle.alternator.controlled and not vehicle.sensed_post:
        starts = [b.name for b in sized.build.batteries.values() if b.role == "start"]
        post = starts[0] if starts else "start"
        yield Finding(
            ("vehicle", "alternator", "controlled"),
            "the alternator is controlled, and which post carries its sensor is not stated",
            f"look at the negative post of the start battery and write `sensed_post: {post}`",
        )
