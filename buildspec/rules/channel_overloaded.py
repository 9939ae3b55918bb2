"""A load is more than the electronic channel it is on, or a channel is set above its limit.

What
----
The worst case of what is on a channel, coils included, is at most the channel's limit; a lower limit
written under `fuse` counts, a higher one is a fault.

Why
---
An electronic channel switches off at its limit, and it does so when the load is needed most. It cannot be
fused up.

Bad
---
accessories:
  bar: {at: engine-bay, switch: main.2, electrical: {model: constant-power, power: 240 W}}

Good
----
accessories:
  bar: {at: engine-bay, switch: main.7, electrical: {model: constant-power, power: 240 W}}

Sources
-------
The panel maker's own limit, as written in the part or the spec.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Protection, Resolved, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the maker's limit of his own panel",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing, protection, device in _sizing.devices(sized):
        if device.kind != "channel":
            continue
        limit_a = limit(sized.build, protection)
        if device.rating_a > limit_a:
            has, most = _sizing.apart(device.rating_a, limit_a, "A")
            message = (
                f"`{protection.host}.{protection.position}` is set to {has} for "
                f"{_sizing.name(circuit)}; its limit is {most}"
            )
            yield Finding(
                _sizing.rating_path(protection), message, f"write {most} or less, or leave `fuse` out"
            )
        elif sizing.design_a > device.rating_a:
            yield finding(sized, circuit, protection)


def limit(build: Resolved, protection: Protection) -> float:
    panel = build.panels[protection.host].part.panel
    assert panel is not None
    return panel.channel_a[protection.position - 1]


def finding(sized: Sized, circuit: Circuit, protection: Protection) -> Finding:
    design = sized.sizings[circuit.key].design_a
    assert protection.rating_a is not None
    load, most = _sizing.apart(design, protection.rating_a, "A")
    message = f"{load} for {_sizing.name(circuit)} on channel `{protection.host}.{protection.position}`; limit {most}"
    return Finding(protection.at, message, free(sized.build, design))


def free(build: Resolved, design_a: float) -> str:
    """Free channels that carry it, or a relay."""
    fits = [
        f"`{c.panel}.{c.number}` ({show.amps(c.limit_a)})"
        for c in build.channels
        if c.use == "blank" and c.limit_a >= design_a
    ]
    relay = "a relay with `fed_from` of its own, commanded by this channel"
    return (
        f"free and large enough: {', '.join(fits)}; or {relay}"
        if fits
        else f"no free channel carries it; {relay}"
    )
