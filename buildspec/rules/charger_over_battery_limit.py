"""A charger gives more than the battery's maker allows.

What
----
The sum of the chargers on one battery stays within its `max_charge`.

Why
---
Lead gasses and dries out, a lithium pack's manager disconnects.

Bad
---
    batteries: {house: {part: agm-55-g34, at: engine-bay}}      # 25 A by its maker
    isolation: {charger: {type: dc-dc, part: dc-dc-40, from: start, to: house, wake: ignition, at: bulkhead}}

Good
----
    batteries: {house: {part: agm-75-g24, at: engine-bay}}      # 45 A by its maker
    isolation: {charger: {type: dc-dc, part: dc-dc-40, from: start, to: house, wake: ignition, at: bulkhead}}

Sources
-------
The battery maker's figure, as written. Where none is written, see `charge-limit-unconfirmed`.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for battery in build.batteries.values():
        trait = battery.part.battery
        limit = trait.max_charge_a if trait else None
        ways = isolation.chargers_of(build, battery.name)
        total = sum(amps for _, amps in ways)
        if limit is not None and total > limit:
            names = " + ".join(f"`{way.name}` {show.amps(amps)}" for way, amps in ways)
            yield Finding(
                ways[-1][0].at,
                f"{names} into `{battery.name}`, whose maker allows {show.amps(limit)}",
                f"choose a charger of up to {show.amps(limit)}, or a battery that takes {show.amps(total)}",
                ((battery.at, "this battery"),),
            )
