"""A charger's voltage does not suit the battery that it charges.

What
----
The charging voltage of a charger, shore or solar source is within 0.4 V above and 0.9 V below the absorption
voltage of the battery's chemistry (twice that at 24 V): flooded and agm 14.6 V, gel 14.2 V, lithium iron
phosphate 14.4 V. A `max_voltage` by the battery's maker takes the place of the upper limit. Where no voltage is stated,
14.4 V counts.

Why
---
Above it the battery gasses, dries out or is cut off by its manager in the middle of a charge, with whatever
that does to the alternator. Below it the battery is never full. It happens when a charger keeps the profile of
another battery.

Bad
---
    isolation:
      charger: {part: dc-dc-20, type: dc-dc, from: start, to: house, at: bulkhead, charger: {output_voltage: 15.8 V}}

Good
----
    isolation:
      charger: {part: dc-dc-20, type: dc-dc, from: start, to: house, at: bulkhead, charger: {output_voltage: 14.6 V}}

Sources
-------
Published absorption voltages; the tolerance is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.findings import Finding
from buildspec.model import BatteryTrait, Isolation, Sized, Supply

SEVERITY = "error"
SOURCES = ("battery-guide", "lithium-pack-sheet", "common practice, no source: + 0.4 V, − 0.9 V")
OVER_V, UNDER_V = 0.4, 0.9
"""Of a 12 V battery."""


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    chargers: list[tuple[Isolation | Supply, str]] = [
        *((way, way.ends[1]) for way in build.isolation.values() if way.type == "dc-dc"),
        *((supply, supply.to) for supply in build.supplies.values()),
    ]
    for way, target in chargers:
        trait = build.batteries[target].part.battery
        if trait is not None:
            yield from judged(way, target, trait, build.vehicle.system_v / 12.0)


def judged(way: Isolation | Supply, target: str, trait: BatteryTrait, scale: float) -> Iterator[Finding]:
    charger, usual = way.part.charger, cells.chemistry(trait.chemistry).absorption_v * scale
    if charger is None:
        return
    stated = trait.max_voltage_v
    high = usual + OVER_V * scale if stated is None else stated
    low, usual = min(usual - UNDER_V * scale, high), min(usual, high)
    limit = "" if stated is None else f", {show.volts(stated)} at most by its maker"
    if not low <= round(charger.output_v, 6) <= high:
        yield Finding(
            way.at,
            f"`{way.name}` charges `{target}` ({trait.chemistry}) at {show.volts(charger.output_v)}; "
            f"{show.volts(low)} to {show.volts(high)} suit it (absorption {show.volts(usual)}, "
            f"battery references{limit})",
            f"set its profile for {trait.chemistry} and write `output_voltage: {usual:g} V`, "
            "or accept it with the battery maker's sheet",
        )
