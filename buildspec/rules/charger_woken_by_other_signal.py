"""A charger is woken by a signal that does not say that the engine runs.

What
----
A dc-dc charger is woken by a signal of `kind: ignition`. A lamp output cannot be one; of a logic signal or a relay
output the spec has to say so: where it is live with the ignition or the running engine only, its kind is `ignition`.

Why
---
Woken by the main beam or the reverse gear the charger hardly ever charges; woken by something that stays live, it
empties the start battery while parked.

Bad
---
    signals: {main-beam: {at: bulkhead, kind: logic, allowance: 20 mA, source: survey}}
    isolation: {charger: {part: dc-dc-20, type: dc-dc, from: start, to: house, wake: main-beam, at: bulkhead}}

Good
----
    signals: {ignition: {at: bulkhead, kind: ignition, allowance: 0.5 A, source: survey}}
    isolation: {charger: {part: dc-dc-20, type: dc-dc, from: start, to: house, wake: ignition, at: bulkhead}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    signals = sized.build.signals
    able = [signal.name for signal in signals.values() if signal.kind == "ignition"]
    otherwise = f"write `wake: {able[0]}`" if able else "add an ignition signal and wake it by that"
    for way in sized.build.isolation.values():
        signal = signals.get(way.wake)
        if way.type == "dc-dc" and signal is not None and signal.kind != "ignition":
            yield Finding(
                (*way.at, "wake"),
                f"`{way.name}` is woken by `{signal.name}`, a {signal.kind}: nothing says that it is live with the "
                "ignition and dead while parked",
                f"{otherwise}; or `kind: ignition` for `{signal.name}`, where the vehicle's data says so",
                ((signal.at, "this signal"),),
            )
