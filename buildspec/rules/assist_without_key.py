"""Nothing commands an assist link.

What
----
A `momentary-link` names the key that closes it under `switch`.

Why
---
Without it nobody can close the link, and what the packet says about it is a guess.

Bad
---
    isolation:
      assist: {type: momentary-link, joins: [start, house], part: link-200, at: engine-bay}

Good
----
    isolation:
      assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, legend: ASSIST}

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
    free = [f"{c.panel}.{c.number}" for c in sized.build.channels if c.use == "blank"]
    for way in sized.build.isolation.values():
        if way.type == "momentary-link" and not way.switch:
            yield Finding(
                way.at,
                f"nothing commands momentary link `{way.name}`: `switch` is not written",
                f"write `switch: {free[0]}`" if free else "free a key for it, or add a panel",
            )
