"""An outlet promises more than its circuit gives, or its fuse lets through more than it stands.

What
----
What is drawn from an outlet is at most its rating; its fuse carries what the outlet promises; and where
the maker states no `max_fuse`, the device is at most 150 % of the outlet's rating, or 15 A where that is
more. A USB outlet, which has no rating of its own, is held against what it draws. Several outlets on one
circuit are held against the rating of one.

Why
---
The owner plugs in what the label allows. A melted plug is the usual end of a tyre pump on an outlet for
telephones, and of a 30 A fuse behind a 10 A socket.

Bad
---
accessories:
  outlet: {at: load-bed, fed_from: rear.1, outlet: {rating: 15 A}, electrical: {model: motor, worst: 18 A}}

Good
----
accessories:
  pump: {at: load-bed, fed_from: rear.1, fuse: {rating: 25 A}, electrical: {model: motor, worst: 18 A}}

Sources
-------
46 CFR 111.77-1: 150 % of one appliance, or 15 A.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Part, Protection, Sized
from buildspec.rules import _sizing
from buildspec.size import devices

SEVERITY = "error"
SOURCES = ("46cfr111-77-1",)
SHARE, FLOOR_A = 1.5, 15.0


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing, protection, device in _sizing.devices(sized):
        item = sized.build.accessories.get(circuit.item)
        drawn = sizing.design_a / circuit.quantity
        rating = promised_a(item.part, drawn) if item else None
        if rating is None or circuit.kind != "load":
            continue
        if drawn > rating:
            load, most = _sizing.apart(drawn, rating, "A")
            message = f"{load} is drawn from the outlet {_sizing.name(circuit)}; its maker allows {most}"
            yield Finding(
                circuit.at, message, f"feed it directly with a conductor and a fuse of its own for {load}"
            )
        else:
            yield from at_device(sized, circuit, protection, device, rating)


def promised_a(part: Part, drawn_a: float) -> float | None:
    """What an outlet is rated for; one without a rating, such as USB, for what it draws. None for other things."""
    if part.outlet is not None:
        return part.outlet.rating_a
    return drawn_a if part.category == "outlet" else None


def at_device(
    sized: Sized, circuit: Circuit, protection: Protection, device: Device, rating_a: float
) -> Iterator[Finding]:
    """The fuse against what the outlet promises and stands."""
    design, most_a = sized.sizings[circuit.key].design_a, max(rating_a * SHARE, FLOOR_A)
    at = protection.at if device.kind == "channel" else _sizing.rating_path(protection)
    carried = design <= device.rating_a * devices.share(sized.build, circuit, protection)
    if device.rating_a < rating_a and carried:
        has, promised = _sizing.apart(device.rating_a, rating_a, "A")
        message = f"the outlet {_sizing.name(circuit)} promises {promised}; its {_sizing.title(device)} carries {has}"
        yield Finding(
            at,
            message,
            f"label and rate it for {show.amps(design)}, or {_sizing.fuse_help(device.family, rating_a)}",
        )
    elif device.rating_a > most_a and circuit.load is not None and circuit.load.max_fuse_a is None:
        has, most = _sizing.apart(device.rating_a, most_a, "A")
        message = (
            f"{_sizing.title(device)} protects the outlet {_sizing.name(circuit)} of "
            f"{show.amps(rating_a)}; at most {most} "
            f"(46 CFR 111.77-1: 150 % of one appliance, or 15 A), not {has}"
        )
        yield Finding(
            at,
            message,
            f"write `fuse: {{rating: {show.amps(most_a)}}}` or the next rating below, or `max_fuse` from its sheet",
        )
