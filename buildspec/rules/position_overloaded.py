"""A fuse or a load is more than one position of a block or a rocker bank carries.

What
----
The load and the fuse of a position are at most the limit of the position. For a rocker bank the load is
held against the contact by `contact-overloaded`; here only its fuse counts.

Why
---
Between the fuse and the terminal of a position there is a clip, a rivet and a track. A fuse that is larger
than they are protects them from nothing.

Bad
---
accessories:
  inverter: {at: load-bed, fed_from: rear.3, fuse: {rating: 40 A}, electrical: {model: constant-power, power: 250 W}}

Good
----
accessories:
  inverter: {at: load-bed, fed_from: house, electrical: {model: constant-power, power: 250 W}}

Sources
-------
The maker's own limit of a position, as written in the part or the spec.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Protection, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the maker's limit of his own block",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing, protection, device in _sizing.devices(sized):
        limit_a = _sizing.position_a(sized.build, protection)
        if limit_a is None or device.kind != "fuse":
            continue
        by_contact = protection.host in sized.build.panels and sizing.design_a > limit_a
        if device.rating_a > limit_a and not by_contact:
            yield finding(sized, circuit, protection, device, limit_a)


def finding(
    sized: Sized, circuit: Circuit, protection: Protection, device: Device, limit_a: float
) -> Finding:
    design, least = sized.sizings[circuit.key].design_a, _sizing.least_rating_a(sized, circuit, protection)
    rating, most = _sizing.apart(device.rating_a, limit_a, "A")
    why = "" if device.written else f", which its load of {show.amps(design)} needs"
    message = (
        f"position `{protection.host}.{protection.position}` carries {most}; the {device.family} fuse "
        f"`{device.designation}` of {_sizing.name(circuit)} lets {rating} through{why}"
    )
    fits = _sizing.fitting_fuse(sized, circuit, protection, device.family, limit_a)
    if fits is not None:
        help = f"a {show.amps(fits.rating_a)} {device.family} fuse carries its load"
    else:
        help = f"feed it from a battery, or from a block whose positions carry {least:.1f} A or more"
    return Finding(_sizing.rating_path(protection), message, help)
