"""The conductor of a link that starts the engine is below what jump cables need.

What
----
A link that is closed by hand, or that stays closed while cranking, has at least 16 mm² for a petrol engine
of up to 2.5 l and at least 25 mm² for a larger or diesel one, or where the engine is not stated.

Why
---
A starter takes hundreds of amperes. A thin link gives the starter too few volts, heats, and fails the
owner on the one night that it was bought for.

Bad
---
isolation:
  assist: {type: momentary-link, joins: [start, house], rating: 200 A, at: engine-bay, wire: 16 mm2}

Good
----
isolation:
  assist: {type: momentary-link, joins: [start, house], rating: 200 A, at: engine-bay, wire: 50 mm2}

Sources
-------
Repair manual on jump cables: 16 mm² and 25 mm². The program never chooses less for any link.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Resolved, Sized
from buildspec.rules import _sizing
from buildspec.size import conductors

SEVERITY = "error"
SOURCES = ("jump-cable-manual",)


def check(sized: Sized) -> Iterator[Finding]:
    least = conductors.link_least(sized.build)
    for circuit, sizing in _sizing.circuits(sized):
        if circuit.kind != "link" or not for_starting(sized.build, circuit.item):
            continue
        if sizing.conductor.area_mm2 * _sizing.AREA_TOLERANCE < least:
            message = (
                f"{show.both_sizes(sizing.conductor)} in the link {_sizing.name(circuit)}; at least "
                f"{show.plain(least, 1)} mm² "
                f"for {engine(sized.build)} (repair manual on jump cables)"
            )
            help = _sizing.conductor_help(sized, circuit, "a shorter way between the batteries")
            yield Finding(_sizing.wire_path(circuit, sizing), message, help)


def for_starting(build: Resolved, name: str) -> bool:
    way = build.isolation[name]
    return way.type in ("momentary-link", "manual-switch") or way.crank == "closed"


def engine(build: Resolved) -> str:
    """The engine as stated, or that it is not."""
    stated = build.vehicle.engine
    if stated is None:
        return "an engine that is not stated"
    size = f" of {stated.displacement_l:g} l" if stated.displacement_l is not None else ""
    return f"a {stated.fuel} engine{size}"
