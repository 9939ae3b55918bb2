"""The layers of defaults: built-in basis, then the shop's practice. The more specific one wins."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any

from buildspec import figures, model, read
from buildspec.builtin_sources import SOURCES
from buildspec.calc import ampacity, conductors, copper
from buildspec.figures import Decision, Layer
from buildspec.money import parse, parse_rate
from buildspec.values import Raw, maybe, number

NESTED = ("shop", "fuse_share", "drop_limit", "unprotected", "colours", "support_spacing", "clearance")
AS_WRITTEN = (
    "tax_note", "validity", "lamps_max", "main_beam_interlock", "lamps_symmetric", "rear_white", "covers", "indicators",
)  # fmt: skip


@cache
def builtin() -> Raw:
    """The built-in practice as written in the package."""
    text = (resources.files("buildspec") / "builtin.practice.yaml").read_text(encoding="utf-8")
    document, _ = read.read_text(text, file="builtin.practice.yaml", doc="practice")
    assert document is not None
    data: dict[str, Any] = document.data
    return data


def layered(written: Sequence[Layer]) -> Decision:
    """The layers of a job laid over the built-in basis, weakest first."""
    return figures.decide(builtin(), SOURCES, [layer for layer in written if layer.written])


def of_practice(written: Raw) -> Decision:
    """The figures of a practice alone, over the built-in basis."""
    return layered([Layer("the shop's practice", "practice", (), written)])


def practice(decision: Decision, *, system_v: float, profiles: tuple[str, ...] = ()) -> model.Practice:
    """The figures of a job as the layers decide them; each layer has passed its schema.

    The built-in voltages are those of a 12 V vehicle and follow `system_v`.
    """
    base, written = builtin(), decision.written
    raw = {**base, **written}
    raw |= {key: {**base[key], **written.get(key, {})} for key in NESTED}
    return model.Practice(
        shop=model.Shop(**raw["shop"]),
        units=raw["units"],
        paper=raw["paper"],
        languages=tuple(raw["languages"]),
        prefix=raw["prefix"],
        sizes=stock(raw),
        insulation_c=float(raw["insulation"]),
        wire_margin=number(raw["wire_margin"], "ratio"),
        fuse_share={k: number(v, "ratio") for k, v in raw["fuse_share"].items()},
        drop_limit={k: number(v, "ratio") for k, v in raw["drop_limit"].items()},
        nominal_v=system_v,
        lowest_v=volts(written, "lowest_voltage", system_v),
        resting_v=volts(written, "resting_voltage", system_v),
        unprotected_m=number(raw["unprotected"]["bare"], "length"),
        unprotected_sheathed_m=number(raw["unprotected"]["sheathed"], "length"),
        unprotected_battery_sheathed_m=number(raw["unprotected"]["battery_sheathed"], "length"),
        fuse_lead_m=number(raw["fuse_lead"], "length"),
        service_loop_m=number(raw["service_loop"], "length"),
        local_m=number(raw["local"], "length"),
        min_area_mm2=number(raw["min_wire"], "area"),
        signal_area_mm2=number(raw["signal_wire"], "area"),
        signal_fuse_a=number(raw["signal_fuse"], "current"),
        body_ohm=number(raw["body_resistance"], "resistance"),
        contact_ohm=number(raw["contact_resistance"], "resistance"),
        alternator_share=number(raw["alternator_share"], "ratio"),
        allow_signal_a=number(raw["signal_allowance"], "current"),
        fuse_families=tuple(raw["fuse_families"]),
        battery_families=tuple(raw["battery_fuse_families"]),
        colours=dict(raw["colours"]),
        battery_cables_apart=raw["battery_cables"] == "apart",
        key_off_a=number(raw["key_off_current"], "current"),
        retorque_km=float(raw["retorque"]),
        sources={figures.top(choice.figure): source(choice) for choice in decision.choices},
        choices=decision.choices,
        profiles=profiles,
        ampacity=raw["ampacity"],
        reset_demanded=raw.get("reset", {}).get("demand", ""),
        reset_refused=tuple(raw.get("reset", {}).get("refuse", ())),
        fuse_parts={family: fuse_part(one) for family, one in raw.get("fuse_parts", {}).items()},
        labour=parse_rate(raw["labour"]) if "labour" in raw else None,
        small_parts=parse(raw["small_parts"]) if "small_parts" in raw else None,
        relay_from_a=maybe(raw, "relay_from", "current"),
        **{key: raw[key] for key in AS_WRITTEN if key in raw},
        fuse_gates={family: gates(rows) for family, rows in raw.get("fuse_gates", {}).items()},
        support_m=number(raw["support_spacing"]["loom"], "length"),
        cable_support_m=number(raw["support_spacing"]["battery_cable"], "length"),
        clearance_m={k: number(v, "length") for k, v in raw["clearance"].items() if k != "source"},
        loom_spare=number(raw["loom_spare"], "ratio"),
        label_sheet=label_sheet(raw["label_sheet"]) if "label_sheet" in raw else None,
    )


def label_sheet(raw: Raw) -> model.LabelSheet:
    across_m, down_m = (maybe(raw, key, "length") or 0.0 for key in ("gap_across", "gap_down"))
    size = number(raw["width"], "length"), number(raw["height"], "length")
    return model.LabelSheet(*size, raw["columns"], raw["rows"], across_m, down_m)


def source(choice: model.Choice) -> str:
    """Where a figure comes from, its layer first unless that is the built-in basis."""
    if choice.layer == figures.BASIS or choice.source == choice.layer:
        return choice.source
    return f"{choice.layer}: {choice.source}"


def fuse_part(raw: Raw) -> model.FusePart:
    price, holder = (parse(raw[key]) if key in raw else None for key in ("price", "holder_price"))
    breaks = raw.get("breaking", {})
    own = maybe(breaks, "current", "current"), breaks.get("source", "")
    return model.FusePart(raw["part"], raw["mark"], price, raw.get("holder", ""), holder, *own)


def gates(rows: list[Raw]) -> tuple[model.Gate, ...]:
    """Opening times as a shop writes them, ascending."""
    return tuple(
        sorted(
            model.Gate(number(r["at"], "ratio"), maybe(r, "min", "time"), maybe(r, "max", "time"))
            for r in rows
        )
    )


def volts(written: Raw, key: str, system_v: float) -> float:
    """A voltage as the practice writes it, or the built-in one scaled to the vehicle's system."""
    if key in written:
        return number(written[key], "voltage")
    return number(builtin()[key], "voltage") * system_v / 12.0


