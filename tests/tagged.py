"""The tags of a PDF as pypdf reads them: elements with their path, and what of each page's content is tagged."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from typing import Any, NamedTuple

import pypdf
from pypdf.generic import ContentStream, IndirectObject

SHOWN = (b"Tj", b"TJ", b"Do", b"'", b'"', b"f", b"f*", b"S", b"B", b"sh")
"""Operators that leave ink: text, images, fills and strokes."""


class Element(NamedTuple):
    """One element: its type, the types above it, its dictionary, and the types right below it."""

    tag: str
    above: tuple[str, ...]
    data: Any
    below: tuple[str, ...]


def elements(document: pypdf.PdfReader) -> Iterator[Element]:
    """Every element of the tree of tags, in order of reading."""
    root: Any = document.trailer["/Root"]
    for kid in listed(root["/StructTreeRoot"]["/K"]):
        yield from _below(kid.get_object(), ())


def _below(data: Any, above: tuple[str, ...]) -> Iterator[Element]:
    kids = [kid.get_object() for kid in listed(data.get("/K", [])) if isinstance(kid, IndirectObject)]
    kids = [kid for kid in kids if "/S" in kid]
    yield Element(data["/S"], above, data, tuple(kid["/S"] for kid in kids))
    for kid in kids:
        yield from _below(kid, (*above, data["/S"]))


def listed(value: Any) -> list[Any]:
    return list(value) if isinstance(value, list) else [value]


def owners(document: pypdf.PdfReader) -> dict[int, list[Any]]:
    """Key of the parent tree → the elements that own the marked content of a page, or the one of a link.

    What is not tagged has an owner that is null.
    """
    root: Any = document.trailer["/Root"]
    numbers = root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    return {
        int(key): listed(value.get_object()) for key, value in zip(numbers[::2], numbers[1::2], strict=True)
    }


class Content(NamedTuple):
    """What is on a page: numbers of tagged content, kinds of artifacts, and how often ink stood outside of both."""

    tagged: list[int]
    artifacts: list[str]
    loose: int


@functools.cache
def contents(document: pypdf.PdfReader) -> tuple[Content, ...]:
    """Of every page, read once."""
    return tuple(content(document, page) for page in document.pages)


def content(document: pypdf.PdfReader, page: pypdf.PageObject) -> Content:
    """Reads the marked content of a page (ISO 32000-1, 14.6)."""
    found = Content([], [], 0)
    inside: list[bool] = []
    loose = 0
    for operands, operator in ContentStream(page.get_contents(), document).operations:
        if operator in (b"BDC", b"BMC"):
            tag, given = operands[0], operands[1] if len(operands) > 1 else {}
            if "/MCID" in given:
                found.tagged.append(int(given["/MCID"]))
            elif tag == "/Artifact":
                found.artifacts.append(str(given.get("/Type", "")))
            inside.append("/MCID" in given or tag == "/Artifact")
        elif operator == b"EMC":
            inside.pop()
        elif operator in SHOWN and not any(inside):
            loose += 1
    return found._replace(loose=loose)
