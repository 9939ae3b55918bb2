"""What hangs on a battery draws more than its maker or its manager allows.

What
----
All loads of a battery at their worst, every reserve populated, stay within its `max_discharge`.

Why
---
A lithium pack's manager opens above its limit and everything goes dark at once. A winch belongs on a battery
that can give its current.

Bad
---
    batteries: {house: {part: lithium-100-g31, at: bed}}   # 100 A
    accessories: {winch: {at: bumper, fed_from: house, electrical: {model: motor, worst: 400 A}}}

Good
----
    batteries: {house: {part: lithium-200-h8, at: bed}}    # 200 A

Sources
-------
The battery maker's figure, as written.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)
KINDS = ("load", "feeder", "reserve", "charge-in")


def check(sized: Sized) -> Iterator[Finding]:
    for battery in sized.build.batteries.values():
        limit = battery.part.battery.max_discharge_a if battery.part.battery else None
        total = sized.loads_a[battery.name]
        if limit is not None and total > limit:
            own = [c for c in sized.build.circuits if c.source == battery.name and c.kind in KINDS]
            worst = max(own, key=lambda c: (sized.sizings[c.key].design_a, c.key))
            yield Finding(
                battery.at,
                f"{show.amps(total)} from `{battery.name}` with everything on and every reserve populated; its largest "
                f"discharge is {show.amps(limit)}",
                f"the largest part is `{worst.item}` with {show.amps(sized.sizings[worst.key].design_a)}: move it to a "
                "battery that can give it",
                ((worst.at, "the largest part"),),
            )
