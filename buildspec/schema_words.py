"""Schema faults in the writer's words: what was written, what is needed, what was probably meant."""

from __future__ import annotations

import difflib
import json
from typing import Any, NamedTuple

from buildspec.findings import Path
from buildspec.quantity import quote
from buildspec.units import DIMENSIONS

_TYPES = {
    "object": "a group of keys",
    "array": "a list",
    "string": "a text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "`true` or `false`",
    "null": "nothing",
}
MOST_KEYS = 200
"""A group with more keys was pasted in; no slip of a name is looked for there."""
_SWITCH = {"yes": "true", "on": "true", "y": "true", "no": "false", "off": "false", "n": "false"}
_LIMITS = {
    "minimum": "`{value}` is below the least allowed, {limit}",
    "maximum": "`{value}` is above the most allowed, {limit}",
    "exclusiveMinimum": "`{value}` must be above {limit}",
    "exclusiveMaximum": "`{value}` must be below {limit}",
    "minItems": "{name} has {size} entries; at least {limit} needed",
    "maxItems": "{name} has {size} entries; at most {limit} allowed",
    "minLength": "{name} has {size} characters; at least {limit} needed",
    "maxLength": "{name} has {size} characters; at most {limit} fit",
    "minProperties": "{name} has {size} keys; at least {limit} needed",
    "maxProperties": "{name} has {size} keys; at most {limit} allowed",
}


class Broken(NamedTuple):
    """One keyword of a schema that a value breaks; `limit` is its own value, or more about the fault."""

    at: Path
    keyword: str
    limit: Any
    value: Any
    holder: Any = None
    of_key: bool = False
    message: str = ""


class Said(NamedTuple):
    """A fault in words.

    `subject` is the missing key, else empty; `meant` the known key that an unknown one was probably meant
    to be. Of several faults with the same place and subject the lowest `rank` is reported.
    """

    at: Path
    message: str
    help: str = ""
    subject: str = ""
    meant: str = ""
    at_key: bool = False
    rank: int = 5


def say(broken: Broken) -> Said:
    """Put one broken keyword into words."""
    if broken.of_key:
        return _key_name(broken)
    words = {
        "forbidden": _forbidden,
        "required": _missing,
        "unknown-key": _unknown,
        "quantity": _quantity,
        "no-quantity": _no_quantity,
        "type": _type,
        "enum": _enum,
        "const": _const,
        "pattern": _pattern,
        "uniqueItems": _repeated,
    }.get(broken.keyword, _other)
    return words(broken)


def name_of(at: Path) -> str:
    """How a sentence names the value at a path."""
    if not at:
        return "the file"
    if isinstance(at[-1], int):
        return f"entry {at[-1] + 1} of {name_of(at[:-1])}"
    return f"`{quote(str(at[-1]))}`"


def written(value: Any) -> str:
    """A value as its writer typed it, near enough, cut to fit."""
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return quote(text)


def _kind(value: Any) -> str:
    if value is None:
        return "nothing is written"
    if isinstance(value, dict):
        return "a group of keys is written"
    if isinstance(value, list):
        return "a list is written"
    kind = "a text" if isinstance(value, str) else "a number"
    return f"`{written(value)}` is written" if isinstance(value, bool) else f"`{written(value)}` is {kind}"


def _forbidden(broken: Broken) -> Said:
    return Said(broken.at, f"key {name_of(broken.at)} cannot be used here", at_key=True, rank=0)


def _missing(broken: Broken) -> Said:
    key = str(broken.limit)
    return Said(
        broken.at, f"{name_of(broken.at)} lacks key `{key}`", f"add `{key}: ...`", subject=key, at_key=True
    )


def _unknown(broken: Broken) -> Said:
    known, key = list(broken.limit), str(broken.at[-1])
    free = [name for name in known if name not in broken.value]
    few = len(broken.value) <= MOST_KEYS
    near = difflib.get_close_matches(key, free, n=1, cutoff=0.6) if few else []
    if near:
        said = f"unknown key `{quote(key)}`; did you mean `{near[0]}`?"
        return Said(broken.at, said, f"write `{near[0]}`", meant=near[0], at_key=True, rank=0)
    listed = ", ".join(f"`{name}`" for name in known)
    help_ = f"known keys here: {listed}" if known else "remove it"
    return Said(broken.at, f"unknown key `{quote(key)}`", help_, at_key=True, rank=0)


