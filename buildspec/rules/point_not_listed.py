"""A point of the vehicle is used that its data do not list, and they allow no other.

What
----
Where the vehicle data file says `forbids: {unlisted_points: …}`, every feed, ground and signal that is used comes from
that file, or names a document of its own in `source`.

Why
---
One maker allows the points it lists and will not support the vehicle otherwise. A stud nearby may be glued, painted or
part of a sensor.

Bad
---
    vehicle: {data: van.vehicle.yaml, variant: PV-2}
    grounds: {seat-bolt: {at: cabin}}

Good
----
    vehicle: {data: van.vehicle.yaml, variant: PV-2}
    grounds: {seat-bolt: {at: cabin, source: maker's letter of 2026-03-02}}

Sources
-------
The vehicle's own data.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Path
from buildspec.model import Sized
from buildspec.rules import _feeds, _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    vehicle = sized.build.vehicle
    forbidden = _feeds.owner_document(sized.build, "unlisted_points")
    if not forbidden or vehicle.origin is None:
        return
    for part, name, source, at in points(sized):
        if (part, name) not in vehicle.origin.facts and not source:
            listed = sorted(found for kind, found in vehicle.origin.facts if kind == part)
            yield Finding(
                at,
                f"`{name}` is not among the {part} that the vehicle's data list, and they allow no other ({forbidden})",
                f"use {', '.join(f'`{one}`' for one in listed) or 'none: they list none'}, or write `source:` with the "
                "document that allows it",
            )


def points(sized: Sized) -> Iterator[tuple[str, str, str, Path]]:
    """(section, name, document, path) of every point of the vehicle that is used."""
    build = sized.build
    yield from (("feeds", feed.name, feed.source, feed.at) for _, feed in _feeds.used(build))
    used = dict.fromkeys(c.ground for c, _ in _sizing.circuits(sized) if c.ground)
    for ground in (build.grounds[name] for name in used):
        if not ground.post_of:
            yield "grounds", ground.name, ground.source, ground.at
    for name in dict.fromkeys(c.source for c, _ in _sizing.circuits(sized) if c.kind == "signal"):
        if name in build.signals:
            yield "signals", name, build.signals[name].source, build.signals[name].at
