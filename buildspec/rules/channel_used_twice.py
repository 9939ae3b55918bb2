"""Two things hang on one key.

What
----
Each channel of a panel has one user: an accessory, a reserve or a link.

Why
---
Two users of one key work together whether wanted or not, and their currents add up on one limit. Two lamps
that belong together are one accessory with `quantity: 2`.

Bad
---
    accessories:
      left: {part: led-work-27, at: roof, switch: main.2, legend: LEFT}
      right: {part: led-work-27, at: roof, switch: main.2, legend: RIGHT}

Good
----
    accessories:
      sides: {part: led-work-27, quantity: 2, at: roof, switch: main.2, legend: SIDES}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import claims

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    taken = {claim.text for claim in claims.keys(build)}
    for later, first in claims.twice(claims.keys(build)):
        listed = (f"{c.panel}.{c.number}" for c in build.channels if c.panel == later.host)
        free = next((key for key in listed if key not in taken), None)
        yield Finding(
            later.at,
            f"key `{later.text}` is taken: `{first.item}` and `{later.item}` both name it",
            f"`{free}` is free"
            if free
            else f"no key of `{later.host}` is free; join both to one item, or add a panel",
            ((first.at, "taken here"),),
        )
