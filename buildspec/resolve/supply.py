"""Circuits of the supply: feeders, charger, links, battery negatives, written conductors, alternator."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import model
from buildspec.findings import Path
from buildspec.resolve import points
from buildspec.resolve.heads import Head, from_battery, from_feed, fuse_of, head
from buildspec.resolve.plan import Plan, back, circuit, ground_for, wire, written_size
from buildspec.resolve.signals import coil_circuit, signal_circuit
from buildspec.values import maybe, value

MODULE_A = 1.0
"""A panel module's own current; common practice, no source."""


def feeders(plan: Plan, part: str, name: str) -> tuple[model.Circuit, ...]:
    """Battery or block position → panel or block, one circuit a source."""
    item = plan.panels[name] if part == "panels" else plan.blocks[name]
    place = item.module_at if isinstance(item, model.Panel) else item.place
    at: Path = (part, name)
    if isinstance(item, model.Block) and item.feed is not None:
        return (points.supply(plan, name),)
    raw = plan.data[part][name]
    made = []
    for count, reference in enumerate(item.fed_from):
        key = f"{name}/supply" + (f"-{count + 1}" if count else "")
        start = head(plan, key, reference, fuse_of(raw), at)
        end = model.Terminal(item.designation, "+", place)
        made.append(
            circuit(
                plan,
                key=key,
                title=f"supply of {item.part.title}",
                kind="feeder",
                source=start.node,
                target=name,
                item=name,
                target_designation=item.designation,
                protections=start.protections,
                feeds=(
                    *start.wires,
                    wire(
                        plan,
                        key=f"{key}/feed",
                        role="feed",
                        start=start.point,
                        end=end,
                        colour=plan.practice.colours["battery"],
                    ),
                ),
                environment=plan.places[start.point.place].environment,
                fixed_a=None,
                drop_class="critical",
                conductor=written_size(raw),
                unprotected=start.unprotected,
                at=at,
            )
        )
    return tuple(made)


def module_negative(plan: Plan, name: str) -> tuple[model.Circuit, ...]:
    """The electronics of a solid-state panel need a negative of their own; the loads have theirs."""
    panel = plan.panels[name]
    if panel.part.panel is None or panel.part.panel.kind != "solid-state":
        return ()
    start = model.Terminal(panel.designation, "−", panel.module_at)
    returns, ground = back(plan, f"{name}/module", start, plan.data["panels"][name].get("return", "own"))
    return (
        circuit(
            plan,
            key=f"{name}/module",
            title=f"negative of {panel.part.title}",
            kind="module",
            source=name,
            target=ground,
            item=name,
            target_designation=panel.designation,
            returns=returns,
            ground=ground,
            fixed_a=MODULE_A,
            at=panel.at,
        ),
    )


def end_fuse(raw: Mapping[str, Any], end: str) -> Mapping[str, Any]:
    found: Mapping[str, Any] = raw.get("fuses", {}).get(end, {})
    return found


def end_head(plan: Plan, key: str, end: str, raw: Mapping[str, Any], at: Path) -> Head:
    fuse, colour = end_fuse(raw, end), plan.practice.colours["link"]
    from_node = from_feed if end in plan.blocks else from_battery
    made = from_node(plan, f"{key}/{end}", end, fuse, at, colour)
    where = (*at, "fuses", end) if fuse else at
    return made._replace(protections=tuple(p._replace(at=where) for p in made.protections))


