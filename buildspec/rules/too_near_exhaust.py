"""A loom lies too close to the exhaust or another hot part.

What
----
Where a run states `near: {what: exhaust, ...}` or `heat`, its distance is at least the practice's
`clearance`, `exhaust` (100 mm by default). A shield is printed and does not shorten the limit: no source
gives a figure for it.

Why
---
Insulation rated 105 °C softens on a pipe of 400 °C. The cable is always live, and the pipe is earth.

Bad
---
    runs: [{between: [engine-bay, grille], length: 1.4 m, near: [{what: exhaust, distance: 60 mm}], support: 300 mm}]

Good
----
    runs: [{between: [engine-bay, grille], length: 1.4 m, near: [{what: exhaust, distance: 120 mm}], support: 300 mm}]

Sources
-------
The distance: common practice, no source; the vehicle maker's figure goes before it. Recall of motor homes
with battery cables near the exhaust.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("common practice, no source", "exhaust-cable-recall")
HELP = (
    "a shield does not shorten the distance by itself: where the vehicle's maker allows less behind one, "
    "have it accepted under `waivers`"
)


def check(sized: Sized) -> Iterator[Finding]:
    yield from _near.too_near(sized, ("exhaust", "heat"), HELP)
