"""A link puts a higher charging voltage on a battery than it stands.

What
----
A `voltage-relay` or `manual-switch` joins the house battery straight to the alternator. The most that the
alternator charges with (`alternator: {voltage}`; where none is stated 14.7 V for a conventional one, 15.5 V for a
controlled one, twice that at 24 V) is at most the battery's `max_voltage`, or 0.4 V above the absorption voltage of
its chemistry: flooded and agm 15.0 V, gel 14.6 V, lithium iron phosphate 14.8 V. A warning where no figure is
stated on either side and the battery is flooded or agm.

Why
---
A relay regulates nothing. Gel dries out and never recovers, a lithium battery's manager opens at full charge and
leaves the alternator without a load; controlled alternators go to 15 V and above whenever the vehicle slows down.

Bad
---
    vehicle: {alternator: {rated: 150 A, controlled: false, voltage: 14.7 V}}
    batteries: {house: {chemistry: gel, capacity: 70 Ah, at: engine-bay}}
    isolation: {joiner: {type: voltage-relay, joins: [start, house], rating: 140 A, crank: open, at: engine-bay}}

Good
----
    vehicle: {alternator: {rated: 150 A, controlled: false, voltage: 14.4 V}}
    batteries: {house: {chemistry: gel, capacity: 70 Ah, at: engine-bay}}
    isolation: {joiner: {type: voltage-relay, joins: [start, house], rating: 140 A, crank: open, at: engine-bay}}

Sources
-------
Published absorption voltages; service texts on charging voltages: 13.5 to 14.7 V, controlled ones 12.0 to 15.5 V. The
tolerance of 0.4 V is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.energy import alternator as supply
from buildspec.findings import Finding
from buildspec.model import Alternator, Battery, BatteryTrait, Isolation, Resolved, Sized

SEVERITY = "error"
SOURCES = (
    "battery-guide",
    "lithium-pack-sheet",
    "charging-diagnosis",
    "controlled-alternator-texts",
    "common practice, no source: + 0.4 V",
)
OVER_V = 0.4
"""Above absorption, of a 12 V battery."""
JOINS = ("voltage-relay", "manual-switch")
TOLERANT = ("flooded", "agm")


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    alternator = build.vehicle.alternator
    if alternator is None:
        return  # `alternator-unknown` says so
    for way in build.isolation.values():
        roles = {build.batteries[end].role for end in way.ends}
        if way.type in JOINS and "start" in roles:
            for end in way.ends:
                yield from judged(build, way, build.batteries[end], alternator)


def judged(build: Resolved, way: Isolation, battery: Battery, alternator: Alternator) -> Iterator[Finding]:
    trait = battery.part.battery
    if trait is None or battery.role != "house":
        return
    (most, by), (volts, source) = stands(build, trait), supply.highest_v(build, alternator)
    if round(volts - most, 6) <= 0:
        return
    guessed = alternator.voltage_v is None and trait.max_voltage_v is None and trait.chemistry in TOLERANT
    yield Finding(
        (*way.at, "type"),
        f"`{way.name}` puts the alternator's voltage on `{battery.name}` ({trait.chemistry}): up to "
        f"{show.volts(volts)} ({source}); it stands {show.volts(most)} ({by})",
        "charge it by a `dc-dc` charger, or write what is true for it: `alternator: {voltage: …}` by the "
        "vehicle's data, `max_voltage` by the battery's sheet",
        ((battery.at, "the battery"), (("vehicle", "alternator"), "the alternator")),
        severity="warning" if guessed else None,
    )


def stands(build: Resolved, trait: BatteryTrait) -> tuple[float, str]:
    """The most that a battery may be charged with [V], and who says so."""
    if trait.max_voltage_v is not None:
        return trait.max_voltage_v, "its maker"
    scale = build.vehicle.system_v / 12.0
    usual = cells.chemistry(trait.chemistry).absorption_v * scale
    return (
        usual + OVER_V * scale,
        f"absorption {show.volts(usual)} and {OVER_V * scale:g} V, battery references",
    )
