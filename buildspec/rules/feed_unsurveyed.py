"""A feed of the vehicle is used, and nobody has looked at its fuse.

What
----
A feed that something is joined to states its `fuse`. Its `wire` and its `length` are wanted for the drop and the short
in front of it: without them `feed-wire-unsurveyed` says that these cannot be checked.

Why
---
Two vehicles that look alike have different tables of feeds. A guess is not a survey.

Bad
---
    feeds: {up-2: {at: bulkhead, state: any}}
    accessories: {radio: {at: bulkhead, fed_from: up-2}}

Good
----
    feeds: {up-2: {at: bulkhead, state: any, fuse: 15 A, allows: 10 A, source: survey sheet 3}}
    accessories: {radio: {at: bulkhead, fed_from: up-2}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _feeds

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for _, feed in _feeds.used(sized.build):
        if feed.fuse_a is None:
            joined = ", ".join(f"`{c.item}`" for c in _feeds.joined(sized.build, feed.name))
            yield Finding(
                feed.at,
                f"cannot check {joined}: the vehicle's own fuse in front of feed `{feed.name}` is not stated",
                "look it up in the vehicle's data or on the vehicle, and write `fuse:` and `allows:`",
            )
