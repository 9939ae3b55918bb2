"""A low-voltage disconnect opens because of the drop in its cable, with a battery that is fine.

What
----
With everything on, a battery that is three quarters full still reads more at the disconnect than the voltage
at which it opens.

Why
---
A disconnect measures at its own terminals. Behind a thin cable it sees an empty battery whenever much is
switched on, and nobody finds the fault at the battery.

Bad
---
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed, wire: 4 mm2,
          cut_off: {opens_at: 12.3 V, closes_at: 13.6 V, delay: 60 s}}}

Good
----
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed, wire: 16 mm2,
          cut_off: {opens_at: 12.3 V, closes_at: 13.6 V, delay: 60 s}}}

Sources
-------
Rest voltages of an engine battery page, a vehicle owner's manual and a lithium table; drop from the network in
its worst state. Three quarters as the mark of a battery that is fine is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import charge
from buildspec.energy import cut_offs
from buildspec.energy.capacity import chemistry_of
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engine-battery-page", "agm-owner-manual", "lithium-charge-table")

FINE = 0.75
"""State of charge at which nobody wants a disconnect to open."""


def check(sized: Sized) -> Iterator[Finding]:
    for one in cut_offs.disconnects(sized):
        rest = charge.rest_v(chemistry_of(one.battery), charge=FINE) if one.battery.part.battery else None
        if rest is None:
            continue
        full, drop = rest * cut_offs.scale(sized), cut_offs.drop_v(sized, one)
        if full - drop < one.trait.opens_v:
            there, opens = _sizing.apart(full - drop, one.trait.opens_v, "V")
            amps = sized.sizings[one.supply.key].design_a
            yield Finding(
                (*one.at, "opens_at"),
                f"`{one.name}` opens at {opens} and reads {there} with {show.amps(amps)} on: `{one.battery.name}`, "
                f"three quarters full, gives {show.volts(full)}, and {show.volts(drop)} is lost on the way",
                f"a larger conductor, or a setting of {show.plain((full - drop) // 0.1 * 0.1, 1)} V or less",
                ((_sizing.wire_path(one.supply, sized.sizings[one.supply.key]), "the way to it"),),
            )
