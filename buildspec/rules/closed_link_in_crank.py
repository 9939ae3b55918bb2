"""The contact of a link that is closed while cranking is not made for the starter current.

What
----
The contact of a `voltage-relay` or `manual-switch` with `crank: closed` carries the starter for 10 s: the
vehicle's own figure (`own_loads: {cranking}`), else half of the cold cranking rating of the start battery. With
neither the check cannot be made. (Its fuses: see `assist-fuse-opens-while-cranking`. Assist links: see
`assist-rating-too-low`.)

Why
---
While both batteries stay joined, a large share of the starter current flows through the link: its fuses blow,
or its contact welds. A trigger that drops out with the starter cures it.

Bad
---
    isolation:
      joiner: {type: voltage-relay, joins: [start, house], rating: 100 A, crank: closed, at: engine-bay}

Good
----
    isolation:
      joiner: {type: voltage-relay, joins: [start, house], rating: 100 A, crank: open, at: engine-bay}

Sources
-------
The case is a club's wiki. Half of the cold cranking rating: workshop load test, recalled.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import cranking
from buildspec.findings import Finding
from buildspec.model import Isolation, LinkTrait, Sized
from buildspec.network import cranking as starting
from buildspec.network.build import Laid

SEVERITY = "error"
SOURCES = ("half-rating-load-test",)


def check(sized: Sized) -> Iterator[Finding]:
    for way in sized.build.isolation.values():
        if way.type != "momentary-link" and way.crank == "closed" and way.part.link is not None:
            yield from of_link(sized, way, way.part.link)


def of_link(sized: Sized, way: Isolation, trait: LinkTrait) -> Iterator[Finding]:
    wanted = starting.starter(sized.build, way)
    if wanted is None:
        yield Finding(
            (*way.at, "crank"),
            f"cannot check `{way.name}` while cranking: its start battery does not state its cold cranking current",
            "write `cranking:` on the start battery, from its label, or `own_loads: {cranking:}` of the vehicle",
        )
        return
    short = trait.short_time_s is not None and trait.short_time_s >= cranking.HOLD_S
    contact = max(trait.rating_a, trait.short_time_a or 0.0) if short else trait.rating_a
    if contact < wanted.amps:
        found = starting.of(Laid(sized.build, sized.sizings), way)
        share = (
            f"; {show.amps(found.shared_a)} of it while the start battery helps" if found is not None else ""
        )
        yield Finding(
            (*way.at, "crank"),
            f"`{way.name}` is closed while cranking with a {show.amps(contact)} contact; about "
            f"{show.amps(wanted.amps)} of starter current may take it ({wanted.words}){share}",
            f"let its trigger drop out with the starter and write `crank: open`, or size it for "
            f"{show.amps(wanted.amps)}",
        )
