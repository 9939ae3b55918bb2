"""There are more extra driving lamps than the law where the vehicle is used allows.

What
----
The driving lamps of a job are at most `lamps_max` of the practice. A lamp counts as many as it has `sections` that
switch separately. Without `lamps_max` nothing is counted.

Why
---
Some countries allow four extra driving lamps and count each separately switched section of a bar. Local law and
licensed practice decide; the number comes from the practice.

Bad
---
    accessories:
      bar: {part: led-bar-760, at: grille, switch: main.2, legend: BAR,
        lamp: {kind: driving, colour: white, sections: 3}}
      spots: {part: led-driving-40, quantity: 2, at: grille, switch: main.3, legend: SPOTS}

Good
----
    accessories:
      bar: {part: led-bar-760, at: grille, switch: main.2, legend: BAR}
      spots: {part: led-driving-40, quantity: 2, at: grille, switch: main.3, legend: SPOTS}

Sources
-------
Lighting rules of one country, as reported by its press: common practice, no source. Local law decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Accessory, Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    most = sized.build.practice.lamps_max
    lamps = [(item, count(item)) for item in sized.build.accessories.values() if count(item)]
    total = sum(number for _, number in lamps)
    if most is None or total <= most:
        return
    counted = " + ".join(f"{number} (`{item.name}`)" for item, number in lamps)
    yield Finding(
        lamps[-1][0].at,
        f"driving lamps: {counted} = {total}; at most {most} where this vehicle is used",
        f"leave out {total - most}, or let the sections of a bar switch together; local law decides",
        tuple((item.at, f"counts as {number}") for item, number in lamps[:-1]),
    )


def count(item: Accessory) -> int:
    """Driving lamps that this one counts as."""
    lamp = item.part.lamp
    return item.quantity * lamp.sections if lamp is not None and lamp.kind == "driving" else 0
