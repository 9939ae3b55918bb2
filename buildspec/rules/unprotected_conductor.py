"""A conductor leaves a source without a protective device.

What
----
Every conductor that a battery, a block or a panel feeds begins with a protective device. A branch without
a device of its own passes only where the one device upstream already protects its thinnest part. Cranking
and alternator conductors of the vehicle itself (`existing: true`) are left out.

Why
---
A battery pushes thousands of amperes into a chafed wire. Inverters left a factory unfused and were
recalled; so were instrument wires without a breaker and marker lamps behind a large shared one.

Bad
---
accessories:
  inverter: {at: load-bed, fed_from: house, fuse: {none: has one inside}}

Good
----
accessories:
  inverter: {at: load-bed, fed_from: house, fuse: {rating: 125 A}}

Sources
-------
33 CFR 183.455(a), 46 CFR 111.15-25(a); recalls of motor homes, ambulances and truck bodies.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Sized, Sizing
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("33cfr183-455", "46cfr111-15-25", "inverter-recall", "ammeter-recall", "marker-lamp-recall")
KINDS = ("load", "reserve", "feeder")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        if circuit.kind in KINDS and circuit.unprotected:
            device = next(iter(_sizing.case(sized, circuit).guard), None)
            if device is None or not outlasts(sized, sizing, device):
                yield finding(sized, circuit, sizing, device)


def outlasts(sized: Sized, sizing: Sizing, device: Device) -> bool:
    """Does the conductor outlast the device upstream?"""
    amp = sizing.ampacity
    return amp is not None and amp.corrected_a >= device.rating_a * sized.build.practice.wire_margin


def finding(sized: Sized, circuit: Circuit, sizing: Sizing, device: Device | None) -> Finding:
    message = f"no protective device between `{circuit.source}` and {_sizing.name(circuit)}"
    if device is not None:
        carries = (
            f"carries {sizing.ampacity.corrected_a:.1f} A"
            if sizing.ampacity
            else "is below the ampacity table"
        )
        message += (
            f"; {show.size(sizing.conductor)} {carries}, and the {_sizing.title(device)} upstream does "
            "not protect it"
        )
    return Finding((*circuit.at, "fuse"), f"{message} (33 CFR 183.455(a))", remedy(sized, circuit, sizing))


def remedy(sized: Sized, circuit: Circuit, sizing: Sizing) -> str:
    """A fuse that carries the load and that the conductor outlasts, at the place where it must sit."""
    practice = sized.build.practice
    least = sizing.design_a / practice.fuse_share[circuit.environment]
    carries = sizing.ampacity.corrected_a if sizing.ampacity and sizing.written else float("inf")
    for family in families(sized, circuit):
        fuse = fuses.smallest(family, at_least_a=least)
        if fuse is not None and fuse.rating_a * practice.wire_margin <= carries:
            at_post = circuit.source in sized.build.batteries
            near = _sizing.within(practice.unprotected_m, practice)
            where = f", within {near} of the post" if at_post else f" at `{circuit.source}`"
            return f"a {show.amps(fuse.rating_a)} {family} fuse{where}"
    return f"feed it from a block, behind a fuse of at least {least:.1f} A that the conductor outlasts"


def families(sized: Sized, circuit: Circuit) -> tuple[str, ...]:
    """The family of the block that feeds the circuit, or the shop's families at a battery post."""
    block = sized.build.blocks[circuit.source].part.block if circuit.source in sized.build.blocks else None
    return (block.family,) if block else sized.build.practice.battery_families
