"""The vehicle's own wire to a feed is not known, so its drop and its short cannot be checked.

What
----
A feed that something is joined to states `wire` and `length` of the vehicle's own conductor.

Why
---
Half of a volt may be lost in a long factory wire before ours begins, and a short behind it may be too weak to open a
fuse in time. Without them both are worked out as if the vehicle's wire were nothing.

Bad
---
    feeds: {up-2: {at: bulkhead, state: any, fuse: 15 A}}
    accessories: {radio: {at: bulkhead, fed_from: up-2}}

Good
----
    feeds: {up-2: {at: bulkhead, state: any, fuse: 15 A, wire: 2.5 mm2, length: 2.5 m}}
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

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for _, feed in _feeds.used(sized.build):
        keys = (("wire", feed.area_mm2), ("length", feed.length_m))
        lacking = [f"`{key}`" for key, value in keys if value is None]
        if lacking and feed.fuse_a is not None:
            yield Finding(
                feed.at,
                f"cannot check drop and short in front of feed `{feed.name}`: {' and '.join(lacking)} of the vehicle's "
                "own conductor are not stated",
                f"write {' and '.join(lacking)}, or measure the drop at this point under load before handing over",
            )
