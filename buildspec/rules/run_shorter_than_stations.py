"""A run is shorter than the way between the stations of its two places.

What
----
Where both places of a run have a `station`, its length is at least the distance between the two stations.

Why
---
A length that is read off a drawing or typed with a lost digit makes the drop small, the conductor thin and the piece
too short. The stations were measured for the axle loads and show it.

Bad
---
places:
  bulkhead: {environment: cabin, station: 0.8 m}
  load-bed: {environment: outside, station: 3.3 m}
runs:
  - {between: [bulkhead, load-bed], length: 0.36 m}

Good
----
places:
  bulkhead: {environment: cabin, station: 0.8 m}
  load-bed: {environment: outside, station: 3.3 m}
runs:
  - {between: [bulkhead, load-bed], length: 3.6 m}

Sources
-------
Arithmetic: nothing is shorter than the straight way.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("arithmetic",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for run in build.runs:
        a, b = build.places[run.a], build.places[run.b]
        if a.station_m is None or b.station_m is None:
            continue
        apart = abs(a.station_m - b.station_m)
        if run.length_m < apart * 0.999:
            has, least = (show.length(metres, build.practice) for metres in (run.length_m, apart))
            yield Finding(
                (*run.at, "length"),
                f"the run between `{run.a}` and `{run.b}` is {has} long, and their stations are {least} apart",
                f"measure it along the loom, {least} or more, or correct a station; a waiver where a place is long",
                ((a.at, f"station of `{run.a}`"), (b.at, f"station of `{run.b}`")),
            )
