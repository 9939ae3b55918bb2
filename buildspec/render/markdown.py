"""Words of a build as Markdown: nothing that a spec says can become markup, and tables line up."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~&$])")
_AT_START = re.compile(r"^([-+=]|\d+(?=[.)](?:\s|$)))")
_NUMBER = re.compile(r"^[−<≤]?\s?\d[\d.,]*(\s?[^\s\d]{1,3})?$")
NONE_SHOWN = "–"
"""Stands where a field does not apply."""


class Text(str):
    """Finished Markdown: it is not escaped again."""

    __slots__ = ()


def escape(value: object) -> Text:
    """A value as Markdown text on one line, with everything that has a meaning in Markdown made plain."""
    if isinstance(value, Text):
        return value
    flat = " ".join(str(value).split())
    return Text(_AT_START.sub(_plain_start, _SPECIAL.sub(r"\\\1", flat)))


def _plain_start(found: re.Match[str]) -> str:
    return f"{found[1]}\\" if found[1][0].isdigit() else f"\\{found[1]}"


def table(rows: Iterable[Mapping[str, Any]], columns: Sequence[tuple[str, str]], empty: str = "") -> Text:
    """A Markdown table of (heading, key) columns, or `empty` where there is no row.

    Raises KeyError for a row without one of the keys.
    """
    body = [[cell(row[key]) for _, key in columns] for row in rows]
    if not body:
        return escape(empty)
    head = [cell(heading) for heading, _ in columns]
    widths = [max(3, *(len(line[n]) for line in (head, *body))) for n in range(len(columns))]
    right = [_numeric([line[n] for line in body]) for n in range(len(columns))]
    rule = [
        ("-" * (width - 1) + ":") if last else "-" * width for width, last in zip(widths, right, strict=True)
    ]
    return Text("\n".join(_line(line, widths, right) for line in (head, rule, *body)))


def _numeric(cells: Sequence[str]) -> bool:
    """A column of figures, with or without dashes where none applies."""
    figures = [c for c in cells if c != NONE_SHOWN]
    return bool(figures) and all(_NUMBER.match(c) for c in figures)


def cell(value: object) -> str:
    """One cell: escaped."""
    return str(escape(value))


def _line(cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> str:
    parts = zip(cells, widths, right, strict=True)
    return "| " + " | ".join(c.rjust(w) if last else c.ljust(w) for c, w, last in parts) + " |"


def listed(items: Iterable[object], empty: str = "") -> Text:
    """A Markdown list, or `empty`."""
    lines = [f"- {escape(item)}" for item in items]
    return Text("\n".join(lines)) if lines else escape(empty)
