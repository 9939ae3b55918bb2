"""A low-voltage disconnect lets the start battery down too far to start the engine.

What
----
A disconnect on a lead-acid start battery opens at 12.2 V or more (24.4 V in a 24 V vehicle).

Why
---
At 12.2 V at rest such a battery is half empty, and with 40 % of its charge gone many no longer crank in the
cold. A cut-off at 10.5 V protects the battery's plates and strands the vehicle.

Bad
---
    accessories: {camera: {at: dash, fed_from: start, electrical: {model: constant-power, power: 5 W},
          cut_off: {opens_at: 11.6 V, closes_at: 12.8 V, delay: 60 s}}}

Good
----
    accessories: {camera: {at: dash, fed_from: start, electrical: {model: constant-power, power: 5 W},
          cut_off: {opens_at: 12.2 V, closes_at: 13.2 V, delay: 60 s}}}

Sources
-------
Table of charge and rest voltage of an engine battery page: 12.20 to 12.24 V is half charge. A vehicle service
bulletin counts 40 % used as no start.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc.charge import LEAD_ACID
from buildspec.energy import cut_offs
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engine-battery-page", "parasitic-drain-bulletin")

LEAST_V = 12.2


def check(sized: Sized) -> Iterator[Finding]:
    least = LEAST_V * cut_offs.scale(sized)
    for one in cut_offs.disconnects(sized):
        trait = one.battery.part.battery
        lead = trait is not None and trait.chemistry in LEAD_ACID
        if one.battery.role == "start" and lead and one.trait.opens_v < least:
            opens, needed = _sizing.apart(one.trait.opens_v, least, "V")
            yield Finding(
                (*one.at, "opens_at"),
                f"`{one.name}` opens at {opens}, below {needed}, at which `{one.battery.name}` is half empty "
                "and may no longer start the engine",
                f"set `opens_at: {show.plain(least, 1)} V` or more, or feed it from the house side",
            )
