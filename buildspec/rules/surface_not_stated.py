"""Sheet goods are to be fitted, and nobody says how much.

What
----
An accessory with `material` (trim cloth, plywood, insulation, sound deadening) states its `surface`.

Why
---
Without it no sheet is ordered, no mass is added up and no price is quoted, all in silence.

Bad
---
    accessories: {door-deadening: {part: sound-deadening-2, at: rear-doors}}

Good
----
    accessories: {door-deadening: {part: sound-deadening-2, at: rear-doors, surface: 1.8 m2}}

Sources
-------
Engineering principle.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("engineering principle",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        if item.part.material is not None and item.surface_m2 is None:
            yield Finding(
                item.at,
                f"the surface of `{item.name}` ({item.part.title}) is not stated: none would be ordered",
                "measure it and write `surface:`, such as `6.4 m2`",
            )
