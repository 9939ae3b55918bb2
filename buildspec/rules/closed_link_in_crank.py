"""A link that is closed while cranking is not made for the starter current.

What
----
A `voltage-relay` or `manual-switch` with `crank: closed` carries half of the cold cranking rating of the
start battery for 10 s, and none of its fuses is asked for more than twice its rating. Without the cranking
rating the check cannot be made. (Assist links: see `assist-rating-too-low`.)

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
The case is a club's wiki. Half of the cold cranking rating: workshop load test, recalled. Fuses: ISO 8820-5,
recalled.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import cranking
from buildspec.findings import Finding
from buildspec.model import Isolation, LinkTrait, Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = (
    "half-rating-load-test",
    "fuse-gate-200",
)


def check(sized: Sized) -> Iterator[Finding]:
    for way in sized.build.isolation.values():
        if way.type != "momentary-link" and way.crank == "closed" and way.part.link is not None:
            yield from of_link(sized, way, way.part.link)


def of_link(sized: Sized, way: Isolation, trait: LinkTrait) -> Iterator[Finding]:
    rating = isolation.cold_cranking_a(sized.build, way)
    if rating is None:
        yield Finding(
            (*way.at, "crank"),
            f"cannot check `{way.name}` while cranking: its start battery does not state its cold cranking current",
            "write `cranking:` on the start battery, from its label",
        )
        return
    wanted = cranking.expected_a(cold_cranking_a=rating)
    short = trait.short_time_s is not None and trait.short_time_s >= cranking.HOLD_S
    contact = max(trait.rating_a, trait.short_time_a or 0.0) if short else trait.rating_a
    fuse = min((d.rating_a for d in sized.sizings[way.name].devices), default=wanted)
    if contact < wanted or fuse * cranking.FUSE_HOLDS_TIMES < wanted:
        yield Finding(
            (*way.at, "crank"),
            f"`{way.name}` is closed while cranking with a {show.amps(contact)} contact and {show.amps(fuse)} fuses; "
            f"about {show.amps(wanted)} of starter current may take it (half of {show.amps(rating)} cold cranking)",
            f"let its trigger drop out with the starter and write `crank: open`, or size it for {show.amps(wanted)}",
        )
