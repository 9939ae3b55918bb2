"""A driving lamp sits on one side of the vehicle, without its twin.

What
----
With `lamps_symmetric` in the practice, driving lamps of one part come in even numbers, or say `centred: true`.

Why
---
Where extra driving lamps are allowed they commonly sit in pairs or in the middle, so that others can judge the width
of the vehicle. Local law and licensed practice decide.

Bad
---
    accessories: {spot: {part: led-driving-40, at: grille, switch: main.3, legend: SPOT}}

Good
----
    accessories: {spots: {part: led-driving-40, quantity: 2, at: grille, switch: main.3, legend: SPOTS}}

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
    if not sized.build.practice.lamps_symmetric:
        return
    alike: dict[tuple[str, str], list[Accessory]] = {}
    for item in sized.build.accessories.values():
        lamp = item.part.lamp
        if lamp is not None and lamp.kind == "driving" and not lamp.centred:
            alike.setdefault((item.part.id, item.part.title), []).append(item)
    for items in alike.values():
        number = sum(item.quantity for item in items)
        if number % 2:
            yield Finding(
                items[-1].at,
                f"{number} of driving lamp `{items[-1].part.title}`: one has no twin on the other side",
                "fit a pair, or put it in the middle and write `centred: true` under `lamp`; local law decides",
            )
