"""Short forms of a spec written out: a battery's or an isolation device's own keys become traits."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec.calc import load
from buildspec.catalogue import Catalogue
from buildspec.values import number, value

BATTERY_KEYS = ("chemistry", "capacity", "cranking", "short_circuit")
EFFICIENCY = 0.90
"""Of a charger whose input current is not stated; conservative, as a design article on converters gives it."""


def battery(item: Mapping[str, Any]) -> dict[str, Any]:
    """A battery with `chemistry`, `capacity`, … moved into its `battery` trait."""
    own = {key: item[key] for key in BATTERY_KEYS if key in item}
    return {**item, "battery": {**item.get("battery", {}), **own}} if own else dict(item)


def source(item: Mapping[str, Any], parts: Catalogue, *, system_v: float) -> dict[str, Any]:
    """An outside source with `output` moved into its `charger` trait."""
    base = parts.get(item.get("part", ""), {}).get("charger", {})
    trait = {**item.get("charger", {}), **({"output": item["output"]} if "output" in item else {})}
    if not trait and not base:
        return dict(item)
    usual = {} if "output_voltage" in base else {"output_voltage": usual_v(system_v)}
    return {**item, "charger": {**usual, **trait}}


def usual_v(system_v: float) -> str:
    """Charging voltage where none is stated."""
    return f"{14.4 * system_v / 12:g} V"


def isolation(
    item: Mapping[str, Any], parts: Catalogue, *, lowest_v: float, system_v: float
) -> dict[str, Any]:
    """An isolation device with `output` or `rating` moved into its trait."""
    result = dict(item)
    base = parts.get(item.get("part", ""), {}).get("charger", {})
    trait = {**item.get("charger", {}), **({"output": item["output"]} if "output" in item else {})}
    whole = {**base, **trait}
    if item["type"] == "dc-dc" and "output" in whole:
        if "input_max" not in whole:
            trait["input_max"] = f"{input_a(whole, lowest_v=lowest_v, system_v=system_v):.1f} A"
        if "output_voltage" not in whole:
            trait["output_voltage"] = usual_v(system_v)
        result["charger"] = trait
    if item["type"] != "dc-dc" and "rating" in item:
        momentary = {"momentary": True} if item["type"] == "momentary-link" else {}
        result["link"] = {**momentary, **item.get("link", {}), "rating": item["rating"]}
    return result


def input_a(charger: Mapping[str, Any], *, lowest_v: float, system_v: float) -> float:
    """Input current of a charger at the lowest input voltage [A], from its output power."""
    volts = value(charger, "output_voltage", "voltage", 14.4 * system_v / 12)
    output = number(charger["output"], "current")
    return load.converter_input_a(output_a=output, output_v=volts, input_v=lowest_v, efficiency=EFFICIENCY)
