"""Over an assist link too little voltage is left for the starter.

What
----
With the link closed, the start battery dead and the starter turning, at least 7.2 V (12 V system) are left at the
posts of the start battery. The network gives it: helping battery cold, cables out and back at their temperature,
fuses, contacts and body.

Why
---
7.2 V is what a start battery is rated to keep while it gives its cold cranking current. With less the starter
engages and does not turn, and its solenoid chatters until something welds.

Bad
---
isolation:
  assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, wire: 16 mm2}

Good
----
isolation:
  assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, wire: 50 mm2}

Sources
-------
Definition of cold cranking amperes: 30 s at -18 °C with 7.2 V kept. Starter current: the vehicle's own
(`own_loads: {cranking}`), else half of the cold cranking rating, a workshop load test, recalled.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Isolation, Sized
from buildspec.network import cranking, posts
from buildspec.network.build import Laid, rest_v
from buildspec.network.cranking import Crank
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("cranking-rating-definition", "half-rating-load-test", "arithmetic")


def check(sized: Sized) -> Iterator[Finding]:
    for way in sized.build.isolation.values():
        if way.type != "momentary-link":
            continue
        found = cranking.of(Laid(sized.build, sized.sizings), way)
        if found is not None and found.posts_v < cranking.least_v(sized.build):
            yield finding(sized, way, found)


def finding(sized: Sized, way: Isolation, found: Crank) -> Finding:
    start = next(end for end in way.ends if sized.build.batteries[end].role == "start")
    other = next(end for end in way.ends if end != start)
    helper = sized.build.batteries[other]
    inside = found.starter.amps * posts.weak_ohm(sized.build, helper)
    left, least = _sizing.apart(max(0.0, found.posts_v), cranking.least_v(sized.build), "V")
    cables = rest_v(sized.build, helper) - inside - found.posts_v
    message = (
        f"{left} are left at `{start}` while cranking over {start} ← {way.name} (closed) ← {other} at "
        f"{show.amps(found.starter.amps)} ({found.starter.words}); {least} are needed: {show.volts(inside)} are lost "
        f"in `{other}` in the cold and {show.volts(cables)} in cables, contacts and body"
    )
    return Finding(way.at, message, remedy(sized, found, cables))


def remedy(sized: Sized, found: Crank, cables_v: float) -> str:
    short = cranking.least_v(sized.build) - found.posts_v
    measured = "a measured starter current under `own_loads`"
    if short < cables_v * 0.5:
        most = show.volts(cables_v - short)
        return f"a larger link conductor and battery negative (at most {most} may be lost), or {measured}"
    return f"a helping battery with more cold cranking current and thicker cables, or {measured}"
