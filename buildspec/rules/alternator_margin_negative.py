"""Driving, the vehicle and what was added take more than the alternator's nameplate.

What
----
The nameplate current, less the vehicle's own load while driving, the largest input of every charger and what hangs
on the start side, is zero or more. Where `charger-over-alternator-allowance` already speaks, this rule is silent.

Why
---
What the alternator does not give comes out of the start battery, on the road, at night and in rain first.

Bad
---
    vehicle:
      alternator: {rated: 90 A, controlled: true, allowance: 60 A, source: survey}
      own_loads: {driving: 65 A, source: measured}

Good
----
    vehicle:
      alternator: {rated: 150 A, controlled: true, allowance: 60 A, source: survey}
      own_loads: {driving: 65 A, source: measured}

Sources
-------
Arithmetic on the figures of the vehicle's data; buyers of special vehicles ask for this remainder in writing.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _margin

SEVERITY = "error"
SOURCES = ("arithmetic",)


def check(sized: Sized) -> Iterator[Finding]:
    yield from _margin.negative(
        sized, "driving", "take smaller chargers, a larger alternator, or fewer start-side loads"
    )
