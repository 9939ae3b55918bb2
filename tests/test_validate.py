"""The schema engine with a small schema of its own: one plain report per fault, at its place."""

from __future__ import annotations

import json
import os
import pathlib
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest

from buildspec import resources, validate
from buildspec.read import read_text

KIT: dict[str, Any] = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "$id": "kit.schema.json",
    "type": "object",
    "required": ["kit", "title"],
    "additionalProperties": False,
    "properties": {
        "kit": {"const": 1},
        "title": {"type": "string", "minLength": 2, "maxLength": 10},
        "fuel": {"enum": ["diesel", "petrol", "none"]},
        "ready": {"type": "boolean"},
        "seats": {"type": "integer", "minimum": 1, "exclusiveMaximum": 10},
        "tags": {"type": "array", "minItems": 2, "uniqueItems": True, "items": {"type": "string"}},
        "serial": {
            "type": "string",
            "pattern": "^[A-Z]{2}-[0-9]+$",
            "x-say": "two capitals, a dash and digits",
        },
        "bare": {"type": "string", "pattern": "^x"},
        "rating": {"type": "string", "quantity": "current", "above": 0},
        "span": {"type": "string", "quantity": "length", "minimum": 0.5, "maximum": 20},
        "size": {"quantity": "area"},
        "places": {
            "type": "object",
            "propertyNames": {"pattern": "^[a-z-]+$", "x-say": "a name in small letters"},
            "additionalProperties": {"$ref": "#/$defs/place"},
        },
        "parts": {"type": "array", "items": {"$ref": "#/$defs/part"}},
    },
    "$defs": {
        "place": {
            "type": "object",
            "required": ["fuse"],
            "properties": {"fuse": {"type": "string", "quantity": "current"}, "wire": {"type": "string"}},
            "additionalProperties": False,
        },
        "part": {
            "type": "object",
            "required": ["kind"],
            "properties": {"kind": {"enum": ["lamp", "drawer"]}},
            "allOf": [
                {
                    "if": {"properties": {"kind": {"const": "lamp"}}, "required": ["kind"]},
                    "then": {"$ref": "traits.schema.json#/$defs/electrical"},
                    "else": {
                        "properties": {"draw": False, "depth": {"type": "string", "quantity": "length"}}
                    },
                }
            ],
            "unevaluatedProperties": False,
        },
    },
}
TRAITS: dict[str, Any] = {
    "$defs": {
        "electrical": {
            "type": "object",
            "required": ["draw"],
            "properties": {"draw": {"$ref": "#/$defs/current"}},
        },
        "current": {"type": "string", "quantity": "current"},
    }
}


