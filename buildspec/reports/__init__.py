"""Diagnostics as text or data for a reader; what all reports agree on is here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from buildspec.findings import Diagnostic, Severity


def severity_shown(diagnostic: Diagnostic) -> Severity:
    """An accepted finding stays in sight, as a note."""
    return "note" if diagnostic.waiver else diagnostic.severity


def summary(diagnostics: Iterable[Diagnostic]) -> Mapping[str, int]:
    """How many of each: error, warning, note, and waived (which are not counted as notes)."""
    counts = {"error": 0, "warning": 0, "note": 0, "waived": 0}
    for diagnostic in diagnostics:
        counts["waived" if diagnostic.waiver else diagnostic.severity] += 1
    return counts


def fails(diagnostics: Iterable[Diagnostic], *, strict: bool) -> bool:
    """Whether anything refuses the build: an error, or with `strict` a warning, that nobody accepted."""
    counts = summary(diagnostics)
    return counts["error"] > 0 or (strict and counts["warning"] > 0)
