"""A protective device is larger than the maker of the device behind it allows.

What
----
Where a device states `max_fuse`, the fuse or the channel limit in front of it is at most that.

Why
---
The tracks and leads inside the device are the thinnest part of the circuit; its maker sized them for the
stated fuse. Never raise a fuse to end nuisance blowing.

Bad
---
accessories:
  radio: {fed_from: rear.2, fuse: {rating: 15 A}, electrical: {model: constant-current, worst: 3 A, max_fuse: 5 A}}

Good
----
accessories:
  radio: {fed_from: rear.2, fuse: {rating: 5 A}, electrical: {model: constant-current, worst: 3 A, max_fuse: 5 A}}

Sources
-------
The device maker's own sheet, as written in the part or the spec.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Protection, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the maker's limit of his own device",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, protection, device in _sizing.devices(sized):
        most = circuit.load.max_fuse_a if circuit.load else None
        if most is not None and device.rating_a > most:
            has, limit = _sizing.apart(device.rating_a, most, "A")
            message = (
                f"{_sizing.title(device)} protects {_sizing.name(circuit)}; its maker allows {limit} "
                f"in front of it, not {has}"
            )
            at = protection.at if device.kind == "channel" else _sizing.rating_path(protection)
            yield Finding(at, message, smaller(sized, circuit, protection, device, most))


def smaller(sized: Sized, circuit: Circuit, protection: Protection, device: Device, most_a: float) -> str:
    """The largest rating within the maker's limit that still carries the load."""
    if device.kind == "channel":
        return (
            f"set the channel lower with `fuse: {{rating: {show.amps(most_a)}}}`, or take a smaller channel"
        )
    least = _sizing.least_rating_a(sized, circuit, protection)
    fits = _sizing.fitting_fuse(sized, circuit, protection, device.family, most_a)
    if fits is not None:
        return f"a {show.amps(fits.rating_a)} {device.family} fuse"
    return (
        f"no {device.family} fuse from {least:.1f} A (its load) to {show.amps(most_a)}: one device a "
        "fuse, or a cooler place"
    )
