"""Circuits of accessories and reserves: head, contacts, conductors out and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import catalogue, layers, model
from buildspec.findings import Path
from buildspec.resolve.heads import Head, fuse_of, head
from buildspec.resolve.plan import Plan, ground_for, number, wire
from buildspec.values import maybe

LOGIC_INPUT_A = 0.01
"""Into a panel's trigger input; common practice, no source."""


def written_size(item: Mapping[str, Any], key: str = "wire") -> model.Conductor | None:
    """The conductor that the spec writes, or None to choose one."""
    area = maybe(item, key, "area")
    return layers.conductor(area) if area is not None else None


def contact(plan: Plan, name: str, key: str, raw: Mapping[str, Any], at: Path) -> model.Contact:
    """A relay or a hard power-off of an accessory."""
    kind, letter = ("relay", "K") if key == "relay" else ("switch", "S")
    part = catalogue.part(raw, name=f"{name} {kind}", letter=letter)
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
    )


PINS = {"relay": ("30", "87"), "switch": ("1", "2")}


def chain(
    plan: Plan, key: str, start: Head, contacts: tuple[model.Contact, ...], end: model.Terminal, colour: str
) -> tuple[model.Wire, ...]:
    """Feed conductors from the head through the contacts to the device."""
    points = [start.point]
    for item in contacts:
        enter, leave = PINS[item.kind]
        points += [model.Terminal(item.designation, enter, item.place), model.Terminal(item.designation, leave, item.place)]
    points.append(end)
    pairs = zip(points[::2], points[1::2], strict=True)
    pieces = tuple(
        wire(plan, key=f"{key}/feed{n or ''}", role="feed", start=a, end=b, colour=colour) for n, (a, b) in enumerate(pairs)
    )
    return (*start.wires, *pieces)


def back(plan: Plan, key: str, device: model.Terminal, to: str) -> tuple[tuple[model.Wire, ...], str]:
    """Return conductors and the name of the ground at their end."""
    ground = ground_for(plan, device.place, to)
    if ground is None:
        return (), ""
    pin = "−" if ground.post_of else "stud"
    item = plan.batteries[ground.post_of].designation if ground.post_of else ground.letter_name
    end = model.Terminal(item, pin, ground.place)
    start = device._replace(pin="−")
    return (wire(plan, key=f"{key}/return", role="return", start=start, end=end, colour=plan.practice.colours["return"]),), ground.name


def colour_of(plan: Plan, raw: Mapping[str, Any], part: model.Part | None, *, reserve: bool = False) -> str:
    """Feed colour: written, or by use."""
    if "wire_colour" in raw:
        written: str = raw["wire_colour"]
        return written
    use = "reserve" if reserve else "lamp" if part and part.lamp else "switched" if "switch" in raw else "supply"
    return plan.practice.colours[use]


def drawn(part: model.Part) -> model.Electrical | None:
    """What a device draws; an outlet draws what may be plugged into it."""
    if part.electrical is None and part.outlet is not None:
        rating = part.outlet.rating_a
        return model.Electrical(
            "constant-current", None, rating, rating, None, 1.0, True, 0.0, None, "general", None, None, None, False
        )
    return part.electrical


def accessory(plan: Plan, name: str) -> tuple[model.Circuit, ...]:
    """The power circuit of an accessory and, behind a relay, the circuit of its coil."""
    raw, item = plan.data["accessories"][name], plan.accessories[name]
    load = drawn(item.part)
    if load is None or not (item.fed_from or item.switch):
        return ()
    contacts = tuple(contact(plan, name, key, raw[key], item.at) for key in ("relay", "power_off") if key in raw)
    by_switch = not item.fed_from
    start = head(plan, name, item.switch if by_switch else item.fed_from, fuse_of(raw), item.at, switch=by_switch)
    device = model.Terminal(item.designation, "+", item.place)
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
    return (power, *commands(plan, name, raw, item, contacts))


