"""The vehicle's own points as records, and the circuit of each feed that is used: its wire and its fuse."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import layers, model
from buildspec.resolve.items import Data, battery_of, section
from buildspec.resolve.numbering import Numbers
from buildspec.resolve.plan import Plan, circuit, wire
from buildspec.values import Raw, maybe

UNMEASURED_M = 0.05
"""Stands for a wire whose length nobody has surveyed: next to nothing, and `feed-unsurveyed` says so."""
EVERYTHING = ("drill", "mount", "route")
"""What a zone forbids where it does not say."""


def of_vehicle(data: Data) -> dict[str, Any]:
    """The fields of the vehicle that say what it offers and forbids."""
    raw = data["vehicle"]
    return {
        "document": raw.get("document", ""),
        "forbids": dict(raw.get("forbids", {})),
        "feeds": feeds(data),
        "feed_groups": {
            name: model.FeedGroup(
                name, maybe(one, "allows", "current"), one.get("circuits"), one.get("source", ""), ("feed_groups", name)
            )
            for name, one in section(data, "feed_groups").items()
        },
        "tie_downs": {
            name: model.TieDown(
                name, words(name, one), one["at"], maybe(one, "rating", "force"), one.get("source", ""),
                ("tie_downs", name),
            )
            for name, one in section(data, "tie_downs").items()
        },
        "zones": {name: zone(name, one) for name, one in section(data, "zones").items()},
    }  # fmt: skip


def words(name: str, raw: Raw) -> str:
    found: str = raw.get("words", name.replace("-", " "))
    return found


def zone(name: str, raw: Raw) -> model.Zone:
    forbids = tuple(raw.get("forbids", EVERYTHING))
    return model.Zone(
        name,
        raw["what"],
        tuple(raw["places"]),
        forbids,
        words(name, raw),
        raw.get("source", ""),
        ("zones", name),
        raw.get("fixed_by", ""),
    )


def feeds(data: Data) -> dict[str, model.Feed]:
    return {name: feed(data, name, raw) for name, raw in section(data, "feeds").items()}


def feed(data: Data, name: str, raw: Raw) -> model.Feed:
    return model.Feed(
        name=name,
        words=words(name, raw),
        place=raw["at"],
        battery=battery_of(data, raw),
        fuse_a=maybe(raw, "fuse", "current"),
        family=raw.get("family", ""),
        fitted_a=maybe(raw, "fitted", "current"),
        allows_a=maybe(raw, "allows", "current"),
        state=raw["state"],
        area_mm2=maybe(raw, "wire", "area"),
        length_m=maybe(raw, "length", "length"),
        circuits=raw.get("circuits"),
        group=raw.get("group", ""),
        switch=raw.get("switch", ""),
        occupied=raw.get("occupied", ""),
        source=raw.get("source", ""),
        at=("feeds", name),
        fuse_at=raw.get("fuse_at", ""),
    )


def references(data: Data) -> Iterator[str]:
    """Everything that something is fed from, as written."""
    for part in ("panels", "blocks", "accessories", "reserves"):
        for item in section(data, part).values():
            fed = item.get("fed_from", ())
            yield from [fed] if isinstance(fed, str) else fed
    yield from (item["from"] for item in section(data, "isolation").values() if "from" in item)


def used(data: Data) -> tuple[str, ...]:
    """Feeds that something is joined to, in the order of the data."""
    wanted = set(references(data))
    return tuple(name for name in section(data, "feeds") if name in wanted)


def blocks(data: Data, numbers: Numbers) -> dict[str, model.Block]:
    """A node for each feed that is used; nothing is fitted there."""
    known = feeds(data)
    return {
        name: model.Block(
            name,
            numbers.name(name, "X"),
            own_part(known[name]),
            (known[name].battery,),
            known[name].place,
            {},
            known[name].at,
            known[name],
        )
        for name in used(data)
    }


def own_title(point: model.Feed) -> str:
    """With what it waits for: what switches it sits in the vehicle and is on no drawing of ours."""
    live = {"ignition": ", live with the ignition on", "engine": ", live while the engine runs"}
    return f"vehicle's own feed, {point.words}{live.get(point.state, '')}"


def own_part(point: model.Feed) -> model.Part:
    title = own_title(point)
    return model.Part(
        id="",
        title=title,
        letter="X",
        category="vehicle",
        mass_kg=None,
        source=point.source,
        owner="",
        pictogram="",
    )


def supply(plan: Plan, name: str) -> model.Circuit:
    """The vehicle's own wire and fuse, battery → feed: drawn and counted on, neither sized nor cut."""
    block = plan.blocks[name]
    point = block.feed
    assert point is not None
    battery = plan.batteries[point.battery]
    key, colour = f"{name}/supply", plan.practice.colours["battery"]
    designation = plan.numbers.name(f"{key}/fuse", "F")
    post = model.Terminal(battery.designation, "+", battery.place)
    enter = model.Terminal(designation, "1", battery.place)
    end = model.Terminal(block.designation, "+", block.place)
    fuse = model.Protection(
        key=f"{key}/fuse",
        designation=designation,
        kind="fuse",
        place=battery.place,
        host="",
        position=0,
        lead_m=0.0,
        sheathed=True,
        source=point.battery,
        family=point.family,
        rating_a=point.fitted_a or point.fuse_a,
        holder_a=None,
        fitted=True,
        at=point.at,
    )
    lead = wire(
        plan, key=f"{key}/lead", role="feed", start=post, end=enter, colour=colour, cut_m=UNMEASURED_M
    )
    rest = own_wire(plan, f"{key}/feed", enter._replace(pin="2"), end, point.length_m or UNMEASURED_M, colour)
    return circuit(
        plan,
        key=key,
        title=own_title(point),
        kind="feeder",
        source=point.battery,
        target=name,
        item=name,
        target_designation=block.designation,
        protections=(fuse,),
        feeds=(lead, rest),
        environment=plan.places[battery.place].environment,
        fixed_a=None,
        conductor=layers.conductor(point.area_mm2) if point.area_mm2 is not None else None,
        existing=True,
        at=point.at,
    )


def own_wire(
    plan: Plan, key: str, start: model.Terminal, end: model.Terminal, length_m: float, colour: str
) -> model.Wire:
    """A conductor of the vehicle: it follows no run of ours."""
    way = model.Route((start.place, end.place), (), length_m)
    return model.Wire(key, plan.numbers.name(key, "W", 2), "feed", start, end, way, length_m, colour)
