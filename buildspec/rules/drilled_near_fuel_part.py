"""A hole is made where a fuel part or a brake pipe lies behind the panel.

What
----
A hole that states `near` with `fuel` or `brake` closer than the practice's `clearance`, and is not `reused`, says under
`behind` how that part is kept from the drill.

Why
---
A drill that breaks through goes on for 20 mm. Behind a floor lie the tank, the pipes, the brake lines.

Bad
---
    holes: {floor: {at: seat, what: floor, size: 25 mm, protection: grommet, seal: primer,
          near: [{what: fuel, distance: 20 mm}]}}

Good
----
    holes: {floor: {at: seat, what: floor, size: 25 mm, protection: grommet, seal: primer,
          near: [{what: fuel, distance: 20 mm}], behind: "depth stop at 4 mm, steel plate held behind"}}

Sources
-------
FAA AC 43.13-1B 11-96(w): 2 in from flammable fluid, taken for the drill as well; the rest common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _near

SEVERITY = "error"
SOURCES = ("faa-ac-43.13-1b-looms", "common practice, no source")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for hole in sized.build.holes:
        for one in () if hole.reused or hole.behind.strip() else hole.near:
            if one.what in ("fuel", "brake") and one.distance_m < practice.clearance_m[one.what]:
                least = show.diameter(practice.clearance_m[one.what], practice)
                yield Finding(
                    (*one.at, "distance"),
                    f"hole `{hole.name}` in {hole.what} is made {show.diameter(one.distance_m, practice)} from "
                    f"{_near.name(one)} behind it, and {least} is the "
                    f"least (`clearance`, `{one.what}`: {_near.source(practice, 'clearance', one.what)})",
                    "move the hole, or write under `behind` what keeps the drill off: depth stop, plate, tank lowered",
                )
