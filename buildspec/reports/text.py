"""Diagnostics for people: `file:line:col: severity[rule]: message`, with help and related places below."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TextIO

from buildspec.findings import Diagnostic, Span
from buildspec.reports import severity_shown, summary

_COLOURS = {"error": "\x1b[1;31m", "warning": "\x1b[1;33m", "note": "\x1b[1;36m"}
_PLAIN = "\x1b[0m"
_UNPRINTABLE = re.compile("[\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]")


def wants_colour(stream: TextIO, environ: Mapping[str, str]) -> bool:
    """Only on a terminal that can, and not where NO_COLOR is set to anything."""
    return stream.isatty() and not environ.get("NO_COLOR") and environ.get("TERM") != "dumb"


def render(diagnostics: Sequence[Diagnostic], *, colour: bool, files: int) -> str:
    """The whole report in the order given, with a last line that counts; `files` is how many were checked."""
    lines = [line for diagnostic in diagnostics for line in _lines(diagnostic, colour)]
    return "\n".join([*lines, _summary(diagnostics, files)]) + "\n"


def _lines(diagnostic: Diagnostic, colour: bool) -> list[str]:
    severity = severity_shown(diagnostic)
    label = f"{severity}[{diagnostic.rule}]"
    label = f"{_COLOURS[severity]}{label}{_PLAIN}" if colour else label
    lines = [f"{_place(diagnostic.span)}: {label}: {_printable(diagnostic.message)}"]
    if diagnostic.help:
        lines.append(f"  help: {_printable(diagnostic.help)}")
    lines += [f"  note: {_place(span)}: {_printable(text)}" for span, text in diagnostic.related]
    if diagnostic.waiver:
        waiver = diagnostic.waiver
        lines.append(_printable(f"  waived: {waiver.reason} (by {waiver.by}, until {waiver.until})"))
    return lines


def _place(span: Span) -> str:
    return f"{_printable(span.file)}:{span.line}:{span.col}"


def _printable(text: str) -> str:
    """Nothing a spec says may move the cursor, start a line or turn the direction of writing."""
    return _UNPRINTABLE.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def _summary(diagnostics: Sequence[Diagnostic], files: int) -> str:
    counts = summary(diagnostics)
    said = [_many(counts[word], word) for word in ("error", "warning", "note") if counts[word]]
    if counts["waived"]:
        said.append(f"{counts['waived']} waived")
    return f"{', '.join(said) or 'no findings'} in {_many(files, 'file')}"


def _many(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
