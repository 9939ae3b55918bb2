"""The shipped catalogue against its schema, against arithmetic and against published battery cases."""

from __future__ import annotations

import csv
import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from buildspec.units import DIMENSIONS

ROOT = Path(__file__).parent.parent
FILES = sorted((ROOT / "buildspec" / "parts").glob("*.yaml"))
CASES = Path(__file__).parent / "reference" / "data" / "battery_groups.csv"
LOWEST_V = 10.5
"""ISO 16750-2:2010, 4.2, table 1, code D: lowest continuous supply of a 12 V system."""
CHARGER_EFFICIENCY = 0.90
NUMBER_AND_UNIT = re.compile(r"([0-9]+(?:\.[0-9]+)?) (\S+)")


def texts(value: Any) -> Any:
    """The value with every key as text: the reader of specs keeps keys as they were typed."""
    if isinstance(value, dict):
        return {str(key): texts(item) for key, item in value.items()}
    return [texts(item) for item in value] if isinstance(value, list) else value


def load(file: Path) -> dict[str, Any]:
    loaded: dict[str, Any] = texts(yaml.safe_load(file.read_text(encoding="utf-8")))
    return loaded


PARTS: tuple[tuple[str, dict[str, Any]], ...] = tuple(
    (name, part) for file in FILES for name, part in load(file)["parts"].items()
)


def having(trait: str) -> list[Any]:
    return [pytest.param(part, id=name) for name, part in PARTS if trait in part]


def amount(text: str) -> float:
    found = NUMBER_AND_UNIT.fullmatch(text)
    assert found, text
    return float(found[1])


def validator() -> Draft202012Validator:
    read = [json.loads(file.read_text(encoding="utf-8")) for file in (ROOT / "schemas").glob("*.schema.json")]
    known: Registry[Any] = Registry().with_resources([(s["$id"], Resource.from_contents(s)) for s in read])
    return Draft202012Validator(next(s for s in read if s["$id"] == "parts.schema.json"), registry=known)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_file_follows_the_schema(file: Path) -> None:
    faults = [f"{list(e.absolute_path)}: {e.message}" for e in validator().iter_errors(load(file))]
    assert faults == []


def test_the_schema_refuses_an_unknown_key_and_a_missing_source() -> None:
    part = {"title": "Lamp", "letter": "E", "category": "lamp", "colour": "white"}
    said = [e.validator for e in validator().iter_errors({"parts": {"lamp": part}})]
    assert sorted(said) == ["additionalProperties", "required"]


def test_ids_are_unique_across_files_and_inside_each_file() -> None:
    key = re.compile(r"^  ([a-z][a-z0-9-]*):$", re.MULTILINE)
    written = Counter(name for file in FILES for name in key.findall(file.read_text(encoding="utf-8")))
    assert {name: count for name, count in written.items() if count > 1} == {}
    assert set(written) == {name for name, _ in PARTS}


def test_there_are_at_least_sixty_parts() -> None:
    assert len(PARTS) >= 60


def test_every_part_has_mass_source_and_a_sentence_for_the_owner() -> None:
    bare = [name for name, part in PARTS if not all(part.get(key) for key in ("mass", "source", "owner"))]
    assert bare == []


@pytest.mark.parametrize("part", [pytest.param(part, id=name) for name, part in PARTS])
def test_an_owner_sentence_is_short_and_complete(part: dict[str, Any]) -> None:
    assert part["owner"].endswith(".")
    assert len(part["owner"]) <= 100


@pytest.mark.parametrize("part", having("electrical"))
def test_a_device_states_power_or_worst_current(part: dict[str, Any]) -> None:
    trait = part["electrical"]
    assert "worst" in trait or "power" in trait
    if "typical" in trait and "worst" in trait:
        assert amount(trait["typical"]) <= amount(trait["worst"])


@pytest.mark.parametrize(
    "part", [p for p in having("electrical") if p.values[0]["electrical"]["model"] == "constant-power"]
)
def test_constant_power_draws_most_at_the_lowest_voltage(part: dict[str, Any]) -> None:
    trait = part["electrical"]
    assert amount(trait["worst"]) == pytest.approx(amount(trait["power"]) / LOWEST_V, rel=0.02)


