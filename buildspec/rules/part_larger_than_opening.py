"""A part does not go into its opening.

What
----
Width and height (and depth, where the opening states one) of the part plus the clearance on both sides fit
into the opening. A part of exactly the opening's size does not fit, whatever the clearance says. A part
without an envelope cannot be checked.

Why
---
A bar that is 760 mm long does not go into a slot of 760 mm: paint, brackets and the mesh take their share.
The grille is cut by then.

Bad
---
    accessories: {bar: {part: led-bar-760, at: grille, opening: {width: 760 mm, height: 60 mm}}}

Good
----
    accessories: {bar: {part: led-bar-760, at: grille, opening: {width: 780 mm, height: 60 mm},
          clearance: 5 mm}}

Sources
-------
Arithmetic; the clearance of 3 mm that is taken where none is written is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Accessory, Envelope, Practice, Sized

SEVERITY = "error"
SOURCES = ("arithmetic",)
SMALLEST_M = 1e-6
"""Sizes closer than this are the same size."""
LEAST_GAP_M = 0.001
"""What is offered where no clearance is wanted."""


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        if item.opening is None:
            continue
        if item.part.envelope is None:
            yield Finding(
                (*item.at, "opening"),
                f"cannot check the opening of `{item.name}`: its own size is not stated",
                "write `envelope:` with width, height and depth, brackets included",
            )
        else:
            yield from fit(sized.build.practice, item, item.part.envelope, item.opening)


def fit(practice: Practice, item: Accessory, part: Envelope, opening: Envelope) -> Iterator[Finding]:
    pairs = [("width", part.width_m, opening.width_m), ("height", part.height_m, opening.height_m)]
    pairs += [("depth", part.depth_m, opening.depth_m)] if opening.depth_m > 0 else []
    for side, has, into in pairs:
        sides = 1 if side == "depth" else 2
        needs = has + sides * item.clearance_m
        if needs > into + SMALLEST_M or has > into - SMALLEST_M:
            sizes = [show.small_length(value, practice) for value in (has, item.clearance_m, into)]
            times = f"{sides} × " if sides > 1 else ""
            yield Finding(
                (*item.at, "opening", side),
                f"`{item.name}` is {sizes[0]} in {side} and needs {times}{sizes[1]} of clearance; "
                f"its opening has {sizes[2]}",
                f"an opening of at least {show.small_length(max(needs, has + LEAST_GAP_M), practice)}, or a "
                "smaller part",
            )
