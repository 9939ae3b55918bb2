"""A power conductor is too thin for the ampacity table, so nobody knows what it carries.

What
----
Conductors that carry power are within 33 CFR 183.425 Table 5, which begins at 18 AWG (0.82 mm²). This can
happen only where the practice sets `min_wire` lower; otherwise `conductor-below-minimum` reports.

Why
---
Silence is not a pass: without a row there is no ampacity to hold the fuse against. Signals are left out;
their device of a few amperes protects them.

Bad
---
practice: 1
min_wire: 0.5 mm2

Good
----
practice: 1
min_wire: 1 mm2

Sources
-------
33 CFR 183.425 Table 5.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import ampacity_bases
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("33cfr183-table5",)


def check(sized: Sized) -> Iterator[Finding]:
    least = sized.build.practice.min_area_mm2
    for circuit, sizing in _sizing.circuits(sized):
        area = sizing.conductor.area_mm2 * _sizing.AREA_TOLERANCE
        if sizing.ampacity is None and circuit.kind != "signal" and area >= least:
            table = ampacity_bases.TITLES[sized.build.practice.ampacity]
            message = (
                f"cannot check: {show.both_sizes(sizing.conductor)} to {_sizing.name(circuit)} carries "
                f"{show.amps(sizing.design_a)} and is below the smallest row of the table in use ({table})"
            )
            yield Finding(
                _sizing.wire_path(circuit, sizing),
                message,
                "write a size that the table has; in the boat table `1 mm2` or `18 AWG` and larger",
            )
