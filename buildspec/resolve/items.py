"""The things in a spec as records: places, runs, batteries, panels, accessories, reserves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import catalogue, model
from buildspec.catalogue import Catalogue
from buildspec.findings import Path, Waiver
from buildspec.money import Money, parse
from buildspec.resolve import physical
from buildspec.resolve.numbering import Numbers
from buildspec.values import Raw, maybe, number, signed, value

Data = Mapping[str, Any]


def section(data: Data, name: str) -> Mapping[str, Any]:
    found: Mapping[str, Any] = data.get(name, {})
    return found


def job(data: Data) -> model.Job:
    raw = data["job"]
    owner = raw["owner"]
    return model.Job(
        number=str(raw["number"]),
        title=raw["title"],
        revision=str(raw["revision"]),
        date=raw["date"],
        state=raw.get("state", "as designed"),
        prepared_by=raw.get("prepared_by", "shop lead"),
        approved_by=raw.get("approved_by", ""),
        owner=owner["name"],
        owner_contact=owner.get("contact", ""),
        user=owner.get("user", ""),
        notes=tuple(raw.get("notes", ())),
        spare_fuses=raw.get("spare_fuses", ""),
    )


OWN_LOADS = {"key_off": "off", "key_on": "stopped", "idle": "idle", "driving": "driving", "cranking": "crank"}
"""Key of the spec → operating state of the network."""


def vehicle(data: Data, numbers: Numbers) -> model.Vehicle:
    raw = data["vehicle"]
    alternator, engine, own = raw.get("alternator"), raw.get("engine"), raw.get("own_loads", {})
    return model.Vehicle(
        description=raw["description"],
        registration=raw.get("registration", ""),
        system_v=number(raw["system"], "voltage"),
        alternator=model.Alternator(
            numbers.name("alternator", "G"),
            number(alternator["rated"], "current"),
            alternator["controlled"],
            maybe(alternator, "idle", "current"),
            maybe(alternator, "allowance", "current"),
            alternator.get("source", ""),
            maybe(alternator, "voltage", "voltage"),
        )
        if alternator
        else None,
        engine=model.Engine(engine["fuel"], litres(engine)) if engine else None,
        sensed_post=raw.get("sensed_post", ""),
        sold=raw.get("sold", ""),
        gross_kg=maybe(raw, "gross_mass", "mass"),
        kerb_kg=maybe(raw, "kerb_mass", "mass"),
        own_a={state: number(own[key], "current") for key, state in OWN_LOADS.items() if key in own},
        own_source=own.get("source", ""),
        at=("vehicle",),
        **physical.weights(raw),
        untouched=tuple(raw.get("untouched", ())),
    )


def litres(raw: Raw) -> float | None:
    return maybe(raw, "displacement", "volume")


def places(data: Data) -> dict[str, model.Place]:
    return {
        name: model.Place(
            name,
            raw.get("words", name.replace("-", " ")),
            raw["environment"],
            raw.get("bump_risk", False),
            ("places", name),
            station_m=signed(raw, "station", "length"),
            clear=physical.space(raw.get("clear")),
            access=raw.get("access", ""),
        )
        for name, raw in section(data, "places").items()
    }


def runs(data: Data) -> tuple[model.Run, ...]:
    return tuple(
        model.Run(
            raw["between"][0],
            raw["between"][1],
            number(raw["length"], "length"),
            raw.get("through", ""),
            raw.get("sheathed", False),
            ("runs", index),
            tuple(raw.get("passes", ())),
            maybe(raw, "conduit", "length"),
            near(raw, ("runs", index, "near")),
            maybe(raw, "bend", "length"),
            maybe(raw, "support", "length"),
        )
        for index, raw in enumerate(data.get("runs", ()))
    )


def battery_of(data: Data, feed: Raw) -> str:
    """The battery that a feed of the vehicle names, or the start battery; `` where there is none."""
    starts = (name for name, item in section(data, "batteries").items() if item.get("role", name) == "start")
    found: str = feed.get("from") or next(starts, "")
    return found


def near(raw: Raw, at: Path) -> tuple[model.Neighbour, ...]:
    """What a run or a hole comes near."""
    return tuple(
        model.Neighbour(
            item["what"],
            number(item["distance"], "length"),
            item.get("shield", False),
            item.get("words", ""),
            (*at, index),
        )
        for index, item in enumerate(raw.get("near", ()))
    )


def grounds(data: Data, numbers: Numbers) -> dict[str, model.Ground]:
    return {
        name: model.Ground(
            name,
            numbers.name(name, "X"),
            raw["at"],
            raw.get("words", name.replace("-", " ")),
            raw.get("post_of", ""),
            ("grounds", name),
            **physical.studs(raw),
            source=raw.get("source", ""),
        )
        for name, raw in section(data, "grounds").items()
    }


def signals(data: Data) -> dict[str, model.Signal]:
    return {
        name: model.Signal(
            name,
            raw.get("words", name.replace("-", " ")),
            raw["at"],
            raw["kind"],
            maybe(raw, "allowance", "current"),
            raw.get("pulsed", False),
            raw.get("source", ""),
            ("signals", name),
        )
        for name, raw in section(data, "signals").items()
    }


def batteries(data: Data, numbers: Numbers, parts: Catalogue) -> dict[str, model.Battery]:
    return {
        name: model.Battery(
            name,
            numbers.name(name, "G"),
            catalogue.part(raw, parts, name=f"{name} battery", letter="G"),
            raw["at"],
            raw.get("role", name),
            raw.get("existing", False),
            ("batteries", name),
            **physical.studs(raw),
            tray=physical.tray(raw.get("tray")),
        )
        for name, raw in section(data, "batteries").items()
    }


def isolation(data: Data, numbers: Numbers, parts: Catalogue) -> dict[str, model.Isolation]:
    found = {}
    for name, raw in section(data, "isolation").items():
        part = catalogue.part(raw, parts, name=name, letter="T" if raw["type"] == "dc-dc" else "K")
        ends = (raw["from"], raw["to"]) if raw["type"] == "dc-dc" else tuple(raw["joins"])
        tap = ends[0] if ends[0] in section(data, "feeds") else ""
        if tap:
            ends = (battery_of(data, data["feeds"][tap]), ends[1])
        found[name] = model.Isolation(
            name,
            numbers.name(name, part.letter),
            raw["type"],
            part,
            raw["at"],
            (ends[0], ends[1]),
            raw.get("wake", ""),
            raw.get("switch", ""),
            raw.get("crank", ""),
            ("isolation", name),
            tap,
        )
    return found


def feeds(raw: Raw) -> tuple[str, ...]:
    fed = raw["fed_from"]
    return (fed,) if isinstance(fed, str) else tuple(fed)


def panels(data: Data, numbers: Numbers, parts: Catalogue) -> dict[str, model.Panel]:
    return {
        name: model.Panel(
            name,
            numbers.name(name, "S"),
            catalogue.part(raw, parts, name=f"{name} panel", letter="S"),
            feeds(raw),
            raw["module_at"],
            raw.get("keypad_at", raw["module_at"]),
            raw.get("words", ""),
            raw.get("placement_reason", ""),
            raw.get("guarded", False),
            ("panels", name),
        )
        for name, raw in section(data, "panels").items()
    }


def blocks(data: Data, numbers: Numbers, parts: Catalogue) -> dict[str, model.Block]:
    return {
        name: model.Block(
            name,
            numbers.name(name, "X"),
            catalogue.part(raw, parts, name=f"{name} block", letter="X"),
            feeds(raw),
            raw["at"],
            {int(k): v for k, v in raw.get("empty", {}).items()},
            ("blocks", name),
        )
        for name, raw in section(data, "blocks").items()
    }


def price(raw: Raw) -> Money | None:
    return parse(raw["price"]) if "price" in raw else None


def quote(data: Data) -> model.Quote:
    raw = data.get("quote", {})
    return model.Quote(tuple(raw.get("excluded", ())), tuple(raw.get("instructions", ())))


def works(raw: list[Raw], at: Path) -> tuple[model.Work, ...]:
    return tuple(
        model.Work(
            step["do"],
            step["what"],
            step.get("where", ""),
            step.get("note", ""),
            step.get("colour", ""),
            step.get("reversal", ""),
            (*at, index),
            step.get("loom", False),
            step.get("secured", ""),
            price=price(step),
            working_s=catalogue.seconds(step),
            replaces=step.get("replaces", ""),
            document=step.get("document", ""),
        )
        for index, step in enumerate(raw)
    )


def works_when(raw: Raw, data: Data) -> str:
    """When it works, as the owner sees it: written, or from the signal that commands it."""
    if "works_when" in raw:
        written: str = raw["works_when"]
        return written
    held = held_by(data, raw.get("fed_from") or raw.get("switch", ""))
    if held != "any":
        return f"{held} on"
    signal = section(data, "signals").get(raw.get("trigger", ""), {})
    if signal.get("kind") == "ignition" and "switch" not in raw:
        return "ignition on"
    return "" if "trigger" in raw and "switch" not in raw else "any time"


def held_by(data: Data, reference: str) -> str:
    """State of the vehicle's feed behind a battery, feed, block position or channel; `any` where there is none."""
    name = reference.partition(".")[0]
    if name in section(data, "feeds"):
        state: str = data["feeds"][name]["state"]
        return state
    item = section(data, "blocks").get(name) or section(data, "panels").get(name) or {"fed_from": ()}
    above = {held_by(data, text) for text in feeds(item)}
    return next((state for state in ("any", "ignition", "engine") if state in above), "any")


