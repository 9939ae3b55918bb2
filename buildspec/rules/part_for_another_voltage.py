"""A part is not made for the vehicle's voltage.

What
----
Every electrical part of the catalogue is made for the vehicle's nominal voltage. A part that says nothing under
`systems` is for 12 V. Items that the spec writes out without a part are taken to be for the vehicle.

Why
---
A 12 V lamp on 24 V draws twice the current and four times the power until it opens, or burns. A 12 V charger
never charges a 24 V battery, and its current limits hold for its own voltage only.

Bad
---
vehicle: {description: Truck, system: 24 V}
accessories:
  beacon: {part: beacon-led, at: roof, switch: main.1}

Good
----
vehicle: {description: Truck, system: 24 V}
accessories:
  beacon:
    part: beacon-led
    systems: [12 V, 24 V]
    document: beacon sheet 4, revision 2
    at: roof
    switch: main.1

Sources
-------
Engineering principle; what a part is made for stands on its label.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding, Path
from buildspec.model import Part, Resolved, Sized

SEVERITY = "error"
SOURCES = ("engineering principle",)
ELECTRICAL = ("electrical", "battery", "charger", "link", "panel", "contact", "outlet")


def check(sized: Sized) -> Iterator[Finding]:
    system_v = sized.build.vehicle.system_v
    for at, part in parts(sized.build):
        live = any(getattr(part, trait) is not None for trait in ELECTRICAL)
        if live and part.systems_v and system_v not in part.systems_v:
            made_for = " and ".join(f"{show.plain(v, 1)} V" for v in part.systems_v)
            yield Finding(
                at,
                f"`{part.id}` is made for {made_for}; the vehicle has {show.plain(system_v, 1)} V",
                "take a part for this voltage, or write `systems:` with what stands on its label, and its sheet under "
                "`document`",
                ((("vehicle", "system"), "the vehicle"),),
            )


def parts(build: Resolved) -> Iterator[tuple[Path, Part]]:
    """Every part with the path of the key that names it."""
    for group in (
        build.batteries,
        build.isolation,
        build.panels,
        build.blocks,
        build.accessories,
        build.supplies,
    ):
        for item in group.values():
            yield (*item.at, "part"), item.part
    for circuit in build.circuits:
        for contact in circuit.contacts:
            if contact.part is not None and contact.kind != "link":
                yield (*contact.at, "part"), contact.part
