"""A conductor does not enter the terminal of the panel or block that it starts at.

What
----
The conductor of a circuit is at most the `max_wire` of the outputs of its panel or block. Where no size in
stock holds at all, the limit that fails is reported instead.

Why
---
Strands that are cut off to make a conductor fit are the thinnest part of the circuit, and no drawing
shows them.

Bad
---
accessories:
  pump: {at: load-bed, fed_from: rear.3, wire: 10 mm2, electrical: {model: motor, worst: 10 A}}

Good
----
accessories:
  pump: {at: load-bed, fed_from: rear.3, wire: 6 mm2, electrical: {model: motor, worst: 10 A}}

Sources
-------
The maker's own limit, as written in the part or the spec; 6 mm² where nothing is written (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("common practice, no source: 6 mm² where the maker's limit is not written",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        if not sizing.written and sizing.reason.margin < 0:
            continue
        most = _sizing.terminal_mm2(sized.build, circuit)
        if most is not None and sizing.conductor.area_mm2 > most * _sizing.AREA_TOLERANCE:
            governed = "" if sizing.written else f" (its {sizing.reason.governed_by} asks for it)"
            message = (
                f"{show.both_sizes(sizing.conductor)} to {_sizing.name(circuit)}{governed} does not "
                "enter a terminal of "
                f"`{circuit.source}`; it takes {show.plain(most, 2)} mm² at most"
            )
            otherwise = (
                f"a panel or block whose terminals take {show.size(sizing.conductor)}, a joint to "
                f"{show.plain(most, 2)} mm² beside `{circuit.source}`, or a feed from the battery"
            )
            yield Finding(
                _sizing.wire_path(circuit, sizing), message, _sizing.conductor_help(sized, circuit, otherwise)
            )
