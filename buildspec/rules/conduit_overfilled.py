"""A conduit is fuller than conductors can be drawn through and cool in.

What
----
The sections of the wires in a written `conduit` take at most 53 % of its inside for one conductor, 31 % for two, 40 %
for more. A loom that does not go in at all is another fault.

Why
---
A full conduit strips insulation when the next wire is drawn in, and there is no next wire without it.

Bad
---
    runs: [{between: [bulkhead, load-bed], length: 3.6 m, conduit: 7 mm}]

Good
----
    runs: [{between: [bulkhead, load-bed], length: 3.6 m, conduit: 20 mm}]

Sources
-------
NFPA 70 chapter 9 table 1, law for buildings, taken as good practice here.
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
SOURCES = ("nec-ch9-table1",)


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for loom in runs.looms(sized):
        written_m = loom.run.conduit_m
        for one in loom.conduits:
            fits = written_m is not None and runs.diameter_m(one.lying) <= written_m < one.needed_m
            if written_m is None or one.inside_m != written_m or not fits:
                continue
            full = sum(wire.diameter_m**2 for wire in one.lying) / written_m**2
            yield Finding(
                (*loom.run.at, "conduit"),
                f"{_near.between(loom.run)} fills {show.percent(full)} of a conduit of "
                f"{show.diameter(written_m, practice)}, and {show.percent(bundle.fill_share(len(one.lying)))} is the "
                f"most for {len(one.lying)} conductor{'' if len(one.lying) == 1 else 's'} (NFPA 70 chapter 9 table 1)",
                f"take one of {show.diameter(one.needed_m, practice)} inside or more, or lay a second one",
            )
