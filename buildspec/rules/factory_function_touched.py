"""A function of the vehicle that is to stay as it came is replaced, and no document allows it.

What
----
What an accessory or a step of work `replaces` is not in the vehicle's list `untouched`, or a `document` with its
revision allows it.

Why
---
Rear cameras, airbag zones and required lamps are commonly protected by law, and a fault in them is found by the
next inspector or in the next crash. Local law, the vehicle maker and licensed practice decide.

Bad
---
    vehicle: {untouched: [rear camera]}
    accessories: {tailgate-camera: {part: camera-rear, at: tailgate, fed_from: rear.2, replaces: rear camera}}

Good
----
    vehicle: {untouched: [rear camera]}
    accessories: {tailgate-camera: {part: camera-rear, at: tailgate, fed_from: rear.2}}

Sources
-------
Common practice, no source; local law decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Accessory, Sized, Work

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    kept = {text.casefold().strip(): n for n, text in enumerate(build.vehicle.untouched)}
    steps = (*build.works, *(step for item in build.accessories.values() for step in item.works))
    found: tuple[tuple[str, Accessory | Work], ...] = (
        *((f"`{item.name}`", item) for item in build.accessories.values()),
        *((f"{step.do} of {step.what}", step) for step in steps),
    )
    for what, one in found:
        index = kept.get(one.replaces.casefold().strip())
        if index is not None and not one.document.strip():
            yield Finding(
                (*one.at, "replaces"),
                f"{what} takes the place of `{one.replaces}`, which is to stay as it came",
                "leave it and fit the new thing beside it, or write `document:` with what allows it and its revision",
                (((*build.vehicle.at, "untouched", index), "stays as it came"),),
            )
