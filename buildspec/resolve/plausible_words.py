"""Slips that no bound shows: days and systems that do not exist, runs that lead nowhere, states without sense."""

from __future__ import annotations

import calendar
from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.findings import Finding, Path
from buildspec.network import states as network
from buildspec.quantity import show
from buildspec.resolve.names import Fault, section
from buildspec.resolve.plausible import BOUNDS, RULE
from buildspec.values import maybe, number

SYSTEMS_V = (6.0, 12.0, 24.0, 36.0, 48.0)
"""Nominal voltages of vehicle systems; common practice, no source."""
DISPLACEMENT_L = (0.05, 30.0)
"""Common practice, no source."""


def check(data: Mapping[str, Any]) -> tuple[Fault, ...]:
    """Faults of a spec that has passed its schema."""
    return (
        *system(data["vehicle"]),
        *engine(data["vehicle"]),
        *key_off(data["vehicle"]),
        *sensor(data),
        *days(data),
        *runs(data),
        *states(data),
    )


def fault(at: Path, message: str, help: str, *related: tuple[Path, str]) -> Fault:
    return RULE, Finding(at, message, help, related)


def system(vehicle: Mapping[str, Any]) -> Iterator[Fault]:
    """A charging voltage in place of the nominal one moves every limit."""
    if number(vehicle["system"], "voltage") not in SYSTEMS_V:
        listed = ", ".join(show(volts, "voltage") for volts in SYSTEMS_V)
        yield fault(
            ("vehicle", "system"),
            f"`system: {vehicle['system']}` is no nominal voltage of a vehicle: {listed}",
            "write the nominal voltage, not the one that it is charged with",
        )


def engine(vehicle: Mapping[str, Any]) -> Iterator[Fault]:
    written = vehicle.get("engine", {}).get("displacement")
    least, most = DISPLACEMENT_L
    if written is not None and not least <= number(written, "volume") <= most:
        yield fault(
            ("vehicle", "engine", "displacement"),
            f"`displacement: {written}`: the engine of a vehicle has {show(least, 'volume')} to {show(most, 'volume')} "
            "(common practice, no source)",
            "look at the unit: 2000 cm³ are `2.0 l`",
        )


def key_off(vehicle: Mapping[str, Any]) -> Iterator[Fault]:
    """What the vehicle draws by itself with the key off."""
    bound, written = BOUNDS["key_off_current"], vehicle.get("own_loads", {}).get("key_off")
    amps = maybe(vehicle.get("own_loads", {}), "key_off", "current")
    if amps is not None and amps > bound.most:
        yield fault(
            ("vehicle", "own_loads", "key_off"),
            f"`key_off: {written}` is more than {show(bound.most, 'current', against=amps)}: {bound.why}",
            "measure it with the vehicle asleep, and look at the unit",
        )


def sensor(data: Mapping[str, Any]) -> Iterator[Fault]:
    """The vehicle's battery sensor sits on a battery of the vehicle."""
    name = data["vehicle"].get("sensed_post")
    battery = section(data, "batteries").get(name, {})
    if battery and battery.get("role", name) == "house" and not battery.get("existing", False):
        yield fault(
            ("vehicle", "sensed_post"),
            f"`sensed_post: {name}`: the vehicle's sensor sits on a battery of its own, and this job adds `{name}`",
            "name the vehicle's own battery, or write `existing: true` at the one that it came with",
            (("batteries", name), "this battery"),
        )


def days(data: Mapping[str, Any]) -> Iterator[Fault]:
    """Dates of the calendar."""
    written: list[tuple[Path, str]] = [(("job", "date"), data["job"]["date"])]
    written += [(("waivers", n, "until"), one["until"]) for n, one in enumerate(data.get("waivers", ()))]
    for at, text in written:
        year, month, day = (int(part) for part in text.split("-"))
        if year == 0 or day > calendar.monthrange(year, month)[1]:
            yield fault(at, f"`{text}` is no day of the calendar", "write a date such as 2026-10-05")


def runs(data: Mapping[str, Any]) -> Iterator[Fault]:
    """Runs that lead from a place to itself, and second ones between two places, of which one is never taken."""
    first: dict[frozenset[str], int] = {}
    for index, run in enumerate(data.get("runs", ())):
        ends, at = frozenset(run["between"]), ("runs", index, "between")
        if len(ends) == 1:
            yield (
                "ends-alike",
                Finding(at, f"both ends are `{run['between'][0]}`", "name the two places that it joins"),
            )
        elif ends in first:
            names = " and ".join(f"`{name}`" for name in run["between"])
            yield (
                "run-written-twice",
                Finding(
                    at,
                    f"{names} are joined by two runs, and only the shorter one is ever taken",
                    "keep the one that the loom follows, or name a place on the way of the other",
                    ((("runs", first[ends], "between"), "written here first"),),
                ),
            )
        else:
            first[ends] = index


def states(data: Mapping[str, Any]) -> Iterator[Fault]:
    """Key and engine that go together."""
    for name, state in section(data, "states").items():
        if (state["key"], state["engine"]) not in network.KEYS:
            allowed = ", ".join(f"{key} and {engine}" for key, engine in network.KEYS)
            yield fault(
                ("states", name, "engine"),
                f"`key: {state['key']}` and `engine: {state['engine']}` do not go together",
                f"key and engine: {allowed}",
            )
