"""Check the shape of a document against its JSON Schema (2020-12) and say each fault once, in plain words.

Schemas are files of the `schemas` folder and refer to one another by file name; nothing is fetched. Two
keywords are ours: `quantity` (a dimension of `units.py`; optional beside it `above`, `minimum` and
`maximum` in the base unit, and `x-signed` where a minus is allowed) and `x-say` (words for what a pattern wants).
"""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.findings import Diagnostic, Path
from buildspec.quantity import Fault, parse, show
from buildspec.read import Document, key_span_of, span_of
from buildspec.resources import folder
from buildspec.schema_words import Broken, Said, say

SUFFIX = ".schema.json"


@functools.cache
def schema(name: str) -> dict[str, Any]:
    """The schema `name`, every reference in it made to begin with a file name."""
    loaded = json.loads((folder("schemas") / f"{name}{SUFFIX}").read_text(encoding="utf-8"))
    loaded.pop("$id", None)
    _qualify(loaded, f"{name}{SUFFIX}")
    return dict(loaded)


def check_schema(document: Document, name: str) -> tuple[Diagnostic, ...]:
    """Faults of shape in `document` against the schema `name`, sorted by place; rule `schema`."""
    said = [say(_broken(error)) for error in _validator(name).iter_errors(document.data)]
    diagnostics = (_diagnostic(document, one) for one in _one_per_fault(said))
    return tuple(sorted(diagnostics, key=lambda one: one.order))


def _broken(error: Any) -> Broken:
    return Broken(
        tuple(error.absolute_path),
        error.validator or "",
        error.validator_value,
        error.instance,
        error.schema,
        "propertyNames" in error.absolute_schema_path,
        error.message,
    )


def _one_per_fault(said: list[Said]) -> list[Said]:
    """The first in rank for each place and subject; no missing key where a slip of its name is reported."""
    found: dict[tuple[Path, str], Said] = {}
    for one in sorted(said, key=lambda one: (one.rank, one.message)):
        found.setdefault((one.at, one.subject), one)
    meant = {(one.at[:-1], one.meant) for one in said if one.meant}
    return [one for key, one in found.items() if key not in meant]


def _diagnostic(document: Document, said: Said) -> Diagnostic:
    find = key_span_of if said.at_key else span_of
    return Diagnostic(find(document, said.at), "error", "schema", said.message, said.help, path=said.at)


def _qualify(node: Any, file: str) -> None:
    """Make `#/...` into `file#/...`, so that a reference means the same wherever it is followed."""
    if isinstance(node, dict):
        reference = node.get("$ref")
        if isinstance(reference, str) and reference.startswith("#"):
            node["$ref"] = file + reference
    for child in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        _qualify(child, file)


@functools.cache
def _validator(name: str) -> Any:
    from jsonschema import Draft202012Validator, validators
    from referencing import Registry
    from referencing.jsonschema import DRAFT202012

    ours = {
        "quantity": _quantity,
        "properties": _properties,
        "required": _required,
        "additionalProperties": _additional,
        "unevaluatedProperties": _unevaluated,
        "minimum": _unless_quantity(Draft202012Validator.VALIDATORS["minimum"]),
        "maximum": _unless_quantity(Draft202012Validator.VALIDATORS["maximum"]),
        "type": _unless_quantity(_type),
    }
    extend: Any = validators.extend
    registry: Any = Registry()
    files = {f"{one}{SUFFIX}": DRAFT202012.create_resource(schema(one)) for one in _together(name)}
    return extend(Draft202012Validator, ours)(
        schema(name), registry=registry.with_resources(files.items()).crawl()
    )


def _together(name: str) -> list[str]:
    """The schema and all that it refers to, however far."""
    found = [name]
    for one in found:
        found += sorted(_named(schema(one)) - set(found))
    return found


def _named(node: Any) -> set[str]:
    """Schemas that the references in a schema name."""
    below = node.values() if isinstance(node, dict) else node if isinstance(node, list) else ()
    found = {name for child in below for name in _named(child)}
    reference = node.get("$ref") if isinstance(node, dict) else None
    return found | {reference.partition(SUFFIX)[0]} if isinstance(reference, str) else found


def _unless_quantity(keyword: Any) -> Any:
    """A quantity is text that stands for a number: its limits and its type are `_quantity`'s business."""

    def check(validator: Any, value: Any, instance: Any, holder: Mapping[str, Any]) -> Any:
        return () if "quantity" in holder else keyword(validator, value, instance, holder)

    return check


