"""read → validate → resolve → size → prove, for one spec. The documents are made from what comes out."""

from __future__ import annotations

import pathlib
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from buildspec import read, resolve, size, validate
from buildspec.findings import Diagnostic
from buildspec.model import Sized
from buildspec.prove import placed, prove
from buildspec.read import Document

SUFFIX = ".build.yaml"


class Outcome(NamedTuple):
    """What a spec came to: its findings, and the sized build unless something stood in its way."""

    diagnostics: tuple[Diagnostic, ...]
    build: Sized | None


def check_file(path: pathlib.Path) -> Outcome:
    """Everything that can be said of one spec; raises UsageError for a file that cannot be read."""
    spec, said = checked(path, "spec")
    if spec is None:
        return Outcome(said, None)
    practice, more = practice_of(path, spec)
    numbers, last = numbers_of(path)
    said = (*said, *more, *last)
    if any(d.severity == "error" for d in said):
        return Outcome(ordered(said), None)
    kept = numbers.data["numbers"] if numbers else {}
    outcome = check_documents(spec, practice, kept)
    return outcome._replace(diagnostics=ordered((*said, *outcome.diagnostics)))


def check_documents(spec: Document, practice: Document | None, kept: Mapping[str, str]) -> Outcome:
    """resolve → size → prove for documents that have passed their schemas."""
    documents = {"spec": spec} | ({"practice": practice} if practice else {})
    build, faults = resolve.resolve(spec.data, practice.data if practice else {}, kept)
    said = tuple(placed(finding, rule, "error", documents) for rule, finding in faults)
    if build is None:
        return Outcome(ordered(said), None)
    sized = size.size(build)
    return Outcome(ordered((*said, *prove(sized, documents))), sized)


def checked(path: pathlib.Path, schema: str) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """A file read and held against its schema; None where it has an error of shape."""
    document, said = read.read_file(path, doc=schema)
    if document is not None:
        said = (*said, *validate.check_schema(document, schema))
    return (None if any(d.severity == "error" for d in said) else document), said


def practice_of(path: pathlib.Path, spec: Document) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """The practice file that the spec names, or `practice.yaml` beside it, or none."""
    named: Any = spec.data.get("practice")
    file = path.parent / (named or "practice.yaml")
    if named is None and not file.exists():
        return None, ()
    return checked(file, "practice")


def numbers_file(path: pathlib.Path) -> pathlib.Path:
    """The numbering file of a spec: beside it, same stem."""
    return path.with_name(path.name.removesuffix(SUFFIX).removesuffix(".yaml") + ".numbers.yaml")


def numbers_of(path: pathlib.Path) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """Designations kept from earlier, or none yet."""
    file = numbers_file(path)
    return checked(file, "numbers") if file.exists() else (None, ())


def ordered(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    return tuple(sorted(set(diagnostics), key=lambda d: d.order))
