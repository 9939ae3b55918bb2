"""Characters of a file that the packet's typeface has no picture for: a PDF would show a box in their place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import read, typeface
from buildspec.findings import Diagnostic, Path, Span
from buildspec.read import Document


def unprintable(document: Document) -> Iterator[Diagnostic]:
    """One warning for each name or text with such characters, at its place; repeated text once."""
    told: set[str] = set()
    for path, text, span in _texts(document, (), document.data):
        missing = dict.fromkeys(letter for letter in text if typeface.lacks(letter))
        if missing and text not in told:
            told.add(text)
            yield Diagnostic(
                span, "warning", "character-not-in-typeface", _said(tuple(missing)), HELP, (), path
            )


HELP = "write it in letters that are; the page in a browser shows it where the reader's fonts do"


def _said(missing: tuple[str, ...]) -> str:
    named = ", ".join(f"`{letter}` (U+{ord(letter):04X})" for letter in missing)
    many = len(missing) > 1
    return (
        f"character{'s' * many} {named} {'are' if many else 'is'} not in DejaVu Sans 2.37, "
        f"so PDFs print {'boxes' if many else 'a box'} here"
    )


def _texts(document: Document, path: Path, value: Any) -> Iterator[tuple[Path, str, Span]]:
    """(path, text, place) of every name and every text."""
    if isinstance(value, str):
        yield path, value, read.span_of(document, path)
    elif isinstance(value, dict):
        for key, inner in value.items():
            if isinstance(key, str):
                yield (*path, key), key, read.key_span_of(document, (*path, key))
            yield from _texts(document, (*path, key), inner)
    elif isinstance(value, list):
        for n, inner in enumerate(value):
            yield from _texts(document, (*path, n), inner)
