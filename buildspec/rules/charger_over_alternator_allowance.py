"""Chargers and start-side loads take more than the alternator can spare.

What
----
The largest input currents of all chargers, the loads on the start side and what voltage relays join to it
while the engine runs stay within the allowance of the alternator; where the vehicle's data state none, within
the share of its rating that the practice allows (`alternator_share`). What remains is printed, negative or
not.

Why
---
At least half of an alternator's rating feeds the vehicle itself, and at idle it gives less than its
nameplate.

Bad
---
    vehicle: {alternator: {rated: 150 A, controlled: true}}
    isolation:
      one: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}
      two: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}

Good
----
    vehicle: {alternator: {rated: 150 A, controlled: true, allowance: 60 A, source: data sheet, revision 4}}
    isolation:
      one: {type: dc-dc, part: dc-dc-40, from: start, to: house, wake: ignition, at: bulkhead}

Sources
-------
The default share is common practice, no source; the vehicle's own data or an output test at idle override it.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import alternator as supply
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build, alternator = sized.build, sized.build.vehicle.alternator
    if alternator is None:
        return
    limit, source = supply.allowance(build, alternator)
    added = supply.demand(build)
    if added.total_a <= limit:
        return
    others = added.total_a - sum(t.value for t in added.chargers)
    at = build.isolation[added.chargers[-1].what].at if added.chargers else ("vehicle", "alternator")
    parts = [f"`{t.what}` {show.amps(t.value)}" for t in added.chargers]
    listed = " + ".join([*parts, f"other loads {show.amps(others)}"])
    yield Finding(
        at,
        f"{listed} = {show.amps(added.total_a)} from an alternator of {show.amps(alternator.rated_a)}; "
        f"{show.amps(limit)} may be taken ({source}), remaining {show.amps(limit - added.total_a)}",
        f"take chargers with an input of {show.amps(max(0.0, limit - others))} together, or "
        "prove a larger allowance by test",
        ((("vehicle", "alternator"), "the alternator"),),
    )
