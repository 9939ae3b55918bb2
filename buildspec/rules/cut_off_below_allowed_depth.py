"""A low-voltage disconnect lets a house battery down further than its chemistry allows.

What
----
A disconnect on the house side opens no lower than the battery reads there, at the mean current of a usual day,
when the allowed share of its charge is taken.

Why
---
A lead-acid battery that is emptied to a fifth night after night lasts one season. The voltage under a large
load says little, so the reading at the mean current counts; a delay bridges the large loads.

Bad
---
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed,
          cut_off: {opens_at: 11 V, closes_at: 13.4 V, delay: 60 s}}}

Good
----
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed,
          cut_off: {opens_at: 12.3 V, closes_at: 13.4 V, delay: 60 s}}}

Sources
-------
Rest voltages of an engine battery page (flooded), a vehicle owner's manual (AGM) and a lithium table; the tables
disagree by about 0.1 V. Allowed depth of the chemistry defaults.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from buildspec import show
from buildspec.calc import charge
from buildspec.energy import cut_offs
from buildspec.energy.capacity import chemistry_of, depth_term
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("engine-battery-page", "agm-owner-manual", "lithium-charge-table", "battery-education")


def check(sized: Sized) -> Iterator[Finding]:
    for one in cut_offs.disconnects(sized):
        if one.battery.role == "house" and one.battery.part.battery is not None:
            yield from held(sized, one)


def held(sized: Sized, one: cut_offs.Disconnect) -> Iterator[Finding]:
    name, depth = chemistry_of(one.battery), depth_term(one.battery).value
    rest = charge.rest_v(name, charge=1 - depth)
    if rest is None:
        text = f"cannot check `{one.name}`: no published rest voltage of {name} batteries at {show.percent(1 - depth)}"
        yield Finding((*one.at, "opens_at"), text, "set it as the battery's maker states")
        return
    amps, sag = cut_offs.mean_sag_v(sized, one)
    reads = rest * cut_offs.scale(sized) - sag
    if one.trait.opens_v < reads:
        opens, there = _sizing.apart(one.trait.opens_v, reads, "V")
        set_v = show.plain(math.ceil(reads * 10 - 1e-9) / 10, 1)
        yield Finding(
            (*one.at, "opens_at"),
            f"`{one.name}` opens at {opens}; with {show.percent(depth)} of `{one.battery.name}` taken it reads "
            f"{there} there at {show.amps(amps)}, the mean of a usual day, so more is taken before it opens",
            f"set `opens_at: {set_v} V`, or less where the battery's maker allows it",
        )
