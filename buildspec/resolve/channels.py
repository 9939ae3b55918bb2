"""The keys of every panel, used, reserved or blank, in order."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildspec import model
from buildspec.resolve.plan import Plan

SECTION_OF = {"accessory": "accessories", "reserve": "reserves", "link": "isolation"}
"""Use of a key → section of the spec, in the order in which they claim it."""

HINTS = {"momentary": "hold", "triggered": "by itself"}


def user_of(plan: Plan, panel: str, number: int) -> tuple[str, str]:
    """(use, name) of the first item that names this key; (`blank`, ``) when none does."""
    for use, part in SECTION_OF.items():
        for name, raw in plan.data.get(part, {}).items():
            if raw.get("switch") == f"{panel}.{number}":
                return use, name
    return "blank", ""


def mode_of(use: str, raw: Mapping[str, Any], plan: Plan, name: str) -> str:
    """How the key works: written, or what the item behind it needs."""
    if "mode" in raw:
        written: str = raw["mode"]
        return written
    if use == "link":
        return "momentary" if plan.isolation[name].type == "momentary-link" else "latching"
    return "triggered" if "trigger" in raw and "relay" not in raw else "latching"


def channel(plan: Plan, panel: model.Panel, number: int, limit_a: float) -> model.Channel:
    use, name = user_of(plan, panel.name, number)
    if use == "blank":
        return model.Channel(panel.name, number, limit_a, use, "", "", "blank", "latching", "free", "", "")
    raw = plan.data[SECTION_OF[use]][name]
    mode = mode_of(use, raw, plan, name)
    hint = raw.get("hint", "reserved" if use == "reserve" else HINTS.get(mode, ""))
    behind = f"{name}/coil" if use == "link" or "relay" in raw else name
    return model.Channel(
        panel.name,
        number,
        limit_a,
        use,
        name,
        raw.get("legend", ""),
        pictogram(plan, use, name),
        mode,
        hint,
        raw.get("trigger", "") if "relay" not in raw else "",
        behind,
    )


def pictogram(plan: Plan, use: str, name: str) -> str:
    if use == "accessory":
        return plan.accessories[name].part.pictogram
    if use == "reserve":
        return plan.reserves[name].pictogram
    return plan.isolation[name].part.pictogram or "battery-assist"


def channels(plan: Plan) -> tuple[model.Channel, ...]:
    """Every key of every panel."""
    return tuple(
        channel(plan, panel, number, limit)
        for panel in plan.panels.values()
        if panel.part.panel
        for number, limit in enumerate(panel.part.panel.channel_a, start=1)
    )
