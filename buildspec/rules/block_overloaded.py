"""A distribution block's positions together, with every reserve populated, draw more than it carries.

What
----
The worst case of everything that a block feeds, reserves at what they allow included, is at most its
total.

Why
---
The bar and the input stud of a block are made for one current. No fuse in it guards them; the device in
its feed is sized for the load.

Bad
---
blocks:
  rear: {fed_from: house, at: load-bed, block: {positions: 6, position_limit: 30 A, total: 60 A, family: blade}}

Good
----
blocks:
  rear: {fed_from: house, at: load-bed, block: {positions: 6, position_limit: 30 A, total: 100 A, family: blade}}

Sources
-------
The block maker's own total, as written in the part or the spec.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: the maker's limit of his own block",)


def check(sized: Sized) -> Iterator[Finding]:
    for name, block in sized.build.blocks.items():
        trait = block.part.block
        if trait is None or sized.loads_a[name] <= trait.total_a:
            continue
        total, limit = _sizing.apart(sized.loads_a[name], trait.total_a, "A")
        reserved = _sizing.reserved_a(sized, name)
        later = f", {show.amps(reserved)} of it reserves" if reserved else ""
        message = (
            f"`{name}` carries {total}{later}, and its total is {limit}: {_sizing.sum_words(sized, name)}"
        )
        over = show.plain(sized.loads_a[name] - trait.total_a, 2)
        largest = _sizing.contributors(sized, name)[0][1]
        yield Finding(
            block.at, message, f"move {over} A or more to another block or a battery, {largest} first"
        )
