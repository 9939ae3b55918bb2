"""The assist key has no power when the start battery is empty.

What
----
The panel whose key closes an assist link is fed from the house side.

Why
---
The key is needed when the start battery is empty. A coil fed from that battery does not pull in.

Bad
---
    panels:
      main: {part: panel-solid-8, fed_from: start, module_at: bulkhead}

Good
----
    panels:
      main: {part: panel-solid-8, fed_from: house, module_at: bulkhead}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    starts = set(isolation.side(build, "start"))
    for way in build.isolation.values():
        panel = way.switch.partition(".")[0]
        if way.type != "momentary-link" or panel not in build.panels:
            continue
        behind = isolation.batteries_behind(build, panel)
        if behind and behind <= starts:
            names = ", ".join(f"`{name}`" for name in sorted(behind))
            yield Finding(
                (*way.at, "switch"),
                f"key `{way.switch}` of `{way.name}` has its power from {names}, the battery that needs the help",
                "use a key of a panel that is fed from the house side",
                ((build.panels[panel].at, "this panel"),),
            )
