"""A large load returns through the vehicle body without a conductor of its own.

What
----
A load of 40 A or more has a return conductor, sized like its feed; `return: body` is for small ones.

Why
---
A large return through a mounting bolt heats paint, rust and hinges, and finds its way through bearings
and brake lines. Truck hoists were recalled for that: the remedy was a 4 AWG conductor.

Bad
---
accessories:
  hoist: {at: load-bed, fed_from: house, return: body, electrical: {model: motor, worst: 150 A}}

Good
----
accessories:
  hoist: {at: load-bed, fed_from: house, return: own, electrical: {model: motor, worst: 150 A}}

Sources
-------
Recall of truck hoists. The figure of 40 A: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("hoist-recall", "common practice, no source: 40 A")
FROM_A = 40.0


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        if circuit.body_return and sizing.design_a >= FROM_A:
            message = (
                f"{show.plain(sizing.design_a, 2)} A of {_sizing.name(circuit)} returns through the "
                "body without a conductor; "
                f"from {show.amps(FROM_A)} on it needs one"
            )
            help = "`return: own` lays a conductor as large as its feed to the nearest ground"
            yield Finding((*circuit.at, "return"), message, help)
