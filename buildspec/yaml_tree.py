"""YAML events -> plain values and the place of each: one walk, bounded, without guesses.

Works on parser events, not on composed nodes: only events tell a typed `!!str` from an untagged text, and
the walk can stop at a depth before the loader's own recursion does. Scalars follow the YAML 1.2 core
schema; what a 1.1 reader would turn into something else (`on`, `12:30`, `010`, `1_000`, a date) stays
the text that was typed.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any, NamedTuple

import yaml

from buildspec.findings import Diagnostic, Path, Span
from buildspec.yaml_words import DEEPEST, too_deep

try:
    from yaml import CSafeLoader as Loader
except ImportError:  # PyYAML built without libyaml reads the same, more slowly
    from yaml import SafeLoader as Loader  # type: ignore[assignment]

MOST_ALIASED = 10_000
LONGEST = 4_000
_LONGEST_NUMBER = 300
_WORDS: dict[str, bool | None] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False,
}  # fmt: skip
_INTEGER = re.compile(r"[-+]?(?:0|[1-9][0-9]*)")
_OTHER_BASE = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|(?:0|[1-9][0-9]*)(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")


class Stop(Exception):
    """Reading cannot go on; carries the one diagnostic that says why."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic


class Tree(NamedTuple):
    """The value of a document, the place of every value and key, and what was refused on the way."""

    data: Any
    spans: dict[Path, Span]
    key_spans: dict[Path, Span]
    faults: list[Diagnostic]


class _Node(NamedTuple):
    """A finished value, its place, and its cost: nodes in it, nodes in it through aliases, levels in it."""

    value: Any
    span: Span
    nodes: int = 1
    aliased: int = 0
    height: int = 0


class _Walk(NamedTuple):
    file: str
    events: Iterator[Any]
    spans: dict[Path, Span]
    key_spans: dict[Path, Span]
    faults: list[Diagnostic]
    anchors: dict[str, _Node]


def scalar(text: str) -> str | int | float | bool | None:
    """The YAML 1.2 core value of a plain scalar; text when it is none.

    Text as well, where the core schema would give a number: a spare zero in front (`010`), infinity.
    """
    if text in _WORDS:
        return _WORDS[text]
    if len(text) > _LONGEST_NUMBER:
        return text
    if _INTEGER.fullmatch(text):
        return int(text)
    if _OTHER_BASE.fullmatch(text):
        return int(text, 0)
    if _FLOAT.fullmatch(text) and math.isfinite(float(text)):
        return float(text)
    return text


def grow(text: str, file: str) -> Tree | None:
    """Read one document; None when there is none. Raises `Stop`, or yaml.YAMLError for a fault of syntax."""
    walk = _Walk(file, iter(yaml.parse(text, Loader=Loader)), {}, {}, [], {})
    data: Any = None
    documents = 0
    for event in walk.events:
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                raise _stop(
                    _span(walk, event), "several-documents", "a second document starts here", _ONE_FILE
                )
            data = _node(walk, next(walk.events), ()).value
    return Tree(data, walk.spans, walk.key_spans, walk.faults) if documents else None


_ONE_FILE = "keep one document in each file and remove the line `---`"


def _node(walk: _Walk, event: Any, path: Path) -> _Node:
    if len(path) > DEEPEST:
        raise Stop(too_deep(_span(walk, event)))
    if isinstance(event, yaml.AliasEvent):
        node = _alias(walk, event, path)
    else:
        node = _untagged(walk, event, path)
        if event.anchor:
            walk.anchors[event.anchor] = node
    walk.spans[path] = node.span
    return node


def _untagged(walk: _Walk, event: Any, path: Path) -> _Node:
    if event.tag is not None:
        said = f"tag `{event.tag.replace('tag:yaml.org,2002:', '!!')}` is not used here"
        walk.faults.append(
            _fault(_span(walk, event), "tag", said, "remove it; quote the value if it is a text")
        )
    if isinstance(event, yaml.MappingStartEvent):
        return _mapping(walk, event, path)
    if isinstance(event, yaml.SequenceStartEvent):
        return _sequence(walk, event, path)
    if len(event.value) > LONGEST:
        said = f"a text of {len(event.value)} characters; at most {LONGEST} are read"
        walk.faults.append(_fault(_span(walk, event), "too-large", said, "shorten it, or name a document"))
    plain = not event.style and event.tag is None
    return _Node(scalar(event.value) if plain else event.value, _span(walk, event))


