"""Figures of an item that no such item has: a lost digit, a wrong unit, or two figures that contradict each other.

Bounds are wide on purpose: a figure outside them makes other checks pass that hold nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.calc import fuses
from buildspec.catalogue import Catalogue, merged
from buildspec.findings import Finding, Path
from buildspec.quantity import show
from buildspec.resolve.laxer_parts import LAXER, SHORT
from buildspec.resolve.names import Fault, section
from buildspec.resolve.plausible import CHARGING_V, RULE
from buildspec.values import maybe, number

CAPACITY_AH = (2.0, 3000.0)
CRANKING_PER_AH, SHORT_PER_AH = (0.5, 60.0), (2.0, 1000.0)
"""Cold cranking and short-circuit current over the capacity [A/Ah]; common practice, no source."""
LEAST_OUTPUT_A = 0.5
HIGHEST_INPUT_V = 16.0
"""Of a 12 V system with the engine running; common practice, no source."""
SHORT_TIME_TIMES, SHORT_TIME_S = (1.0, 20.0), (0.0, 300.0)
"""Short-time current of a contact over its rating, and for how long; common practice, no source."""
ASSUMED = "common practice, no source"


def check(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    """Faults of the items of a spec whose names lead somewhere and whose ratings are complete."""
    scale = number(data["vehicle"]["system"], "voltage") / 12.0
    for name, item in section(data, "batteries").items():
        yield from battery(("batteries", name), item, whole(item, parts, "battery"), scale)
    for group in ("isolation", "sources"):
        for name, item in section(data, group).items():
            yield from charger((group, name), item, whole(item, parts, "charger"), scale)
            yield from link((group, name), item, whole(item, parts, "link"))
    for group, limit, family in (
        ("blocks", "position_limit", "family"),
        ("panels", "channel_limit", "fuse_family"),
    ):
        for name, item in section(data, group).items():
            trait = group.removesuffix("s")
            yield from host((group, name, trait, limit), whole(item, parts, trait), limit, family)


def whole(item: Mapping[str, Any], parts: Catalogue, trait: str) -> Mapping[str, Any]:
    """A trait, the part's and the item's keys taken together."""
    found: Mapping[str, Any] = merged(item, parts.get(item.get("part", ""), {})).get(trait, {})
    return found


def twice(data: Mapping[str, Any]) -> Iterator[Fault]:
    """A figure that an item writes in short and in its trait, and not the same."""
    for group, keys in SHORT.items():
        for name, item in section(data, group).items():
            for key, trait in keys.items():
                inner = item.get(trait, {}).get(key)
                if key in item and inner is not None and not same(trait, key, item[key], inner):
                    yield fault(
                        (group, name, trait, key),
                        f"`{key}` of `{name}` is {item[key]}, and {inner} under `{trait}`",
                        "write it once",
                        ((group, name, key), "the other one"),
                    )


def same(trait: str, key: str, a: str, b: str) -> bool:
    way = LAXER[trait][key]
    return a == b if way.dimension == "word" else number(a, way.dimension) == number(b, way.dimension)


def fault(at: Path, message: str, help: str, *related: tuple[Path, str]) -> Fault:
    return RULE, Finding(at, message, help, related)


def written(at: Path, item: Mapping[str, Any], trait: str, key: str) -> Path:
    """Where a figure stands: in short, under its trait, or in the part."""
    if key in item:
        return (*at, key)
    return (*at, trait, key) if key in item.get(trait, {}) else at


def outside(
    at: Path, said: str, value: float, limits: tuple[float, float], dimension: str, why: str
) -> Iterator[Fault]:
    """A figure outside its bounds."""
    if not limits[0] <= value <= limits[1]:
        least, most = (show(limit, dimension, against=value) for limit in limits)
        yield fault(
            at,
            f"`{said}` is outside {least} to {most}, {why} ({ASSUMED})",
            "copy it again from its label or sheet",
        )


def battery(at: Path, item: Mapping[str, Any], trait: Mapping[str, Any], scale: float) -> Iterator[Fault]:
    """Capacity, what it gives in the cold and in a short, which go with the capacity, and what it is charged with."""
    capacity_ah = maybe(trait, "capacity", "charge")
    if capacity_ah is None:
        return
    of_capacity = f"what a battery of {trait['capacity']} gives"
    cold, short = (
        (least * capacity_ah, most * capacity_ah) for least, most in (CRANKING_PER_AH, SHORT_PER_AH)
    )
    volts = (CHARGING_V[0] * scale, CHARGING_V[1] * scale)
    found: list[Fault] = []
    for key, dimension, limits, why in (
        ("capacity", "charge", CAPACITY_AH, "what a battery of a vehicle holds"),
        ("max_voltage", "voltage", volts, "what batteries of this system are charged with"),
        ("cranking", "current", cold, f"{of_capacity} in the cold"),
        ("short_circuit", "current", short, f"{of_capacity} in a short"),
    ):
        if key in trait:
            place, value = written(at, item, "battery", key), number(trait[key], dimension)
            found += outside(place, f"{key}: {trait[key]}", value, limits, dimension, why)
    yield from found[:1]
    if not found:
        yield from weaker(at, item, trait)


def weaker(at: Path, item: Mapping[str, Any], trait: Mapping[str, Any]) -> Iterator[Fault]:
    """A battery gives more in a dead short than into a starter."""
    cranking, short = maybe(trait, "cranking", "current"), maybe(trait, "short_circuit", "current")
    if cranking is not None and short is not None and short < cranking:
        yield fault(
            written(at, item, "battery", "short_circuit"),
            f"`short_circuit: {trait['short_circuit']}` is less than it gives to a starter, "
            f"`cranking: {trait['cranking']}`",
            "copy both again from its label or sheet",
            (written(at, item, "battery", "cranking"), "its cranking current"),
        )


def charger(at: Path, item: Mapping[str, Any], trait: Mapping[str, Any], scale: float) -> Iterator[Fault]:
    """A charger gives something, and takes at least the power that it gives."""
    if "output" not in trait:
        return
    output_a = number(trait["output"], "current")
    if output_a < LEAST_OUTPUT_A:
        yield fault(
            written(at, item, "charger", "output"),
            f"`output: {trait['output']}`: a charger gives at least {show(LEAST_OUTPUT_A, 'current')} ({ASSUMED})",
            "copy it again from its label or sheet, and look at the unit",
        )
    elif "input_max" in trait and "output_voltage" in trait:
        least_a = output_a * number(trait["output_voltage"], "voltage") / (HIGHEST_INPUT_V * scale)
        if number(trait["input_max"], "current") < least_a:
            yield fault(
                written(at, item, "charger", "input_max"),
                f"`input_max: {trait['input_max']}`: for {trait['output']} at {trait['output_voltage']} it takes at "
                f"least {show(least_a, 'current')}, at {show(HIGHEST_INPUT_V * scale, 'voltage')} and without any loss",
                "copy it again from its sheet, or leave it out, and it is worked out",
            )


def link(at: Path, item: Mapping[str, Any], trait: Mapping[str, Any]) -> Iterator[Fault]:
    """What a contact carries for a short time goes with what it carries for good."""
    short_a, rating_a = maybe(trait, "short_time", "current"), maybe(trait, "rating", "current")
    if short_a is not None and rating_a is not None:
        limits = (SHORT_TIME_TIMES[0] * rating_a, SHORT_TIME_TIMES[1] * rating_a)
        why = f"what a contact of {trait['rating']} carries for a short time"
        place = written(at, item, "link", "short_time")
        yield from outside(place, f"short_time: {trait['short_time']}", short_a, limits, "current", why)
    for_s = maybe(trait, "for", "time")
    if for_s is not None:
        place = written(at, item, "link", "for")
        yield from outside(place, f"for: {trait['for']}", for_s, SHORT_TIME_S, "time", "a short time")


def host(at: Path, trait: Mapping[str, Any], limit: str, family: str) -> Iterator[Fault]:
    """A position takes no larger fuse than its family has."""
    made = fuses.fuses(trait[family]) if family in trait else ()
    if made and limit in trait and number(trait[limit], "current") > made[-1].rating_a:
        most = show(made[-1].rating_a, "current")
        yield fault(
            at,
            f"`{limit}: {trait[limit]}`: no {trait[family]} fuse above {most} is made",
            f"write what its maker allows, {most} at the most, or the family that it takes",
        )
