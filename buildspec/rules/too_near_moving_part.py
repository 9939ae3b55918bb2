"""A loom lies too close to a part that moves.

What
----
Where a run states `near: {what: moving, ...}`, its distance is at least the practice's `clearance`,
`moving` (50 mm by default), with the part at its nearest: full lock, full bump, full pedal.

Why
---
A loom rubbed by the brake arm was a recall of 767 ambulances: two wires in it had no breaker. A harness
chafed behind a fender liner reached a crash-sensor wire.

Bad
---
    runs: [{between: [engine-bay, bulkhead], length: 0.9 m, near: [{what: moving, distance: 15 mm, words: brake arm}]}]

Good
----
    runs: [{between: [engine-bay, bulkhead], length: 0.9 m, near: [{what: moving, distance: 80 mm, words: brake arm}]}]

Sources
-------
The distance: common practice, no source; the vehicle maker's figure goes before it. Recall of ambulances.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("common practice, no source", "ammeter-recall")
HELP = "measure with the part at full travel"


def check(sized: Sized) -> Iterator[Finding]:
    yield from _near.too_near(sized, ("moving",), HELP)
