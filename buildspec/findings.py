"""What a stage can say about a file: findings (where in the model) and diagnostics (where in the text).

A rule or a stage yields a `Finding` that names a path in the document; the core looks the path up,
stamps rule name and severity, applies waivers and sorts. Nothing else invents a line number.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

Path = tuple[str | int, ...]
"""Keys and indexes from the root of a document to a value."""

Severity = Literal["error", "warning", "note"]

SEVERITY_ORDER: dict[str, int] = {"error": 0, "warning": 1, "note": 2}


class Span(NamedTuple):
    """A place in a text file; lines and columns count from 1, the end is exclusive."""

    file: str
    line: int
    col: int
    end_line: int
    end_col: int


class Finding(NamedTuple):
    """One fault, as a rule or a stage sees it.

    `message` states the fault with its numbers; `help` says what would fit; `related` names further
    paths with a short text each, and the document of one that lies in another. `doc` is the document the
    path belongs to; `severity` takes the place of the rule's own where a practice says so.
    """

    at: Path
    message: str
    help: str = ""
    related: tuple[tuple[Path, str] | tuple[Path, str, str], ...] = ()
    doc: str = "spec"
    state: str = ""
    severity: Severity | None = None


class Waiver(NamedTuple):
    """An accepted finding: which rule, of what, why, who says so, until when (ISO date)."""

    rule: str
    of: str
    reason: str
    by: str
    until: str
    at: Path


class Diagnostic(NamedTuple):
    """A finding with its place in the text, its rule and its severity, ready to print."""

    span: Span
    severity: Severity
    rule: str
    message: str
    help: str = ""
    related: tuple[tuple[Span, str], ...] = ()
    path: Path = ()
    waiver: Waiver | None = None

    @property
    def order(self) -> tuple[str, int, int, int, str, str]:
        """Sorting key: place first, then severity, rule and text; never discovery order."""
        return (
            self.span.file,
            self.span.line,
            self.span.col,
            SEVERITY_ORDER[self.severity],
            self.rule,
            self.message,
        )
