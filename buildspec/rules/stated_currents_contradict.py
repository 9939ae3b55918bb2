"""The figures of a device contradict each other.

What
----
The largest current of a device is at least its usual one, its standby current, and its power over the highest
voltage that the vehicle has (14.4 V, 28.8 V at 24 V).

Why
---
Conductor, fuse and contact are sized for the largest current. A digit that is lost there passes every check behind
it, and the other figure on the same sheet shows it.

Bad
---
accessories:
  heater: {at: load-bed, fed_from: rear.2, electrical: {model: constant-power, power: 240 W, worst: 2 A}}

Good
----
accessories:
  heater: {at: load-bed, fed_from: rear.2, electrical: {model: constant-power, power: 240 W, worst: 22.9 A}}

Sources
-------
Arithmetic: power is voltage times current.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Accessory, Electrical, Panel, Sized

SEVERITY = "error"
SOURCES = ("arithmetic",)
HIGHEST_OVER_NOMINAL = 14.4 / 12.0


def check(sized: Sized) -> Iterator[Finding]:
    highest = sized.build.vehicle.system_v * HIGHEST_OVER_NOMINAL
    items: list[Accessory | Panel] = [*sized.build.accessories.values(), *sized.build.panels.values()]
    for item in items:
        device = item.part.electrical
        for said, least in reasons(device, highest) if device else ():
            assert device is not None and device.worst_a is not None
            yield Finding(
                (*item.at, "electrical"),
                f"`{item.name}` draws at most {show.amps(device.worst_a)} (`worst`), and {said}",
                f"write `worst: {least:.1f} A` or more, from its maker's sheet",
            )
            break


def reasons(device: Electrical, highest_v: float) -> Iterator[tuple[str, float]]:
    """(what contradicts the largest current, what it would have to be [A])."""
    if device.worst_a is None:
        return
    power_a = device.power_w / highest_v if device.power_w is not None else 0.0
    if power_a > device.worst_a * 1.02:
        yield f"{device.power_w:g} W are {show.amps(power_a)} even at {show.volts(highest_v)}", power_a
    if device.typical_a is not None and device.typical_a > device.worst_a:
        yield f"{show.amps(device.typical_a)} as a rule (`typical`)", device.typical_a
    if device.standby_a > device.worst_a:
        yield f"{show.amps(device.standby_a)} switched off (`standby`)", device.standby_a