def charger(plan: Plan, name: str) -> tuple[model.Circuit, ...]:
    """Start battery → charger, house battery ↔ charger, and the wake signal."""
    raw, item = plan.data["isolation"][name], plan.isolation[name]
    trait = item.part.charger
    assert trait is not None
    giver, taker = item.tap or item.ends[0], item.ends[1]
    power: list[model.Circuit] = []
    for end, kind, pin, amps in (
        (giver, "charge-in", "IN+", trait.input_max_a),
        (taker, "charge-out", "OUT+", trait.output_a),
    ):
        key = f"{name}/{'in' if kind == 'charge-in' else 'out'}"
        start = end_head(plan, key, end, raw, item.at)
        terminal = model.Terminal(item.designation, pin, item.place)
        returns, ground = back(plan, key, terminal, "own") if kind == "charge-in" else ((), "")
        power.append(
            circuit(
                plan,
                key=key,
                title=f"{item.part.title}, {'input' if kind == 'charge-in' else 'output'}",
                kind=kind,
                source=end,
                target=name,
                item=name,
                target_designation=item.designation,
                protections=start.protections,
                feeds=(
                    *start.wires,
                    wire(
                        plan,
                        key=f"{key}/feed",
                        role="feed",
                        start=start.point,
                        end=terminal,
                        colour=plan.practice.colours["battery"],
                    ),
                ),
                returns=returns,
                ground=ground,
                environment=plan.places[start.point.place].environment,
                fixed_a=amps,
                drop_class="critical",
                conductor=written_size(raw),
                unprotected=start.unprotected,
                at=item.at,
            )
        )
    return (*power, *wake(plan, name, item, trait))


def wake(
    plan: Plan, name: str, item: model.Isolation, trait: model.ChargerTrait
) -> tuple[model.Circuit, ...]:
    if item.wake not in plan.signals:
        return ()
    end = model.Terminal(item.designation, "wake", item.place)
    at = (*item.at, "wake")
    return (
        signal_circuit(
            plan, f"{name}/wake", item.wake, end, trait.wake_a, f"wake of {item.designation}", name, at
        ),
    )


def link(plan: Plan, name: str) -> tuple[model.Circuit, ...]:
    """Two batteries, a device at each, a contact between, and what commands it."""
    raw, item = plan.data["isolation"][name], plan.isolation[name]
    trait = item.part.link
    assert trait is not None
    first, second = (end_head(plan, name, end, raw, item.at) for end in item.ends)
    contact = model.Contact(
        name,
        item.designation,
        "link",
        item.part.title,
        item.place,
        trait.rating_a,
        None,
        trait.momentary,
        item.part,
        item.at,
    )
    colour = plan.practice.colours["link"]
    sides = (
        model.Terminal(item.designation, "30", item.place),
        model.Terminal(item.designation, "30a", item.place),
    )
    power = circuit(
        plan,
        key=name,
        title=f"{item.part.title}, {item.ends[0]} to {item.ends[1]}",
        kind="link",
        source=item.ends[0],
        target=item.ends[1],
        item=name,
        target_designation=item.designation,
        protections=(*first.protections, *second.protections),
        contacts=(contact,),
        feeds=(
            *first.wires,
            wire(plan, key=f"{name}/feed", role="feed", start=first.point, end=sides[0], colour=colour),
            wire(plan, key=f"{name}/feed2", role="feed", start=sides[1], end=second.point, colour=colour),
            *(piece._replace(start=piece.end, end=piece.start) for piece in second.wires),
        ),
        environment=plan.places[first.point.place].environment,
        fixed_a=trait.rating_a,
        drop_class="general",
        conductor=written_size(raw),
        unprotected=first.unprotected or second.unprotected,
        at=item.at,
    )
    if not item.switch:
        return (power,)
    coil = model.Terminal(item.designation, "86", item.place)
    return (
        power,
        coil_circuit(
            plan,
            f"{name}/coil",
            item.switch,
            coil,
            trait.coil_a,
            f"coil of {item.designation}",
            name,
            item.at,
        ),
    )


def bond(plan: Plan, name: str) -> tuple[model.Circuit, ...]:
    """Negative post → vehicle body. The vehicle's own battery has its own."""
    raw, battery = plan.data["batteries"][name], plan.batteries[name]
    ground = ground_for(plan, battery.place, raw.get("return", "own"))
    if battery.existing or ground is None:
        return ()
    start = model.Terminal(battery.designation, "−", battery.place)
    end = model.Terminal(ground.letter_name, "stud", ground.place)
    key = f"{name}/negative"
    piece = wire(plan, key=key, role="return", start=start, end=end, colour=plan.practice.colours["return"])
    return (
        circuit(
            plan,
            key=key,
            title=f"negative of {name} battery",
            kind="bond",
            source=name,
            target=ground.name,
            item=name,
            target_designation=battery.designation,
            returns=(piece,),
            ground=ground.name,
            fixed_a=None,
            conductor=written_size(raw, "negative_wire"),
            at=battery.at,
        ),
    )


