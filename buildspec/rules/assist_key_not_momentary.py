"""An assist link can stay closed after the hand is off the key.

What
----
The key of a `momentary-link` works as `momentary`, and the contact of the link is one that opens by itself.

Why
---
A link that stays closed joins both sides for good: the isolation is gone, and a coil rated for seconds burns.

Bad
---
    isolation:
      assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, mode: latching}

Good
----
    isolation:
      assist: {type: momentary-link, joins: [start, house], part: link-200, switch: main.8, at: engine-bay}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    modes = {c.item: c.mode for c in build.channels if c.use == "link"}
    for way in (w for w in build.isolation.values() if w.type == "momentary-link"):
        trait = way.part.link
        if modes.get(way.name, "momentary") != "momentary":
            yield Finding(
                (*way.at, "mode"),
                f"key `{way.switch}` of momentary link `{way.name}` is {modes[way.name]}: "
                "it stays closed after release",
                "write `mode: momentary`, or leave `mode` out",
            )
        elif trait is not None and not trait.momentary:
            yield Finding(
                way.at,
                f"the contact of momentary link `{way.name}` is not momentary: it stays closed after release",
                "choose a link that opens by itself, or write `momentary: true` if its maker says so",
            )
