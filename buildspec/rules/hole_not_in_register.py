"""A run passes a panel, and no hole is listed for it.

What
----
Where a run goes `through` a grommet or gland, a hole is listed under `holes` at one of its ends: made or
reused, with its size.

Why
---
The register is how the next fitter finds a way that is there, and how every hole is closed when the vehicle
is stripped.

Bad
---
    runs:
      - {between: [engine-bay, bulkhead], length: 0.9 m, through: grommet}

Good
----
    holes: {engine-wall: {at: bulkhead, what: engine wall, size: 25 mm, protection: grommet,
          seal: sealant over primer}}

Sources
-------
Common practice, no source; contracts ask for a plug in every hole of removed equipment.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    listed = {hole.place for hole in sized.build.holes}
    for run in sized.build.runs:
        if run.through in ("grommet", "gland") and not listed & {run.a, run.b}:
            yield Finding(
                (*run.at, "through"),
                f"the run between `{run.a}` and `{run.b}` passes a {run.through}, and no hole is listed at either end",
                "list it under `holes` with panel, size, protection and seal; a hole that was there counts as well",
            )
