"""A conductor is thinner or thicker than the maker of the device allows.

What
----
Where a device states `min_wire` or `max_wire`, its conductor is within both, and so are the branches between
several. Two areas within half a percent count as one size.

Why
---
A minimum keeps the device working. A maximum is as real: some combiners rely on the resistance of their
leads to limit the current between banks, and a terminal takes only so much copper.

Bad
---
accessories:
  combiner: {fed_from: house, wire: 70 mm2, electrical: {model: constant-current, worst: 40 A, max_wire: 16 mm2}}

Good
----
accessories:
  combiner: {fed_from: house, wire: 16 mm2, electrical: {model: constant-current, worst: 40 A, max_wire: 16 mm2}}

Sources
-------
The device maker's own sheet, as written in the part or the spec.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import branches, show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the maker's limits of his own device",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        owner = branches.trunk(sized.build, circuit) if circuit.kind == "branch" else circuit
        if owner.load is None:
            continue
        least, most, area = owner.load.min_area_mm2, owner.load.max_area_mm2, sizing.conductor.area_mm2
        if least is not None and area * _sizing.AREA_TOLERANCE < least:
            words = f"at least {show.plain(least, 2)} mm²"
        elif most is not None and area > most * _sizing.AREA_TOLERANCE:
            words = f"at most {show.plain(most, 2)} mm²"
        else:
            continue
        message = (
            f"{show.both_sizes(sizing.conductor)} goes to {_sizing.name(circuit)}; its maker asks for {words}"
        )
        help = _sizing.conductor_help(sized, circuit, "a joint beside the device to the size that it takes")
        yield Finding(_sizing.wire_path(circuit, sizing), message, help)
