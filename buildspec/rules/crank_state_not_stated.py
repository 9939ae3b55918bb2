"""Nobody says whether a link is open or closed while the starter turns.

What
----
A `voltage-relay` and a `manual-switch` state `crank: open` or `crank: closed`.

Why
---
A link that is closed while cranking takes a large share of the starter current. Open or closed is a decision,
with contact, cable and fuses to suit.

Bad
---
    isolation:
      joiner: {type: voltage-relay, joins: [start, house], rating: 200 A, at: engine-bay}

Good
----
    isolation:
      joiner: {type: voltage-relay, joins: [start, house], rating: 200 A, crank: open, at: engine-bay}

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
    for way in sized.build.isolation.values():
        if way.type in ("voltage-relay", "manual-switch") and not way.crank:
            yield Finding(
                way.at,
                f"the state of `{way.name}` while cranking is not stated",
                "write `crank: open` where its trigger drops out with the starter, else `crank: closed`",
            )
