"""Pages as the browser gets them: those of the packet with a panel on top. The packet itself knows nothing of it."""

from __future__ import annotations

import re
from functools import cache

from buildspec.findings import Diagnostic, Span
from buildspec.preview.building import Showing
from buildspec.render import templates
from buildspec.reports import severity_shown, summary

POLICY = re.compile(rb'<meta http-equiv="Content-Security-Policy"[^>]*>\n?')
"""Of a page that needs nothing else; the server sends one that lets the script in."""
BODY = re.compile(rb"<body[^>]*>\n?")


def content(showing: Showing, name: str) -> bytes | None:
    """A file as it is shown now; None for a name that is not one of the packet's."""
    found = showing.files.get(name)
    if found is None:
        return bare(showing) if name == "index.html" else None
    return topped(showing, found) if name.endswith(".html") else found


@cache
def script() -> bytes:
    return templates.plain("preview.js").encode()


def bare(showing: Showing) -> bytes:
    """The panel alone, while there is no packet."""
    return templates.html("preview", context(showing)).encode("utf-8", "replace")


def topped(showing: Showing, page: bytes) -> bytes:
    """A page of the packet with the panel as the first thing in its body."""
    panel = templates.html("preview_panel", context(showing)).encode("utf-8", "replace")
    body = BODY.search(page)
    if body is None:
        return page
    return POLICY.sub(b"", page[: body.end()], count=1) + panel + page[body.end() :]


def context(showing: Showing) -> dict[str, object]:
    """What the panel says."""
    counts = summary(showing.diagnostics)
    return {
        "mark": showing.mark,
        "state": state(showing),
        "head": head(showing),
        "stale": bool(showing.age and showing.files),
        "trouble": showing.trouble,
        "counts": ", ".join(many(counts[word], word) for word in counts if counts[word] and word != "waived"),
        "findings": [finding(one) for one in sorted(showing.diagnostics, key=worst_first)],
    }


def state(showing: Showing) -> str:
    if not showing.number:
        return "building"
    return "refused" if showing.age else "good"


def head(showing: Showing) -> str:
    """The one line that tells whether the packet below is that of the spec as saved."""
    if not showing.number:
        return "The first build is on its way."
    if not showing.age:
        return "The packet below is that of the spec as saved."
    if not showing.files:
        return "The spec is refused. There is no packet yet."
    return f"The spec is refused. The packet below is OLD, from {many(showing.age, 'build')} ago: do not work from it."


def many(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def worst_first(one: Diagnostic) -> tuple[int, tuple[str, int, int, int, str, str]]:
    return ("error", "warning", "note").index(severity_shown(one)), one.order


def finding(one: Diagnostic) -> dict[str, object]:
    return {
        "severity": severity_shown(one),
        "rule": one.rule,
        "place": place(one.span),
        "message": one.message,
        "help": one.help,
        "related": [{"place": place(span), "text": text} for span, text in one.related],
        "waived": f"{one.waiver.reason} (by {one.waiver.by}, until {one.waiver.until})" if one.waiver else "",
    }


def place(span: Span) -> str:
    return f"{span.file}:{span.line}:{span.col}"
