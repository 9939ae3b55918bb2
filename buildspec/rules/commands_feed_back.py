"""Two commands of one relay meet without a diode.

What
----
A relay whose coil is closed by a key as well as by a vehicle signal has a blocking element in each command
(`relay: {blocking: true}`), so that neither reaches into the other. The path of the back-feed is listed.

Why
---
With the key on, its current runs on through the joint into the vehicle's signal wire: reverse lamps light, a camera
switches on, a control unit sees a signal that nobody gave. A key, a signal and a lamp behind one relay is a
sound pattern; two wires on one coil terminal is not.

Bad
---
accessories:
  rear-lamps: {at: rear, fed_from: block.3, switch: main.4, trigger: reverse, relay: {part: relay-30, at: rear}}

Good
----
accessories:
  rear-lamps: {at: rear, fed_from: block.3, switch: main.4, trigger: reverse,
               relay: {part: relay-30, at: rear, blocking: true}}

Sources
-------
Engineering principle; the pattern of a three-way switch (off, with reverse, on) is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Circuit, Contact, Resolved, Sized

SEVERITY = "error"
SOURCES = ("engineering principle", "common practice, no source")


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for circuit in build.circuits:
        for relay in (c for c in circuit.contacts if c.kind == "relay" and not c.blocking):
            commands = [c for c in build.circuits if c.item == circuit.item and c.kind in ("coil", "signal")]
            if len(commands) > 1:
                yield finding(build, circuit, relay, commands)


def finding(build: Resolved, circuit: Circuit, relay: Contact, commands: list[Circuit]) -> Finding:
    key = next(c for c in commands if c.kind == "coil")
    signal = next(c for c in commands if c.kind == "signal")
    words = build.signals[signal.source].words
    return Finding(
        relay.at,
        f"the key and `{signal.source}` both close `{relay.designation}` of `{circuit.item}` with nothing between "
        f"them; with the key on: {' → '.join(way(key, signal))} feeds {words}",
        "write `blocking: true` on the relay: a diode in each command",
    )


def way(key: Circuit, signal: Circuit) -> tuple[str, ...]:
    """The nodes of the back-feed, from the key's source to the vehicle's signal."""
    forth = [
        f"{key.feeds[0].start.item}:{key.feeds[0].start.pin}",
        f"{key.feeds[-1].end.item}:{key.feeds[-1].end.pin}",
    ]
    back = [f"{wire.start.item}:{wire.start.pin}" for wire in reversed(signal.feeds)]
    return (*forth, *back)
