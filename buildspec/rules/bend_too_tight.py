"""A bend on a run is tighter than its largest wire allows.

What
----
The `bend` of a run, inside radius, is at least ten outside diameters of the largest wire in it.

Why
---
A thick cable bent hard pushes its strands through the insulation and levers on its terminal.

Bad
---
    runs: [{between: [engine-bay, bulkhead], length: 0.9 m, bend: 20 mm}]

Good
----
    runs: [{between: [engine-bay, bulkhead], length: 0.9 m, bend: 120 mm}]

Sources
-------
TM 1-1500-204-23-4: ten diameters, for wires and bundles. A cable maker's own figure goes before it.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import bundle
from buildspec.findings import Finding
from buildspec.looms import runs
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "warning"
SOURCES = ("tm-1-1500-bends",)


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for loom in runs.looms(sized):
        if loom.run.bend_m is None or loom.run.bend_m >= loom.bend_m:
            continue
        largest = max(loom.lying, key=runs.mm)
        mark = "" if largest.verified == "yes" else ", recalled"
        yield Finding(
            (*loom.run.at, "bend"),
            f"{_near.between(loom.run)} is bent to {show.diameter(loom.run.bend_m, practice)}, and its largest wire, "
            f"{show.size(largest.conductor)} of {show.diameter(largest.diameter_m, practice)}{mark}, asks for "
            f"{show.diameter(loom.bend_m, practice)} ({bundle.BEND_TIMES:g} diameters: TM 1-1500-204-23-4)",
            "take a wider way round, or a cable whose maker allows the bend",
        )
