"""A fuse cannot break the current of a dead short where it sits.

What
----
The breaking capacity of every fuse, at the voltage of the system, is at least the prospective current
behind it: every battery that stays joined by a tie, a voltage relay or a switch, with its short-circuit current
(its maker's, or by its cranking current after ABYC E-11), and what alternator and chargers add, through the network
with cold conductors. Nothing caps that current: the table's branch column may ask less of a device behind a feeder
than can flow there. A fuse that is bought by a sheet counts with it: `breaking` with its `source`
under `fuse_parts` of the practice.
A link that is held by hand joins for seconds and is left out, as the table counts what is connected.

Why
---
A fuse that is asked to break more than it can bursts or keeps an arc. Lithium batteries give several
thousand amperes; the current limit of their manager must not be taken for that figure.

Bad
---
batteries:
  house: {chemistry: lithium-iron-phosphate, capacity: 100 Ah, short_circuit: 3730 A, at: load-bed}
panels:
  main: {fed_from: house, module_at: load-bed, fuse: {family: strip-m8}}

Good
----
panels:
  main: {fed_from: house, module_at: load-bed, fuse: {family: class-t}}

Sources
-------
ABYC E-11 table V-A; public data on fuse families: blade 1 kA at 32 V, M5 strip 1 kA, M8 strip 2 kA,
class T 20 kA.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Protection, Sized
from buildspec.rules import _sizing
from buildspec.size import devices as device_sizes

SEVERITY = "error"
SOURCES = ("abyc-e11-table-va", "abyc-e11-large-banks", "off-grid-fuse-article", "arithmetic")


def check(sized: Sized) -> Iterator[Finding]:
    nominal = sized.build.practice.nominal_v
    for circuit, _, protection, device in _sizing.devices(sized):
        fault = device.prospective_a
        made = fuses.standard(device.family, device.rating_a)
        if device.kind != "fuse" or fault is None or made is None:
            continue
        if device.breaking_a is None and made.max_v >= nominal:
            message = (
                f"cannot check: the breaking capacity of the {_sizing.title(device)} of {_sizing.name(circuit)} is not "
                f"known at {show.plain(nominal, 1)} V; {show.plain(fault, 0)} A may flow there"
            )
            yield Finding(place(protection), message, others(sized, device, circuit))
        elif device.breaking_a is not None and device.breaking_a < fault:
            yield finding(sized, circuit, protection, device, (device.breaking_a, fault))


def finding(
    sized: Sized, circuit: Circuit, protection: Protection, device: Device, amps: tuple[float, float]
) -> Finding:
    breaks, fault = _sizing.apart(*amps, "A")
    message = (
        f"the {_sizing.title(device)} of {_sizing.name(circuit)} breaks {breaks}; {fault} may flow "
        f"behind `{protection.source}` in a dead short{joined(sized, circuit, device)} "
        "(battery maker's figure or ABYC E-11 table V-A)"
    )
    return Finding(place(protection), message, others(sized, device, circuit))


def joined(sized: Sized, circuit: Circuit, device: Device) -> str:
    """The batteries that feed it, where there are several."""
    near = next((n for n in sized.faults[circuit.key].near if n.device == device.key), None)
    if near is None or len(near.batteries) < 2:
        return ""
    return f" from {' and '.join(f'`{name}`' for name in near.batteries)} together"


def place(protection: Protection) -> tuple[str | int, ...]:
    return _sizing.fuse_path(protection, "family") if protection.family else protection.at


def others(sized: Sized, device: Device, circuit: Circuit) -> str:
    """Families that break this current and have a rating for this place."""
    found = []
    for family in fuses.families():
        fuse = fuses.smallest(family, at_least_a=max(device.rating_a, sized.sizings[circuit.key].design_a))
        if fuse is not None:
            breaking = device_sizes.breaking_a(sized.build, fuse)
            if breaking is not None and breaking >= (device.prospective_a or 0.0):
                found.append(f"{family} {show.amps(fuse.rating_a)} ({show.plain(breaking, 0)} A)")
    if not found:
        return "divide the bank, with a device for each battery"
    if device.host:
        return (
            f"a longer or thinner feed; a fuse whose maker's sheet gives as much (`breaking` under `fuse_parts`); or a "
            f"block that takes a family which breaks it: {', '.join(found)}"
        )
    return f"would break it: {', '.join(found)}; a small load is better fed from a block behind one of these"
