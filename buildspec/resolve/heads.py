"""Where a circuit begins: a battery post or a vehicle's feed with a fuse, a block position, a panel channel."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from buildspec import model
from buildspec.findings import Path
from buildspec.resolve.plan import Plan, wire
from buildspec.values import maybe, value


class Head(NamedTuple):
    """The start of a circuit up to the point from which its conductor goes on."""

    node: str
    point: model.Terminal
    protections: tuple[model.Protection, ...]
    contacts: tuple[model.Contact, ...]
    wires: tuple[model.Wire, ...]
    unprotected: bool


def fuse_of(item: Mapping[str, Any]) -> Mapping[str, Any]:
    found: Mapping[str, Any] = item.get("fuse", {})
    return found


def from_battery(
    plan: Plan, key: str, name: str, fuse: Mapping[str, Any], at: Path, colour: str = ""
) -> Head:
    """A post, a short lead and a protective device beside the battery."""
    battery = plan.batteries[name]
    post = model.Terminal(battery.designation, "+", battery.place)
    return beside(plan, key, name, post, fuse, at, colour or plan.practice.colours["battery"])


def from_feed(plan: Plan, key: str, name: str, fuse: Mapping[str, Any], at: Path, colour: str = "") -> Head:
    """A point of the vehicle, and a device of our own beside it; none where the vehicle's own is to do."""
    block = plan.blocks[name]
    point = model.Terminal(block.designation, "+", block.place)
    return beside(plan, key, name, point, fuse, at, colour or plan.practice.colours["supply"])


def beside(
    plan: Plan,
    key: str,
    name: str,
    point: model.Terminal,
    fuse: Mapping[str, Any],
    at: Path,
    colour: str,
) -> Head:
    """A protective device on its own, a short lead away from the point of node `name`."""
    if "none" in fuse:
        return Head(name, point, (), (), (), True)
    lead_m = value(fuse, "lead", "length", plan.practice.fuse_lead_m)
    designation = plan.numbers.name(f"{key}/fuse", "F")
    device = model.Protection(
        key=f"{key}/fuse",
        designation=designation,
        kind="fuse",
        place=point.place,
        host="",
        position=0,
        lead_m=lead_m,
        sheathed=fuse.get("sheathed", False),
        source=name,
        family=fuse.get("family", ""),
        rating_a=maybe(fuse, "rating", "current"),
        holder_a=maybe(fuse, "holder", "current"),
        fitted=True,
        at=(*at, "fuse") if fuse else at,
    )
    enter = model.Terminal(designation, "1", point.place)
    lead = wire(plan, key=f"{key}/lead", role="feed", start=point, end=enter, colour=colour, cut_m=lead_m)
    return Head(name, enter._replace(pin="2"), (device,), (), (lead,), False)


def from_block(plan: Plan, key: str, name: str, position: int, fuse: Mapping[str, Any], at: Path) -> Head:
    """A position of a distribution block; its fuse sits in the block."""
    block = plan.blocks[name]
    device = model.Protection(
        key=f"{key}/fuse",
        designation=plan.numbers.name(f"{key}/fuse", "F"),
        kind="fuse",
        place=block.place,
        host=name,
        position=position,
        lead_m=0.0,
        sheathed=False,
        source=name,
        family=fuse.get("family", block.part.block.family if block.part.block else ""),
        rating_a=maybe(fuse, "rating", "current"),
        holder_a=None,
        fitted=True,
        at=(*at, "fuse") if fuse else (*at, "fed_from"),
    )
    point = model.Terminal(block.designation, str(position), block.place)
    if "none" in fuse:
        return Head(name, point, (), (), (), True)
    return Head(name, point, (device,), (), (), False)


def from_panel(plan: Plan, key: str, name: str, channel: int, fuse: Mapping[str, Any], at: Path) -> Head:
    """A channel: an electronic limit, or a fuse and a contact of a rocker bank."""
    panel = plan.panels[name]
    trait = panel.part.panel
    assert trait is not None
    limit = trait.channel_a[channel - 1]
    solid = trait.kind == "solid-state"
    device = model.Protection(
        key=f"{key}/fuse",
        designation=f"{panel.designation}.{channel}" if solid else plan.numbers.name(f"{key}/fuse", "F"),
        kind="channel" if solid else "fuse",
        place=panel.module_at,
        host=name,
        position=channel,
        lead_m=0.0,
        sheathed=False,
        source=name,
        family="" if solid else fuse.get("family", trait.fuse_family),
        rating_a=maybe(fuse, "rating", "current") or (limit if solid else None),
        holder_a=None,
        fitted=True,
        at=(*at, "fuse") if fuse else (*at, "switch"),
    )
    contact = model.Contact(
        f"{key}/rocker",
        f"{panel.designation}.{channel}",
        "switch",
        panel.part.title,
        panel.module_at,
        limit,
        None,
        False,
        None,
        at,
    )
    point = model.Terminal(panel.designation, str(channel), panel.module_at)
    if "none" in fuse and not solid:
        return Head(name, point, (), (contact,), (), True)
    return Head(name, point, (device,), () if solid else (contact,), (), False)


def head(
    plan: Plan, key: str, reference: str, fuse: Mapping[str, Any], at: Path, *, switch: bool = False
) -> Head:
    """The head that `battery`, `feed`, `block.position` or (with `switch`) `panel.channel` names."""
    name, _, number = reference.partition(".")
    if switch:
        return from_panel(plan, key, name, int(number), fuse, at)
    if number:
        return from_block(plan, key, name, int(number), fuse, at)
    if name in plan.blocks:
        return from_feed(plan, key, name, fuse, at)
    return from_battery(plan, key, name, fuse, at)
