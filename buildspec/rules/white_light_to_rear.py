"""White light goes to the rear while the vehicle may be driving.

What
----
A white lamp of kind `reverse`, or one that `faces: rear`, is lit by a `trigger` alone, or says `only_when: reverse`
or `only_when: stationary` beside a trigger that does it. With `rear_white: reverse only` in the practice this
refuses the build, and a white work lamp outside that does not say where it faces is reported too.

Why
---
White to the rear tells others that a vehicle is reversing, and blinds those behind. Laws commonly allow it only in
reverse or standing still. Local law and licensed practice decide.

Bad
---
    accessories: {scene: {part: led-work-27, at: rear, switch: main.4, legend: SCENE,
      lamp: {kind: work, colour: white, faces: rear}}}

Good
----
    accessories: {scene: {part: led-work-27, at: rear, switch: main.4, trigger: reverse, legend: SCENE,
      lamp: {kind: work, colour: white, faces: rear, only_when: reverse}}}

Sources
-------
49 CFR 571.108 for backup lamps, recalled; common practice, no source. Local law decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Accessory, Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    strict = build.practice.rear_white == "reverse only"
    for item in build.accessories.values():
        lamp = item.part.lamp
        if lamp is None or lamp.colour != "white":
            continue
        if lamp.kind == "reverse" or lamp.faces == "rear":
            if not tied(item):
                yield Finding(
                    item.at,
                    f"white lamp `{item.name}` lights the rear, and {lit(item)} can light it while driving",
                    "let the reverse signal trigger it and write `only_when: reverse`, or waive it; local law decides",
                    severity="error" if strict else None,
                )
        elif (
            strict
            and not lamp.faces
            and lamp.kind == "work"
            and build.places[item.place].environment == "outside"
        ):
            yield Finding(
                item.at,
                f"cannot check white lamp `{item.name}`: where its light goes is not stated",
                "write `faces:` under `lamp`: front, rear, side or down",
                severity="error",
            )


def tied(item: Accessory) -> bool:
    """Only a signal lights it, or something keeps its key from lighting it while driving."""
    lamp = item.part.lamp
    return bool(item.trigger) and (not item.switch or (lamp is not None and bool(lamp.only_when)))


def lit(item: Accessory) -> str:
    return f"key `{item.switch}`" if item.switch else "its own switch"
