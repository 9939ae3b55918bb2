"""What passes a hole is thicker than its grommet or gland leaves room for.

What
----
The bundle of every wire of the runs that pass a hole goes through its `bore`. Where that is not written it is
the hole less 3 mm of rubber on each side (edge trim 2 mm). A sleeve ends at the grommet.

Why
---
A grommet that is forced is cut, or left out: then the edge of the panel is the grommet.

Bad
---
    holes: {floor: {at: seat, what: floor, size: 12 mm, protection: grommet, seal: sealant over primer}}

Good
----
    holes: {floor: {at: seat, what: floor, size: 32 mm, protection: grommet, seal: sealant over primer}}

Sources
-------
Geometry for up to three wires; two public bundle calculators, 1.2 × √Σd², for more. The rubber: common
practice, no source; write `bore` from the part.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.looms import holes, runs
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("circle-packing", "bundle-calculators", "common practice, no source")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for one in holes.passages(sized):
        if one.bore_m is None or one.diameter_m <= one.bore_m:
            continue
        hole = one.hole
        size = "size" if hole.size_m is not None and hole.bore_m is None else "bore"
        taken = "" if hole.bore_m is not None else f" of {show.diameter(hole.size_m or 0.0, practice)}"
        yield Finding(
            (*hole.at, size),
            f"the {hole.protection} in hole `{hole.name}`{taken} leaves {show.diameter(one.bore_m, practice)}, and "
            f"what passes it is {show.diameter(one.diameter_m, practice)} thick ({runs.sum_text(practice, one.lying)})",
            f"make the hole {show.diameter(one.needed_m, practice)} or larger, or lead some of it through another hole",
            tuple((run.at, f"passes `{hole.name}`") for run in one.runs),
        )