@pytest.mark.parametrize("part", having("charger"))
def test_a_charger_takes_its_output_over_its_efficiency(part: dict[str, Any]) -> None:
    """Power balance of a converter: output current x output voltage / (efficiency x lowest input)."""
    trait = part["charger"]
    out_w = amount(trait["output"]) * amount(trait["output_voltage"])
    lowest_input_a = out_w / (CHARGER_EFFICIENCY * amount(trait["min_input"]))
    assert amount(trait["input_max"]) == pytest.approx(lowest_input_a, rel=0.02)


@pytest.mark.parametrize("part", having("outlet"))
def test_an_outlet_draws_what_may_be_plugged_in(part: dict[str, Any]) -> None:
    assert part["electrical"]["worst"] == part["outlet"]["rating"]


@pytest.mark.parametrize("part", [p for p in having("panel") if "channel_limits" in p.values[0]["panel"]])
def test_channel_limits_name_channels_that_exist(part: dict[str, Any]) -> None:
    trait = part["panel"]
    assert {int(number) for number in trait["channel_limits"]} <= set(range(1, trait["channels"] + 1))


def published_cases() -> dict[str, dict[str, str]]:
    with CASES.open(encoding="utf-8", newline="") as stream:
        rows = [row for row in csv.DictReader(stream) if row["verified"] == "yes"]
    return {f"G{row['group']}": row for row in rows}


def test_published_case_millimetres_are_the_inches_times_25_4() -> None:
    for row in published_cases().values():
        for side in ("length", "width", "height"):
            assert float(row[f"{side}_mm"]) == pytest.approx(float(row[f"{side}_in"]) * 25.4, abs=0.06)


@pytest.mark.parametrize(
    "part", [p for p in having("battery") if str(p.values[0]["battery"]["case"]).startswith("G")]
)
def test_a_battery_fills_the_published_case_of_its_group(part: dict[str, Any]) -> None:
    """Battery retailer chart of BCI groups, inches as printed."""
    row = published_cases()[part["battery"]["case"]]
    size = part["envelope"]
    for side, published in (("width", "length_mm"), ("depth", "width_mm"), ("height", "height_mm")):
        assert amount(size[side]) == pytest.approx(float(row[published]), abs=0.5)


def test_batteries_of_at_least_five_published_groups_are_checked() -> None:
    used = {part["battery"]["case"] for _, part in PARTS if "battery" in part}
    assert len(used & published_cases().keys()) >= 5


@pytest.mark.parametrize(
    "part", [p for p in having("battery") if p.values[0]["battery"]["chemistry"].startswith("lith")]
)
def test_a_lithium_battery_states_its_short_circuit_current(part: dict[str, Any]) -> None:
    assert amount(part["battery"]["short_circuit"]) >= 1000


@pytest.mark.parametrize("part", having("material"))
def test_goods_bought_by_surface_weigh_their_surface(part: dict[str, Any]) -> None:
    trait = part["material"]
    sheet_kg = amount(trait["mass_per_surface"]) * amount(trait["unit_surface"])
    assert amount(part["mass"]) == pytest.approx(sheet_kg, rel=0.01)


def test_every_quantity_is_in_a_unit_of_the_table() -> None:
    known = {unit for dimension in DIMENSIONS.values() for unit in dimension.units} | {"kg/m2"}
    found = re.findall(
        r"[:{,] [0-9]+(?:\.[0-9]+)? ([^\s,}]+)(?=[,}]|$)", "\n".join(raw_lines()), re.MULTILINE
    )
    assert len(found) > 500
    assert set(found) <= known


def raw_lines() -> list[str]:
    prose = ("title:", "owner:", "source:", "after_trip:", "#")
    lines = [line for file in FILES for line in file.read_text(encoding="utf-8").splitlines()]
    return [line for line in lines if ": " in line and not line.strip().startswith(prose)]
