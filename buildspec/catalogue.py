"""Catalogue parts: traits as written → `Part`. An item of a spec overrides its part, trait by trait."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

from buildspec import model, read
from buildspec.money import parse
from buildspec.values import Raw, maybe, number, value

TRAITS = (
    "electrical", "lamp", "battery", "charger", "link", "panel", "block", "contact", "outlet", "envelope", "anchor",
    "material", "cut_off",
)  # fmt: skip
USUAL_SYSTEM = ("12 V",)
LOGIC_INPUT_A = 0.01
"""Into a trigger input whose current is not stated; common practice, no source."""
BOUGHT = ("own_number", "supplier", "maker_part", "mark", "revision", "supplied_by")
PLAIN = (
    "title", "letter", "category", "mass", "source", "owner", "pictogram", "systems", "price", "hours", "substitutes",
    *BOUGHT,
)  # fmt: skip


Catalogue = Mapping[str, dict[str, Any]]
"""Part id → keys as written."""


@cache
def shipped() -> Catalogue:
    """Every shipped part, id → keys as written. The files are checked by the tests, not at each run."""
    found: dict[str, dict[str, Any]] = {}
    folder = resources.files("buildspec") / "parts"
    for file in sorted((f for f in folder.iterdir() if f.name.endswith(".yaml")), key=lambda f: f.name):
        document, _ = read.read_text(file.read_text(encoding="utf-8"), file=file.name, doc="parts")
        if document is not None:
            found.update(document.data["parts"])
    return found


def merged(item: Raw, base: Raw) -> dict[str, Any]:
    """The part's keys with the item's own laid over them; traits are merged key by key."""
    result = dict(base)
    for key in (*PLAIN, *TRAITS):
        if key not in item:
            continue
        mine = item[key]
        result[key] = {**under(key, mine, base[key]), **mine} if key in TRAITS and key in base else mine
    return result


def under(trait: str, mine: Raw, base: Raw) -> Raw:
    """What still holds of a part's trait: its currents go with its power, so another power drops them."""
    if trait != "electrical" or "power" not in mine or "power" not in base or mine["power"] == base["power"]:
        return base
    return {key: value for key, value in base.items() if key not in ("worst", "typical")}


def part(item: Raw, parts: Catalogue, *, name: str, letter: str) -> model.Part:
    """The part of an item, its own traits included. `letter` is the class letter if nothing says one."""
    base = parts.get(item.get("part", ""), {})
    raw = merged(item, base)
    return model.Part(
        id=item.get("part", ""),
        title=raw.get("title", name.replace("-", " ").capitalize()),
        letter=raw.get("letter", letter),
        category=raw.get("category", "other"),
        mass_kg=maybe(raw, "mass", "mass"),
        source=source(item, raw),
        owner=raw.get("owner", ""),
        pictogram=raw.get("pictogram", ""),
        systems_v=tuple(number(v, "voltage") for v in raw.get("systems", USUAL_SYSTEM if base else ())),
        **{key: MAKERS[key](raw[key]) for key in TRAITS if key in raw},
        **{key: raw[key] for key in BOUGHT if key in raw},
        price=parse(raw["price"]) if "price" in raw else None,
        fitting_s=seconds(raw),
        substitutes=tuple(raw.get("substitutes", ())),
    )


def source(item: Raw, raw: Raw) -> str:
    """Where the ratings come from; the document of an item's own figures first."""
    rest: str = raw.get("source", "as written in the spec")
    named = item.get("document", "") if any(key in item for key in ("mass", *TRAITS)) else ""
    return f"{named}; the rest: {rest}" if named and "source" not in item else rest


def seconds(raw: Raw) -> int | None:
    """Working time of `hours`, to whole seconds."""
    return round(number(raw["hours"], "time")) if "hours" in raw else None


def electrical(raw: Raw) -> model.Electrical:
    inrush = raw.get("inrush")
    return model.Electrical(
        model=raw["model"],
        power_w=maybe(raw, "power", "power"),
        typical_a=maybe(raw, "typical", "current"),
        worst_a=maybe(raw, "worst", "current"),
        inrush=model.Inrush(float(inrush["times"]), number(inrush["for"], "time")) if inrush else None,
        duty=value(raw, "duty", "ratio", 1.0),
        continuous=raw.get("continuous", True),
        standby_a=value(raw, "standby", "current", 0.0),
        cut_out_v=maybe(raw, "cut_out", "voltage"),
        drop_class=raw.get("drop", "critical" if "cut_out" in raw else "general"),
        min_area_mm2=maybe(raw, "min_wire", "area"),
        max_area_mm2=maybe(raw, "max_wire", "area"),
        max_fuse_a=maybe(raw, "max_fuse", "current"),
        steady=raw.get("steady", False),
    )


def lamp(raw: Raw) -> model.Lamp:
    return model.Lamp(
        raw["kind"],
        raw["colour"],
        raw.get("with_main_beam", False),
        sections=raw.get("sections", 1),
        faces=raw.get("faces", ""),
        only_when=raw.get("only_when", ""),
        centred=raw.get("centred", False),
        covered=raw.get("covered", False),
    )


