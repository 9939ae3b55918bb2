"""The order in which circuits are sized: what feeds others comes first."""

from __future__ import annotations

from buildspec.model import Circuit, Resolved


def downwards(build: Resolved) -> tuple[Circuit, ...]:
    """Feeders from the batteries outwards, then everything else in the order of the spec."""
    feeders = [c for c in build.circuits if c.kind == "feeder"]
    known, ordered = set(build.batteries), []
    while feeders:
        ready = [c for c in feeders if c.source in known]
        if not ready:
            raise LookupError("feeders form a ring; the reference check refuses that before")
        ordered += ready
        feeders = [c for c in feeders if c not in ready]
        known |= {c.target for c in ready if not any(f.target == c.target for f in feeders)}
    return (*ordered, *(c for c in build.circuits if c.kind != "feeder"))


def upwards(build: Resolved) -> tuple[Circuit, ...]:
    """The other way round: loads first, then feeders from the far end to the batteries."""
    return tuple(reversed(downwards(build)))
