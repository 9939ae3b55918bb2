"""Stage 3: a checked document → `Resolved`: names looked up, routes found, circuits made, numbers given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import catalogue, layers, model
from buildspec.catalogue import Catalogue
from buildspec.figures import Decision
from buildspec.resolve import (
    branches,
    channels,
    items,
    laxer_parts,
    loads,
    names,
    plausible,
    plausible_items,
    plausible_words,
    points,
    ratings,
    reach,
    shorthand,
    supply,
    translations,
)
from buildspec.resolve.names import Fault
from buildspec.resolve.numbering import Numbers
from buildspec.resolve.plan import Plan
from buildspec.values import number


def resolve(
    data: Mapping[str, Any],
    figures: Decision,
    kept: Mapping[str, str],
    parts: Catalogue | None = None,
    profiles: tuple[str, ...] = (),
    origin: model.Origin | None = None,
) -> tuple[model.Resolved | None, tuple[Fault, ...]]:
    """The build that a spec describes, or what stands in its way.

    `data` has passed its schema; `figures` are those of the job's layers; `kept` holds the designations given
    earlier; `parts` is the catalogue, the shipped one where none is given; `profiles` names those in force;
    `origin` says what the vehicle data file has brought in.
    """
    parts = catalogue.shipped() if parts is None else parts
    wrong = (*figures.faults, *plausible.check(data, figures), *plausible_words.check(data))
    if wrong:
        return None, wrong
    faults = names.check(data, parts) or (
        *laxer_parts.check(data, parts),
        *translations.check(data, parts),
        *plausible_items.twice(data),
    )
    if faults:
        return None, faults
    system_v = number(data["vehicle"]["system"], "voltage")
    shop = layers.practice(figures, system_v=system_v, profiles=profiles)
    whole = written_out(data, shop, parts)
    faults = (*ratings.check(whole, parts), *reach.check(whole), *branches.check(whole)) or (
        *plausible_items.check(whole, parts),
    )
    if faults:
        return None, faults
    made = build(whole, shop, Numbers(kept), parts)
    return made._replace(vehicle=made.vehicle._replace(origin=origin)), ()


def written_out(data: Mapping[str, Any], practice: model.Practice, parts: Catalogue) -> dict[str, Any]:
    """The spec with its short forms turned into traits."""
    batteries = {n: shorthand.battery(i) for n, i in data["batteries"].items()}
    volts = {"lowest_v": practice.lowest_v, "system_v": practice.nominal_v}
    ways = {n: shorthand.isolation(i, parts, **volts) for n, i in data.get("isolation", {}).items()}
    sources = {
        n: shorthand.source(i, parts, system_v=practice.nominal_v) for n, i in data.get("sources", {}).items()
    }
    return {**data, "batteries": batteries, "isolation": ways, "sources": sources}


def build(
    data: Mapping[str, Any], practice: model.Practice, numbers: Numbers, parts: Catalogue
) -> model.Resolved:
    job = items.job(data)
    vehicle = items.vehicle(data, numbers)._replace(**points.of_vehicle(data))
    plan = Plan(
        data=data,
        practice=practice,
        parts=parts,
        numbers=numbers,
        places=items.places(data),
        runs=items.runs(data),
        grounds=items.grounds(data, numbers),
        signals=items.signals(data),
        batteries=items.batteries(data, numbers, parts),
        isolation=items.isolation(data, numbers, parts),
        panels=items.panels(data, numbers, parts),
        blocks={**points.blocks(data, numbers), **items.blocks(data, numbers, parts)},
        accessories=items.accessories(data, numbers, parts),
        reserves=items.reserves(data, numbers),
        supplies=items.supplies(data, numbers, parts),
    )
    made = all_circuits(plan)
    return model.Resolved(
        job=job,
        practice=practice,
        vehicle=vehicle,
        places=plan.places,
        runs=plan.runs,
        grounds=plan.grounds,
        signals=plan.signals,
        batteries=plan.batteries,
        isolation=plan.isolation,
        panels=plan.panels,
        blocks=plan.blocks,
        accessories=plan.accessories,
        reserves=plan.reserves,
        channels=channels.channels(plan),
        circuits=made,
        holes=items.holes(data),
        works=items.works(data.get("works", []), ("works",)),
        waivers=items.waivers(data),
        supplies=plan.supplies,
        states=items.states(data),
        numbers=numbers.all(),
        quote=items.quote(data),
        language=data.get("language", "en"),
        translations=data.get("translations", {}),
    )


def all_circuits(plan: Plan) -> tuple[model.Circuit, ...]:
    """Every circuit, supply first, in the order of the spec."""
    made: list[model.Circuit] = []
    for name, way in plan.isolation.items():
        made += supply.charger(plan, name) if way.type == "dc-dc" else supply.link(plan, name)
    for name in plan.supplies:
        made.append(supply.outside(plan, name))
    for name in plan.batteries:
        made += supply.bond(plan, name)
    made += [supply.tie(plan, name) for name in plan.data.get("conductors", {})]
    for name in plan.blocks:
        made += supply.feeders(plan, "blocks", name)
    for name in plan.panels:
        made += [*supply.feeders(plan, "panels", name), *supply.module_negative(plan, name)]
    for name in plan.accessories:
        made += loads.accessory(plan, name)
    made += [loads.reserve(plan, name) for name in plan.reserves]
    return tuple(made)
