"""A loom or a cable goes through a hole whose edge can cut it.

What
----
No run passes a panel `through: bare hole`, and no hole has `protection: none`.

Why
---
A grommet left out at a sharp opening of a battery box was a recall; a chafed loom in a floor hole found its
way to a crash-sensor wire.

Bad
---
    runs:
      - {between: [engine-bay, bulkhead], length: 0.9 m, through: bare hole}

Good
----
    runs:
      - {between: [engine-bay, bulkhead], length: 0.9 m, through: grommet}

Sources
-------
Safety recalls; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for run in sized.build.runs:
        if run.through == "bare hole":
            yield Finding(
                (*run.at, "through"),
                f"the loom between `{run.a}` and `{run.b}` passes a bare hole",
                "fit a grommet or a gland and write it under `through`",
            )
    for hole in sized.build.holes:
        if hole.protection == "none":
            yield Finding(
                (*hole.at, "protection"),
                f"the edge of hole `{hole.name}` in {hole.what} is not protected",
                "fit a grommet, a gland or edge trim and write it under `protection`",
            )
