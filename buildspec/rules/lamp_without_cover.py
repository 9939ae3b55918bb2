"""An off-road driving lamp has no cover for public roads.

What
----
With `covers` in the practice, a driving lamp that can be lit without the main beam says `covered: true`.

Why
---
Some jurisdictions let such lamps stay on the vehicle only under covers that let no light through. Local law and
licensed practice decide.

Bad
---
    accessories: {bar: {part: led-bar-760, at: roof, switch: main.2, legend: BAR}}

Good
----
    accessories: {bar: {part: led-bar-760, at: roof, switch: main.2, legend: BAR,
      lamp: {kind: driving, colour: white, covered: true}}}

Sources
-------
Common practice, no source; local law decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values() if sized.build.practice.covers else ():
        lamp = item.part.lamp
        if lamp is not None and lamp.kind == "driving" and not (lamp.with_main_beam or lamp.covered):
            yield Finding(
                item.at,
                f"driving lamp `{item.name}` can be lit without the main beam, and no cover is stated",
                "supply a cover and write `covered: true` under `lamp`, or tie it to the main beam; local law decides",
            )
