"""A panel does not show which of its outputs are on.

What
----
With `indicators` in the practice, the keys of every panel have a light: `indicators: true` under `panel`.

Why
---
What is on and cannot be seen or heard drains the battery. Buyers of fleets ask for an indicator at every added
switch.

Bad
---
    panels: {bank: {panel: {kind: rocker, channels: 6, channel_limit: 20 A, total: 60 A, after_trip: new fuse},
      fed_from: house, module_at: dash}}

Good
----
    panels: {bank: {panel: {kind: rocker, channels: 6, channel_limit: 20 A, total: 60 A, after_trip: new fuse,
      indicators: true}, fed_from: house, module_at: dash}}

Sources
-------
A city fleet's specification, as read; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for panel in sized.build.panels.values() if sized.build.practice.indicators else ():
        if panel.part.panel is not None and not panel.part.panel.indicators:
            yield Finding(
                panel.at,
                f"the keys of `{panel.name}` have no indicator, or none is stated",
                "choose a panel with a light at each key, and write `indicators: true` under `panel`",
            )
