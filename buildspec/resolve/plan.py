"""What every circuit builder needs: the items of the build, and how a conductor is laid between two of them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, NamedTuple

from buildspec import layers, model
from buildspec.catalogue import Catalogue
from buildspec.resolve.numbering import Numbers
from buildspec.resolve.routes import shortest
from buildspec.values import maybe

STEP_M = 0.05
"""Cut lengths are rounded up to this."""


class Plan(NamedTuple):
    """The items of a spec, the spec's own text, and the designations given so far."""

    data: Mapping[str, Any]
    practice: model.Practice
    parts: Catalogue
    numbers: Numbers
    places: Mapping[str, model.Place]
    runs: tuple[model.Run, ...]
    grounds: Mapping[str, model.Ground]
    signals: Mapping[str, model.Signal]
    batteries: Mapping[str, model.Battery]
    isolation: Mapping[str, model.Isolation]
    panels: Mapping[str, model.Panel]
    blocks: Mapping[str, model.Block]
    accessories: Mapping[str, model.Accessory]
    reserves: Mapping[str, model.Reserve]
    supplies: Mapping[str, model.Supply]


def route(plan: Plan, start: str, end: str) -> model.Route:
    """Shortest route; that there is one has been checked before any circuit is made."""
    found = shortest(plan.runs, start, end)
    if found is None:
        raise LookupError(f"no run leads from {start} to {end}")
    return found


def cut_length(plan: Plan, way: model.Route, coil_m: float = 0.0) -> float:
    """Length to cut [m]: the route, or the local length at one place, a service loop at each end, rounded up."""
    length = way.length_m if way.runs else plan.practice.local_m
    return cut_up(length + 2 * plan.practice.service_loop_m + coil_m)


def cut_up(length_m: float) -> float:
    """A length rounded up to what is cut [m]."""
    return math.ceil(round(length_m / STEP_M, 6)) * STEP_M


def wire(
    plan: Plan,
    *,
    key: str,
    role: str,
    start: model.Terminal,
    end: model.Terminal,
    colour: str,
    cut_m: float | None = None,
    coil_m: float = 0.0,
) -> model.Wire:
    """One piece of conductor. `cut_m` [m] only where its length is given by something else than the route.

    `coil_m` [m] is left coiled at one end, on top of the route.
    """
    way = route(plan, start.place, end.place)
    length = cut_length(plan, way, coil_m) if cut_m is None else cut_m
    return model.Wire(key, plan.numbers.name(key, "W", 2), role, start, end, way, round(length, 3), colour)


def nearest_ground(plan: Plan, place: str) -> model.Ground | None:
    """The body point with the shortest route; a battery post is taken only when a spec names it."""
    found = [
        (way.length_m, ground.name, ground)
        for ground in plan.grounds.values()
        if not ground.post_of and (way := shortest(plan.runs, place, ground.place)) is not None
    ]
    return min(found)[2] if found else None


def ground_for(plan: Plan, place: str, back: str) -> model.Ground | None:
    """Where a return ends: the ground that is named, the nearest one, or none for `body`."""
    if back == "body":
        return None
    return plan.grounds[back] if back in plan.grounds else nearest_ground(plan, place)


def number(plan: Plan, key: str) -> str:
    """Circuit number with the shop's prefix."""
    return plan.numbers.name(f"circuit {key}", plan.practice.prefix, 2)


def written_size(item: Mapping[str, Any], key: str = "wire") -> model.Conductor | None:
    """The conductor that the spec writes, or None to choose one."""
    area = maybe(item, key, "area")
    return layers.conductor(area) if area is not None else None


def back(
    plan: Plan, key: str, device: model.Terminal, to: str, coil_m: float = 0.0
) -> tuple[tuple[model.Wire, ...], str]:
    """Return conductors and the name of the ground at their end; `coil_m` [m] is left at the device."""
    ground = ground_for(plan, device.place, to)
    if ground is None:
        return (), ""
    pin = "−" if ground.post_of else "stud"
    item = plan.batteries[ground.post_of].designation if ground.post_of else ground.letter_name
    end = model.Terminal(item, pin, ground.place)
    start = device._replace(pin="−")
    return (
        wire(
            plan,
            key=f"{key}/return",
            role="return",
            start=start,
            end=end,
            colour=plan.practice.colours["return"],
            coil_m=coil_m,
        ),
    ), ground.name


def circuit(plan: Plan, **given: Any) -> model.Circuit:
    """A circuit with its number; what is not given is as in most circuits."""
    base: dict[str, Any] = {
        "protections": (), "contacts": (), "feeds": (), "returns": (), "ground": "", "body_return": False,
        "environment": "cabin", "load": None, "quantity": 1, "allow_a": None, "drop_class": "general",
        "conductor": None, "unprotected": False, "existing": False, "open_reason": "", "target_designation": "",
    }  # fmt: skip
    return model.Circuit(number=number(plan, given["key"]), **{**base, **given})
