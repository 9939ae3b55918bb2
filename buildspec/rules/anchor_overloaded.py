"""An anchor point is asked for more than it is made for.

What
----
The `load` on one point stays within the declared `working_load` of the part. Where points of different
strength hold one thing, write it on each: the weakest governs.

Why
---
A ring tears out in the first hard stop. Anchors for cargo never hold people, child seats or animals.

Bad
---
    accessories: {rings: {part: load-ring-2500, quantity: 4, at: bed, load: 3000 N}}

Good
----
    accessories: {rings: {part: load-ring-3500, quantity: 4, at: bed, load: 3000 N}}

Sources
-------
The part's declared working load; the weakest part governs after 49 CFR 393.108(a).
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        asked, anchor = item.anchored_load_n, item.part.anchor
        if asked is not None and anchor is not None and asked > anchor.working_load_n:
            yield Finding(
                (*item.at, "load"),
                f"{show.plain(asked, 0)} N on one point of `{item.name}`; its working load is "
                f"{show.plain(anchor.working_load_n, 0)} N (as declared)",
                f"choose points of at least {show.plain(asked, 0)} N, or spread the load over more of them",
            )
