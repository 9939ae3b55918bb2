"""A fuse of the vehicle is larger than the one that the vehicle's data give.

What
----
The fuse that the survey found at a feed (`fitted`) is at most the one of its data (`fuse`).

Why
---
The wires behind a bank of factory switches are each made for their own fuse. A larger one leaves a thin wire of the
vehicle with nothing to protect it.

Bad
---
    feeds: {aux-4: {at: bulkhead, state: ignition, fuse: 10 A, fitted: 30 A}}

Good
----
    feeds: {aux-4: {at: bulkhead, state: ignition, fuse: 10 A, fitted: 10 A}}

Sources
-------
The vehicle's own data: 30, 30, 15 and 10 A in one factory bank of four.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    for feed in sized.build.vehicle.feeds.values():
        if feed.fitted_a is not None and feed.fuse_a is not None and feed.fitted_a > feed.fuse_a:
            larger = [
                f"`{other.name}`"
                for other in sized.build.vehicle.feeds.values()
                if other.name != feed.name and (other.fuse_a or 0.0) >= feed.fitted_a
            ]
            move = f", and move the load to {' or '.join(larger)} or to a relay" if larger else ""
            yield Finding(
                (*feed.at, "fitted"),
                f"a {show.amps(feed.fitted_a)} fuse is in feed `{feed.name}`, and the vehicle's wire behind it is made "
                f"for {show.amps(feed.fuse_a)} ({feed.source or 'source not stated'}): never raise the vehicle's fuse",
                f"put the {show.amps(feed.fuse_a)} fuse back{move}",
            )
