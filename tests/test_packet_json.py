"""Machine files: packet.json against its schema, CSV that a spreadsheet reads and never runs, numbering."""

from __future__ import annotations

import csv
import io
import json
import pathlib
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from sample_packets import EXAMPLES, NAMES, ROOT, packet

from buildspec import compile as compiling
from buildspec.compile import csvfile, data, numbers

SCHEMA: dict[str, Any] = json.loads((ROOT / "schemas" / "packet.schema.json").read_text(encoding="utf-8"))
STARTS = "=+-@\t\r\n＝＋－＠"
"""A spreadsheet may run a cell that starts with one of these, the wide ones where the language has them."""
EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)


def as_json(path: pathlib.Path) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(compiling.files_of(packet(path))["packet.json"])
    return made


def test_the_schema_is_a_schema_and_describes_every_key() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    missing = [
        where for where, part in properties(SCHEMA, "$") if not part.get("description", "").endswith(".")
    ]
    assert not missing
    assert len(list(properties(SCHEMA, "$"))) > 300


def properties(part: Any, where: str) -> Iterator[tuple[str, dict[str, Any]]]:
    if isinstance(part, dict):
        for key, value in part.get("properties", {}).items():
            yield f"{where}.{key}", value
        for key, value in part.items():
            yield from properties(value, f"{where}.{key}")


@EACH
def test_every_packet_is_valid(path: pathlib.Path) -> None:
    found = jsonschema.Draft202012Validator(SCHEMA).iter_errors(as_json(path))
    assert [f"{list(e.path)}: {e.message[:90]}" for e in found] == []


def test_a_key_too_many_or_too_few_is_found() -> None:
    for change in ("add", "drop"):
        made = as_json(EXAMPLES[0])
        circuit = made["circuits"][0]["sizing"]
        circuit.pop("design_a") if change == "drop" else circuit.update(extra=1)
        assert not jsonschema.Draft202012Validator(SCHEMA).is_valid(made), change


@EACH
def test_it_lists_every_file_and_names_no_place_of_this_machine(path: pathlib.Path) -> None:
    files = compiling.files_of(packet(path))
    made = json.loads(files["packet.json"])
    assert made["files"] == list(files) and len(set(files)) == len(files)
    for name, content in files.items():
        assert str(ROOT).encode() not in content, name


@EACH
def test_figures_are_those_of_the_build(path: pathlib.Path) -> None:
    made, sized = as_json(path), packet(path).sized
    assert [c["number"] for c in made["circuits"]] == [c.number for c in sized.build.circuits]
    for circuit in made["circuits"]:
        sizing = sized.sizings[circuit["key"]]
        assert circuit["sizing"]["drop_v"] == pytest.approx(sizing.drop_v, rel=1e-8)
        assert circuit["sizing"]["conductor"]["area_mm2"] == pytest.approx(sizing.conductor.area_mm2)
        assert [d["rating_a"] for d in circuit["sizing"]["devices"]] == [d.rating_a for d in sizing.devices]
    assert made["drawn_a"].keys() == sized.loads_a.keys()


def test_the_last_bit_of_a_number_does_not_show() -> None:
    assert data.plain(0.1 + 0.2) == 0.3


@EACH
def test_csv_files_have_equal_rows_crlf_and_utf_8(path: pathlib.Path) -> None:
    files = compiling.files_of(packet(path))
    for name in ("bom.csv", "cut-list.csv", "labels.csv"):
        text = files[name].decode("utf-8")
        rows = list(csv.reader(io.StringIO(text, newline="")))
        assert len({len(row) for row in rows}) == 1 and len(rows) > 5
        assert text.endswith("\r\n") and text.count("\n") == text.count("\r\n")


@given(
    st.lists(
        st.lists(st.text(st.characters(blacklist_categories=("Cs",))), min_size=2, max_size=4), min_size=1
    )
)
def test_any_cells_come_back_from_csv_and_none_is_a_formula(rows: list[list[str]]) -> None:
    text = csvfile.text(rows)
    read = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    pairs = [pair for one, two in zip(read, rows, strict=True) for pair in zip(one, two, strict=True)]
    assert all(back == f"'{cell}" or (back == cell and cell[:1] not in set(STARTS)) for back, cell in pairs)


@given(st.dictionaries(st.text(st.characters(blacklist_categories=("Cs", "Cc")), min_size=1), st.just("W01")))
def test_any_key_comes_back_from_the_numbering_file(kept: dict[str, str]) -> None:
    kept = {key: value for key, value in kept.items() if key.isprintable()}
    assert yaml.safe_load(numbers.text(kept)) == {"numbers": kept}
