"""Too little thread holds a bolt.

What
----
`engagement` is at least one diameter of the bolt in steel and two in aluminium.

Why
---
A thread that is too short strips before the bolt is tight, or on the first rough track. Sheet alone is no thread.

Bad
---
    accessories: {rack: {part: roof-rack-van, at: roof,
                  fastening: {bolt: M8, class: "8.8", quantity: 6, into: tapped, metal: aluminium, engagement: 8 mm}}}

Good
----
    accessories: {rack: {part: roof-rack-van, at: roof,
                  fastening: {bolt: M8, class: "8.8", quantity: 6, into: tapped, metal: aluminium, engagement: 16 mm}}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fasteners
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)
SAME_M = 1e-6


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for item in sized.build.accessories.values():
        held = item.fastening
        if held is None or held.engagement_m is None:
            continue
        least = fasteners.ENGAGEMENT_TIMES[held.metal] * fasteners.diameter_m(held.bolt)
        if held.engagement_m < least - SAME_M:
            yield Finding(
                (*held.at, "engagement"),
                f"{show.diameter(held.engagement_m, practice)} of thread hold the {held.bolt} of `{item.name}` in "
                f"{held.metal}; at least {show.diameter(least, practice)} are needed",
                "a longer bolt, a thicker nut, or a through bolt with a plate",
            )
