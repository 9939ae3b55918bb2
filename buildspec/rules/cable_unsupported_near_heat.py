"""A loom passes the exhaust or a hot part, and nothing says how closely it is supported there.

What
----
A run that states `near` with `exhaust` or `heat` states its `support` spacing as well.

Why
---
Battery cables that hung loose near the exhaust were a recall of 29 motor homes. A clearance holds only
where a clip holds it.

Bad
---
    runs: [{between: [engine-bay, grille], length: 1.4 m, near: [{what: exhaust, distance: 120 mm}]}]

Good
----
    runs: [{between: [engine-bay, grille], length: 1.4 m, near: [{what: exhaust, distance: 120 mm}], support: 250 mm}]

Sources
-------
Recall of motor homes; ISO 10133:2012 par. 7.3, 7.4 for the spacing.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.looms import runs
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("exhaust-cable-recall", "iso-10133-supports")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for loom, one in _near.near(sized, ("exhaust", "heat")):
        if loom.run.support_m is None:
            _, limit_m = runs.support_limit(practice, loom.lying)
            yield Finding(
                one.at,
                f"{_near.between(loom.run)} passes {_near.name(one)} and states no `support`",
                f"write `support: {show.small_length(limit_m, practice)}` or less on the run, with metal clips",
            )
