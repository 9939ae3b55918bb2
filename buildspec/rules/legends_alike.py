"""Two keys of one panel say the same.

What
----
The legends of one panel differ, capitals or not.

Why
---
The wrong key is pressed: a beacon stays dark, a lift moves.

Bad
---
    accessories:
      left: {part: led-scene-27, at: roof, switch: main.1, legend: SCENE}
      right: {part: led-scene-27, at: roof, switch: main.2, legend: SCENE}

Good
----
    accessories:
      left: {part: led-scene-27, at: roof, switch: main.1, legend: SCENE L}
      right: {part: led-scene-27, at: roof, switch: main.2, legend: SCENE R}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Path
from buildspec.model import Sized
from buildspec.network import claims

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    paths = {(claim.text, claim.item): claim.at for claim in claims.keys(build)}
    seen: dict[tuple[str, str], tuple[str, Path]] = {}
    for channel in (c for c in build.channels if c.legend.strip()):
        text = f"{channel.panel}.{channel.number}"
        at = (*paths[text, channel.item][:-1], "legend")
        key = (channel.panel, " ".join(channel.legend.split()).casefold())
        if key in seen:
            other, first = seen[key]
            yield Finding(
                at,
                f"keys `{other}` and `{text}` both say `{channel.legend}`",
                "tell them apart by side, place or number",
                ((first, "said here first"),),
            )
        seen.setdefault(key, (text, at))
