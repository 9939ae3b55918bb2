"""Something is to hold a load, and nobody says what it can hold.

What
----
An item with a `load` states the working load of its points (`anchor:`).

Why
---
A drawer unit full of tools is held by its mounts. Without a figure from its maker the check cannot be made.

Bad
---
    accessories: {drawer: {part: drawer-single, at: bed, load: 1800 N}}

Good
----
    accessories: {drawer: {part: drawer-single, at: bed, load: 1800 N, anchor: {working_load: 2500 N,
          points: 4}}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        held = item.part.anchor is not None or item.tie_downs
        if item.anchored_load_n is not None and not held:
            yield Finding(
                (*item.at, "load"),
                f"cannot check {show.plain(item.anchored_load_n, 0)} N on one point of `{item.name}`: the working load "
                "of its mounts is not stated",
                "write `anchor:` with `working_load` and `points` from its maker's sheet",
            )
