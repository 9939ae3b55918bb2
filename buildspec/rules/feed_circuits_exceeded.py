"""More circuits are joined to a feed, or to a group of feeds, than its data allow.

What
----
The circuits at a feed are at most its `circuits`; those of all feeds of a group at most the group's.

Why
---
A bar or a stud takes so many terminals and no more. The fourth one loosens all of them.

Bad
---
    feeds: {bar: {at: bulkhead, state: any, fuse: 60 A, circuits: 1}}
    accessories: {radio: {fed_from: bar}, pump: {fed_from: bar}}

Good
----
    feeds: {bar: {at: bulkhead, state: any, fuse: 60 A, circuits: 1}}
    accessories: {radio: {fed_from: bar}, pump: {fed_from: rear.2}}

Sources
-------
The vehicle's own data; a bulletin allows three circuits on each bar.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Path
from buildspec.model import Circuit, Sized
from buildspec.rules import _feeds, _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for _, feed in _feeds.used(build):
        joined = _feeds.joined(build, feed.name)
        if feed.circuits is not None and len(joined) > feed.circuits:
            yield finding(f"feed `{feed.name}`", joined, feed.circuits, feed.source, feed.at)
    for group in build.vehicle.feed_groups.values():
        members = [feed.name for _, feed in _feeds.used(build) if feed.group == group.name]
        joined = tuple(c for name in members for c in _feeds.joined(build, name))
        if group.circuits is not None and len(joined) > group.circuits:
            yield finding(f"the feeds of `{group.name}`", joined, group.circuits, group.source, group.at)


def finding(what: str, joined: tuple[Circuit, ...], most: int, source: str, at: Path) -> Finding:
    extra = joined[most]
    names = ", ".join(_sizing.name(c) for c in joined)
    word = "circuit" if most == 1 else "circuits"
    return Finding(
        (*extra.at, "fed_from"),
        f"{len(joined)} circuits at {what}, which takes {most} {word} ({source or 'source not stated'}): {names}",
        "join them in a fuse block behind one feed, or use another feed",
        ((at, "its data"),),
    )
