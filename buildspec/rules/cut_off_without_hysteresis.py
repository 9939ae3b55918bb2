"""A low-voltage disconnect closes again as soon as it has opened.

What
----
The voltage at which a disconnect closes lies above the one at which it opens by more than the voltage rises by
itself when its loads go dead: their current times the resistance of the conductors and of the battery.

Why
---
A battery recovers at once when its load is taken off. A disconnect that takes that for charging closes, sags,
opens, and so on, until its contact or what hangs on it gives up.

Bad
---
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed,
          cut_off: {opens_at: 12.2 V, closes_at: 12.3 V, delay: 60 s}}}

Good
----
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed,
          cut_off: {opens_at: 12.2 V, closes_at: 13.4 V, delay: 60 s}}}

Sources
-------
Ohm's law. Appliance manuals print a restart 1.2 to 2.3 V above the cut-out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from buildspec import show
from buildspec.energy import cut_offs
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("arithmetic", "cut-off-settings")


def check(sized: Sized) -> Iterator[Finding]:
    for one in cut_offs.disconnects(sized):
        opens, closes = one.trait.opens_v, one.trait.closes_v
        amps = sized.sizings[one.supply.key].design_a
        rise = cut_offs.drop_v(sized, one) + amps * cut_offs.internal_ohm(sized, one)
        least = f"`closes_at: {show.plain(math.ceil((opens + rise) * 10 + 1e-9) / 10, 1)} V` or more"
        if closes is None:
            yield Finding(
                one.at,
                f"cannot check `{one.name}`: the voltage at which it closes again is not stated",
                f"write {least}, as it is set",
            )
        elif closes - opens <= rise:
            apart, needed = _sizing.apart(closes - opens, rise, "V")
            yield Finding(
                (*one.at, "closes_at"),
                f"`{one.name}` opens at {show.volts(opens)} and closes {apart} above; with {show.amps(amps)} "
                f"cut off the voltage there rises by {needed} by itself, and it closes again",
                f"set {least}",
            )
