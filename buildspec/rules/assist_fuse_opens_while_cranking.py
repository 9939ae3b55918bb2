"""A fuse in a link that is to carry the starter may open during one attempt.

What
----
With the link closed and the start battery dead, the whole starter current takes the link. Each fuse in it carries
that for one attempt by its fastest gate: 15 s, or the time of the link's own short-time rating. The starter current
is the vehicle's (`own_loads: {cranking}`), else half of the cold cranking rating of the start battery.

Why
---
At twice its rating a bolt-down fuse may go after one second. The owner holds the key, the engine turns once, and
then nothing: the fuse is in the engine bay and the spare is in the shop.

Bad
---
isolation:
  assist:
    type: momentary-link
    joins: [start, house]
    part: link-200
    switch: main.8
    fuses: {start: {rating: 150 A}, house: {rating: 150 A}}

Good
----
isolation:
  assist:
    type: momentary-link
    joins: [start, house]
    part: link-200
    switch: main.8
    fuses: {start: {rating: 250 A}, house: {rating: 250 A}}

Sources
-------
Opening times by family: table fuse_gates, recalled; the shop's `fuse_gates` take their place. Half of the cold
cranking rating for 15 s: workshop load test, recalled. A club's wiki tells of link fuses that blow while cranking.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses, opening
from buildspec.findings import Finding
from buildspec.model import Isolation, Sized
from buildspec.network import cranking, faults, isolation, surges
from buildspec.network.build import Laid
from buildspec.network.cranking import Crank
from buildspec.rules import _faults, _sizing
from buildspec.rules._faults import Site

SEVERITY = "error"
SOURCES = ("fuse-gates", "half-rating-load-test")


def check(sized: Sized) -> Iterator[Finding]:
    for way in sized.build.isolation.values():
        found = cranking.of(Laid(sized.build, sized.sizings), way) if isolation.carries_starter(way) else None
        if found is not None:
            yield from of_link(sized, way, found)


def of_link(sized: Sized, way: Isolation, found: Crank) -> Iterator[Finding]:
    """The fuse that may open first, with the others that may."""
    opening_sites = []
    for site in _faults.sites(sized).values():
        if site.circuit.key == way.name and site.device.kind == "fuse":
            own, multiple = faults.curve(sized.build, site.device.family), found.link_a / site.device.rating_a
            if opening.holds(own, multiple=multiple, for_s=cranking.attempt_s(way)) is False:
                time = opening.opening_s(own, multiple=multiple)[0] or 0.0
                opening_sites.append((time, site.device.designation, site))
    if opening_sites:
        (time, _, first), *others = sorted(opening_sites, key=lambda one: one[:2])
        also = tuple(
            (_sizing.rating_path(site.protection), f"the {_sizing.title(site.device)} too")
            for _, _, site in others
        )
        yield finding(sized, way, first, found, time)._replace(related=also)


def finding(sized: Sized, way: Isolation, site: Site, found: Crank, time: float) -> Finding:
    own, attempt = faults.curve(sized.build, site.device.family), cranking.attempt_s(way)
    message = (
        f"the {_sizing.title(site.device)} of `{way.name}` carries {show.amps(found.link_a)} while cranking with the "
        f"start battery dead ({found.starter.words}) on the way {path(sized, way)}; it may open after "
        f"{_faults.seconds(time)} of {_faults.seconds(attempt)}{_faults.memory(opening.recalled(own))}"
    )
    least = surges.least_rating_a(own, surges.starter(sized.build, site.circuit))
    bigger = fuses.smallest(site.device.family, at_least_a=least)
    fits = (
        f"a {show.amps(bigger.rating_a)} {bigger.family} fuse at both ends with a conductor for it"
        if bigger
        else "a slower family"
    )
    return Finding(
        _sizing.rating_path(site.protection), message,
        f"{fits}, a measured starter current under `own_loads`, or a link that is open while cranking",
    )  # fmt: skip


def path(sized: Sized, way: Isolation) -> str:
    """The way of the starter current, end first."""
    start = next((end for end in way.ends if sized.build.batteries[end].role == "start"), way.ends[0])
    other = next(end for end in way.ends if end != start)
    return f"{start} ← {way.name} (closed) ← {other}"