def accessories(data: Data, numbers: Numbers, parts: Catalogue) -> dict[str, model.Accessory]:
    found = {}
    for name, raw in section(data, "accessories").items():
        part = catalogue.part(raw, parts, name=name, letter="U")
        opening = raw.get("opening")
        found[name] = model.Accessory(
            name=name,
            designation=numbers.name(name, part.letter),
            part=part,
            place=raw["at"],
            quantity=raw.get("quantity", 1),
            switch=raw.get("switch", ""),
            fed_from=raw.get("fed_from", ""),
            trigger=raw.get("trigger", ""),
            legend=raw.get("legend", ""),
            owner=raw.get("owner", part.owner),
            works_when=works_when(raw, data),
            surface_m2=maybe(raw, "surface", "surface"),
            opening=catalogue.envelope(opening) if opening else None,
            clearance_m=value(raw, "clearance", "length", 0.003),
            placement_reason=raw.get("placement_reason", ""),
            note=raw.get("note", ""),
            works=works(raw.get("works", []), ("accessories", name, "works")),
            anchored_load_n=maybe(raw, "load", "force"),
            hours_per_day=raw.get("hours_per_day"),
            beside=raw.get("beside", ""),
            at=("accessories", name),
            fastening=physical.fastening(raw.get("fastening"), ("accessories", name, "fastening")),
            restrains=raw.get("restrains", ""),
            stacked=raw.get("stacked", False),
            tie_downs=tuple(raw.get("tie_downs", ())),
            passes=tuple(raw.get("passes", ())),
            option=raw.get("option", ""),
            replaces=raw.get("replaces", ""),
            document=raw.get("document", ""),
        )
    return found


