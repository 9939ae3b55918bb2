"""A fuse of ours is larger than the vehicle's own fuse in front of it.

What
----
A device behind a feed of the vehicle has at most the rating of the vehicle's own fuse there: the one that the survey
found (`fitted`), else the one of its data (`fuse`). Only the first of ours behind the feed counts, where one stands
before the others. (Equal ratings pass: which of them opens first is open, and nothing smaller may carry the load.)

Why
---
The vehicle's fuse opens first. It sits where the next fitter does not look, it may feed other things as well, and
ours, listed in the packet as what protects the circuit, is whole.

Bad
---
    feeds: {up-15: {at: bulkhead, state: ignition, fuse: 15 A, allows: 10 A, wire: 2.5 mm2, length: 2 m}}
    accessories: {camera: {at: bulkhead, fed_from: up-15, fuse: {rating: 20 A}}}

Good
----
    feeds: {up-15: {at: bulkhead, state: ignition, fuse: 15 A, allows: 10 A, wire: 2.5 mm2, length: 2 m}}
    accessories: {camera: {at: bulkhead, fed_from: up-15, fuse: {rating: 5 A}}}

Sources
-------
Common practice, no source: the rating rises towards the battery.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Sized
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("common practice, no source: a higher rating upstream",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, protection, device in _sizing.devices(sized):
        for own, fuse in before(sized, circuit):
            if protection.rating_a is None and not measured(sized, own):
                continue  # chosen for a short that nobody can tell; `feed-wire-unsurveyed` says so
            if device.rating_a > fuse.rating_a:
                yield Finding(
                    _sizing.rating_path(protection),
                    f"the {_sizing.title(device)} {_sizing.way(circuit)} is larger than the vehicle's own "
                    f"{show.amps(fuse.rating_a)} fuse at `{own.target}`: the vehicle's opens first",
                    f"a device of at most {show.amps(fuse.rating_a)}; where none of that size breaks a short there, "
                    "`fuse: {none: …}` and a conductor that the vehicle's own fuse protects; or another feed",
                    ((own.at, "the feed"),),
                )


def measured(sized: Sized, own: Circuit) -> bool:
    """Is the vehicle's own conductor to a feed known?"""
    feed = sized.build.blocks[own.target].feed
    return feed is None or (feed.area_mm2 is not None and feed.length_m is not None)


def before(sized: Sized, circuit: Circuit) -> Iterator[tuple[Circuit, Device]]:
    """The vehicle's own fuses that stand directly before a circuit: feeders without a device do not count."""
    for feeder in sized.build.circuits:
        if feeder.kind != "feeder" or feeder.target != circuit.source:
            continue
        devices = sized.sizings[feeder.key].devices
        if feeder.existing:
            surveyed = zip(feeder.protections, devices, strict=True)
            yield from ((feeder, fuse) for protection, fuse in surveyed if protection.rating_a is not None)
        elif not devices:
            yield from before(sized, feeder)
