"""A conductor is thinner than any that may be laid on its own.

What
----
No conductor is below the practice's `min_wire` (1 mm², near 16 AWG, by default). Taps of vehicle signals
may use `signal_wire` behind a device of at most `signal_fuse`.

Why
---
A thin wire breaks at a crimp or a clip long before it is overloaded. What breaks once is bridged with
whatever is at hand.

Bad
---
accessories:
  marker: {at: load-bed, fed_from: rear.2, wire: 0.5 mm2, electrical: {model: constant-current, worst: 0.4 A}}

Good
----
accessories:
  marker: {at: load-bed, fed_from: rear.2, wire: 1 mm2, electrical: {model: constant-current, worst: 0.4 A}}

Sources
-------
ISO 10133:2012 par. 7.7: 1 mm² alone, 0.75 mm² inside a multi-core sheath; 33 CFR 183.425(e): 16 AWG.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("iso-10133-least", "33cfr183-425-least")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        key, least = least_mm2(sized, circuit)
        if sizing.conductor.area_mm2 * _sizing.AREA_TOLERANCE >= least:
            continue
        message = (
            f"{show.both_sizes(sizing.conductor)} to {_sizing.name(circuit)} is below {show.plain(least, 3)} mm², "
            f"the least for this use (`{key}`: {sized.build.practice.sources[key]})"
        )
        help = _sizing.conductor_help(sized, circuit, "put that size on the list of stock")
        yield Finding(_sizing.wire_path(circuit, sizing), message, help)


def least_mm2(sized: Sized, circuit: Circuit) -> tuple[str, float]:
    """The figure of the practice that holds for a circuit, and the area [mm²]."""
    practice = sized.build.practice
    ratings = [device.rating_a for device in sized.sizings[circuit.key].devices]
    if circuit.kind == "signal" and max(ratings, default=0.0) <= practice.signal_fuse_a:
        return "signal_wire", practice.signal_area_mm2
    return "min_wire", practice.min_area_mm2
