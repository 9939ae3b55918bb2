"""A voltage relay joins above the voltage that a controlled alternator holds.

What
----
With a controlled alternator the house battery is charged by a `dc-dc` charger, not by a `voltage-relay`.

Why
---
A controlled alternator drops to about 12.5 V; a voltage relay joins at 13.3 to 13.7 V and parts at 12.8 V.
The second battery is seldom charged.

Bad
---
    vehicle: {alternator: {rated: 150 A, controlled: true}}
    isolation: {joiner: {type: voltage-relay, joins: [start, house], rating: 140 A, crank: open,
          at: engine-bay}}

Good
----
    vehicle: {alternator: {rated: 150 A, controlled: true}}
    isolation: {charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}}

Sources
-------
Voltages from trade press; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import LinkTrait, Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)
HELD_V = 12.5
"""What a controlled alternator drops to on a 12 V vehicle; trade press."""
NOMINAL_V = 12.0


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    alternator = build.vehicle.alternator
    held = HELD_V * build.practice.nominal_v / NOMINAL_V
    for way in build.isolation.values():
        if way.type != "voltage-relay" or alternator is None or not alternator.controlled:
            continue
        if sleeps(way.part.link, held):
            yield Finding(
                (*way.at, "type"),
                f"`{way.name}` {joins(way.part.link)}; this alternator is controlled and may hold {show.volts(held)}: "
                f"the battery behind it will seldom charge",
                "use a `dc-dc` charger with `wake:` on an ignition signal",
                ((("vehicle", "alternator", "controlled"), "controlled"),),
            )


def sleeps(trait: LinkTrait | None, held: float) -> bool:
    return trait is None or trait.join_v is None or trait.join_v > held


def joins(trait: LinkTrait | None) -> str:
    if trait is None or trait.join_v is None:
        return "does not state the voltage at which it joins"
    part = f" and parts at {show.volts(trait.part_v)}" if trait.part_v is not None else ""
    return f"joins at {show.volts(trait.join_v)}{part}"
