"""A hole is to be drilled, and no wire of this build passes it.

What
----
A new hole with a grommet or gland has something that passes it: a run with wires names it, or an item whose own leads
go through it names it under `passes`.

Why
---
A hole in the body is for good: it rusts, it leaks, and the next fitter looks for the wire. Nobody drills one, and the
store orders no grommet, for a run on which nothing lies.

Bad
---
    runs:
      - {between: [engine-bay, step], length: 1.8 m, through: grommet, passes: [engine-wall]}
    holes:
      engine-wall: {at: step, what: engine wall, size: 40 mm, protection: grommet}

Good
----
    holes:
      lamp-gland: {at: header, what: header skin, size: 16 mm, protection: gland}
    accessories:
      side-lamp: {at: header, passes: [lamp-gland]}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.looms import holes
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for one in holes.passages(sized):
        hole = one.hole
        if one.made or hole.reused or hole.removed_item:
            continue
        named = "no wire lies in the run that passes it" if one.runs else "nothing is said to pass it"
        yield Finding(
            hole.at,
            f"hole `{hole.name}` in {hole.what} is new, and {named}",
            "strike it, and the packet orders and drills nothing; or name it under `passes` of the run or of the item "
            "whose leads go through it; `reused: true` where it is there already",
            tuple((run.at, "the run without wires") for run in one.runs),
        )
