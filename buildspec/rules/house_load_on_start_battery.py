"""An accessory can empty the start battery while the engine is stopped.

What
----
Where a build has a house battery, nothing that is added draws from a start battery with the key off: no
accessory, no reserve, nothing behind a block or panel. A relay held by an ignition signal lifts it. Without a
house battery there is no house side, and `standing-drain` is what counts.

Why
---
A second battery is paid for so that the engine starts whatever is left on. A winch that belongs on the start
battery is accepted with a waiver, which is printed.

Bad
---
    accessories:
      lamp: {part: led-work-27, at: roof, fed_from: start}

Good
----
    accessories:
      lamp: {part: led-work-27, at: roof, fed_from: rear-block.2}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Circuit, Resolved, Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    houses = isolation.side(build, "house")
    for start in isolation.side(build, "start") if houses else ():
        for circuit in (c for c in build.circuits if c.source in nodes(build, start) and not c.existing):
            awake = [c for c in isolation.loads_behind(build, circuit) if drains(build, c)]
            if awake:
                yield fault(sized, circuit, awake, houses[0])


def nodes(build: Resolved, start: str) -> set[str]:
    """A start battery and the vehicle's own feeds behind it."""
    return {start} | {b.name for b in build.blocks.values() if b.feed is not None and b.feed.battery == start}


def drains(build: Resolved, circuit: Circuit) -> bool:
    """Awake with the key off. What both sides feed is `start-joined-to-house`, not this."""
    both = isolation.batteries_behind(build, circuit.source) & set(isolation.side(build, "house"))
    return not both and not isolation.needs_ignition(build, circuit)


def fault(sized: Sized, circuit: Circuit, awake: list[Circuit], house: str) -> Finding:
    total = sum(sized.sizings[c.key].design_a for c in awake)
    names = ", ".join(f"`{c.item}`" for c in awake)
    feed = sized.build.blocks[circuit.source].feed if circuit.source in sized.build.blocks else None
    source = (
        f"`{circuit.source}`, behind start battery `{feed.battery}`,"
        if feed
        else f"start battery `{circuit.source}`"
    )
    return Finding(
        isolation.feed_path(sized.build, circuit),
        f"{names}: up to {show.amps(total)} from {source} with the engine stopped; allowed 0 A",
        f"feed it from the house side, such as `{house}`, or through a relay held by an ignition signal",
        reserves(sized.build, awake),
    )


def reserves(build: Resolved, awake: list[Circuit]) -> tuple[tuple[tuple[str | int, ...], str], ...]:
    return tuple((c.at, "counted as if populated") for c in awake if c.item in build.reserves)
