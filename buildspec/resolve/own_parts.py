"""The shop's own catalogue laid over the shipped one: parts of its own, and its prices for shipped ones."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from buildspec import catalogue
from buildspec.catalogue import TRAITS, Catalogue
from buildspec.findings import Finding
from buildspec.read import Document
from buildspec.resolve import laxer_parts
from buildspec.resolve.names import Fault, unknown
from buildspec.validate import schema

Entry = tuple[Document, str, Mapping[str, Any]]


def merged(documents: Sequence[Document]) -> tuple[Catalogue, tuple[Fault, ...]]:
    """The catalogue with the parts of `documents` in it, or what is wrong with them.

    The documents have passed the parts schema. A part that `extends` a shipped one has the keys of both.
    """
    base = catalogue.shipped()
    entries = [(d, name, part) for d in documents for name, part in d.data["parts"].items()]
    own = {name: catalogue.merged(part, base.get(part.get("extends", ""), {})) for _, name, part in entries}
    whole = {**base, **own}
    found = (
        *twice(entries),
        *origins(entries, base),
        *substitutes(entries, whole),
        *incomplete(entries, own),
        *laxer(entries, base),
    )
    return whole, found


def twice(entries: Sequence[Entry]) -> Iterator[Fault]:
    first: dict[str, Document] = {}
    for document, name, _ in entries:
        if name in first:
            at = ("parts", name)
            yield (
                "part-written-twice",
                Finding(
                    at,
                    f"part `{name}` is written in two files",
                    "keep one of them",
                    ((at, "written here first", first[name].doc),),
                    doc=document.doc,
                ),
            )
        first.setdefault(name, document)


def origins(entries: Sequence[Entry], base: Catalogue) -> Iterator[Fault]:
    """What a part extends is shipped, and a shipped part is not hidden by another one of its name."""
    for document, name, part in entries:
        at, origin = ("parts", name), part.get("extends")
        if origin is not None and origin not in base:
            rule, finding = unknown((*at, "extends"), "shipped part", origin, base)
            yield rule, finding._replace(doc=document.doc)
        elif name in base and origin != name:
            yield (
                "part-hides-shipped",
                Finding(
                    at,
                    f"`{name}` is the name of a shipped part, and this one is not made from it",
                    f"give it a name of its own, or write `extends: {name}`",
                    doc=document.doc,
                ),
            )


def substitutes(entries: Sequence[Entry], whole: Catalogue) -> Iterator[Fault]:
    for document, name, part in entries:
        for index, text in enumerate(part.get("substitutes", ())):
            if text not in whole:
                rule, finding = unknown(("parts", name, "substitutes", index), "part", text, whole)
                yield rule, finding._replace(doc=document.doc)


def incomplete(entries: Sequence[Entry], own: Mapping[str, Mapping[str, Any]]) -> Iterator[Fault]:
    """A trait that lacks a key it cannot do without."""
    for document, name, part in entries:
        for trait in (t for t in TRAITS if t in part):
            needed = schema("traits")["$defs"][trait].get("x-required", ())
            lacking = [key for key in needed if key not in own[name][trait]]
            if lacking:
                words = ", ".join(f"`{key}`" for key in lacking)
                yield (
                    "missing-rating",
                    Finding(("parts", name, trait), f"`{trait}` lacks {words}", "write it", doc=document.doc),
                )


def laxer(entries: Sequence[Entry], base: Catalogue) -> Iterator[Fault]:
    """Figures of a shipped part that an entry made from it, under its name or another, makes laxer."""
    for document, name, part in entries:
        origin = part.get("extends", "")
        if origin in base:
            for rule, finding in laxer_parts.of_own(("parts", name), part, base[origin], origin):
                yield rule, finding._replace(doc=document.doc)
