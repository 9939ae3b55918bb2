"""An electronic channel that tries again by itself feeds a motor, or a reserve behind trim.

What
----
A panel whose `trips` say `then: retrying` closes its channel again after a trip. On a channel that feeds a motor or
a reserve this is reported as a risk.

Why
---
A stalled motor is heated again at every try. The end of a reserve lies capped behind trim, where nobody sees the
cap chafe: a channel that latches off stays off, one that retries keeps a hot spot going and drains the battery.

Bad
---
panels:
  main: {panel: {kind: solid-state, trips: {at: 150 %, within: 100 ms, then: retrying}}}
accessories:
  pump: {at: load-bed, switch: main.4, electrical: {model: motor, worst: 10 A}}

Good
----
panels:
  main: {panel: {kind: solid-state, trips: {at: 150 %, within: 100 ms, then: latching}}}
accessories:
  pump: {at: load-bed, switch: main.4, electrical: {model: motor, worst: 10 A}}

Sources
-------
Common practice, no source; automatic circuit breakers are known to cycle while the fault lasts (SAE J553 type I).
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Sized
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("common practice, no source: a channel that latches for motors and hidden ends",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, _, device in _sizing.devices(sized):
        panel = sized.build.panels[device.host].part.panel if device.kind == "channel" else None
        risk = what(circuit)
        if panel is not None and panel.trips.then == "retrying" and risk:
            trips = (
                f"{show.percent(panel.trips.times)} within {show.plain(panel.trips.within_s * 1000, 0)} ms"
            )
            message = (
                f"the {_sizing.title(device)} trips at {trips} and tries again by itself; "
                f"{_sizing.name(circuit)} {risk}"
            )
            yield Finding(
                circuit.at, message, "set the channel to latch off, or put a fuse of its own behind it"
            )


def what(circuit: Circuit) -> str:
    """Why trying again is a risk here, or ``."""
    if circuit.kind == "reserve":
        return "ends capped out of sight"
    if circuit.kind == "load" and circuit.load is not None and circuit.load.model == "motor":
        return "is a motor, which a stall heats at every try"
    return ""
