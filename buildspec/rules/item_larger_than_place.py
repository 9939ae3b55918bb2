"""An item, or a stack of them, does not fit the free space of its place.

What
----
Where a place states `clear` (width, height, depth, any of them), every accessory there that states its own size
fits in by itself, and the heights of those marked `stacked` add up to no more than its height. A size of exactly
the space counts as fitting. A stacked item without a size cannot be checked.

Why
---
A flat floor over a drawer unit, and a fridge on its slide on top of that, meets the window line or the canopy's
rear beam. That is found with the unit bolted in.

Bad
---
    places: {load-bed: {environment: outside, clear: {height: 500 mm}}}
    accessories:
      drawer: {part: drawer-single, at: load-bed, stacked: true}
      slide: {part: fridge-slide, at: load-bed, stacked: true}
      fridge: {part: fridge-sample-26, at: load-bed, stacked: true}

Good
----
    places: {load-bed: {environment: outside, clear: {height: 900 mm}}}
    accessories:
      drawer: {part: drawer-single, at: load-bed, stacked: true}
      slide: {part: fridge-slide, at: load-bed, stacked: true}
      fridge: {part: fridge-sample-26, at: load-bed, stacked: true}

Sources
-------
Arithmetic.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Accessory, Place, Sized

SEVERITY = "error"
SOURCES = ("arithmetic",)
SAME_M = 1e-6


def check(sized: Sized) -> Iterator[Finding]:
    for place in sized.build.places.values():
        here = [a for a in sized.build.accessories.values() if a.place == place.name]
        if place.clear is not None:
            for item in here:
                yield from alone(sized, place, item)
            yield from stack(sized, place, [a for a in here if a.stacked])


def alone(sized: Sized, place: Place, item: Accessory) -> Iterator[Finding]:
    if item.part.envelope is None or place.clear is None:
        return
    for side, has, free in zip(("width", "height", "depth"), item.part.envelope, place.clear, strict=True):
        if free and has > free + SAME_M:
            sizes = [show.diameter(value, sized.build.practice) for value in (has, free)]
            yield Finding(
                (*item.at, "at"),
                f"`{item.name}` is {sizes[0]} in {side}; `{place.name}` has {sizes[1]} free",
                f"an item of at most {sizes[1]}, or another place",
                ((("places", place.name, "clear", side), "the free space"),),
            )


def stack(sized: Sized, place: Place, items: list[Accessory]) -> Iterator[Finding]:
    if place.clear is None or not place.clear.height_m or len(items) < 2:
        return
    bare = [i for i in items if i.part.envelope is None]
    for item in bare:
        yield Finding(
            (*item.at, "stacked"),
            f"cannot check the stack at `{place.name}`: the size of `{item.name}` is not stated",
            "write `envelope:` with width, height and depth",
        )
    heights = [i.part.envelope.height_m for i in items if i.part.envelope is not None]
    if not bare and sum(heights) > place.clear.height_m + SAME_M:
        terms = " + ".join(show.diameter(h, sized.build.practice) for h in heights)
        total, free = (show.diameter(v, sized.build.practice) for v in (sum(heights), place.clear.height_m))
        yield Finding(
            ("places", place.name, "clear", "height"),
            f"stacked at `{place.name}`: {terms} = {total}; {free} are free",
            "set one of them beside the others, or a lower one",
            tuple((i.at, "stacked here") for i in items),
        )
