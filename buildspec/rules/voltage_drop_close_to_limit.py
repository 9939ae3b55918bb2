"""A written conductor leaves almost nothing of its voltage-drop limit.

What
----
The drop over a conductor whose size the spec writes is under 95 % of its limit. Sizes that the program
chooses are not reported: their margin is printed in the schedule.

Why
---
Lengths in a vehicle grow by a detour, a crimp ages, and the next accessory on the same feeder takes the
rest. A result within a hair of its limit is a warning and not a pass.

Bad
---
accessories:
  outlet: {at: load-bed, fed_from: rear.1, wire: 2.5 mm2, electrical: {model: constant-current, worst: 16 A}}

Good
----
accessories:
  outlet: {at: load-bed, fed_from: rear.1, wire: 4 mm2, electrical: {model: constant-current, worst: 16 A}}

Sources
-------
Limits: ABYC E-11 as publicly quoted. The share of 95 %: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Conductor, Sized, Sizing
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("abyc-e11-drop", "common practice, no source: 95 % of the limit")
CLOSE = 0.95


def check(sized: Sized) -> Iterator[Finding]:
    nominal = sized.build.practice.nominal_v
    for circuit, sizing in _sizing.circuits(sized):
        used = sizing.drop_v / sizing.drop_limit_v
        if sizing.written and circuit.kind not in ("bond", "tie", "branch") and CLOSE <= used <= 1:
            lost, limit = _sizing.apart(
                sizing.drop_v / nominal * 100, sizing.drop_limit_v / nominal * 100, "%"
            )
            message = f"{lost} lost {_sizing.way(circuit)} is {show.percent(used)} of the limit of {limit}"
            larger = next_size(sized, sizing)
            help = (
                f"`{larger.name}` leaves room for a detour"
                if larger
                else "measure the way before the loom is cut"
            )
            yield Finding(_sizing.wire_path(circuit, sizing), message, help)


def next_size(sized: Sized, sizing: Sizing) -> Conductor | None:
    """The next larger conductor in stock."""
    area = sizing.conductor.area_mm2 * _sizing.AREA_TOLERANCE
    return next((c for c in sized.build.practice.sizes if c.area_mm2 > area), None)
