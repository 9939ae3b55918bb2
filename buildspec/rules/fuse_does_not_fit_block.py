"""A fuse of one family is written for a holder of another.

What
----
A fuse in a distribution block or a rocker bank is of the family that the block or bank takes.

Why
---
It does not go in. What goes in instead is a guess, in a place that nobody checks again.

Bad
---
blocks:
  rear: {block: {positions: 6, position_limit: 30 A, total: 100 A, family: blade}, fed_from: house, at: load-bed}
accessories:
  fridge: {at: load-bed, fed_from: rear.3, fuse: {rating: 20 A, family: maxi-blade}}

Good
----
accessories:
  fridge: {at: load-bed, fed_from: rear.3, fuse: {rating: 20 A}}

Sources
-------
Engineering principle: the families differ in size (ISO 8820 type letters).
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Resolved, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("vec-fuse-types",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _, protection, device in _sizing.devices(sized):
        takes = taken(sized.build, protection.host)
        if device.kind == "fuse" and takes and device.family != takes:
            message = (
                f"`{protection.host}` takes {takes} fuses; a {device.family} fuse is written for "
                f"{_sizing.name(circuit)}"
            )
            help = f"leave `family` out: {takes} is taken, or choose another block"
            yield Finding(_sizing.fuse_path(protection, "family"), message, help)


def taken(build: Resolved, host: str) -> str:
    """Fuse family of a block or a rocker bank; empty for what hosts none."""
    block = build.blocks[host].part.block if host in build.blocks else None
    panel = build.panels[host].part.panel if host in build.panels else None
    return block.family if block else panel.fuse_family if panel and panel.kind == "rocker" else ""
