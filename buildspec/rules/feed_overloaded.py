"""More is taken from a feed of the vehicle, or from a group of feeds, than its data allow.

What
----
The worst case of all that is joined to a feed, reserves at what they allow included, is at most its `allows`; where
the data give no figure, at most the shop's share of its fuse. The feeds of a group together stay within the group's.

Why
---
A maker's figure for a point is 60 to 70 % of its fuse and counts the wire, the connector and what else hangs there.
The general 80 % does not know that.

Bad
---
    feeds: {up-25: {at: bulkhead, state: any, fuse: 25 A, allows: 17 A}}
    accessories: {compressor: {at: load-bed, fed_from: up-25, electrical: {model: motor, worst: 20 A}}}

Good
----
    feeds: {point-150: {at: bulkhead, state: any, fuse: 150 A, allows: 105 A}}
    accessories: {compressor: {at: load-bed, fed_from: point-150, electrical: {model: motor, worst: 20 A}}}

Sources
-------
The vehicle's own data, as the spec or its vehicle data file states them. One maker's published feeds: 150 A point
105 A, 25 A 17 A, 15 A 10 A, 10 A 6 A; a bulletin with three circuits a bar and 45 A for all.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Feed, FeedGroup, Sized
from buildspec.rules import _feeds, _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    for _, feed in _feeds.used(sized.build):
        allows = _feeds.allows_a(sized.build, feed)
        if allows is not None and sized.loads_a[feed.name] > allows:
            yield of_feed(sized, feed, allows)
    for group in sized.build.vehicle.feed_groups.values():
        taken = sum(sized.loads_a[f.name] for _, f in _feeds.used(sized.build) if f.group == group.name)
        if group.allows_a is not None and taken > group.allows_a:
            yield of_group(sized, group, taken, group.allows_a)


def of_feed(sized: Sized, feed: Feed, allows_a: float) -> Finding:
    taken, limit = _sizing.apart(sized.loads_a[feed.name], allows_a, "A")
    fuse = f", fused {show.amps(feed.fuse_a)}" if feed.fuse_a is not None else ""
    largest = max(_feeds.joined(sized.build, feed.name), key=lambda c: sized.sizings[c.key].design_a)
    fitting = _feeds.others(sized, sized.sizings[largest.key].design_a, feed)
    return Finding(
        (*largest.at, "fed_from"),
        f"feed `{feed.name}`{fuse}, gives {limit} ({_feeds.limit_words(sized.build, feed)}) and is asked for {taken}: "
        f"{_sizing.sum_words(sized, feed.name)}",
        f"move {_sizing.name(largest)} to {fitting}, with its own fuse"
        if fitting
        else "feed it from a battery",
        ((feed.at, "the feed"),),
    )


def of_group(sized: Sized, group: FeedGroup, taken_a: float, allows_a: float) -> Finding:
    build = sized.build
    members = [f.name for _, f in _feeds.used(build) if f.group == group.name]
    circuits = sorted(
        (c for name in members for c in _feeds.joined(build, name)),
        key=lambda c: (-sized.sizings[c.key].design_a, c.key),
    )
    taken, limit = _sizing.apart(taken_a, allows_a, "A")
    parts = " + ".join(f"{show.amps(sized.sizings[c.key].design_a)} {_sizing.name(c)}" for c in circuits)
    over = show.plain(taken_a - allows_a, 2)
    return Finding(
        (*circuits[0].at, "fed_from"),
        f"the feeds of `{group.name}` give {limit} together ({group.source or 'source not stated'}) and are asked for "
        f"{taken}: {parts}",
        f"take {over} A or more elsewhere, {_sizing.name(circuits[0])} first",
        ((group.at, "the group"),),
    )