def battery(raw: Raw) -> model.BatteryTrait:
    return model.BatteryTrait(
        chemistry=raw["chemistry"],
        capacity_ah=number(raw["capacity"], "charge"),
        cranking_a=maybe(raw, "cranking", "current"),
        short_circuit_a=maybe(raw, "short_circuit", "current"),
        case=raw.get("case", ""),
        max_charge_a=maybe(raw, "max_charge", "current"),
        max_discharge_a=maybe(raw, "max_discharge", "current"),
        max_voltage_v=maybe(raw, "max_voltage", "voltage"),
    )


def charger(raw: Raw) -> model.ChargerTrait:
    return model.ChargerTrait(
        output_a=number(raw["output"], "current"),
        output_v=value(raw, "output_voltage", "voltage", 14.4),
        input_max_a=value(raw, "input_max", "current", 0.0),
        wake_a=value(raw, "wake", "current", 0.0),
        min_input_v=maybe(raw, "min_input", "voltage"),
    )


def link(raw: Raw) -> model.LinkTrait:
    return model.LinkTrait(
        rating_a=number(raw["rating"], "current"),
        short_time_a=maybe(raw, "short_time", "current"),
        short_time_s=maybe(raw, "for", "time"),
        momentary=raw.get("momentary", False),
        coil_a=value(raw, "coil", "current", 0.0),
        join_v=maybe(raw, "joins_at", "voltage"),
        part_v=maybe(raw, "parts_at", "voltage"),
    )


def panel(raw: Raw) -> model.PanelTrait:
    limit = number(raw["channel_limit"], "current")
    special = {int(k): number(v, "current") for k, v in raw.get("channel_limits", {}).items()}
    key = raw.get("key", {})
    return model.PanelTrait(
        kind=raw["kind"],
        channels=raw["channels"],
        channel_a=tuple(special.get(n, limit) for n in range(1, raw["channels"] + 1)),
        total_a=number(raw["total"], "current"),
        modes=tuple(raw.get("modes", ("latching",))),
        after_trip=raw["after_trip"],
        key_width_mm=value(key, "width", "length", 0.018) * 1000,
        key_height_mm=value(key, "height", "length", 0.020) * 1000,
        legend_characters=raw.get("legend_characters", 10),
        columns=raw.get("columns", raw["channels"]),
        fuse_family=raw.get("fuse_family", "blade"),
        keypad_lead_m=value(raw, "keypad_lead", "length", 0.0),
        trigger_a=value(raw, "trigger_input", "current", LOGIC_INPUT_A),
        max_area_mm2=value(raw, "max_wire", "area", 6.0),
        **({"trips": trips(raw["trips"])} if "trips" in raw else {}),
        indicators=raw.get("indicators", False),
    )


def trips(raw: Raw) -> model.Trips:
    return model.Trips(number(raw["at"], "ratio"), number(raw["within"], "time"), raw["then"], True)


def block(raw: Raw) -> model.BlockTrait:
    return model.BlockTrait(
        positions=raw["positions"],
        position_a=number(raw["position_limit"], "current"),
        total_a=number(raw["total"], "current"),
        family=raw["family"],
        max_area_mm2=value(raw, "max_wire", "area", 6.0),
    )


def contact(raw: Raw) -> model.ContactTrait:
    return model.ContactTrait(
        rating_a=number(raw["rating"], "current"),
        motor_a=maybe(raw, "motor", "current"),
        coil_a=value(raw, "coil", "current", 0.0),
        momentary=raw.get("momentary", False),
    )


def outlet(raw: Raw) -> model.OutletTrait:
    return model.OutletTrait(number(raw["rating"], "current"))


def envelope(raw: Raw) -> model.Envelope:
    return model.Envelope(
        width_m=number(raw["width"], "length"),
        height_m=number(raw["height"], "length"),
        depth_m=value(raw, "depth", "length", 0.0),
    )


def anchor(raw: Raw) -> model.AnchorTrait:
    return model.AnchorTrait(number(raw["working_load"], "force"), raw.get("points", 1))


LB_PER_FT2 = 0.45359237 / 0.3048**2


def material(raw: Raw) -> model.MaterialTrait:
    figure, unit = raw["mass_per_surface"].split(" ")
    factor = LB_PER_FT2 if unit.startswith("lb") else 1.0
    return model.MaterialTrait(
        float(figure) * factor, number(raw["unit_surface"], "surface"), raw.get("layer", "")
    )


def cut_off(raw: Raw) -> model.CutOffTrait:
    return model.CutOffTrait(
        opens_v=number(raw["opens_at"], "voltage"),
        closes_v=maybe(raw, "closes_at", "voltage"),
        delay_s=value(raw, "delay", "time", 0.0),
    )


MAKERS: dict[str, Any] = {
    "electrical": electrical,
    "lamp": lamp,
    "battery": battery,
    "charger": charger,
    "link": link,
    "panel": panel,
    "block": block,
    "contact": contact,
    "outlet": outlet,
    "envelope": envelope,
    "anchor": anchor,
    "material": material,
    "cut_off": cut_off,
}