def _alias(walk: _Walk, event: Any, path: Path) -> _Node:
    span, anchor = _span(walk, event), walk.anchors.get(event.anchor)
    if anchor is None:
        said = f"`*{event.anchor}` stands for nothing written above it"
        raise _stop(
            span, "unknown-anchor", said, f"mark a value with `&{event.anchor}` first, outside itself"
        )
    if len(path) + anchor.height > DEEPEST:
        raise Stop(too_deep(span, " with what it repeats"))
    return anchor._replace(span=span, aliased=anchor.nodes)


def _sequence(walk: _Walk, start: Any, path: Path) -> _Node:
    items: list[_Node] = []
    for event in walk.events:
        if isinstance(event, yaml.SequenceEndEvent):
            return _closed(walk, [item.value for item in items], items, (start, event))
        items.append(_node(walk, event, (*path, len(items))))
    raise AssertionError("the parser closes every list")


def _mapping(walk: _Walk, start: Any, path: Path) -> _Node:
    value: dict[str, Any] = {}
    items: list[_Node] = []
    for event in walk.events:
        if isinstance(event, yaml.MappingEndEvent):
            return _closed(walk, value, items, (start, event))
        key = _key(walk, event, path)
        place = (*path, key)
        merge = key == "<<" and not event.style
        refused = merge or key in value
        if merge:
            walk.faults.append(
                _fault(_span(walk, event), "merge-key", "merge key `<<` is not used here", _SPELL_OUT)
            )
        elif key in value:
            walk.faults.append(_repeated(_span(walk, event), key, walk.key_spans[place], path))
        else:
            walk.key_spans[place] = _span(walk, event)
        item = _skipped(walk, place) if refused else _node(walk, next(walk.events), place)
        items.append(item)
        if not refused:
            value[key] = item.value
            if item.value is None and item.span[1:3] == item.span[3:5]:
                walk.spans[place] = walk.key_spans[place]
    raise AssertionError("the parser closes every group")


_SPELL_OUT = "write the keys out, or repeat a whole value with `&name` and `*name`"


def _skipped(walk: _Walk, path: Path) -> _Node:
    """Read a value that is not kept, without touching the places of the one that is."""
    return _node(walk._replace(spans={}, key_spans={}), next(walk.events), path)


def _key(walk: _Walk, event: Any, path: Path) -> str:
    if not isinstance(event, yaml.ScalarEvent):
        said = "a key is a single word or text, not a list, a group or a repeated value"
        raise _stop(_span(walk, event), "complex-key", said, "write a plain name before the colon")
    if event.tag is not None:
        walk.faults.append(_fault(_span(walk, event), "tag", "a tag is not used on a key", "remove it"))
    if not event.value.strip():
        raise _stop(
            _span(walk, event), "complex-key", "a key is missing before the colon", "write a name there"
        )
    return str(event.value)


def _closed(walk: _Walk, value: Any, items: list[_Node], events: tuple[Any, Any]) -> _Node:
    start, end = events
    span = _span(walk, start)
    last = _span(walk, end) if start.flow_style or not items else items[-1].span
    node = _Node(
        value,
        span._replace(end_line=last.end_line, end_col=last.end_col),
        nodes=1 + sum(item.nodes for item in items),
        aliased=sum(item.aliased for item in items),
        height=1 + max((item.height for item in items), default=0),
    )
    if node.aliased > MOST_ALIASED:
        said = f"repeated values (`*name`) stand for {node.aliased} values; at most {MOST_ALIASED} are read"
        raise _stop(span, "alias-bomb", said, "write the values out")
    return node


def _repeated(span: Span, key: str, first: Span, path: Path) -> Diagnostic:
    return Diagnostic(
        span,
        "error",
        "duplicate-key",
        f"key `{key}` is written twice",
        "keep one of them",
        ((first, "first written here"),),
        (*path, key),
    )


def _span(walk: _Walk, event: Any) -> Span:
    start, end = event.start_mark, event.end_mark
    return Span(walk.file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)


def _fault(span: Span, rule: str, message: str, help_: str) -> Diagnostic:
    return Diagnostic(span, "error", rule, message, help_)


def _stop(span: Span, rule: str, message: str, help_: str) -> Stop:
    return Stop(_fault(span, rule, message, help_))