def stock(raw: Raw) -> tuple[model.Conductor, ...]:
    """Conductors in stock, ascending: the whole system, or the sizes that the practice lists."""
    if "stock" not in raw:
        return tuple(sized(c) for c in conductors.conductors(raw["conductors"]))
    listed = {conductor(number(text, "area")) for text in raw["stock"]}
    return tuple(sorted(listed, key=lambda c: c.area_mm2))


def sized(row: conductors.Conductor) -> model.Conductor:
    """A row of the conductor table with the ampacity row that holds for it."""
    awg = ampacity.awg_row_for(row.area_mm2)
    return model.Conductor(row.name, row.system, row.area_mm2, row.r20_ohm_per_km / 1000, awg, row.source)


def same_area(a: float, b: float) -> bool:
    """Two areas name the same size: within half a percent."""
    return abs(a - b) <= 0.005 * max(a, b)


def conductor(area_mm2: float) -> model.Conductor:
    """The standard conductor of a written area, of either system; else one made from the area."""
    rows = [*conductors.conductors("awg"), *conductors.conductors("metric")]
    exact = [row for row in rows if same_area(row.area_mm2, area_mm2)]
    if exact:
        return sized(min(exact, key=lambda row: abs(row.area_mm2 - area_mm2)))
    return model.Conductor(
        name=f"{area_mm2:g} mm²",
        system="metric",
        area_mm2=area_mm2,
        r20_ohm_per_m=copper.r20_ohm_per_m(area_mm2=area_mm2),
        awg=ampacity.awg_row_for(area_mm2),
        source="IEC 60028 copper; not a standard size",
    )
