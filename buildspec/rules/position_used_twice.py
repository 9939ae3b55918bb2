"""Two circuits are put on one position of a block.

What
----
Each position of a distribution block feeds one circuit.

Why
---
Two conductors under one fuse share its rating; the fuse then fits neither, and one of them has no terminal.

Bad
---
    accessories:
      usb: {part: usb-c-60, at: dash, fed_from: rear-block.1}
      radio: {part: radio-uhf-5, at: dash, fed_from: rear-block.1}

Good
----
    accessories:
      usb: {part: usb-c-60, at: dash, fed_from: rear-block.1}
      radio: {part: radio-uhf-5, at: dash, fed_from: rear-block.2}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Resolved, Sized
from buildspec.network import claims

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for later, first in claims.twice(claims.positions(sized.build)):
        free = free_position(sized.build, later.host)
        yield Finding(
            later.at,
            f"position `{later.text}` is taken: `{first.item}` and `{later.item}` both name it",
            f"`{later.host}.{free}` is free"
            if free
            else f"no position of `{later.host}` is free; take a larger block",
            ((first.at, "taken here"),),
        )


def free_position(build: Resolved, name: str) -> int | None:
    block = build.blocks[name]
    taken = {c.number for c in claims.positions(build) if c.host == name} | set(block.empty)
    count = block.part.block.positions if block.part.block else 0
    return next((n for n in range(1, count + 1) if n not in taken), None)
