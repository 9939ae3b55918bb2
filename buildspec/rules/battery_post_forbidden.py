"""Something is joined to a post of the vehicle's battery, and the vehicle's data forbid that.

What
----
Where the data say `forbids: {battery_posts: …}`, no added conductor begins or ends on a post of a battery that came
with the vehicle. The listed feeds and grounds are what it may use.

Why
---
The post carries the battery sensor, the pyrotechnic clamp or a fuse carrier. What goes past them falsifies the count,
or stays live in a crash.

Bad
---
    vehicle: {forbids: {battery_posts: body builder guide 3}}
    isolation: {charger: {type: dc-dc, from: start, to: house}}

Good
----
    vehicle: {forbids: {battery_posts: body builder guide 3}}
    feeds: {point-150: {at: engine-bay, state: any, fuse: 150 A, allows: 105 A}}
    isolation: {charger: {type: dc-dc, from: point-150, to: house}}

Sources
-------
The vehicle's own data: a van maker forbids any further connection at the posts or at the sensor.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Battery, Circuit, Sized
from buildspec.rules import _feeds, _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    forbidden = _feeds.owner_document(build, "battery_posts")
    own = [b for b in build.batteries.values() if b.existing]
    for circuit, _ in _sizing.circuits(sized) if forbidden else ():
        for battery in own:
            for pin in sorted(pins(circuit, battery)):
                yield finding(sized, circuit, battery, pin, forbidden)


def pins(circuit: Circuit, battery: Battery) -> set[str]:
    """Posts of a battery that a circuit is joined to."""
    ends = [end for wire in (*circuit.feeds, *circuit.returns) for end in (wire.start, wire.end)]
    return {end.pin for end in ends if end.item == battery.designation}


def finding(sized: Sized, circuit: Circuit, battery: Battery, pin: str, forbidden: str) -> Finding:
    build = sized.build
    grounds = ", ".join(f"`{g.name}`" for g in build.grounds.values() if not g.post_of)
    post = "positive" if pin == "+" else "negative"
    offered = f"feeds: {_feeds.allowed_points(build)}" if pin == "+" else f"grounds: {grounds}"
    return Finding(
        circuit.at,
        f"{_sizing.name(circuit)} is joined to the {post} post of `{battery.name}`; this vehicle's maker forbids that "
        f"({forbidden})",
        f"use what the vehicle offers; {offered}",
        ((build.vehicle.at, "its data forbid it"),),
    )
