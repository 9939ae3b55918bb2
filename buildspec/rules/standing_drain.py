"""Standby currents empty the start battery in too few days.

What
----
The standby currents of everything that is added to a start battery, panels included, stay within the key-off
current of the practice (`key_off_current`, 50 mA unless the shop says otherwise). The finding prints the days
to half and to empty.

Why
---
An engine that starts today does not start after a holiday. Standing time is capacity times allowed depth over
current; hours quoted from hearsay are often wrong by a factor of ten.

Bad
---
    accessories:
      tracker: {at: dash, fed_from: start, electrical: {model: constant-current, worst: 1 A, standby: 120 mA}}

Good
----
    accessories:
      tracker: {at: dash, fed_from: house, electrical: {model: constant-current, worst: 1 A, standby: 120 mA}}

Sources
-------
Arithmetic. The default of 50 mA is common practice, no source; set `key_off_current` to the customer's
figure.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.findings import Finding
from buildspec.model import Battery, Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = (
    "arithmetic",
    "parasitic-drain-bulletin",
)


def check(sized: Sized) -> Iterator[Finding]:
    limit = sized.build.practice.key_off_a
    for name in isolation.side(sized.build, "start"):
        drains = standby(sized, name)
        total = sum(drains.values())
        if total > limit:
            yield fault(sized.build.batteries[name], drains, total, limit)


def standby(sized: Sized, battery: str) -> dict[str, float]:
    """Name of an accessory or panel → what it draws from this battery while switched off [A]."""
    build = sized.build
    found: dict[str, float] = {}
    for circuit in (c for c in build.circuits if c.source == battery):
        for load in isolation.loads_behind(build, circuit):
            if load.load and load.load.standby_a > 0 and not isolation.needs_ignition(build, load):
                found[load.item] = load.load.standby_a * load.quantity
    for panel in build.panels.values():
        own = panel.part.electrical
        if own and own.standby_a > 0 and battery in isolation.batteries_behind(build, panel.name):
            found[panel.name] = own.standby_a
    return found


def fault(battery: Battery, drains: dict[str, float], total: float, limit: float) -> Finding:
    trait = battery.part.battery
    assert trait is not None
    half, empty = (
        cells.days_standing(capacity_ah=trait.capacity_ah, depth=depth, current_a=total)
        for depth in (0.5, 1.0)
    )
    worst = max(drains, key=lambda name: (drains[name], name))
    parts = " + ".join(f"`{name}` {show.amps(amps)}" for name, amps in drains.items())
    return Finding(
        battery.at,
        f"{parts} = {show.amps(total)} of standby on `{battery.name}`; {show.amps(limit)} allowed (practice, "
        f"`key_off_current`); {trait.capacity_ah:g} Ah is half gone in {half:.1f} days and empty in {empty:.1f}",
        f"move `{worst}` to the house side or behind the ignition, or agree another figure in the practice",
    )
