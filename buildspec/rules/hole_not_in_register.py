"""A run passes a panel, and no hole is listed for it.

What
----
Where a run goes `through` a grommet or gland, a hole is listed under `holes` at one of its ends: made or
reused, with its size. Where more than one could be meant, the run names it under `passes`.

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

from buildspec import show
from buildspec.findings import Finding
from buildspec.looms import holes
from buildspec.model import Run, Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for run in sized.build.runs:
        if run.through in ("grommet", "gland") and not run.passes:
            yield from unlinked(sized, run)
    for one in holes.passages(sized):
        if one.lying and one.bore_m is None and one.hole.protection != "none":
            needed = show.diameter(one.needed_m, sized.build.practice)
            yield Finding(
                one.hole.at,
                f"cannot check hole `{one.hole.name}` in {one.hole.what}: its size is not stated, and "
                f"{show.diameter(one.diameter_m, sized.build.practice)} of wires pass it",
                f"write `size:`, {needed} or more with this {one.hole.protection}",
            )


def unlinked(sized: Sized, run: Run) -> Iterator[Finding]:
    """A run whose hole is not listed, or could be one of several."""
    found = holes.named(sized.build, run)
    if not found:
        yield Finding(
            (*run.at, "through"),
            f"the run between `{run.a}` and `{run.b}` passes a {run.through}, and no hole is listed at either end",
            "list it under `holes` with panel, size, protection and seal; a hole that was there counts as well",
        )
    elif len(found) > 1:
        names = ", ".join(f"`{hole.name}`" for hole in found)
        yield Finding(
            (*run.at, "through"),
            f"the run between `{run.a}` and `{run.b}` passes a {run.through}, and it could be any of {names}",
            "write `passes:` with the names of the holes",
        )
