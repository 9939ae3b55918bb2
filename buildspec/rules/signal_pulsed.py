"""Something that needs a steady signal listens to a pulsed one.

What
----
No coil, wake or trigger input is on a signal that is `pulsed`.

Why
---
A reverse lamp output is full on with the engine off, and 75 % at about 100 Hz once the system is at 14.2 V: a
relay chatters, and a camera that was clean in the workshop shuts down on the road.

Bad
---
    signals: {reverse: {at: rear, kind: lamp output, pulsed: true, allowance: 0.5 A, source: survey}}
    accessories: {camera: {part: camera-rear, at: rear, fed_from: rear.2, relay: {part: relay-30,
          at: rear}, trigger: reverse}}

Good
----
    signals: {reverse: {at: bulkhead, kind: logic, allowance: 20 mA, source: data sheet}}

Sources
-------
Measurements of a lamp output, owner reports; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Circuit, Resolved, Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for circuit in (c for c in build.circuits if c.kind == "signal"):
        signal = build.signals[circuit.source]
        if signal.pulsed:
            steady = [
                s.name for s in build.signals.values() if not s.pulsed and s.kind in ("logic", "relay output")
            ]
            yield Finding(
                at(build, circuit),
                f"`{circuit.item}` listens to `{signal.name}`, which is pulsed: {why(build, circuit)}",
                "take a logic signal of the vehicle"
                + (f", such as `{steady[0]}`" if steady else "")
                + ", or fit a conditioner and describe its output as a signal of its own",
                (((*signal.at, "pulsed"), "pulsed"),),
            )


def at(build: Resolved, circuit: Circuit) -> tuple[str | int, ...]:
    if circuit.item in build.accessories:
        return ("accessories", circuit.item, "trigger")
    return ("isolation", circuit.item, "wake")


def why(build: Resolved, circuit: Circuit) -> str:
    item = build.accessories.get(circuit.item)
    if item is not None and item.part.electrical is not None and item.part.electrical.steady:
        return "it needs a steady supply, and its relay would chatter"
    return "a coil would chatter" if circuit.title.startswith("coil") else "an input would see it come and go"
