"""How the items of an accessory are joined: checked against their number, and laid as a circuit of links."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from buildspec import model
from buildspec.findings import Finding, Path
from buildspec.resolve.names import Fault, section
from buildspec.resolve.plan import Plan, circuit, cut_up, wire, written_size
from buildspec.values import number

RULE = "branches-do-not-fit"
WORDS = {
    "star": "one from the common point to each item",
    "chain": "one from each item to the next",
}


def check(data: Mapping[str, Any]) -> tuple[Fault, ...]:
    """Branches of one item, of items without a feed, and more or fewer lengths than there are links."""
    return tuple(
        fault
        for name, raw in section(data, "accessories").items()
        if "branches" in raw
        for fault in of_accessory(raw, ("accessories", name, "branches"))
    )


def of_accessory(raw: Mapping[str, Any], at: Path) -> Iterator[Fault]:
    count, form, lengths = raw.get("quantity", 1), raw["branches"]["form"], raw["branches"]["lengths"]
    links = count if form == "star" else count - 1
    if count == 1:
        help = "write `quantity` with the number of items, or leave `branches` out"
        yield RULE, Finding(at, "`branches` join several items on one circuit, and this is one item", help)
    elif "fed_from" not in raw and "switch" not in raw:
        help = "write `switch` or `fed_from`, or leave `branches` out"
        yield RULE, Finding(at, "`branches` are conductors, and this is connected to nothing", help)
    elif len(lengths) != links:
        yield (
            RULE,
            Finding(
                (*at, "lengths"),
                f"{len(lengths)} lengths for a {form} of {count} items, which has {links} links: {WORDS[form]}",
                f"write {links} lengths in the order of the items, or correct `quantity` (lengths are measured on "
                "the vehicle)",
            ),
        )


def device(plan: Plan, name: str) -> model.Terminal:
    """Where the feed of an accessory ends: its own terminal, that of the first item, or the common point."""
    item, raw = plan.accessories[name], plan.data["accessories"][name]
    form = raw.get("branches", {}).get("form", "")
    if form == "star":
        return model.Terminal(plan.numbers.name(f"{name}/common", "X"), "+", item.place)
    return model.Terminal(f"{item.designation}.1" if form else item.designation, "+", item.place)


def links(plan: Plan, power: model.Circuit) -> tuple[model.Circuit, ...]:
    """The circuit between the items of a load; none where the spec does not say how they are joined."""
    raw = plan.data["accessories"][power.item].get("branches")
    if raw is None:
        return ()
    key = f"{power.key}/branches"
    lengths = [number(text, "length") for text in raw["lengths"]]
    colours = (power.feeds[-1].colour, plan.practice.colours["return"])
    back = not power.body_return
    return (
        circuit(
            plan,
            key=key,
            title=f"{power.title}: {raw['form']} of {power.quantity}",
            kind="branch",
            source=power.key,
            target=power.item,
            item=power.item,
            target_designation=power.target_designation,
            feeds=pieces(plan, power, raw["form"], lengths, "+", colours[0]),
            returns=pieces(plan, power, raw["form"], lengths, "−", colours[1]) if back else (),
            body_return=not back,
            environment=plan.places[power.feeds[-1].end.place].environment,
            fixed_a=None,
            drop_class=power.drop_class,
            conductor=written_size(raw),
            at=(*power.at, "branches"),
            form=raw["form"],
        ),
    )


def pieces(
    plan: Plan, power: model.Circuit, form: str, lengths: list[float], pin: str, colour: str
) -> tuple[model.Wire, ...]:
    """The links of one pole, from the common point or the first item outwards; returns run the other way."""
    start = power.feeds[-1].end
    first = 1 if form == "star" else 2
    ends = [
        start._replace(item=f"{power.target_designation}.{n}", pin=pin)
        for n in range(first, first + len(lengths))
    ]
    starts = (
        [start._replace(pin=pin)] * len(ends) if form == "star" else [start._replace(pin=pin), *ends[:-1]]
    )
    role = "feed" if pin == "+" else "return"
    return tuple(
        wire(
            plan,
            key=f"{power.key}/branches/{role}{n}",
            role=role,
            start=a if pin == "+" else b,
            end=b if pin == "+" else a,
            colour=colour,
            cut_m=cut_up(length + 2 * plan.practice.service_loop_m),
        )
        for n, (a, b, length) in enumerate(zip(starts, ends, lengths, strict=True), start=1)
    )
