"""A key promises a jump start through a charger that passes current one way only.

What
----
A `dc-dc` charger has no `switch`: a key on it would promise that it brings current from the house battery to
the start battery. Where help at the start is wanted, a momentary link joins the two batteries.

Why
---
A dc-dc charger passes current from the start side to the house side and, as a rule, cannot help the starter.
The owner finds out at night.

Bad
---
    isolation:
      charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, switch: main.8, at: bulkhead}

Good
----
    isolation:
      charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}
      assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, at: engine-bay}

Sources
-------
Common practice, no source; makers of such chargers say so in trade press.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for way in sized.build.isolation.values():
        if way.type == "dc-dc" and way.switch:
            giver, taker = way.ends
            yield Finding(
                (*way.at, "switch"),
                f"key `{way.switch}` commands `{way.name}`, which passes current from `{giver}` to `{taker}` only: "
                "no assist is possible on it",
                f"drop `switch`; for an assist add a `momentary-link` that joins `{giver}` and `{taker}`",
            )
