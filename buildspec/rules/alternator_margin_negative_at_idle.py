"""At idle the vehicle and what was added take more than the alternator gives.

What
----
The output at idle, hot, less the vehicle's own load at idle, the largest input of every charger and what hangs on
the start side, is zero or more. Where `charger-over-alternator-allowance` already speaks, this rule is silent.

Why
---
A vehicle that works standing with its engine running empties its start battery while everybody believes that it
charges. A police fleet raised its idle speed for that reason.

Bad
---
    vehicle:
      alternator: {rated: 150 A, idle: 60 A, controlled: true, allowance: 60 A, source: survey}
      own_loads: {idle: 40 A, source: measured}

Good
----
    vehicle:
      alternator: {rated: 150 A, idle: 100 A, controlled: true, allowance: 60 A, source: survey}
      own_loads: {idle: 40 A, source: measured}

Sources
-------
Arithmetic on the figures of the vehicle's data or an output test.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _margin

SEVERITY = "warning"
SOURCES = ("arithmetic",)


def check(sized: Sized) -> Iterator[Finding]:
    yield from _margin.negative(
        sized, "idle", "raise the idle speed, let the chargers sleep at idle, or take smaller ones"
    )
