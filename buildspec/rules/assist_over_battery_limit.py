"""The helping battery or its manager cannot give the starter current.

What
----
Where a link is to carry the starter, the battery on the house side gives the whole starter current, since the
start battery may be dead: by its `max_discharge`, or by its own cold cranking rating. With neither stated the check
cannot be made. The starter current is the vehicle's own (`own_loads: {cranking}`), else half of the cold cranking
rating of the start battery.

Why
---
The manager of a lithium pack opens above its limit, at the moment when it is needed; a small gel battery
breaks down. The key then does nothing.

Bad
---
    batteries:
      house: {part: lithium-100-g31, at: engine-bay}   # 100 A by its manager

Good
----
    batteries:
      house: {part: agm-75-g24, at: engine-bay}        # 550 A cold cranking

Sources
-------
Half of the cold cranking rating: workshop load test, recalled.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Battery, Isolation, Sized
from buildspec.network import cranking, isolation

SEVERITY = "error"
SOURCES = ("half-rating-load-test",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for way in build.isolation.values():
        wanted = cranking.starter(build, way)
        if not isolation.carries_starter(way) or wanted is None:
            continue
        for helper in (build.batteries[end] for end in way.ends if build.batteries[end].role == "house"):
            yield from of_helper(way, helper, wanted.amps)


def of_helper(way: Isolation, helper: Battery, wanted: float) -> Iterator[Finding]:
    trait = helper.part.battery
    assert trait is not None
    if trait.max_discharge_a is not None:
        given, what = trait.max_discharge_a, "largest discharge"
    elif trait.cranking_a is not None:
        given, what = trait.cranking_a, "cold cranking"
    else:
        yield Finding(
            helper.at,
            f"cannot check `{way.name}`: what `{helper.name}` ({trait.chemistry}) can give is not stated",
            f"write `max_discharge:` or `cranking:` from its sheet; about {show.amps(wanted)} is needed",
            ((way.at, "this link is to carry the starter"),),
        )
        return
    if given < wanted:
        yield Finding(
            helper.at,
            f"`{helper.name}` gives {show.amps(given)} ({what}); the starter takes about "
            f"{show.amps(wanted)} over `{way.name}`",
            f"choose a battery that gives {show.amps(wanted)}, or drop the assist",
            ((way.at, "this link is to carry the starter"),),
        )
