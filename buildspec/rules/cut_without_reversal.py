"""The vehicle is cut, drilled or filled, and nobody says how it goes back.

What
----
Work steps `cut`, `drill` and `fill` state their `reversal`; `none` with its reason is one.

Why
---
The vehicle is sold or handed back one day. The owner should know before the saw which cut stays for good.

Bad
---
    works:
      - {do: cut, what: lower grille mesh}

Good
----
    works:
      - {do: cut, what: lower grille mesh, reversal: fit a new lower grille mesh}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)
DONE = {"cut": "cut", "drill": "drilled", "fill": "filled"}


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    steps = [*build.works, *(step for item in build.accessories.values() for step in item.works)]
    for step in steps:
        if step.do in DONE and not step.reversal.strip():
            yield Finding(
                (*step.at, "do"),
                f"{step.what} is {DONE[step.do]}, and how it goes back is not stated",
                "write `reversal:`, or `reversal: none` and why",
            )
