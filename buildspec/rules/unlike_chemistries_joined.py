"""A link joins a lithium battery to a lead battery.

What
----
Links (all but `dc-dc`) join batteries of one family: lead (flooded, agm, gel) with lead, lithium with
lithium.

Why
---
Their resting and charging voltages differ. On closing, the fuller one drives a large current into the other;
a voltage relay then charges one of them wrong for good. A maker who allows it says so in a document: name it
in a waiver.

Bad
---
    isolation:
      assist: {type: momentary-link, joins: [start, lithium], part: link-200, switch: main.8, at: engine-bay}

Good
----
    isolation:
      charger: {type: dc-dc, from: start, to: lithium, output: 40 A, wake: ignition, at: bulkhead}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Battery, Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)
LITHIUM = "lithium-iron-phosphate"


def check(sized: Sized) -> Iterator[Finding]:
    batteries = sized.build.batteries
    for way in sized.build.isolation.values():
        first, second = (batteries[end] for end in way.ends)
        if way.type != "dc-dc" and (chemistry(first) == LITHIUM) != (chemistry(second) == LITHIUM):
            yield Finding(
                (*way.at, "type"),
                f"`{way.name}` joins `{first.name}` ({chemistry(first)}) to `{second.name}` ({chemistry(second)}): "
                "they rest and charge at different voltages",
                "join them by a `dc-dc` charger only, or accept it with the battery maker's document",
                ((first.at, "one end"), (second.at, "the other end")),
            )


def chemistry(battery: Battery) -> str:
    return battery.part.battery.chemistry if battery.part.battery else ""
