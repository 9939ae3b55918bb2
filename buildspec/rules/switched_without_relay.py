"""A key or switch carries a load that a relay should carry.

What
----
From `relay_from` of the practice up, no contact of a key or hand switch carries the load: it commands a relay.
Electronic channels are no contacts. Without `relay_from` nothing is asked.

Why
---
Contacts in the dashboard carry little for long; buyers of fleets ask for power relays from 15 A. A relay keeps the
heavy wire out of the dashboard as well.

Bad
---
    accessories: {scene: {part: led-scene-27, quantity: 8, at: roof, switch: bank.2, legend: SCENE}}

Good
----
    accessories: {scene: {part: led-scene-27, quantity: 8, at: roof, fed_from: block.2, switch: bank.2, legend: SCENE,
      relay: {part: relay-40, at: cabinet}}}

Sources
-------
A city fleet's specification, as read; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    least = sized.build.practice.relay_from_a
    if least is None:
        return
    for circuit, sizing in _sizing.circuits(sized):
        for contact in circuit.contacts:
            if contact.kind == "switch" and sizing.design_a >= least:
                yield Finding(
                    contact.at if contact.part is not None else (*circuit.at, "switch"),
                    f"`{contact.designation}` carries {show.amps(sizing.design_a)} of {_sizing.name(circuit)} itself; "
                    f"from {show.amps(least)} up this practice wants a relay",
                    "write `fed_from` for the load and `relay: {part: …, at: …}`; the switch then works its coil",
                )
