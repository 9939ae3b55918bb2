"""A cargo point, a bracket or a bolt of this job is to restrain people.

What
----
Nothing in a spec says `restrains: people`. Seat belts, child seats and seats are outside what this program checks.

Why
---
A lap-belt anchorage must hold 22 241 N, a car's cargo ring is made for 3500 N. Restraints are the work of the
vehicle's maker, or of licensed practice under the law where the vehicle is used. The same goes for animals: a
harness needs a point that its maker approves.

Bad
---
    accessories: {rear-rings: {part: load-ring-5000, at: bed, restrains: people}}

Good
----
    accessories: {rear-rings: {part: load-ring-5000, at: bed, restrains: cargo}}

Sources
-------
Insurers' handbook on load securing; federal belt anchorage figures beside it.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("load-ring-handbook",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        if item.restrains == "people":
            yield Finding(
                (*item.at, "restrains"),
                f"`{item.name}` is to restrain people; cargo points never do (a belt anchorage must hold 22 241 N)",
                "leave belts, seats and child seats to the vehicle's maker or licensed practice, and write `cargo`",
            )
