"""Equipment has been taken out, and its hole stays open.

What
----
A hole with `removed_item: true` is used again (a run passes it, or `reused: true`), or states what it is
`closed_with`.

Why
---
A state contract for patrol cars asks for a watertight plug in every port and hole that removed equipment leaves.
An open roof hole finds the wiring below it in the first rain.

Bad
---
    holes: {old-aerial: {at: roof, what: roof skin, size: 16 mm, protection: edge trim, removed_item: true}}

Good
----
    holes: {old-aerial: {at: roof, what: roof skin, size: 16 mm, protection: edge trim, removed_item: true,
          closed_with: watertight plug and sealant, seal: sealant over primer}}

Sources
-------
State contract for the removal of equipment from patrol cars.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.looms import holes
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("take-out-contract",)


def check(sized: Sized) -> Iterator[Finding]:
    used = {hole.name for run in sized.build.runs for hole in holes.passed(sized.build, run)}
    for hole in sized.build.holes:
        if hole.removed_item and not (hole.reused or hole.closed_with.strip() or hole.name in used):
            yield Finding(
                hole.at,
                f"hole `{hole.name}` in {hole.what} is left by equipment that was taken out, and nothing closes it",
                "write `closed_with:` with a watertight plug and sealant, or let a run pass it",
            )
