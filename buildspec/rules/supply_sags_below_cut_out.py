"""With everything on, the battery's own sag takes a device below its cut-out.

What
----
In no state but cranking does the voltage at a device fall below its own cut-out, with the battery's internal
resistance counted. Where the conductors alone do that, `voltage-below-cut-out` says so.

Why
---
The conductors pass, and yet the fridge stops whenever the compressor runs: the battery itself gives way. The
resistance is that of a cold battery, so a warm one sags less; a device that stops on a warm day has a reason
that a larger cable does not cure.

Bad
---
    batteries: {house: {chemistry: agm, capacity: 35 Ah, cranking: 200 A, at: bed, role: house}}

Good
----
    batteries: {house: {chemistry: agm, capacity: 100 Ah, cranking: 650 A, at: bed, role: house}}

Sources
-------
Internal resistance from the definition of the cold cranking rating; the cut-out is the device maker's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import modes
from buildspec.findings import Finding
from buildspec.model import Circuit, Sized, Sizing
from buildspec.network import states
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("cranking-rating-definition", "arithmetic")


def check(sized: Sized) -> Iterator[Finding]:
    suspects = tuple(c for c, sizing in _sizing.circuits(sized) if suspect(c, sizing))
    if not suspects:
        return
    without = [m for m in states.modes(sized.build) if m.key != "crank"]
    lows = modes.lowest(sized, suspects, without)
    for circuit in suspects:
        low, cut_out = lows.get(circuit.key), circuit.load.cut_out_v if circuit.load else None
        if low is None or cut_out is None or low.volts >= cut_out:
            continue
        there, needed = _sizing.apart(low.volts, cut_out, "V")
        sizing = sized.sizings[circuit.key]
        yield Finding(
            circuit.at,
            f"{there} at `{circuit.item}` is below its cut-out of {needed} with everything on; its conductors "
            f"lose {show.volts(sizing.drop_v)} of that, the rest is the battery's own sag",
            "a battery with a higher cranking rating, a battery of its own, or less on at once",
            state=low.mode.name,
        )


def suspect(circuit: Circuit, sizing: Sizing) -> bool:
    """Has a cut-out that holds at rest and may not hold under load."""
    cut_out = circuit.load.cut_out_v if circuit.load else None
    return cut_out is not None and sizing.lowest_v < cut_out <= sizing.volts_at_load
