"""A charger on a controlled alternator waits for a voltage that may not come.

What
----
With a controlled alternator a `dc-dc` charger is woken by a signal of the vehicle, not by `wake: voltage`.

Why
---
The engine computer lets the voltage fall to 12.5 V or lower while driving: a voltage wake then sleeps while
the engine runs, or stays awake on a full battery at rest.

Bad
---
    isolation: {charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: voltage, at: bulkhead}}

Good
----
    isolation: {charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}}

Sources
-------
Trade press and installers; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    alternator = build.vehicle.alternator
    signals = [s.name for s in build.signals.values() if s.kind == "ignition"]
    for way in build.isolation.values():
        if way.type == "dc-dc" and way.wake == "voltage" and alternator is not None and alternator.controlled:
            yield Finding(
                (*way.at, "wake"),
                f"`{way.name}` is woken by voltage, and this alternator is controlled: it may hold 12.5 V on the road",
                f"write `wake: {signals[0]}`" if signals else "add an ignition signal and wake it by that",
                ((("vehicle", "alternator", "controlled"), "controlled"),),
            )
