"""A pre-wire is live before anything is on it.

What
----
The fuse of a reserve stays out, or its channel stays disabled, until it is used: `powered` is false.

Why
---
A live conductor with nothing on it waits for water or a screw. Leave the fuse out and put it in the bag with
the label; on an electronic panel, disable the channel.

Bad
---
    reserves: {scene-left: {at: bed, switch: main.5, allow: 4 A, end: behind the trim,
          cap: heat-shrink cap, powered: true}}

Good
----
    reserves: {scene-left: {at: bed, switch: main.5, allow: 4 A, end: behind the trim,
          cap: heat-shrink cap, powered: false}}

Sources
-------
A safety recall of an unused pre-wire; fleet specifications ask for spares that are not connected to power.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    circuits = {c.key: c for c in build.circuits if c.kind == "reserve"}
    for reserve in (r for r in build.reserves.values() if r.powered):
        first = next(iter(circuits[reserve.name].protections), None)
        electronic = first is not None and first.kind == "channel"
        what = f"{'channel' if electronic else 'fuse'} `{first.designation}`" if first else "its supply"
        how = "disable the channel" if electronic else "leave the fuse out"
        yield Finding(
            (*reserve.at, "powered"),
            f"reserve `{reserve.name}` is live at its end in `{reserve.place}`: {what} is on before it is used",
            f"{how} until it is used, and write `powered: false`",
        )
