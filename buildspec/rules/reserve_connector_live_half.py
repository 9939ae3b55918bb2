"""The connector on a pre-wire can touch something with its live half.

What
----
Where a reserve ends in a connector, the supply half is the shrouded one (`shrouded: true`).

Why
---
The day its fuse goes in, bare pins on the supply side short against the body.

Bad
---
    reserves: {cam: {at: sill, fed_from: rear.2, allow: 1 A, end: in the sill, cap: sealed connector,
          connector: two-way}}

Good
----
    reserves: {cam: {at: sill, fed_from: rear.2, allow: 1 A, end: in the sill, cap: sealed connector,
          connector: two-way, shrouded: true}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for reserve in sized.build.reserves.values():
        if reserve.connector not in ("", "none") and not reserve.shrouded:
            yield Finding(
                (*reserve.at, "connector"),
                f"the supply half of connector `{reserve.connector}` on reserve `{reserve.name}` is not shrouded",
                "put the shrouded half on the supply side and write `shrouded: true`, or end it in a heat-shrink cap",
            )
