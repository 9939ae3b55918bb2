"""A pre-wire does not say what it is left for.

What
----
Every reserve has a `purpose`; `unspecified` is one.

Why
---
The next fitter finds a wire behind the trim and cannot tell what may be put there. Six hours went into one
boat for want of a drawing.

Bad
---
    reserves: {spare: {at: bed, fed_from: rear.2, allow: 10 A, end: behind the trim, cap: heat-shrink cap}}

Good
----
    reserves: {spare: {at: bed, fed_from: rear.2, allow: 10 A, end: behind the trim, cap: heat-shrink cap,
          purpose: unspecified future use}}

Sources
-------
A fleet specification that asks for spares "for unspecified future use", tagged and identified.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for reserve in sized.build.reserves.values():
        if not reserve.purpose.strip():
            yield Finding(
                reserve.at,
                f"reserve `{reserve.name}` does not say what it is left for",
                "write `purpose:`; `unspecified future use` will do",
            )
