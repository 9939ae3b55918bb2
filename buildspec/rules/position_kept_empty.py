"""A circuit is put on a position that must stay empty.

What
----
Nothing is fed from a position that its block lists under `empty`.

Why
---
The reason beside it is a physical one: a cover that no longer closes, a stud that touches, a factory fuse
that must stay out.

Bad
---
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed, empty: {6: a fuse here stops the cover}}}
    accessories: {usb: {part: usb-c-60, at: bed, fed_from: rear.6}}

Good
----
    accessories: {usb: {part: usb-c-60, at: bed, fed_from: rear.5}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import claims

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for claim in claims.positions(sized.build):
        empty = sized.build.blocks[claim.host].empty
        if claim.number in empty:
            yield Finding(
                claim.at,
                f"position `{claim.text}` must stay empty: {empty[claim.number].rstrip('.')}",
                f"feed `{claim.item}` from another position",
                ((("blocks", claim.host, "empty", str(claim.number)), "kept empty here"),),
            )
