"""A circuit is joined to a fuse of the vehicle that feeds something already.

What
----
A feed whose fuse feeds something (`occupied`) is not used. It is an error where the vehicle's data forbid it
(`forbids: {occupied_fuses: …}`), a warning elsewhere.

Why
---
A tap in an occupied position adds its current to a wire and a clip that were made for another one, and the first fault
of the accessory takes the vehicle's own function with it. Some makers do not support a vehicle with such taps.

Bad
---
    feeds: {wiper-fuse: {at: bulkhead, state: ignition, fuse: 20 A, occupied: wipers}}
    accessories: {camera: {at: load-bed, fed_from: wiper-fuse}}

Good
----
    feeds: {up-10: {at: bulkhead, state: ignition, fuse: 10 A, allows: 6 A}}
    accessories: {camera: {at: load-bed, fed_from: up-10}}

Sources
-------
The vehicle's own data; two makers forbid it, one allows only the points that it lists.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _feeds

SEVERITY = "warning"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    forbidden = _feeds.owner_document(build, "occupied_fuses")
    for _, feed in _feeds.used(build):
        for circuit in _feeds.joined(build, feed.name) if feed.occupied else ():
            says = f"; this vehicle's maker forbids that ({forbidden})" if forbidden else ""
            yield Finding(
                (*circuit.at, "fed_from"),
                f"`{circuit.item}` is joined to a fuse that feeds {feed.occupied} already{says}",
                f"points that the vehicle offers: {_feeds.allowed_points(build)}",
                ((feed.at, "the fuse"),),
                severity="error" if forbidden else None,
            )