def reserves(data: Data, numbers: Numbers) -> dict[str, model.Reserve]:
    return {
        name: model.Reserve(
            name=name,
            designation=numbers.name(name, "X"),
            place=raw["at"],
            switch=raw.get("switch", ""),
            fed_from=raw.get("fed_from", ""),
            allow_a=number(raw["allow"], "current"),
            legend=raw.get("legend", ""),
            purpose=raw.get("purpose", ""),
            end=raw["end"],
            cap=raw.get("cap", ""),
            connector=raw.get("connector", "none"),
            shrouded=raw.get("shrouded", False),
            powered=raw.get("powered", False),
            pictogram=raw.get("pictogram", ""),
            drop_class=raw.get("drop", "general"),
            at=("reserves", name),
            coil_m=value(raw, "coil", "length", 0.0),
            price=price(raw),
            working_s=catalogue.seconds(raw),
            option=raw.get("option", ""),
        )
        for name, raw in section(data, "reserves").items()
    }


def holes(data: Data) -> tuple[model.Hole, ...]:
    return tuple(
        model.Hole(
            name,
            raw["at"],
            raw["what"],
            maybe(raw, "size", "length"),
            raw["protection"],
            raw.get("seal", ""),
            ("holes", name),
            maybe(raw, "bore", "length"),
            raw.get("rust", ""),
            raw.get("reused", False),
            raw.get("removed_item", False),
            raw.get("closed_with", ""),
            near(raw, ("holes", name, "near")),
            raw.get("behind", ""),
        )
        for name, raw in section(data, "holes").items()
    )


def waivers(data: Data) -> tuple[Waiver, ...]:
    return tuple(
        Waiver(raw["rule"], raw["of"], raw["reason"], raw["by"], raw["until"], ("waivers", index))
        for index, raw in enumerate(data.get("waivers", ()))
    )


def supplies(data: Data, numbers: Numbers, parts: Catalogue) -> dict[str, model.Supply]:
    found = {}
    for name, raw in section(data, "sources").items():
        part = catalogue.part(raw, parts, name=name, letter="T")
        designation = numbers.name(name, part.letter)
        found[name] = model.Supply(
            name,
            designation,
            raw["type"],
            part,
            raw["at"],
            raw["to"],
            maybe(raw, "per_day", "charge"),
            ("sources", name),
        )
    return found


def states(data: Data) -> dict[str, model.OwnState]:
    return {
        name: model.OwnState(
            name=name,
            words=raw.get("words", name.replace("-", " ")),
            key=raw["key"],
            engine=raw["engine"],
            closed=frozenset(raw.get("closed", ())),
            sources=frozenset(raw.get("sources", ())),
            on=tuple(raw["on"]),
            hours=raw.get("hours"),
            at=("states", name),
        )
        for name, raw in section(data, "states").items()
    }
