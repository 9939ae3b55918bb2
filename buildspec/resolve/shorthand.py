"""Short forms of a spec written out: a battery's or an isolation device's own keys become traits."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec.calc import load
from buildspec.catalogue import catalogue
from buildspec.values import number

BATTERY_KEYS = ("chemistry", "capacity", "cranking", "short_circuit")
EFFICIENCY = 0.90
"""Of a charger whose input current is not stated; conservative, as a design article on converters gives it."""


def battery(item: Mapping[str, Any]) -> dict[str, Any]:
    """A battery with `chemistry`, `capacity`, … moved into its `battery` trait."""
    own = {key: item[key] for key in BATTERY_KEYS if key in item}
    return {**item, "battery": {**item.get("battery", {}), **own}} if own else dict(item)


def isolation(item: Mapping[str, Any], *, lowest_v: float) -> dict[str, Any]:
    """An isolation device with `output` or `rating` moved into its trait."""
    result = dict(item)
    if item["type"] == "dc-dc" and "output" in item:
        base = catalogue().get(item.get("part", ""), {}).get("charger", {})
        trait = {**item.get("charger", {}), "output": item["output"]}
        if "input_max" not in {**base, **trait}:
            amps = load.converter_input_a(
                output_a=number(item["output"], "current"),
                output_v=14.4,
                input_v=lowest_v,
                efficiency=EFFICIENCY,
            )
            trait["input_max"] = f"{amps:.1f} A"
        result["charger"] = trait
    if item["type"] != "dc-dc" and "rating" in item:
        momentary = {"momentary": True} if item["type"] == "momentary-link" else {}
        result["link"] = {**momentary, **item.get("link", {}), "rating": item["rating"]}
    return result
