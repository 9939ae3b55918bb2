"""Nobody says what wakes a charger and puts it to sleep.

What
----
A `dc-dc` charger has `wake`: a signal of the vehicle, or `voltage`.

Why
---
A charger that stays awake with the engine stopped moves the charge of the start battery into the house
battery.

Bad
---
    isolation: {charger: {type: dc-dc, from: start, to: house, output: 40 A, at: bulkhead}}

Good
----
    isolation: {charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}}

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
    signals = [s.name for s in sized.build.signals.values() if s.kind == "ignition"]
    for way in sized.build.isolation.values():
        if way.type == "dc-dc" and not way.wake:
            giver, taker = way.ends
            yield Finding(
                way.at,
                f"what wakes `{way.name}` is not stated: {taker} ← {way.name} (awake) ← {giver} cannot be ruled out",
                f"write `wake: {signals[0] if signals else 'voltage'}`",
                state="key off",
            )
