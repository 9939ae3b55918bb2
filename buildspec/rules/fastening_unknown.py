"""A fastening that bears a load cannot be checked: something about it is not stated.

What
----
Where an item has a load or a declared working load and says how it is fastened, the sheet, the body of a rivet nut,
the plate or what a weld nut holds is stated too.

Why
---
A bolt is as good as what takes its thread.

Bad
---
    accessories: {drawer: {part: drawer-single, at: bed, load: 1800 N,
                  fastening: {bolt: M8, class: "8.8", quantity: 4, into: weld nut}}}

Good
----
    accessories: {drawer: {part: drawer-single, at: bed, load: 1800 N,
                  fastening: {bolt: M8, class: "8.8", quantity: 4, into: weld nut, holds: 2500 N}}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import fastenings
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        held = item.fastening
        if held is None or (item.anchored_load_n is None and item.part.anchor is None):
            continue
        lacking = fastenings.unknown(held)
        if lacking:
            yield Finding(
                held.at,
                f"cannot check what holds `{item.name}`: not stated: {', '.join(lacking)}",
                "write it, from the maker's sheet, by measuring or by test",
            )
