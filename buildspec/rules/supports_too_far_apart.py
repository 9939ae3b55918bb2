"""The supports of a loom or a cable are further apart than they may be.

What
----
The `support` of a run is at most the practice's `support_spacing`: `loom`, or `battery_cable` where a battery
cable or a feeder lies in the run. A run that states none is laid at the practice's own spacing.

Why
---
A loom that sags chafes, works at its terminals and falls on what is hot or moving.

Bad
---
    runs: [{between: [engine-bay, bulkhead], length: 0.9 m, support: 600 mm}]

Good
----
    runs: [{between: [engine-bay, bulkhead], length: 0.9 m, support: 300 mm}]

Sources
-------
ISO 10133:2012 par. 7.3, 7.4: 450 mm, battery cables 300 mm. Others: ABYC E-11 18 in; 46 CFR 183.340 and FAA AC
43.13-1B 11-96(a) 24 in; the practice chooses.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.looms import runs
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("iso-10133-supports", "abyc-e11-supports", "46cfr183-340", "faa-ac-43.13-1b-looms")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for loom in runs.looms(sized):
        key, limit_m = runs.support_limit(practice, loom.lying)
        written_m = loom.run.support_m
        if loom.lying and written_m is not None and written_m > limit_m:
            what = "with battery cables in it " if key == "battery_cable" else ""
            yield Finding(
                (*loom.run.at, "support"),
                f"{_near.between(loom.run)} {what}is held every {show.diameter(written_m, practice)}, and "
                f"{show.diameter(limit_m, practice)} is the most (`support_spacing`, `{key}`: "
                f"{_near.source(practice, 'support_spacing', key)})",
                f"support it every {show.diameter(limit_m, practice)} or closer",
            )
