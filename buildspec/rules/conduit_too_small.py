"""The wires of a run do not go into its conduit.

What
----
The inside diameter written as `conduit` is larger than the bundle of what lies in it: the loom, or, where a run
holds only cables that are tied apart, the largest of them.

Why
---
Nobody finds out before half the loom is in.

Bad
---
    runs: [{between: [bulkhead, load-bed], length: 3.6 m, conduit: 4 mm}]

Good
----
    runs: [{between: [bulkhead, load-bed], length: 3.6 m, conduit: 20 mm}]

Sources
-------
Geometry for up to three wires; two public bundle calculators, 1.2 × √Σd², for more.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.looms import runs
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("circle-packing", "bundle-calculators")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for loom in runs.looms(sized):
        written_m = loom.run.conduit_m
        for one in loom.conduits:
            if one.inside_m != written_m or written_m is None or runs.diameter_m(one.lying) <= written_m:
                continue
            yield Finding(
                (*loom.run.at, "conduit"),
                f"{_near.between(loom.run)} does not go into a conduit of {show.diameter(written_m, practice)}: "
                f"{runs.sum_text(practice, one.lying)}",
                f"take one of {show.diameter(one.needed_m, practice)} inside or more",
            )
