"""A key is asked for something that its panel cannot do.

What
----
The mode of a key (`latching`, `momentary`, `triggered`; written, or what the item needs) is among the `modes`
of its panel.

Why
---
A link held by a key that latches stays closed; a lamp that a signal should light stays dark.

Bad
---
    panels: {main: {part: rocker-bank-6, fed_from: house, module_at: dash}}     # latching only
    isolation: {assist: {type: momentary-link, part: link-200, joins: [start, house], switch: main.6,
          at: engine-bay}}

Good
----
    panels: {main: {part: panel-solid-8, fed_from: house, module_at: dash}}

Sources
-------
The panel maker's sheet, as written under `modes`.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Resolved, Sized
from buildspec.network import claims

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    paths = {(claim.text, claim.item): claim.at for claim in claims.keys(build)}
    for channel in (c for c in build.channels if c.use != "blank"):
        trait = build.panels[channel.panel].part.panel
        text = f"{channel.panel}.{channel.number}"
        if trait is not None and channel.mode not in trait.modes:
            yield Finding(
                paths[text, channel.item],
                f"key `{text}` must be {channel.mode} for `{channel.item}`; `{channel.panel}` can do "
                f"{', '.join(trait.modes)}",
                other(build, channel.mode),
                ((build.panels[channel.panel].at, "this panel"),),
            )


def other(build: Resolved, mode: str) -> str:
    able = [p.name for p in build.panels.values() if p.part.panel and mode in p.part.panel.modes]
    return f"use a key of `{able[0]}`" if able else f"choose a panel with {mode} keys, or another mode"
