"""The far end of a pre-wire is not closed.

What
----
Every reserve states its `cap`: a heat-shrink cap, or a sealed connector.

Why
---
Wiring for an option that was not fitted lay with open connectors in about 149 000 vans; it corroded,
overheated, and was recalled. Fire-vehicle specifications want a cap on every end that is not in a connector.

Bad
---
    reserves: {scene-left: {at: bed, switch: main.5, allow: 4 A, end: coiled behind the left trim}}

Good
----
    reserves: {scene-left: {at: bed, switch: main.5, allow: 4 A, end: coiled behind the left trim,
          cap: heat-shrink cap}}

Sources
-------
A safety recall and fire-vehicle specifications.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for reserve in sized.build.reserves.values():
        if reserve.cap in ("", "none"):
            yield Finding(
                (*reserve.at, "cap") if reserve.cap else reserve.at,
                f"the end of reserve `{reserve.name}` at `{reserve.place}` is open",
                "write `cap: heat-shrink cap`, or `cap: sealed connector`",
            )