def commands(
    plan: Plan, name: str, raw: Mapping[str, Any], item: model.Accessory, contacts: tuple[model.Contact, ...]
) -> tuple[model.Circuit, ...]:
    """What closes the relay, or triggers the channel, of an accessory."""
    relay = next((c for c in contacts if c.kind == "relay"), None)
    if relay is not None and relay.part is not None and relay.part.contact is not None:
        coil = model.Terminal(relay.designation, "86", relay.place)
        amps = relay.part.contact.coil_a
        if item.switch:
            return (coil_circuit(plan, f"{name}/coil", item.switch, coil, amps, f"coil of {relay.designation}", name, item.at),)
        return (signal_circuit(plan, f"{name}/coil", item.trigger, coil, amps, f"coil of {relay.designation}", name, item.at),)
    if item.trigger and item.switch:
        panel = plan.panels[item.switch.partition(".")[0]]
        channel = item.switch.partition(".")[2]
        end = model.Terminal(panel.designation, f"trigger {channel}", panel.module_at)
        return (
            signal_circuit(plan, f"{name}/trigger", item.trigger, end, LOGIC_INPUT_A, f"trigger of {panel.designation}.{channel}", name, item.at),
        )
    return ()


def small(plan: Plan, **given: Any) -> model.Circuit:
    """A circuit under one ampere: coil, wake, trigger, module negative."""
    base: dict[str, Any] = {
        "protections": (), "contacts": (), "feeds": (), "returns": (), "ground": "", "body_return": False,
        "environment": "cabin", "load": None, "quantity": 1, "allow_a": None, "drop_class": "general", "conductor": None,
        "unprotected": False, "existing": False, "open_reason": "", "target_designation": "",
    }  # fmt: skip
    return model.Circuit(number=number(plan, given["key"]), **{**base, **given})


def coil_circuit(
    plan: Plan, key: str, switch: str, coil: model.Terminal, amps: float, title: str, item: str, at: Path
) -> model.Circuit:
    """Panel channel → coil → ground."""
    start = head(plan, key, switch, {}, at, switch=True)
    returns, ground = back(plan, key, coil, "own")
    returns = tuple(piece._replace(start=piece.start._replace(pin="85")) for piece in returns)
    return small(
        plan,
        key=key,
        title=title,
        kind="coil",
        source=start.node,
        target=item,
        item=item,
        target_designation=coil.item,
        protections=start.protections,
        contacts=start.contacts,
        feeds=(wire(plan, key=f"{key}/feed", role="coil", start=start.point, end=coil, colour=plan.practice.colours["switched"]),),
        returns=returns,
        ground=ground,
        environment=plan.places[start.point.place].environment,
        fixed_a=amps,
        at=at,
    )


def signal_circuit(
    plan: Plan, key: str, signal: str, end: model.Terminal, amps: float, title: str, item: str, at: Path
) -> model.Circuit:
    """Vehicle signal, tapped and fused → coil or logic input."""
    source = plan.signals[signal]
    tap = model.Terminal(source.name, "tap", source.place)
    designation = plan.numbers.name(f"{key}/fuse", "F")
    device = model.Protection(
        f"{key}/fuse", designation, "fuse", source.place, "", 0, 0.1, False, signal, "", plan.practice.signal_fuse_a, None, True, at
    )
    enter = model.Terminal(designation, "1", source.place)
    colour = plan.practice.colours["signal"]
    lead = wire(plan, key=f"{key}/lead", role="signal", start=tap, end=enter, colour=colour, cut_m=0.1)
    rest = wire(plan, key=f"{key}/feed", role="signal", start=enter._replace(pin="2"), end=end, colour=colour)
    returns, ground = back(plan, key, end, "own") if end.pin == "86" else ((), "")
    returns = tuple(piece._replace(start=piece.start._replace(pin="85")) for piece in returns)
    return small(
        plan,
        key=key,
        title=f"{source.words} to {title}",
        kind="signal",
        source=signal,
        target=item,
        item=item,
        target_designation=end.item,
        protections=(device,),
        feeds=(lead, rest),
        returns=returns,
        ground=ground,
        environment=plan.places[source.place].environment,
        fixed_a=amps,
        at=at,
    )


def reserve(plan: Plan, name: str) -> model.Circuit:
    """A pre-wire: the whole circuit, out and back, with its far end capped."""
    raw, item = plan.data["reserves"][name], plan.reserves[name]
    by_switch = bool(item.switch)
    start = head(plan, name, item.switch or item.fed_from, fuse_of(raw), item.at, switch=by_switch)
    fitted = tuple(p._replace(fitted=item.powered) for p in start.protections)
    end = model.Terminal(item.designation, "+", item.place)
    returns, ground = back(plan, name, end, raw.get("return", "own"))
    return small(
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
        feeds=chain(plan, name, start, (), end, colour_of(plan, raw, None, reserve=True)),
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
