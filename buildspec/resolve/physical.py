"""What is not electrical about a vehicle and its fittings: axles, people and cargo, fastenings, trays."""

from __future__ import annotations

from typing import Any

from buildspec import model
from buildspec.findings import Path
from buildspec.values import Raw, maybe, number

PERSON_KG = "68 kg"
"""49 CFR 571.110 S4.3(a) and 575.6: 150 lb a seat, 68 kg."""


def weights(raw: Raw) -> dict[str, Any]:
    """The fields of the vehicle that the mass sheet needs."""
    return {
        "axles": axles(raw["axles"]) if "axles" in raw else None,
        "occupants": tuple(people(raw)),
        "cargo": carried(raw, "cargo"),
        "removed": carried(raw, "removed"),
        "label": raw.get("label", ""),
        "placard_kg": maybe(raw, "label_capacity", "mass"),
    }


def axles(raw: Raw) -> model.Axles:
    front, rear = (
        model.Axle(number(raw[end]["limit"], "mass"), number(raw[end]["kerb"], "mass"))
        for end in ("front", "rear")
    )
    return model.Axles(number(raw["wheelbase"], "length"), front, rear, raw.get("source", ""))


def people(raw: Raw) -> list[model.Carried]:
    found = []
    for index, row in enumerate(raw.get("occupants", ())):
        count, each = row["people"], number(row.get("mass", PERSON_KG), "mass")
        what = f"{count} {'person' if count == 1 else 'people'}"
        found.append(model.Carried(what, count * each, row["at"], ("vehicle", "occupants", index)))
    return found


def carried(raw: Raw, key: str) -> tuple[model.Carried, ...]:
    return tuple(
        model.Carried(row["what"], number(row["mass"], "mass"), row["at"], ("vehicle", key, index))
        for index, row in enumerate(raw.get(key, ()))
    )


def space(raw: Raw | None, *, width: str = "width", depth: str = "depth") -> model.Envelope | None:
    """A free space; a side that is not written is 0 and not checked."""
    if raw is None:
        return None
    sides = (number(raw[key], "length") if key in raw else 0.0 for key in (width, "height", depth))
    return model.Envelope(*sides)


def tray(raw: Raw | None) -> model.Envelope | None:
    return space(raw, width="length", depth="width")


def studs(raw: Raw) -> dict[str, Any]:
    """The stud of a ground or of a battery's posts."""
    return {
        "stud": raw.get("stud", ""),
        "studs": raw.get("studs", 1),
        "torque_nm": maybe(raw, "torque", "torque"),
    }


def fastening(raw: Raw | None, at: Path) -> model.Fastening | None:
    if raw is None:
        return None
    return model.Fastening(
        bolt=raw["bolt"],
        grade=raw["class"],
        quantity=raw["quantity"],
        into=raw["into"],
        sheet_m=maybe(raw, "sheet", "length"),
        metal=raw.get("metal", "steel"),
        body=raw.get("body", ""),
        bearing_m=maybe(raw, "bearing", "length"),
        engagement_m=maybe(raw, "engagement", "length"),
        lubrication=raw.get("lubrication", "dry"),
        pull=raw.get("pull", "any"),
        holds_n=maybe(raw, "holds", "force"),
        spin_out_nm=maybe(raw, "spin_out", "torque"),
        torque_nm=maybe(raw, "torque", "torque"),
        at=at,
    )
