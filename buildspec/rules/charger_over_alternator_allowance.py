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
from buildspec.findings import Finding
from buildspec.model import Alternator, Resolved, Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    alternator = sized.build.vehicle.alternator
    if alternator is None:
        return
    limit, source = allowance(sized.build, alternator)
    chargers, others = demand(sized)
    total = sum(chargers.values()) + others
    if total > limit:
        at = sized.build.isolation[list(chargers)[-1]].at if chargers else ("vehicle", "alternator")
        parts = [f"`{name}` {show.amps(amps)}" for name, amps in chargers.items()]
        listed = " + ".join([*parts, f"other loads {show.amps(others)}"])
        yield Finding(
            at,
            f"{listed} = {show.amps(total)} from an alternator of {show.amps(alternator.rated_a)}; {show.amps(limit)} "
            f"may be taken ({source}), remaining {show.amps(limit - total)}",
            f"take chargers with an input of {show.amps(max(0.0, limit - others))} together, or "
            "prove a larger allowance by test",
            ((("vehicle", "alternator"), "the alternator"),),
        )


def allowance(build: Resolved, alternator: Alternator) -> tuple[float, str]:
    """What may be taken [A], and who says so."""
    if alternator.allowance_a is not None:
        return alternator.allowance_a, alternator.source or "as written"
    share = build.practice.alternator_share
    return alternator.rated_a * share, f"practice, {show.percent(share)} of the rating"


def demand(sized: Sized) -> tuple[dict[str, float], float]:
    """Charger → its largest input, and the sum of everything else on the alternator while the engine runs [A]."""
    build = sized.build
    nodes = isolation.joined_while_running(build)
    inputs = [c for c in build.circuits if c.kind == "charge-in" and c.source in nodes]
    chargers = {c.item: sized.sizings[c.key].design_a for c in inputs}
    return chargers, sum(sized.loads_a[node] for node in nodes) - sum(chargers.values())
