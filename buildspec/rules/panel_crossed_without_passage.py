"""A run goes from one side of a panel to the other, and nothing says how it passes.

What
----
A run between a place in the cabin and one in the engine space, under the body or outside names what it goes
`through`, or `passes` a hole that is listed with its protection. To the engine space and the underbody there is always
sheet metal in between: an error. To a place outside it can be the gap of a door: a warning.

Why
---
The floor, the wall to the engine and the rear wall of a cab are sheet metal. A loom that gets through them without a
grommet is cut by the edge, and its fuse finds out on the road. Whoever leaves out how it passes has not looked.

Bad
---
    runs:
      - {between: [engine-bay, bulkhead], length: 0.9 m}

Good
----
    runs:
      - {between: [engine-bay, bulkhead], length: 0.9 m, through: grommet, passes: [engine-wall]}

Sources
-------
Safety recalls (155 vehicles: grommet left out at a sharp opening); common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Resolved, Run, Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)
WALLED = ("engine", "underbody")
WORDS = {"engine": "the engine space", "underbody": "under the body", "outside": "outside"}


def check(sized: Sized) -> Iterator[Finding]:
    for run in sized.build.runs:
        other = across(sized.build, run)
        if not other or run.through or protected(sized.build, run):
            continue
        sure = other in WALLED
        between = "a panel lies between" if sure else "a panel or the gap of a door lies between"
        yield Finding(
            run.at,
            f"the run between `{run.a}` and `{run.b}` goes from the cabin to {WORDS[other]}; {between}, and nothing "
            "says how it passes",
            "write `through: grommet` or `through: gland` and list the hole under `holes`; a way of the vehicle's own "
            "loom counts as well",
            severity=None if sure else "warning",
        )


def across(build: Resolved, run: Run) -> str:
    """What is on the other side of the cabin's panel; `` where both ends are on the same side."""
    around = {build.places[place].environment for place in (run.a, run.b)}
    return next(iter(around - {"cabin"})) if "cabin" in around and len(around) == 2 else ""


def protected(build: Resolved, run: Run) -> bool:
    """The run names a hole whose edge is looked after; `bare-hole` says what is wrong with another."""
    return any(hole.name in run.passes for hole in build.holes)
