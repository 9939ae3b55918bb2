"""A device gets less voltage than it needs to stay on.

What
----
With the battery at its resting voltage (`resting_voltage` of the practice) and everything on, the voltage
at the device is at least its own cut-out.

Why
---
A compressor fridge that stops below 10.9 V stops in the evening, with a battery that still holds half
its charge: most calls about dead fridges are voltage lost in a thin cable.

Bad
---
accessories:
  fridge: {at: load-bed, fed_from: house, wire: 0.5 mm2, electrical: {model: motor, worst: 5 A, cut_out: 10.9 V}}

Good
----
accessories:
  fridge: {at: load-bed, fed_from: house, wire: 6 mm2, electrical: {model: motor, worst: 5 A, cut_out: 10.9 V}}

Sources
-------
The cut-out is the device maker's own (here a fridge maker's service note); resistance after IEC 60228.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import branches, show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("fridge-service-note", "iec-60228")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for circuit, sizing in _sizing.circuits(sized):
        cut_out = circuit.load.cut_out_v if circuit.load else None
        if cut_out is None or sizing.volts_at_load >= cut_out:
            continue
        there, needed = _sizing.apart(sizing.volts_at_load, cut_out, "V")
        length = branches.loop_m(circuit)
        message = (
            f"{there} at {_sizing.name(circuit)} is below its cut-out of {needed}: the battery at "
            f"{show.volts(practice.resting_v)} loses {show.volts(sizing.drop_v)} at {show.amps(sizing.design_a)}, "
            f"{show.volts(sizing.own_drop_v)} of it in {show.length(length, practice)} "
            f"of {show.size(sizing.conductor)}"
        )
        otherwise = "a shorter way, or a source nearer to it"
        yield Finding(
            _sizing.wire_path(circuit, sizing), message, _sizing.conductor_help(sized, circuit, otherwise)
        )
