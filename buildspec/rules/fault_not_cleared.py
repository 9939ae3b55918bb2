"""A dead short at the far end of a circuit does not open its fuse in time.

What
----
With a dead short at the device, the battery, the conductors out and back at working temperature, joints
and body let through at least 3.5 times the rating of the fuse: it then opens within half a second.

Why
---
A long thin run behind a large fuse limits the fault to a current that the fuse carries for minutes, and
the loom is the heater. Electronic channels measure the current and are left out.

Bad
---
accessories:
  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 40 A}, wire: 1 mm2}

Good
----
accessories:
  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 5 A}, wire: 1 mm2}

Sources
-------
ISO 8820-3: blade fuses open within 0.5 s at 350 % of their rating, as relay sheets quote it; taken for
the other families as well, which is common practice without a source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses, interrupting
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Protection, Sized
from buildspec.rules import _sizing
from buildspec.size import devices

SEVERITY = "error"
SOURCES = ("relay-sheet", "arithmetic", "common practice, no source: one gate for every family")
TIMES = 3.5


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, protection, device in _sizing.devices(sized):
        if device.kind != "fuse" or device.prospective_a is None or circuit.kind in ("link", "tie"):
            continue
        fault = far_fault_a(sized, circuit, device.prospective_a)
        if fault < device.rating_a * TIMES:
            yield finding(sized, circuit, protection, device, fault)


def far_fault_a(sized: Sized, circuit: Circuit, near_a: float) -> float:
    """Current of a dead short at the device [A], from the one right behind the fuse."""
    open_v = devices.OPEN_CIRCUIT_V * sized.build.practice.nominal_v / 12.0
    return interrupting.prospective_a(
        open_circuit_v=open_v, source_ohm=open_v / near_a, loop_ohm=sized.sizings[circuit.key].loop_ohm
    )


def finding(
    sized: Sized, circuit: Circuit, protection: Protection, device: Device, fault_a: float
) -> Finding:
    fault, needed = _sizing.apart(fault_a, device.rating_a * TIMES, "A")
    ohm = sized.sizings[circuit.key].loop_ohm
    message = (
        f"a dead short at {_sizing.name(circuit)} draws {fault} through {show.plain(ohm * 1000, 1)} mohm; the "
        f"{_sizing.title(device)} needs {needed} to open in half a second (350 %, ISO 8820-3)"
    )
    least = _sizing.least_rating_a(sized, circuit, protection)
    fits = [f.rating_a for f in fuses.fuses(device.family) if least <= f.rating_a <= fault_a / TIMES]
    smaller = f"a {show.amps(fits[-1])} {device.family} fuse, or " if fits else ""
    return Finding(_sizing.rating_path(protection), message, f"{smaller}a larger conductor or a shorter way")
