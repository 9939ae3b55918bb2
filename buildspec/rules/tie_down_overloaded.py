"""The vehicle's own anchor points are asked for more than their rating.

What
----
The `load` of an item over the vehicle's anchor points that hold it (`tie_downs`) is at most the rating of the weakest
of them. A point without a rating cannot be checked.

Why
---
A ring that came with the vehicle was made for a net, not for a cabinet. The weakest point goes first and leaves its
share to the rest.

Bad
---
    tie_downs: {ring-left: {at: bed, rating: 1500 N}}
    accessories: {cabinet: {at: bed, load: 2000 N, tie_downs: [ring-left]}}

Good
----
    tie_downs: {ring-left: {at: bed, rating: 1500 N}, ring-right: {at: bed, rating: 1500 N}}
    accessories: {cabinet: {at: bed, load: 2000 N, tie_downs: [ring-left, ring-right]}}

Sources
-------
The vehicle's own data; the weakest part governs after 49 CFR 393.108(a).
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Accessory, Sized, TieDown

SEVERITY = "error"
SOURCES = ("engineering principle: the vehicle maker's own figure, and the weakest part governs",)


def check(sized: Sized) -> Iterator[Finding]:
    ties = sized.build.vehicle.tie_downs
    for item in sized.build.accessories.values():
        held = [ties[name] for name in item.tie_downs]
        yield from missing(item, held)
        rated = [(tie.rating_n, tie) for tie in held if tie.rating_n is not None]
        if item.anchored_load_n is not None and len(rated) == len(held) and held:
            weakest_n, weakest = min(rated, key=lambda pair: pair[0])
            each_n = item.anchored_load_n / len(held)
            if each_n > weakest_n:
                yield overloaded(item, held, each_n, weakest_n, weakest)


def missing(item: Accessory, held: list[TieDown]) -> Iterator[Finding]:
    """What cannot be checked: the load of an item, or the rating of a point."""
    if held and item.anchored_load_n is None:
        yield Finding(
            (*item.at, "tie_downs"),
            f"cannot check the anchor points of `{item.name}`: its load is not stated",
            "write `load:`, the pull of the whole item in the hardest stop",
        )
    for index, tie in enumerate(held):
        if tie.rating_n is None:
            yield Finding(
                (*item.at, "tie_downs", index),
                f"cannot check `{tie.name}`: nobody states what it holds",
                "look it up in the vehicle's data and write `rating:`",
                ((tie.at, "the point"),),
            )


def overloaded(
    item: Accessory, held: list[TieDown], each_n: float, most_n: float, weakest: TieDown
) -> Finding:
    needed = -(-(item.anchored_load_n or 0.0) // most_n)
    return Finding(
        (*item.at, "tie_downs"),
        f"{show.plain(each_n, 0)} N on each of {len(held)} anchor points of the vehicle; `{weakest.name}` holds "
        f"{show.plain(most_n, 0)} N ({weakest.source or 'source not stated'})",
        f"spread it over {show.plain(needed, 0)} such points or more, or hold less with it",
        ((weakest.at, "the weakest point"),),
    )
