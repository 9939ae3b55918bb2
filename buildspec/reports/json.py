"""Diagnostics as data for programs. Keys always come in this order:

{
  "buildspec": version of the program,
  "findings": [
    {
      "file", "line", "column", "end_line", "end_column",   counted from 1, the end is exclusive
      "severity": "error" | "warning" | "note",             "note" when waived
      "rule", "message", "help",                            help may be ""
      "related": [{"file", "line", "column", "end_line", "end_column", "message"}],
      "waived_by": null or the role that accepted it
    }
  ],
  "summary": {"error", "warning", "note", "waived"}         numbers
}
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from buildspec import __version__
from buildspec.findings import Diagnostic, Span
from buildspec.reports import severity_shown, summary


def render(diagnostics: Sequence[Diagnostic]) -> str:
    """The report as one JSON object, in the order given."""
    report = {
        "buildspec": __version__,
        "findings": [_finding(diagnostic) for diagnostic in diagnostics],
        "summary": summary(diagnostics),
    }
    return json.dumps(report, indent=2, ensure_ascii=False) + "\n"


def _finding(diagnostic: Diagnostic) -> dict[str, Any]:
    return {
        **_place(diagnostic.span),
        "severity": severity_shown(diagnostic),
        "rule": diagnostic.rule,
        "message": diagnostic.message,
        "help": diagnostic.help,
        "related": [{**_place(span), "message": text} for span, text in diagnostic.related],
        "waived_by": diagnostic.waiver.by if diagnostic.waiver else None,
    }


def _place(span: Span) -> dict[str, Any]:
    return {
        "file": span.file,
        "line": span.line,
        "column": span.col,
        "end_line": span.end_line,
        "end_column": span.end_col,
    }
