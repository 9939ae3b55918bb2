"""The vehicle's own loom is moved, and nothing says how it is held afterwards.

What
----
A step of work with `loom: true` states under `secured` where and how the loom is held.

Why
---
On a retired patrol car a loom that an earlier fitter had moved chafed behind the fender liner through to the
wire of a crash sensor.

Bad
---
    works: [{do: move, what: vehicle loom behind the left kick panel, loom: true}]

Good
----
    works: [{do: move, what: vehicle loom behind the left kick panel, loom: true, secured: two clips on the sill}]

Sources
-------
Common practice, no source: an owner's report.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized, Work

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    steps: list[Work] = [*build.works, *(step for item in build.accessories.values() for step in item.works)]
    for step in steps:
        if step.loom and not step.secured.strip():
            yield Finding(
                step.at,
                f"{step.what} is the vehicle's own loom, and after this step nothing says how it is held",
                "write `secured:` with its clips, clear of moving trim and airbag covers",
            )
