"""Nothing in the build charges a battery.

What
----
Every battery that is added is the end of a charger, of a shore or solar source, or is joined to a battery that is
charged by a voltage relay, a hand switch or a conductor. A momentary link is no charger: it is closed for
seconds. A charger that is turned round is `charger-takes-from-house`. Where the battery is charged outside
the vehicle, a waiver says who does it and how often.

Why
---
It works on the day it is handed over. What hangs on it goes dead within days, and a lead-acid battery that
stands empty is lost within weeks.

Bad
---
    batteries:
      house: {chemistry: agm, capacity: 75 Ah, at: load-bed}
    isolation: {}

Good
----
    batteries:
      house: {chemistry: agm, capacity: 75 Ah, at: load-bed}
    isolation:
      charger: {type: dc-dc, from: start, to: house, output: 15 A, wake: ignition, at: load-bed}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.findings import Finding
from buildspec.model import Battery, BatteryTrait, Resolved, Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    turned = {way.ends[0] for way in isolation.reversed_chargers(build)}
    reached = isolation.charged(build) | turned
    for name, battery in build.batteries.items():
        trait = battery.part.battery
        if name not in reached and trait is not None:
            yield fault(build, battery, trait)


def fault(build: Resolved, battery: Battery, trait: BatteryTrait) -> Finding:
    usual = trait.capacity_ah * cells.chemistry(trait.chemistry).max_charge_c
    most = usual if trait.max_charge_a is None else trait.max_charge_a
    starts = [name for name in isolation.side(build, "start") if name != battery.name]
    origin = f"`from: {starts[0]}, to: {battery.name}`" if starts else f"`to: {battery.name}`"
    helds = [
        w.name for w in build.isolation.values() if w.type == "momentary-link" and battery.name in w.ends
    ]
    held = f"; `{helds[0]}` is closed only while it is held" if helds else ""
    return Finding(
        battery.at,
        f"nothing charges `{battery.name}` ({trait.chemistry}, {trait.capacity_ah:g} Ah): no charger, source or tie "
        f"leads to it{held}",
        f"a dc-dc charger {origin} of at most {show.amps(most)}, or `sources:` with shore or solar",
    )
