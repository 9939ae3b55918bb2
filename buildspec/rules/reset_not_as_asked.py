"""A protective device does not come back as the practice or the customer asks.

What
----
A practice or profile may demand one way of coming back after a fault (`reset: {demand: …}`) or refuse some
(`reset: {refuse: […]}`): `replace` for a fuse, `latching` for a channel that stays off until its key is worked,
`retrying` for one that comes back by itself. Every added device is held against it.

Why
---
Customers ask for opposite things, each with a reason: a patrol fleet wants circuits that come back by themselves, a
charger maker and a recall speak against devices that keep closing onto a fault. The one that is asked for has
to be named, with the profile and its document.

Bad
---
reset: {refuse: [retrying]}

Good
----
reset: {refuse: [retrying], demand: latching}

Sources
-------
One city's patrol-car specification demands self-resetting devices; a charger maker's sheet and a recall reject them.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Device, Practice, Protection, Resolved, Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)
WORDS = {
    "replace": "a fuse to be replaced",
    "latching": "a channel that stays off",
    "retrying": "a channel that comes back by itself",
}


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    if not practice.reset_demanded and not practice.reset_refused:
        return
    for circuit in sized.build.circuits:
        for protection, device in zip(circuit.protections, sized.sizings[circuit.key].devices, strict=True):
            way = reset_of(sized.build, device)
            if way and not circuit.existing and wrong(practice, way):
                yield finding(practice, circuit.item, protection, way)


def reset_of(build: Resolved, device: Device) -> str:
    """How a device comes back; `` where a channel's maker does not say."""
    if device.kind == "fuse":
        return "replace"
    trait = build.panels[device.host].part.panel
    return trait.trips.then if trait is not None and trait.trips is not None else ""


def wrong(practice: Practice, way: str) -> bool:
    return way in practice.reset_refused or bool(practice.reset_demanded and way != practice.reset_demanded)


def finding(practice: Practice, item: str, protection: Protection, way: str) -> Finding:
    demand = practice.reset_demanded
    asked = (
        f"`{demand}` is demanded" if demand else "`" + "`, `".join(practice.reset_refused) + "` is refused"
    )
    return Finding(
        protection.at,
        f"`{protection.designation}` of `{item}` is {WORDS[way]} (`{way}`); {asked} ({practice.sources['reset']})",
        f"take a device that is `{demand}`" if demand else "take another kind of panel or a fuse",
    )
