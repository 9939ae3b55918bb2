"""A return ends on the battery post that carries the vehicle's battery sensor.

What
----
No added return ends on the negative post that the vehicle's data name as the sensed one.

Why
---
The sensor counts what flows through it. A return on the post goes past it; the vehicle then believes that
its battery is flat, and answers with charging faults and a start-stop that does not work.

Bad
---
vehicle: {sensed_post: start}
grounds:
  post: {at: engine-bay, post_of: start}
accessories:
  pump: {at: engine-bay, switch: main.1, return: post}

Good
----
vehicle: {sensed_post: start}
grounds:
  wing-stud: {at: engine-bay}
accessories:
  pump: {at: engine-bay, switch: main.1, return: wing-stud}

Sources
-------
A vehicle maker's bulletin on added grounds at the sensed post.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Resolved, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("battery-sensor-bulletin",)


def check(sized: Sized) -> Iterator[Finding]:
    sensed, grounds = sized.build.vehicle.sensed_post, sized.build.grounds
    for circuit, _ in _sizing.circuits(sized):
        if sensed and circuit.ground and grounds[circuit.ground].post_of == sensed:
            message = (
                f"the return of {_sizing.name(circuit)} ends on the negative post of `{sensed}` (`{circuit.ground}`), "
                "past the vehicle's battery sensor"
            )
            related = (
                (grounds[circuit.ground].at, "this ground is the post"),
                (sized.build.vehicle.at, "the sensor is named here"),
            )
            yield Finding((*circuit.at, "return"), message, studs(sized.build), related)


def studs(build: Resolved) -> str:
    """Grounds on the body, which the sensor sees."""
    found = ", ".join(f"`{ground.name}`" for ground in build.grounds.values() if not ground.post_of)
    return f"end it on the body: {found}"
