"""A state of the spec lasts longer than its battery does.

What
----
Each entry of `states` with `hours` and a stopped engine is worked out with its loads at their usual draw. No battery
gives more charge in it than may be taken: by the hours at that mean current, with Peukert's exponent and the allowed
depth of its chemistry. A battery that is charged meanwhile is left out.

Why
---
A state with hours is what the owner has asked for. A battery that is flat three hours before the market closes
has not been built to order, and each such day costs it some of its life.

Bad
---
states:
  market: {words: Market day, key: "off", engine: stopped, on: [fan, lamps], hours: 7}

Good
----
batteries:
  house: {part: agm-225-d, at: cabinet, role: house}

Sources
-------
Peukert's relation for the capacity of a label; the depth of discharge of the chemistry, or the battery's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import capacity, working
from buildspec.findings import Finding
from buildspec.model import OwnState, Sized

SEVERITY = "warning"
SOURCES = ("peukert-label-form", "arithmetic")
NOTHING_A = 1e-4


def check(sized: Sized) -> Iterator[Finding]:
    for state in sized.build.states.values():
        if state.hours is not None and state.engine == "stopped":
            yield from short(sized, state, state.hours)


def short(sized: Sized, state: OwnState, wanted_h: float) -> Iterator[Finding]:
    """A finding for each battery that a state empties too soon."""
    for name, mean_a in working.worked(sized, state).mean_a.items():
        item = sized.build.batteries[name]
        if item.part.battery is None or mean_a < NOTHING_A:
            continue
        lasts_h = capacity.hours(item, mean_a).value
        if lasts_h >= wanted_h:
            continue
        takes, allowed = mean_a * wanted_h, capacity.usable(item).value
        yield Finding(
            (*state.at, "hours"),
            f"`{state.name}` lasts {show.plain(wanted_h, 1)} h and `{name}` {show.plain(lasts_h, 1)} h at "
            f"{show.amps(mean_a)}: it takes {show.plain(takes, 1)} Ah, {show.plain(allowed, 1)} Ah may be taken",
            "a larger battery, something that charges it meanwhile, less that is on, or fewer hours; a waiver where "
            "the owner accepts it",
            ((item.at, "the battery"),),
        )
