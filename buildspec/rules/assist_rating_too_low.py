"""The contact of an assist link is too small for the starter.

What
----
The contact of a momentary link carries the starter for 10 s: its short-time rating (with its time), or its
continuous one, is at least the vehicle's own starter current (`own_loads: {cranking}`), else half of the cold
cranking rating of the start battery. With neither the check cannot be made, and that is a finding. (Its fuses: see
`assist-fuse-opens-while-cranking`.)

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
published copy read; a measured starter current is better.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import cranking
from buildspec.findings import Finding
from buildspec.model import Isolation, LinkTrait, Sized
from buildspec.network import cranking as starting

SEVERITY = "error"
SOURCES = ("half-rating-load-test",)


def check(sized: Sized) -> Iterator[Finding]:
    for way in sized.build.isolation.values():
        if way.type == "momentary-link" and way.part.link is not None:
            yield from of_link(sized, way, way.part.link)


def of_link(sized: Sized, way: Isolation, trait: LinkTrait) -> Iterator[Finding]:
    wanted = starting.starter(sized.build, way)
    if wanted is None:
        yield Finding(
            way.at,
            f"cannot check the rating of `{way.name}`: no start battery that it joins states its cold cranking current",
            "write `cranking:` on the start battery, from its label, or `own_loads: {cranking:}` of the vehicle",
        )
        return
    carried = carried_a(trait)
    if carried < wanted.amps:
        yield Finding(
            way.at,
            f"`{way.name}` carries {show.amps(carried)} for {cranking.HOLD_S:g} s; the starter takes about "
            f"{show.amps(wanted.amps)} ({wanted.words})",
            f"choose a link for {show.amps(wanted.amps)} over {cranking.HOLD_S:g} s, and write `short_time` and `for`",
        )


def carried_a(trait: LinkTrait) -> float:
    """What the contact carries for one turn of the starter [A]."""
    short = trait.short_time_s is not None and trait.short_time_s >= cranking.HOLD_S
    return max(trait.rating_a, trait.short_time_a or 0.0) if short else trait.rating_a
