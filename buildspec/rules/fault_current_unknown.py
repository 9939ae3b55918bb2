"""Nobody knows what a battery gives in a dead short, so its fuses cannot be checked.

What
----
A battery with a fuse on it states `short_circuit`, or, as lead-acid of at most 500 Ah and 2200 A cranking,
`cranking`. Signals of the vehicle are left out: the vehicle's own fuse stands before the tap.

Why
---
An error and not a warning, because silence is not a pass: whether the main fuse breaks a short or bursts
cannot be told without this figure. Every maker of lithium and of large batteries states it.

Bad
---
batteries:
  house: {chemistry: lithium-iron-phosphate, capacity: 100 Ah, at: load-bed}

Good
----
batteries:
  house: {chemistry: lithium-iron-phosphate, capacity: 100 Ah, short_circuit: 3730 A, at: load-bed}

Sources
-------
ABYC E-11 table V-A, and its newer edition: above 2200 A cranking or 500 Ah the battery maker's
short-circuit current counts.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding, Path
from buildspec.model import Battery, Sized
from buildspec.network import posts
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("abyc-e11-table-va", "abyc-e11-large-banks")


def check(sized: Sized) -> Iterator[Finding]:
    for name, battery in sized.build.batteries.items():
        if posts.battery_fault_a(battery) is not None:
            continue
        on_post = tuple(
            (protection.at, f"the {_sizing.title(device)} sits here")
            for _, _, protection, device in _sizing.devices(sized)
            if protection.source == name and device.kind == "fuse"
        )
        if on_post:
            yield finding(battery, on_post)


def finding(battery: Battery, on_post: tuple[tuple[Path, str], ...]) -> Finding:
    message = (
        f"cannot check: the short-circuit current of `{battery.name}` is not known{why(battery)}, "
        f"and {len(on_post)} of its fuses must break it"
    )
    help = "write `short_circuit` from its maker's sheet"
    return Finding(
        battery.at, message, help + ("" if limited(battery) else " or, for lead-acid, `cranking`"), on_post
    )


def limited(battery: Battery) -> bool:
    trait = battery.part.battery
    return trait is not None and trait.cranking_a is not None


def why(battery: Battery) -> str:
    """Why the table by cranking current does not help."""
    trait = battery.part.battery
    if trait is None or trait.cranking_a is None:
        return ""
    if trait.chemistry not in posts.TABLE_CHEMISTRIES:
        return ": ABYC E-11 table V-A is for lead-acid"
    if trait.capacity_ah > posts.TABLE_AH:
        return (
            f": ABYC E-11 table V-A ends at {show.plain(posts.TABLE_AH, 0)} Ah, it has "
            f"{show.plain(trait.capacity_ah, 0)} Ah"
        )
    return f": ABYC E-11 table V-A ends at 2200 A cranking, it has {show.plain(trait.cranking_a, 0)} A"
