"""Something that should work while parked is held by the ignition.

What
----
An accessory whose feed or relay is held by the ignition or the engine is neither promised for `any time`
(`works_when`) nor counted with hours while parked (`hours_per_day`).

Why
---
A fridge on an ignition-held feed is off all night, and the handover sheet says that it runs.

Bad
---
    accessories:
      fridge: {part: fridge-45, at: bed, fed_from: rear.1, hours_per_day: 24, trigger: ignition,
            relay: {part: relay-40, at: bed}}

Good
----
    accessories: {fridge: {part: fridge-45, at: bed, fed_from: rear.1, hours_per_day: 24}}

Sources
-------
An owner's manual whose switch bank works with the ignition on only; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Accessory, Circuit, Resolved, Sized
from buildspec.network import isolation, states

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for circuit in build.circuits:
        item = build.accessories.get(circuit.item)
        if item is None or circuit.kind != "load" or not isolation.needs_ignition(build, circuit):
            continue
        hours = item.hours_per_day or 0.0
        if hours > 0 or item.works_when == "any time":
            wanted = f"{show.plain(hours, 1)} h a day while parked" if hours > 0 else "use at any time"
            yield by_feed(build, circuit, wanted) or by_signal(item, wanted)


def by_signal(item: Accessory, wanted: str) -> Finding:
    return Finding(
        (*item.at, "trigger"),
        f"`{item.name}` is held by `{item.trigger}`, and {wanted} is written: it is off with the ignition",
        "drop `relay` and `trigger`, command the relay by a key, or correct what is promised",
    )


def by_feed(build: Resolved, circuit: Circuit, wanted: str) -> Finding | None:
    """The feed of the vehicle behind it is dead with the key off; None where its relay is what holds it."""
    state = states.held(build, circuit.source)
    if state == "any":
        return None
    always = [f.name for f in build.vehicle.feeds.values() if f.state == "any" and not f.occupied]
    others = f": {', '.join(f'`{name}`' for name in always)} are live at any time" if always else ""
    return Finding(
        isolation.feed_path(build, circuit),
        f"`{circuit.item}` hangs on a feed of the vehicle that is live with the {state} only, and {wanted} is written",
        f"feed it from a battery or a feed that is always live{others}, or correct what is promised",
        tuple((b.at, "this feed") for b in build.blocks.values() if b.feed and b.feed.state == state),
    )
