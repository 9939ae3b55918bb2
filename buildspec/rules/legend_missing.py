"""A key has no text.

What
----
Everything that a key works has a `legend`; reserves as well, so that the key can be cut now.

Why
---
Nobody presses a blank key at night. Fleets refuse tape labels, and the engraver needs the text.

Bad
---
    accessories: {bar: {part: led-bar-760, at: grille, switch: main.2}}

Good
----
    accessories: {bar: {part: led-bar-760, at: grille, switch: main.2, legend: BAR}}

Sources
-------
Common practice, no source; fleet specifications ask for engraved legends.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import claims

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    paths = {(claim.text, claim.item): claim.at for claim in claims.keys(build)}
    chargers = {way.name for way in build.isolation.values() if way.type == "dc-dc"}
    for channel in (c for c in build.channels if c.use != "blank" and not c.legend.strip()):
        if channel.item in chargers:  # a key on a charger is `assist-path-one-way`
            continue
        trait = build.panels[channel.panel].part.panel
        text = f"{channel.panel}.{channel.number}"
        yield Finding(
            paths[text, channel.item],
            f"key `{text}` of `{channel.item}` has no legend",
            f"write `legend:` with up to {trait.legend_characters if trait else 8} characters",
        )
