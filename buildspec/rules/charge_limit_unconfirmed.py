"""A charger gives more than is usual for the battery, and its maker's limit is not written.

What
----
Where a battery states no `max_charge`, its chargers stay within the usual rate of its chemistry: C/8 flooded,
C/4 agm, C/20 gel, C/2 lithium iron phosphate.

Why
---
The usual rate is a default to override: many batteries take more. Their makers say so, and the packet should
too.

Bad
---
    batteries: {house: {chemistry: agm, capacity: 75 Ah, at: engine-bay}}
    isolation: {charger: {type: dc-dc, output: 40 A, from: start, to: house, wake: ignition, at: bulkhead}}

Good
----
    batteries: {house: {battery: {chemistry: agm, capacity: 75 Ah, max_charge: 45 A}, at: engine-bay}}

Sources
-------
Deep-cycle battery FAQ (C/8, C/20, C/4); lithium module manual (0.5 C).
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import isolation

SEVERITY = "warning"
SOURCES = (
    "deep-cycle-faq",
    "lithium-module-manual",
    "battery-guide",
)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for battery in build.batteries.values():
        trait = battery.part.battery
        ways = isolation.chargers_of(build, battery.name)
        if trait is None or trait.max_charge_a is not None or not ways:
            continue
        usual = cells.chemistry(trait.chemistry)
        limit, total = usual.max_charge_c * trait.capacity_ah, sum(amps for _, amps in ways)
        if total > limit:
            rate = f"{usual.max_charge_c:g} × {trait.capacity_ah:g} Ah = {show.amps(limit)}"
            yield Finding(
                battery.at,
                f"{show.amps(total)} of charging into `{battery.name}`; {rate} is usual for {trait.chemistry} "
                f"(battery references, figure {mark(usual)})",
                "write `max_charge` from the battery maker's sheet, which overrides this, or choose a smaller charger",
                tuple((way.at, "charges it") for way, _ in ways),
            )


def mark(usual: cells.Chemistry) -> str:
    return {"yes": "read", "computed": "worked out"}.get(usual.marks["max_charge_c"], "recalled")