def _quantity(broken: Broken) -> Said:
    fault = broken.limit
    return Said(broken.at, fault.message, fault.help, rank=1)


def _no_quantity(broken: Broken) -> Said:
    needed = DIMENSIONS[broken.limit]
    said = f"{name_of(broken.at)} needs {needed.a}, but {_kind(broken.value)}"
    return Said(broken.at, said, f"write it like `4 {needed.write[0]}`", rank=0)


def _type(broken: Broken) -> Said:
    kinds = [broken.limit] if isinstance(broken.limit, str) else list(broken.limit)
    needed = " or ".join(_TYPES[kind] for kind in kinds)
    return Said(
        broken.at,
        f"{name_of(broken.at)} needs {needed}, but {_kind(broken.value)}",
        _type_help(broken.value, kinds),
    )


def _type_help(value: Any, kinds: list[str]) -> str:
    if "integer" in kinds and isinstance(value, float):
        return f"write `{value:.0f}`" if value.is_integer() else ""
    if "string" in kinds and isinstance(value, (bool, int, float)):
        return f'put it in quotes: `"{written(value)}"`'
    if "boolean" in kinds and str(value).lower() in _SWITCH:
        return f"write `{_SWITCH[str(value).lower()]}`"
    if "array" in kinds and not isinstance(value, (dict, list)):
        return f"write `[{written(value)}]` for a list of one" if value is not None else ""
    return ""


def _enum(broken: Broken) -> Said:
    choices = [written(choice) for choice in broken.limit]
    near = difflib.get_close_matches(written(broken.value), choices, n=1, cutoff=0.6)
    hint = f"; did you mean `{near[0]}`?" if near else ""
    listed = ", ".join(f"`{choice}`" for choice in choices)
    return Said(
        broken.at,
        f"{_said(broken)} is not a choice for {name_of(broken.at)}{hint}",
        f"choices: {listed}",
        rank=6,
    )


def _const(broken: Broken) -> Said:
    said = f"{name_of(broken.at)} must be `{written(broken.limit)}`, not {_said(broken)}"
    return Said(broken.at, said, rank=6)


def _said(broken: Broken) -> str:
    if isinstance(broken.value, (dict, list)):
        return _kind(broken.value).removesuffix(" is written")
    return f"`{written(broken.value)}`"


def _pattern(broken: Broken) -> Said:
    wanted = _x_say(broken)
    help_ = f"write {wanted}" if wanted else f"it must match the pattern `{broken.limit}`"
    return Said(broken.at, f"`{written(broken.value)}` does not fit {name_of(broken.at)}", help_, rank=7)


def _x_say(broken: Broken) -> str:
    return str(broken.holder.get("x-say", "")) if isinstance(broken.holder, dict) else ""


def _repeated(broken: Broken) -> Said:
    value = broken.value
    index = next(i for i, item in enumerate(value) if item in value[:i])
    first = value.index(value[index])
    help_ = f"it is entry {first + 1} already; keep one of them"
    return Said(
        (*broken.at, index), f"`{written(value[index])}` is listed twice in {name_of(broken.at)}", help_
    )


def _key_name(broken: Broken) -> Said:
    key = str(broken.value)
    wanted = _x_say(broken)
    help_ = f"write {wanted}" if wanted else f"it must satisfy {broken.keyword}: `{broken.limit}`"
    return Said(
        (*broken.at, key),
        f"key `{quote(key)}` is not a name that can be used here",
        help_,
        at_key=True,
        rank=1,
    )


def _other(broken: Broken) -> Said:
    template = _LIMITS.get(str(broken.keyword))
    if not template:
        return Said(
            broken.at, f"{name_of(broken.at)} does not fit: {_x_say(broken) or broken.message}", rank=8
        )
    size = len(broken.value) if hasattr(broken.value, "__len__") else 0
    said = template.format(value=broken.value, limit=broken.limit, size=size, name=name_of(broken.at))
    return Said(broken.at, said.replace(" 1 entries", " 1 entry"), rank=4)
