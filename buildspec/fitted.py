"""What is fitted to the vehicle, one entry a thing, and every price that a job states."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec.findings import Path
from buildspec.model import Part, Resolved
from buildspec.money import Money


class Item(NamedTuple):
    """One thing of the build, or several of one kind at one place."""

    designation: str
    part: Part
    quantity: int
    place: str
    at: Path
    option: str = ""


def items(build: Resolved) -> Iterator[Item]:
    """Everything with a part, the vehicle's own and sheet goods left out."""
    for battery in build.batteries.values():
        if not battery.existing:
            yield Item(battery.designation, battery.part, 1, battery.place, battery.at)
    for way in build.isolation.values():
        yield Item(way.designation, way.part, 1, way.place, way.at)
    for supply in build.supplies.values():
        yield Item(supply.designation, supply.part, 1, supply.place, supply.at)
    for panel in build.panels.values():
        yield Item(panel.designation, panel.part, 1, panel.module_at, panel.at)
    for block in (b for b in build.blocks.values() if b.feed is None):
        yield Item(block.designation, block.part, 1, block.place, block.at)
    for circuit in build.circuits:
        for contact in circuit.contacts:
            if contact.part is not None and contact.kind != "link":
                yield Item(contact.designation, contact.part, 1, contact.place, contact.at)
    for item in build.accessories.values():
        if item.part.material is None:
            yield Item(item.designation, item.part, item.quantity, item.place, item.at, item.option)


def prices(build: Resolved) -> Iterator[tuple[str, Money, Path]]:
    """(of what, price, place in the spec) of everything that states one; the practice's own are at the job."""
    for item in items(build):
        if item.part.price is not None:
            yield f"`{item.part.title}`", item.part.price, item.at
    for goods in (a for a in build.accessories.values() if a.part.material is not None):
        if goods.part.price is not None:
            yield f"`{goods.part.title}`", goods.part.price, goods.at
    for reserve in build.reserves.values():
        if reserve.price is not None:
            yield f"reserve `{reserve.name}`", reserve.price, reserve.at
    for work in (*build.works, *(w for a in build.accessories.values() for w in a.works)):
        if work.price is not None:
            yield f"`{work.do}` of {work.what}", work.price, work.at
    yield from of_practice(build)


def of_practice(build: Resolved) -> Iterator[tuple[str, Money, Path]]:
    shop, at = build.practice, ("job",)
    for text, money in (("labour", shop.labour), ("small parts", shop.small_parts)):
        if money is not None:
            yield f"{text} of the practice", money, at
    for family, part in shop.fuse_parts.items():
        for text, money in (("fuses", part.price), ("holders", part.holder_price)):
            if money is not None:
                yield f"{text} `{family}` of the practice", money, at
