"""Water or rust can get in at a hole.

What
----
A hole at a place outside, under the body or in the engine bay, or on a run that leads to one, states its
`seal`: sealant and rust treatment.

Why
---
Holes are cut through zinc and paint. Without primer they rust, without sealant they leak, and the second
owner finds out.

Bad
---
    holes: {floor: {at: seat, what: floor, size: 25 mm, protection: grommet}}

Good
----
    holes: {floor: {at: seat, what: floor, size: 25 mm, protection: grommet, seal: sealant over zinc primer}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Resolved, Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for hole in sized.build.holes:
        if not hole.seal.strip() and hole.protection != "none" and meets_weather(sized.build, hole.place):
            yield Finding(
                hole.at,
                f"hole `{hole.name}` in {hole.what} meets wet or heat and states no seal",
                "write `seal:` with sealant and rust treatment, such as `sealant over zinc primer`",
            )


def meets_weather(build: Resolved, place: str) -> bool:
    """Is the place, or the far end of a run that passes a panel from it, outside the cabin?"""
    passing = [run for run in build.runs if run.through and place in (run.a, run.b)]
    near = {place, *(end for run in passing for end in (run.a, run.b))}
    return any(build.places[name].environment != "cabin" for name in near)
