"""A wire of the vehicle is lengthened with a thinner one.

What
----
Behind the vehicle's own fuse, a conductor that is joined to a wire of the vehicle is no thinner than that wire. A
thinner one begins with a fuse of its own.

Why
---
The vehicle's fuse was chosen for the vehicle's wire. The extension burns first, and the vehicle's fuse watches.

Bad
---
    feeds: {aux-1: {at: bulkhead, state: ignition, fuse: 15 A, wire: 1 mm2}}
    accessories: {lamp: {at: bulkhead, fed_from: aux-1, fuse: {none: the vehicle's own}, wire: 0.75 mm2}}

Good
----
    feeds: {aux-1: {at: bulkhead, state: ignition, fuse: 15 A, wire: 1 mm2}}
    accessories: {lamp: {at: bulkhead, fed_from: aux-1, fuse: {none: the vehicle's own}, wire: 1.5 mm2}}

Sources
-------
An owner's manual: six blunt-cut wires, 1.0 mm² at 15 A and 0.50 mm² at 10 A. Engineering principle: no thinner
conductor behind the same device.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing
from buildspec.size import conductors

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        own = conductors.joined_mm2(sized.build, circuit)
        if own is None or sizing.conductor.area_mm2 * _sizing.AREA_TOLERANCE >= own:
            continue
        ours, theirs = (f"{show.plain(area, 3)} mm²" for area in (sizing.conductor.area_mm2, own))
        yield Finding(
            _sizing.wire_path(circuit, sizing),
            f"{_sizing.name(circuit)} lengthens the {theirs} wire of feed `{circuit.source}` with {ours}, behind the "
            "vehicle's own fuse",
            f"{show.plain(own, 2)} mm² or more, or a fuse of its own at the joint that the thinner wire outlasts",
            ((sized.build.blocks[circuit.source].at, "the vehicle's wire"),),
        )
