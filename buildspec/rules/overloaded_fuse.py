"""A fuse carries more of its rating, for good, than it may where it sits.

What
----
A continuous load is at most the practice's share of its fuse: 80 % in the cabin and outside, 60 % in an
engine bay by default. Loads that never stay on for three hours (`continuous: false`), momentary links
and coils may use the whole rating. Electronic channels are dealt with by `channel-overloaded`, taps of
vehicle signals by `signal-overloaded`.

Why
---
A fuse is an element that melts by heat, and hot surroundings help it. Near its rating it opens one day
without any fault, or cooks its holder for years.

Bad
---
accessories:
  lamps: {at: roof, fed_from: rear.1, fuse: {rating: 10 A}, electrical: {model: constant-current, worst: 8.4 A}}

Good
----
accessories:
  lamps: {at: roof, fed_from: rear.1, fuse: {rating: 15 A}, electrical: {model: constant-current, worst: 8.4 A}}

Sources
-------
Chassis maker's body-builder guide of 2004: 80 % with the fuse in the passenger compartment, 60 % in the
engine compartment. A published figure of the vehicle's maker for one feed goes before it.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Protection, Sized
from buildspec.rules import _sizing
from buildspec.size import devices

SEVERITY = "error"
SOURCES = ("body-builder-guide", "fuse-selection-guide")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing, protection, device in _sizing.devices(sized):
        if device.kind != "fuse" or circuit.kind == "signal":
            continue
        share = devices.share(sized.build, circuit, protection)
        if sizing.design_a / share > device.rating_a:
            yield finding(sized, circuit, protection, device, share)


def finding(sized: Sized, circuit: Circuit, protection: Protection, device: Device, share: float) -> Finding:
    design = sized.sizings[circuit.key].design_a
    load, limit = _sizing.apart(design, device.rating_a * share, "A")
    used, most = _sizing.apart(design / device.rating_a * 100, share * 100, "%")
    environment = sized.build.places[protection.place].environment
    source = sized.build.practice.sources["fuse_share"]
    message = (
        f"{load} for {_sizing.name(circuit)} is {used} of the "
        f"{_sizing.title(device)}; "
        f"limit {limit} ({most}, {environment}; {source})"
    )
    least = _sizing.least_rating_a(sized, circuit, protection)
    help = (
        f"{_sizing.fuse_help(device.family, least)} carries it; or at most "
        f"{show.plain(device.rating_a * share, 2)} A here"
    )
    return Finding(_sizing.rating_path(protection), message, help)