def _type(validator: Any, kinds: Any, instance: Any, _: Any) -> Iterator[Any]:
    """As the standard keyword, but `8.0` is no whole number: what counts things is written without a point."""
    listed = [kinds] if isinstance(kinds, str) else kinds
    counts = "integer" in listed and "number" not in listed
    if (counts and isinstance(instance, float)) or not any(validator.is_type(instance, k) for k in listed):
        yield _error("type", kinds)


def _error(keyword: str, detail: Any, path: Path = ()) -> Any:
    from jsonschema import ValidationError

    return ValidationError(keyword, validator=keyword, validator_value=detail, path=path)


def _quantity(_: Any, dimension: str, instance: Any, holder: Mapping[str, Any]) -> Iterator[Any]:
    if isinstance(instance, bool) or not isinstance(instance, (str, int, float)):
        yield _error("no-quantity", dimension)
        return
    found = parse(str(instance), dimension, signed=holder.get("x-signed", False))
    if isinstance(found, Fault):
        yield _error("quantity", found)
        return
    fault = _outside(found.value, found.text, dimension, holder)
    if fault:
        yield _error("quantity", fault)


def _outside(value: float, text: str, dimension: str, holder: Mapping[str, Any]) -> Fault | None:
    above, least, most = (holder.get(keyword) for keyword in ("above", "minimum", "maximum"))
    if above is not None and value <= above:
        return Fault(f"`{text}` must be above {show(above, dimension, against=value)}", "")
    if least is not None and value < least:
        return Fault(f"`{text}` is below the least allowed, {show(least, dimension, against=value)}", "")
    if most is not None and value > most:
        return Fault(f"`{text}` is above the most allowed, {show(most, dimension, against=value)}", "")
    return None


def _properties(validator: Any, parts: dict[str, Any], instance: Any, _: Any) -> Iterator[Any]:
    """As the standard keyword, but a key whose schema is `false` is reported at the key."""
    for key, part in parts.items() if isinstance(instance, dict) else ():
        if key in instance and part is False:
            yield _error("forbidden", None, (key,))
        elif key in instance:
            yield from validator.descend(instance[key], part, path=key, schema_path=key)


def _required(_: Any, keys: list[str], instance: Any, __: Any) -> Iterator[Any]:
    if isinstance(instance, dict):
        yield from (_error("required", key) for key in keys if key not in instance)


def _additional(validator: Any, allowed: Any, instance: Any, holder: Any) -> Iterator[Any]:
    if isinstance(instance, dict):
        yield from _extra(validator, allowed, instance, _own_keys(holder))


def _unevaluated(validator: Any, allowed: Any, instance: Any, holder: Any) -> Iterator[Any]:
    if isinstance(instance, dict):
        yield from _extra(validator, allowed, instance, _all_keys(validator, holder, instance))


Keys = tuple[frozenset[str], frozenset[str]]
"""Names, and patterns of names."""


def _extra(validator: Any, allowed: Any, instance: dict[str, Any], keys: Keys) -> Iterator[Any]:
    names, patterns = keys
    for key, value in instance.items():
        if key in names or any(re.search(pattern, key) for pattern in patterns):
            continue
        if allowed is False:
            yield _error("unknown-key", sorted(names), (key,))
        else:
            yield from validator.descend(value, allowed, path=key)


def _own_keys(holder: Mapping[str, Any]) -> Keys:
    return frozenset(holder.get("properties", ())), frozenset(holder.get("patternProperties", ()))


def _all_keys(validator: Any, holder: Any, instance: Any) -> Keys:
    """Keys that a schema knows through everything it includes for this instance.

    A key counts as known even where its value is wrong, which is its own fault and reported as such.
    """
    if not isinstance(holder, dict):
        return frozenset(), frozenset()
    names, patterns = _own_keys(holder)
    for part in _parts(validator, holder, instance):
        more_names, more_patterns = _all_keys(validator, part, instance)
        names, patterns = names | more_names, patterns | more_patterns
    return names, patterns


def _parts(validator: Any, holder: Mapping[str, Any], instance: Any) -> Iterator[Any]:
    if "$ref" in holder:
        file, _, pointer = holder["$ref"].partition("#")
        yield _at(schema(file.removesuffix(SUFFIX)), pointer)
    yield from holder.get("allOf", ())
    for key, part in holder.get("dependentSchemas", {}).items():
        if key in instance:
            yield part
    if "if" in holder:
        yield holder["if"]
        holds = validator.evolve(schema=holder["if"]).is_valid(instance)
        yield holder.get("then" if holds else "else", {})


def _at(node: Any, pointer: str) -> Any:
    for step in pointer.split("/")[1:]:
        node = node[step.replace("~1", "/").replace("~0", "~")]
    return node
