"""What a battery gives at its posts in a dead short: at the most, for breaking; at the least, for clearing."""

from __future__ import annotations

from buildspec.calc import battery as cells
from buildspec.calc import copper, interrupting
from buildspec.model import Battery, Feed, Resolved
from buildspec.network.build import USUAL_SHORT_OHM_AH, rest_v

TABLE_AH = 500.0
TABLE_CHEMISTRIES = ("flooded", "agm", "gel")
"""Reach of ABYC E-11 table V-A: lead-acid, at most 500 Ah."""
OPEN_CIRCUIT_V = 12.8
"""Full battery at rest, 12 V system."""
WORN_TIMES = 2.0
"""Resistance of a cold or worn battery over the one behind its maker's short-circuit current; common practice."""


def battery_fault_a(battery: Battery) -> float | None:
    """Short-circuit current at a battery's post [A]: its maker's, or ABYC E-11 table V-A by cranking current.

    The table holds for lead-acid up to 500 Ah; beyond, only the maker's figure counts.
    """
    trait = battery.part.battery
    if trait is not None and trait.short_circuit_a is not None:
        return trait.short_circuit_a
    if trait is None or trait.cranking_a is None or not by_table(battery):
        return None
    return interrupting.required_breaking_a(cranking_a=trait.cranking_a, main=True)


def by_table(battery: Battery) -> bool:
    """Does its figure come from the table by cranking current?"""
    trait = battery.part.battery
    if trait is None or trait.cranking_a is None or trait.short_circuit_a is not None:
        return False
    return trait.capacity_ah <= TABLE_AH and trait.chemistry in TABLE_CHEMISTRIES


def joined(build: Resolved, name: str, *, held: bool = False) -> tuple[Battery, ...]:
    """A battery and every other that a tie, a relay or a switch may keep joined to it.

    `held`: what a hand may hold closed for seconds counts as well.
    """
    apart = ("dc-dc",) if held else ("dc-dc", "momentary-link")
    ways = [way.ends for way in build.isolation.values() if way.type not in apart]
    ways += [
        (c.source, c.target) for c in build.circuits if c.kind in ("tie", "feeder") and not c.open_reason
    ]
    reached = {name}
    front = [name]
    while front:
        at = front.pop()
        beyond = {node for way in ways if at in way for node in way} - reached
        reached |= beyond
        front += sorted(beyond)
    return tuple(battery for battery in build.batteries.values() if battery.name in reached)


def joined_fault_a(build: Resolved, name: str, *, held: bool = False) -> float:
    """The most that may flow at a battery's post [A], as far as known: all that are joined, and the alternator."""
    found = joined(build, name, held=held)
    alternator = build.vehicle.alternator
    adds = alternator.rated_a if alternator is not None and len(found) > 1 else 0.0
    return sum(battery_fault_a(b) or 0.0 for b in found) + adds


def feed_fault_a(build: Resolved, feed: Feed) -> float:
    """The most that may flow at a feed of the vehicle [A]: the battery behind the vehicle's wire, as far as known."""
    battery = build.batteries[feed.battery]
    ohm = strong_ohm(build, battery)
    if feed.area_mm2 is not None and feed.length_m is not None:
        ohm += copper.r20_ohm_per_m(area_mm2=feed.area_mm2) * feed.length_m
    return open_v(build) / ohm


def open_v(build: Resolved) -> float:
    """Voltage of a full battery at rest [V]."""
    return OPEN_CIRCUIT_V * build.practice.nominal_v / 12.0


def strong_ohm(build: Resolved, battery: Battery) -> float:
    """Internal resistance behind the largest fault current [ohm]; half of the cold one where no figure is known."""
    amps = battery_fault_a(battery)
    return open_v(build) / amps if amps is not None else weak_ohm(build, battery) / WORN_TIMES


def weak_ohm(build: Resolved, battery: Battery) -> float:
    """Internal resistance in the cold [ohm]: by cranking current, else twice the maker's, else by capacity."""
    trait = battery.part.battery
    scale = build.practice.nominal_v / 12.0
    if trait is not None and trait.cranking_a is not None:
        return cells.internal_ohm(cranking_a=trait.cranking_a) * scale
    if trait is not None and trait.short_circuit_a is not None:
        return WORN_TIMES * rest_v(build, battery) / trait.short_circuit_a
    capacity = trait.capacity_ah if trait is not None else 50.0
    return WORN_TIMES * USUAL_SHORT_OHM_AH / capacity * scale