@pytest.fixture(autouse=True)
def schemas(tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    (tmp_path / "kit.schema.json").write_text(json.dumps(KIT))
    (tmp_path / "traits.schema.json").write_text(json.dumps(TRAITS))
    monkeypatch.setattr(validate, "folder", lambda name: tmp_path)
    caches = (validate.schema, validate._validator)
    for cache in caches:
        cache.cache_clear()
    yield
    for cache in caches:
        cache.cache_clear()


def check(text: str) -> list[tuple[int, int, str, str]]:
    document, found = read_text("kit: 1\ntitle: Tray\n" + text, file="k.yaml")
    assert document is not None
    assert found == ()
    diagnostics = validate.check_schema(document, "kit")
    assert {(one.rule, one.severity) for one in diagnostics} <= {("schema", "error")}
    return [(one.span.line, one.span.col, one.message, one.help) for one in diagnostics]


def test_the_schema_used_here_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(KIT)
    jsonschema.Draft202012Validator.check_schema(TRAITS)


def test_clean() -> None:
    text = (
        "fuel: diesel\nready: true\nseats: 2\ntags: [a, b]\nserial: AB-12\nrating: 4 A\nspan: 12 ft 6 in\n"
        "size: 14 AWG\nplaces: {bed: {fuse: 15 A}}\n"
        "parts:\n  - {kind: lamp, draw: 4 A}\n  - {kind: drawer, depth: 30 in}\n"
    )
    assert check(text) == []


CASES = [
    ("fuell: diesel\n", 3, 1, "unknown key `fuell`; did you mean `fuel`?", "write `fuel`"),
    ("zzz: 1\n", 3, 1, "unknown key `zzz`", "known keys here: `bare`, `fuel`, `kit`"),
    ("fuel: deisel\n", 3, 7, "`deisel` is not a choice for `fuel`; did you mean `diesel`?", "`petrol`"),
    ("fuel: 12:30\n", 3, 7, "`12:30` is not a choice for `fuel`", "choices: `diesel`, `petrol`, `none`"),
    ("fuel: [diesel]\n", 3, 7, "a list is not a choice for `fuel`", "choices"),
    ("ready: on\n", 3, 8, "`ready` needs `true` or `false`, but `on` is a text", "write `true`"),
    ("ready: No\n", 3, 8, "`ready` needs `true` or `false`", "write `false`"),
    ("seats: many\n", 3, 8, "`seats` needs a whole number, but `many` is a text", ""),
    ("seats: 4.0\n", 3, 8, "`seats` needs a whole number, but `4.0` is a number", "write `4`"),
    ("seats: 4e0\n", 3, 8, "`seats` needs a whole number, but `4.0` is a number", "write `4`"),
    ("seats: 4.5\n", 3, 8, "`seats` needs a whole number, but `4.5` is a number", ""),
    ("seats: 0\n", 3, 8, "`0` is below the least allowed, 1", ""),
    ("seats: 10\n", 3, 8, "`10` must be below 10", ""),
    ("tags: a\n", 3, 7, "`tags` needs a list, but `a` is a text", "write `[a]`"),
    ("tags: [a]\n", 3, 7, "`tags` has 1 entry; at least 2 needed", ""),
    ("tags: [a, b, a]\n", 3, 14, "`a` is listed twice in `tags`", "entry 1 already"),
    ("tags: [a, 7]\n", 3, 11, "entry 2 of `tags` needs a text, but `7` is a number", 'in quotes: `"7"`'),
    ("tags: [a, {b: 1}]\n", 3, 11, "entry 2 of `tags` needs a text, but a group of keys is written", ""),
    ("serial: ab-12\n", 3, 9, "`ab-12` does not fit `serial`", "write two capitals, a dash and digits"),
    ("bare: y\n", 3, 7, "`y` does not fit `bare`", "pattern `^x`"),
    ("rating: 4\n", 3, 9, "`4` has no unit; a current is needed", "write `4 A`"),
    ("rating: 4.5\n", 3, 9, "`4.5` has no unit; a current is needed", "write `4.5 A`"),
    ("rating: 60 W\n", 3, 9, "`60 W` is a power; a current is needed", "`mA`"),
    ("rating: 0 A\n", 3, 9, "`0 A` must be above 0 A", ""),
    ("rating: true\n", 3, 9, "`rating` needs a current, but `true` is written", "like `4 A`"),
    ("rating:\n", 3, 1, "`rating` needs a current, but nothing is written", "like `4 A`"),
    ("rating: {a: 1}\n", 3, 9, "`rating` needs a current, but a group of keys is written", "like `4 A`"),
    ("span: 0.1 m\n", 3, 7, "`0.1 m` is below the least allowed, 0.5 m", ""),
    ("span: 70 ft\n", 3, 7, "`70 ft` is above the most allowed, 20 m", ""),
    ("size: 6mm\n", 3, 7, "`6mm` is a diameter, not a conductor cross-section", "`14 AWG`"),
    ("places: [a]\n", 3, 9, "`places` needs a group of keys, but a list is written", ""),
    ("places: {Bed: {fuse: 1 A}}\n", 3, 10, "key `Bed` is not a name", "write a name in small letters"),
    ("places: {bed: {wire: x}}\n", 3, 10, "`bed` lacks key `fuse`", "add `fuse: ...`"),
    ("places: {bed: {fuze: 1 A}}\n", 3, 16, "unknown key `fuze`; did you mean `fuse`?", "write `fuse`"),
    ("parts: [{kind: lamp}]\n", 3, 9, "entry 1 of `parts` lacks key `draw`", "add `draw: ...`"),
    ("parts: [{kind: lamp, drew: 4 A}]\n", 3, 22, "unknown key `drew`; did you mean `draw`?", "write `draw`"),
    ("parts: [{kind: lamp, draw: 4}]\n", 3, 28, "`4` has no unit", "write `4 A`"),
    ("parts: [{kind: drawer, draw: 4 A}]\n", 3, 24, "key `draw` cannot be used here", ""),
    ("parts: [{kind: drawer, deep: 1 m}]\n", 3, 24, "unknown key `deep`", "depth"),
    ("parts: [{kind: lamp, depth: 1 m, draw: 4 A}]\n", 3, 22, "unknown key `depth`", "`draw`, `kind`"),
]


@pytest.mark.parametrize(("text", "line", "col", "message", "help_"), CASES, ids=[case[0] for case in CASES])
def test_one_report_per_fault(text: str, line: int, col: int, message: str, help_: str) -> None:
    (found,) = check(text)
    assert found[:2] == (line, col)
    assert found[2].startswith(message)
    assert help_ in found[3] if help_ else not found[3]


def test_of_many_pasted_keys_no_slip_is_sought() -> None:
    """Each would be held against every known key, for minutes."""
    found = check("".join(f"fuell{n}: 1\n" for n in range(300)))
    assert len(found) == 300 and all("did you mean" not in one[2] for one in found)


def test_whole_file_of_the_wrong_kind() -> None:
    document, _ = read_text("- a\n- b\n", file="k.yaml")
    assert document is not None
    (found,) = validate.check_schema(document, "kit")
    assert found.message == "the file needs a group of keys, but a list is written"


def test_missing_at_the_top_and_wrong_version() -> None:
    document, _ = read_text("kit: 2\n", file="k.yaml")
    assert document is not None
    messages = [one.message for one in validate.check_schema(document, "kit")]
    assert sorted(messages) == ["`kit` must be `1`, not `2`", "the file lacks key `title`"]


def test_a_slip_beside_the_right_key_is_not_said_to_mean_it() -> None:
    (found,) = check("places: {bed: {fuse: 1 A, fuze: 2 A}}\n")
    assert found[2] == "unknown key `fuze`"
    assert found[3] == "known keys here: `fuse`, `wire`"


def test_reports_are_sorted_by_place() -> None:
    found = check("zz: 1\nfuel: x\naa: 2\nseats: no\n")
    assert [(line, col) for line, col, _, _ in found] == [(3, 1), (4, 7), (5, 1), (6, 8)]


def test_order_does_not_depend_on_the_hash_seed(tmp_path: pathlib.Path) -> None:
    code = (
        "import pathlib, sys\nfrom buildspec import validate\nfrom buildspec.read import read_text\n"
        "validate.folder = lambda name: pathlib.Path(sys.argv[1])\n"
        "keys = ''.join(f'{c}{c}: 1\\n' for c in 'qwertyuiop')\n"
        "print(validate.check_schema(read_text(keys, file='k')[0], 'kit'))\n"
    )
    root = str(resources.PACKAGE.parent)
    outputs = {
        subprocess.run(
            [sys.executable, "-c", code, str(tmp_path)],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": root},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(outputs) == 1
    assert outputs.pop().count(b"unknown key") == 10


def test_schemas_and_templates_of_the_checkout_or_the_package(
    tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert resources.folder("templates").is_dir()
    monkeypatch.setattr(resources, "PACKAGE", tmp_path / "pkg")
    assert resources.folder("schemas") == tmp_path / "schemas"
    (tmp_path / "pkg" / "schemas").mkdir(parents=True)
    assert resources.folder("schemas") == tmp_path / "pkg" / "schemas"