def node_end(plan: Plan, name: str) -> model.Terminal:
    """The positive terminal of a battery, block or panel."""
    if name in plan.batteries:
        return model.Terminal(plan.batteries[name].designation, "+", plan.batteries[name].place)
    if name in plan.blocks:
        return model.Terminal(plan.blocks[name].designation, "+", plan.blocks[name].place)
    return model.Terminal(plan.panels[name].designation, "+", plan.panels[name].module_at)


def tie_end(plan: Plan, key: str, end: str, raw: Mapping[str, Any], at: Path) -> Head:
    """One end of a written conductor: a device only where the spec writes one."""
    fuse = end_fuse(raw, end)
    if end not in raw.get("fuses", {}) or "none" in fuse:
        return Head(end, node_end(plan, end), (), (), (), True)
    terminal = node_end(plan, end)
    designation = plan.numbers.name(f"{key}/{end}/fuse", "F")
    device = model.Protection(
        key=f"{key}/{end}/fuse",
        designation=designation,
        kind="fuse",
        place=terminal.place,
        host="",
        position=0,
        lead_m=value(fuse, "lead", "length", plan.practice.fuse_lead_m),
        sheathed=fuse.get("sheathed", False),
        source=end,
        family=fuse.get("family", ""),
        rating_a=maybe(fuse, "rating", "current"),
        holder_a=maybe(fuse, "holder", "current"),
        fitted=True,
        at=(*at, "fuses", end),
    )
    enter = model.Terminal(designation, "1", terminal.place)
    lead = wire(
        plan,
        key=f"{key}/{end}/lead",
        role="feed",
        start=terminal,
        end=enter,
        colour=plan.practice.colours["battery"],
        cut_m=device.lead_m,
    )
    return Head(end, enter._replace(pin="2"), (device,), (), (lead,), False)


def tie(plan: Plan, name: str) -> model.Circuit:
    """A conductor written out between two sources, the vehicle's own or added."""
    raw = plan.data["conductors"][name]
    at: Path = ("conductors", name)
    first, second = (tie_end(plan, name, raw[end], raw, at) for end in ("from", "to"))
    colour = plan.practice.colours["battery"]
    return circuit(
        plan,
        key=name,
        title=raw.get("note", f"{raw['from']} to {raw['to']}"),
        kind="tie",
        source=raw["from"],
        target=raw["to"],
        item=name,
        protections=(*first.protections, *second.protections),
        feeds=(
            *first.wires,
            wire(plan, key=f"{name}/feed", role="feed", start=first.point, end=second.point, colour=colour),
            *(piece._replace(start=piece.end, end=piece.start) for piece in second.wires),
        ),
        environment=plan.places[first.point.place].environment,
        fixed_a=None,
        drop_class="critical",
        conductor=written_size(raw),
        unprotected=first.unprotected,
        existing=raw.get("existing", False),
        open_reason=raw.get("open", ""),
        at=at,
    )


def outside(plan: Plan, name: str) -> model.Circuit:
    """A shore or solar charger → battery; the battery is what the device protects the conductor from."""
    raw, item = plan.data["sources"][name], plan.supplies[name]
    trait = item.part.charger
    assert trait is not None
    colour = plan.practice.colours["battery"]
    start = from_battery(plan, name, item.to, fuse_of(raw), item.at, colour)
    terminal = model.Terminal(item.designation, "OUT+", item.place)
    returns, ground = back(plan, name, terminal, raw.get("return", "own"))
    feed = wire(plan, key=f"{name}/feed", role="feed", start=start.point, end=terminal, colour=colour)
    return circuit(
        plan,
        key=name,
        title=f"{item.part.title}, output",
        kind="charge-out",
        source=item.to,
        target=name,
        item=name,
        target_designation=item.designation,
        protections=start.protections,
        feeds=(*start.wires, feed),
        returns=returns,
        ground=ground,
        environment=plan.places[start.point.place].environment,
        fixed_a=trait.output_a,
        drop_class="critical",
        conductor=written_size(raw),
        unprotected=start.unprotected,
        at=item.at,
    )
