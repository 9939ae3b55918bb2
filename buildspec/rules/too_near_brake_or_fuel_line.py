"""A loom lies too close to a brake pipe or a fuel part.

What
----
Where a run states `near` with `brake` or `fuel`, its distance is at least the practice's `clearance` for it
(50 mm and 2 in by default). Up to 6 in from a fuel part the routing sheet asks for closely spaced clamps.

Why
---
A loom tied to a fuel pipe shares its heat, its chafing and, one day, its leak. A short beside a brake pipe
burns a hole in it.

Bad
---
    runs: [{between: [engine-bay, load-bed], length: 3 m, near: [{what: fuel, distance: 30 mm}]}]

Good
----
    runs: [{between: [engine-bay, load-bed], length: 3 m, near: [{what: fuel, distance: 160 mm}]}]

Sources
-------
FAA AC 43.13-1B 11-96(w): 6 in wanted, 2 in at the least. Brake: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("faa-ac-43.13-1b-looms", "common practice, no source")
HELP = "never tie to the pipe"


def check(sized: Sized) -> Iterator[Finding]:
    yield from _near.too_near(sized, ("brake", "fuel"), HELP)
