"""A battery does not go into its tray.

What
----
Length, width and height of the battery's case are within the `tray` that the spec states. The case comes from the
published size of its group, or from the battery's own `envelope`; with neither it cannot be checked. The battery
may stand either way round.

Why
---
Cases of one capacity differ by 70 mm and more. A battery that is too long for its tray is fitted without a hold-down
and shorts on the bonnet.

Bad
---
    batteries: {house: {part: agm-100-g31, at: engine-bay, tray: {length: 270 mm, width: 180 mm}}}

Good
----
    batteries: {house: {part: agm-75-g24, at: engine-bay, tray: {length: 270 mm, width: 180 mm}}}

Sources
-------
Battery retailer's chart of BCI case sizes: the largest outside size. Ledges and terminals differ inside one group;
measure the tray.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc.terminations import Case, battery_case
from buildspec.findings import Finding
from buildspec.model import Battery, Envelope, Sized

SEVERITY = "error"
SOURCES = ("bci-case-chart",)
SAME_M = 1e-6


def check(sized: Sized) -> Iterator[Finding]:
    for battery in sized.build.batteries.values():
        if battery.tray is None:
            continue
        case = case_of(battery)
        if case is None:
            trait = battery.part.battery
            group = (
                f"case `{trait.case}` is in no table" if trait and trait.case else "its case is not stated"
            )
            yield Finding(
                (*battery.at, "tray"),
                f"cannot check the tray of `{battery.name}`: {group}",
                "write `envelope:` with width (the long side), height and depth, measured",
            )
        else:
            yield from fit(sized, battery, case, battery.tray)


def case_of(battery: Battery) -> Case | None:
    """Published size of its group, else its own size."""
    trait, size = battery.part.battery, battery.part.envelope
    found = battery_case(trait.case) if trait is not None and trait.case else None
    if found is None and size is not None:
        found = Case(max(size.width_m, size.depth_m), min(size.width_m, size.depth_m), size.height_m)
    return found


def fit(sized: Sized, battery: Battery, case: Case, tray: Envelope) -> Iterator[Finding]:
    sides = (("length", case.length_m, tray.width_m), ("width", case.width_m, tray.depth_m))
    for side, has, free in (*sides, ("height", case.height_m, tray.height_m)):
        if free and has > free + SAME_M:
            sizes = [show.diameter(value, sized.build.practice) for value in (has, free)]
            yield Finding(
                (*battery.at, "tray", side),
                f"`{battery.name}` is {sizes[0]} in {side}; its tray has {sizes[1]}",
                f"a battery of at most {sizes[1]}, or a larger tray",
            )
