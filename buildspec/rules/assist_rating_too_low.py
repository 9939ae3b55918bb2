"""An assist link, or a fuse in it, is too small for the starter.

What
----
The contact of a momentary link carries the starter for 10 s: its short-time rating (with its time), or its
continuous one, is at least half of the cold cranking rating of the start battery. No fuse in it is asked for
more than twice its rating. Without a cranking rating the check cannot be made, and that is a finding.

Why
---
With the start battery empty the whole starter current takes the link. A contact that is too small welds, and
then the two sides stay joined.

Bad
---
    isolation:
      assist: {type: momentary-link, joins: [start, house], rating: 200 A, switch: main.8, at: engine-bay}

Good
----
    isolation:
      assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, at: engine-bay}

Sources
-------
Half of the cold cranking rating for 15 s is the workshop's load test of a start battery, recalled, no
published copy read; a measured starter current is better. Fuse opening time at 200 %: ISO 8820-5, recalled.
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
        if way.type == "momentary-link" and way.part.link is not None:
            yield from of_link(sized, way, way.part.link)


def of_link(sized: Sized, way: Isolation, trait: LinkTrait) -> Iterator[Finding]:
    rating = isolation.cold_cranking_a(sized.build, way)
    if rating is None:
        yield Finding(
            way.at,
            f"cannot check the rating of `{way.name}`: no start battery that it joins states its cold cranking current",
            "write `cranking:` on the start battery, from its label",
        )
        return
    wanted = cranking.expected_a(cold_cranking_a=rating)
    short = trait.short_time_s is not None and trait.short_time_s >= cranking.HOLD_S
    carried = max(trait.rating_a, trait.short_time_a or 0.0) if short else trait.rating_a
    least = min((d.rating_a for d in sized.sizings[way.name].devices), default=wanted)
    if carried < wanted:
        yield too_small(way, wanted, rating, f"carries {show.amps(carried)} for {cranking.HOLD_S:g} s")
    elif least * cranking.FUSE_HOLDS_TIMES < wanted:
        opens = f"has a {show.amps(least)} fuse, which may open above {show.amps(least * cranking.FUSE_HOLDS_TIMES)}"
        yield too_small(way, wanted, rating, opens)


def too_small(way: Isolation, wanted: float, rating: float, what: str) -> Finding:
    return Finding(
        way.at,
        f"`{way.name}` {what}; the starter takes about {show.amps(wanted)} (half of {show.amps(rating)} cold cranking, "
        "workshop load test)",
        f"choose a link and fuses for {show.amps(wanted)} over {cranking.HOLD_S:g} s, and write `short_time` and `for`",
    )
