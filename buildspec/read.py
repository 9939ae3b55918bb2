"""Read a YAML file into plain values and a table from path to place.

Faults are data: what is wrong with the text comes back as diagnostics, with its line. Only a file that cannot
be opened is an exception. Limits on size, depth and repetition keep a hostile file from costing more than
an honest one.
"""

from __future__ import annotations

import pathlib
from collections.abc import Mapping
from typing import Any, NamedTuple

import yaml

from buildspec.errors import UsageError
from buildspec.findings import Diagnostic, Path, Span
from buildspec.yaml_tree import Stop, Tree, grow
from buildspec.yaml_words import decode, invisible_characters, refused_character, syntax

LARGEST_BYTES = 2_000_000
FIRST_LINE = {
    "spec": "buildspec: 1",
    "practice": "practice: 1",
    "profile": "profile: 1",
    "parts": "parts:",
    "numbers": "numbers:",
    "vehicle": "vehicle_data: 1",
}
"""What each kind of document begins with."""


class Document(NamedTuple):
    """One file as plain dicts, lists and scalars, with the place of every value and every key.

    `file` is the name as the user typed it; `doc` tells the documents of one job apart. Values that are
    repeated by alias are shared objects: nothing may change them.
    """

    file: str
    doc: str
    data: Any
    spans: Mapping[Path, Span]
    key_spans: Mapping[Path, Span]


def read_file(path: pathlib.Path, *, doc: str = "spec") -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """Read a file as `read_text` does. Raises `UsageError` when it cannot be opened, or would never end."""
    file = str(path)
    try:
        if path.exists() and not path.is_file() and not path.is_dir():
            raise UsageError(f"cannot read {file}: it is a pipe or a device, not a file")
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise UsageError(f"cannot read {file}: {(error.strerror or 'unknown fault').lower()}") from error
    except ValueError as error:
        raise UsageError(f"cannot read {file!r}: no file has such a name") from error
    text = decode(raw[:LARGEST_BYTES], file) if len(raw) <= LARGEST_BYTES else _too_large(file)
    return read_text(text, file=file, doc=doc) if isinstance(text, str) else (None, (text,))


def read_text(text: str, *, file: str, doc: str = "spec") -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """Read one YAML document; the document is None when there is nothing to go on with.

    A document can come with errors (a duplicate key, a tag): check it further to report all faults in one
    run, but build nothing from it.
    """
    if len(text) > LARGEST_BYTES:
        return None, (_too_large(file),)
    refused = refused_character(text, file)
    if refused:
        return None, (refused,)
    unseen = invisible_characters(text, file)
    warnings = (unseen,) if unseen else ()
    tree = _tree(text, file, doc)
    if isinstance(tree, Diagnostic):
        return None, (tree, *warnings)
    document = Document(file, doc, tree.data, tree.spans, tree.key_spans)
    return document, tuple(sorted((*tree.faults, *warnings), key=lambda found: found.order))


def unreadable(error: UsageError, span: Span, at: Path = ()) -> Diagnostic:
    """A file that cannot be read, as a finding at the place that asks for it."""
    help_ = "a name is taken from the folder of the file that it stands in" if at else ""
    return Diagnostic(span, "error", "unreadable-file", str(error), help_, (), at)


def start_of(path: pathlib.Path) -> Span:
    """The first character of a file, read or not."""
    return Span(str(path), 1, 1, 1, 1)


def span_of(document: Document, path: Path) -> Span:
    """Place of the value at `path`, or of the nearest ancestor that is written."""
    for length in range(len(path), 0, -1):
        if path[:length] in document.spans:
            return document.spans[path[:length]]
    return document.spans.get((), Span(document.file, 1, 1, 1, 1))


def key_span_of(document: Document, path: Path) -> Span:
    """Place of the key that `path` ends in; of the value when it has no key, as in a list."""
    return document.key_spans.get(path) or span_of(document, path)


def _tree(text: str, file: str, doc: str) -> Tree | Diagnostic:
    try:
        tree = grow(text, file)
    except Stop as stop:
        return stop.diagnostic
    except yaml.YAMLError as error:
        return syntax(error, text, file)
    first = FIRST_LINE[doc.partition(" ")[0]]
    return tree or Diagnostic(
        Span(file, 1, 1, 1, 1), "error", "empty-file", "the file is empty", f"start with `{first}`"
    )


def _too_large(file: str) -> Diagnostic:
    said = f"the file is larger than {LARGEST_BYTES // 1_000_000} MB"
    return Diagnostic(
        Span(file, 1, 1, 1, 1), "error", "too-large", said, "split it, or remove what was pasted in"
    )
