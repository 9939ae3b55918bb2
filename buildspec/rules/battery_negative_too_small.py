"""The negative conductor of a battery is smaller than its largest positive one.

What
----
The conductor from a battery's negative post to the body is at least as large as the largest positive
conductor on that battery.

Why
---
What goes out comes back. A fault on the largest positive conductor returns through the negative one, and
no fuse stands in it.

Bad
---
batteries:
  house: {chemistry: agm, capacity: 75 Ah, cranking: 520 A, at: engine-bay, negative_wire: 10 mm2}

Good
----
batteries:
  house: {chemistry: agm, capacity: 75 Ah, cranking: 520 A, at: engine-bay, negative_wire: 70 mm2}

Sources
-------
NEC 2008 article 552.10: a bond of 8 AWG at least, and not smaller than the ungrounded lead.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing
from buildspec.size import bonds

SEVERITY = "error"
SOURCES = ("nec-552-10",)


def check(sized: Sized) -> Iterator[Finding]:
    floors = bonds.floors(sized.build, dict(sized.sizings))
    for circuit, sizing in _sizing.circuits(sized):
        amp = sizing.ampacity
        if circuit.kind != "bond":
            continue
        if sizing.conductor.area_mm2 * _sizing.AREA_TOLERANCE < floors[circuit.key]:
            reason = (
                f"its largest positive conductor has {show.plain(floors[circuit.key], 1)} mm² (NEC 552.10)"
            )
        elif amp is not None and amp.corrected_a < sizing.design_a:
            carries, needed = _sizing.apart(amp.corrected_a, sizing.design_a, "A")
            reason = f"it carries {carries}, and {needed} may return through it ({amp.table})"
        else:
            continue
        message = f"{show.both_sizes(sizing.conductor)} is too small for {_sizing.name(circuit)}: {reason}"
        help = _sizing.conductor_help(sized, circuit, "smaller positive conductors")
        yield Finding(_sizing.wire_path(circuit, sizing), message, help)
