"""Circuits of accessories and reserves: head, contacts, conductors out and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import catalogue, model
from buildspec.findings import Path
from buildspec.resolve import branches
from buildspec.resolve.heads import Head, fuse_of, head
from buildspec.resolve.plan import Plan, back, circuit, number, wire, written_size
from buildspec.resolve.signals import coil_circuit, signal_circuit


def contact(plan: Plan, name: str, key: str, raw: Mapping[str, Any], at: Path) -> model.Contact:
    """A relay or a hard power-off of an accessory."""
    kind, letter = ("relay", "K") if key == "relay" else ("switch", "S")
    part = catalogue.part(raw, plan.parts, name=f"{name} {kind}", letter=letter)
    assert part.contact is not None
    full = f"{name}/{key}"
    return model.Contact(
        full,
        plan.numbers.name(full, letter),
        kind,
        part.title,
        raw["at"],
        part.contact.rating_a,
        part.contact.motor_a,
        part.contact.momentary,
        part,
        (*at, key),
        raw.get("blocking", False),
    )


PINS = {"relay": ("30", "87"), "switch": ("1", "2")}


def chain(
    plan: Plan,
    key: str,
    start: Head,
    contacts: tuple[model.Contact, ...],
    end: model.Terminal,
    colour: str,
    coil_m: float = 0.0,
) -> tuple[model.Wire, ...]:
    """Feed conductors from the head through the contacts to the device; `coil_m` [m] is left at the device."""
    points = [start.point]
    for item in contacts:
        enter, leave = PINS[item.kind]
        points += [
            model.Terminal(item.designation, enter, item.place),
            model.Terminal(item.designation, leave, item.place),
        ]
    points.append(end)
    pairs = list(zip(points[::2], points[1::2], strict=True))
    coils = [0.0] * (len(pairs) - 1) + [coil_m]
    pieces = tuple(
        wire(plan, key=f"{key}/feed{n or ''}", role="feed", start=a, end=b, colour=colour, coil_m=coil)
        for n, ((a, b), coil) in enumerate(zip(pairs, coils, strict=True))
    )
    return (*start.wires, *pieces)


def colour_of(plan: Plan, raw: Mapping[str, Any], part: model.Part | None, *, reserve: bool = False) -> str:
    """Feed colour: written, or by use."""
    if "wire_colour" in raw:
        written: str = raw["wire_colour"]
        return written
    use = (
        "reserve"
        if reserve
        else "lamp"
        if part and part.lamp
        else "switched"
        if "switch" in raw
        else "supply"
    )
    return plan.practice.colours[use]


def drawn(part: model.Part) -> model.Electrical | None:
    """What a device draws; an outlet draws what may be plugged into it."""
    if part.electrical is None and part.outlet is not None:
        rating = part.outlet.rating_a
        return model.Electrical(
            "constant-current",
            None,
            rating,
            rating,
            None,
            1.0,
            True,
            0.0,
            None,
            "general",
            None,
            None,
            None,
            False,
        )
    return part.electrical


def accessory(plan: Plan, name: str) -> tuple[model.Circuit, ...]:
    """The power circuit of an accessory and, behind a relay, the circuit of its coil."""
    raw, item = plan.data["accessories"][name], plan.accessories[name]
    load = drawn(item.part)
    if load is None or not (item.fed_from or item.switch):
        return ()
    contacts = tuple(
        contact(plan, name, key, raw[key], item.at) for key in ("relay", "power_off") if key in raw
    )
    by_switch = not item.fed_from
    start = head(
        plan, name, item.switch if by_switch else item.fed_from, fuse_of(raw), item.at, switch=by_switch
    )
    device = branches.device(plan, name)
    to = raw.get("return", "own")
    returns, ground = back(plan, name, device, to)
    power = model.Circuit(
        key=name,
        number=number(plan, name),
        title=item.part.title if not item.legend else f"{item.part.title}, {item.legend}",
        kind="load",
        source=start.node,
        target=name,
        item=name,
        target_designation=item.designation,
        protections=start.protections,
        contacts=(*start.contacts, *contacts),
        feeds=chain(plan, name, start, contacts, device, colour_of(plan, raw, item.part)),
        returns=returns,
        ground=ground,
        body_return=to == "body",
        environment=plan.places[start.point.place].environment,
        load=load,
        quantity=item.quantity,
        allow_a=None,
        fixed_a=None,
        drop_class=load.drop_class,
        conductor=written_size(raw),
        unprotected=start.unprotected,
        existing=False,
        open_reason="",
        at=item.at,
    )
    return (power, *branches.links(plan, power), *commands(plan, name, item, contacts))


def commands(
    plan: Plan, name: str, item: model.Accessory, contacts: tuple[model.Contact, ...]
) -> tuple[model.Circuit, ...]:
    """What closes the relay, or triggers the channel, of an accessory."""
    relay = next((c for c in contacts if c.kind == "relay"), None)
    if relay is not None and relay.part is not None and relay.part.contact is not None:
        return coil_commands(plan, name, item, relay, relay.part.contact.coil_a)
    if not (item.trigger and item.switch):
        return ()
    panel = plan.panels[item.switch.partition(".")[0]]
    channel = item.switch.partition(".")[2]
    amps = panel.part.panel.trigger_a if panel.part.panel else 0.0
    end = model.Terminal(panel.designation, f"trigger {channel}", panel.module_at)
    title = f"trigger of {panel.designation}.{channel}"
    return (signal_circuit(plan, f"{name}/trigger", item.trigger, end, amps, title, name, item.at),)


def coil_commands(
    plan: Plan, name: str, item: model.Accessory, relay: model.Contact, amps: float
) -> tuple[model.Circuit, ...]:
    """A relay's coil, closed by a key, by a vehicle signal, or by either; its negative is laid once."""
    coil = model.Terminal(relay.designation, "86", relay.place)
    title = f"coil of {relay.designation}"
    made = []
    if item.switch:
        made.append(coil_circuit(plan, f"{name}/coil", item.switch, coil, amps, title, name, item.at))
    if item.trigger:
        key = f"{name}/trigger" if item.switch else f"{name}/coil"
        second = signal_circuit(plan, key, item.trigger, coil, amps, title, name, item.at)
        made.append(second._replace(returns=(), ground="") if item.switch else second)
    return tuple(made)


def reserve(plan: Plan, name: str) -> model.Circuit:
    """A pre-wire: the whole circuit, out and back, with its far end capped."""
    raw, item = plan.data["reserves"][name], plan.reserves[name]
    by_switch = bool(item.switch)
    start = head(plan, name, item.switch or item.fed_from, fuse_of(raw), item.at, switch=by_switch)
    fitted = tuple(p._replace(fitted=item.powered) for p in start.protections)
    end = model.Terminal(item.designation, "+", item.place)
    returns, ground = back(plan, name, end, raw.get("return", "own"), item.coil_m)
    return circuit(
        plan,
        key=name,
        title=item.purpose or f"reserve {item.legend or name}",
        kind="reserve",
        source=start.node,
        target=name,
        item=name,
        target_designation=item.designation,
        protections=fitted,
        contacts=start.contacts,
        feeds=chain(plan, name, start, (), end, colour_of(plan, raw, None, reserve=True), item.coil_m),
        returns=returns,
        ground=ground,
        body_return=raw.get("return") == "body",
        environment=plan.places[start.point.place].environment,
        allow_a=item.allow_a,
        fixed_a=item.allow_a,
        drop_class=item.drop_class,
        conductor=written_size(raw),
        unprotected=start.unprotected,
        at=item.at,
    )
