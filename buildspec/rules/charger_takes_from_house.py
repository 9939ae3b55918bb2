"""A charger takes from the house side and gives to the start side.

What
----
A `dc-dc` charger goes `from` a start battery `to` a house battery. A warning where something else charges the house
battery, an error where nothing does.

Why
---
The alternator is on the start side: turned round, the charger empties the house battery into a battery that
is charged anyway, and the house battery is charged by nothing. Where a sun panel on the house side is to keep
the start battery full, accept it with a waiver that says so.

Bad
---
    isolation: {charger: {type: dc-dc, from: house, to: start, output: 40 A, wake: ignition, at: bulkhead}}

Good
----
    isolation: {charger: {type: dc-dc, from: start, to: house, output: 40 A, wake: ignition, at: bulkhead}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import isolation

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    charged = isolation.charged(build)
    for way in isolation.reversed_chargers(build):
        giver, taker = way.ends
        alone = "" if giver in charged else f", and nothing else charges `{giver}`"
        yield Finding(
            (*way.at, "from"),
            f"`{way.name}` takes from house battery `{giver}` and gives to start battery `{taker}`{alone}",
            f"write `from: {taker}` and `to: {giver}`",
            severity="error" if alone else None,
        )
