"""A legend does not fit its key.

What
----
The text of a legend has no more characters than a key of the panel takes (`legend_characters`), in every
language that the spec translates it into.

Why
---
The engraver shortens it, and the packet, the handover sheet and the key no longer say the same.

Bad
---
    accessories: {bar: {part: led-bar-760, at: grille, switch: main.2, legend: FRONT LIGHT BAR}}

Good
----
    accessories: {bar: {part: led-bar-760, at: grille, switch: main.2, legend: BAR}}

Sources
-------
The panel maker's sheet, as written under `legend_characters`.
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
    for channel in (c for c in build.channels if c.use != "blank"):
        trait = build.panels[channel.panel].part.panel
        limit = trait.legend_characters if trait else len(channel.legend)
        if len(channel.legend) > limit:
            yield Finding(
                (*paths[f"{channel.panel}.{channel.number}", channel.item][:-1], "legend"),
                f"legend `{channel.legend}` has {len(channel.legend)} characters; "
                f"a key of `{channel.panel}` takes {limit}",
                f"shorten it, such as `{channel.legend[:limit].strip()}`; a second line goes into `hint`",
            )
        for lang, words in build.translations.items():
            other = words.get(channel.legend, "")
            if len(other) > limit:
                yield Finding(
                    ("translations", lang, channel.legend),
                    f"legend `{other}` has {len(other)} characters; a key of `{channel.panel}` takes {limit}",
                    f"shorten it, such as `{other[:limit].strip()}`",
                )
