"""Stage 5: rules over the sized build. The core adds place, severity, name, order and waivers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from buildspec import rules
from buildspec.discover import modules
from buildspec.findings import Diagnostic, Finding, Path, Severity, Waiver
from buildspec.model import Sized
from buildspec.read import Document, key_span_of, span_of

REQUIRED = ("SEVERITY", "SOURCES", "check")


def name_of(module_name: str) -> str:
    """Rule name of a module: its file name with hyphens."""
    return module_name.replace("_", "-")


def prove(sized: Sized, documents: Mapping[str, Document]) -> tuple[Diagnostic, ...]:
    """Every finding of every rule, placed, with waivers applied and checked."""
    found: list[Diagnostic] = []
    for module_name, module in modules(rules, required=REQUIRED).items():
        for finding in module.check(sized):
            found.append(placed(finding, name_of(module_name), module.SEVERITY, documents))
    return tuple(waived(found, sized, documents))


def placed(finding: Finding, rule: str, severity: Severity, documents: Mapping[str, Document]) -> Diagnostic:
    """A finding with its place in the text, and those of the paths related to it."""
    document = documents[finding.doc]
    related = tuple(
        (span_of(documents[doc[0]] if doc else document, path), text) for path, text, *doc in finding.related
    )
    where = key_span_of(document, finding.at) if is_item(finding.at) else span_of(document, finding.at)
    state = f" while {finding.state}" if finding.state else ""
    return Diagnostic(
        where, finding.severity or severity, rule, finding.message + state, finding.help, related, finding.at
    )


def is_item(path: Path) -> bool:
    """A path to a whole item is shown at its name, not at its first key."""
    return len(path) <= 2


def concerns(waiver: Waiver, diagnostic: Diagnostic, sized: Sized) -> bool:
    """Is it about the item that the waiver names? A run is named by its two places: `engine-bay - grille`."""
    names: set[str | int] = set(diagnostic.path)
    for run in sized.build.runs:
        if run.at == diagnostic.path[: len(run.at)]:
            names |= {f"{run.a} - {run.b}", f"{run.b} - {run.a}"}
    return waiver.rule == diagnostic.rule and waiver.of in names


def waived(found: Iterable[Diagnostic], sized: Sized, documents: Mapping[str, Document]) -> list[Diagnostic]:
    """Accepted findings become notes that carry their waiver; an expired or unused waiver is a finding."""
    waivers, date = sized.build.waivers, sized.build.job.date
    valid = [w for w in waivers if w.until >= date]
    result, used = [], set()
    for diagnostic in found:
        waiver = next((w for w in valid if concerns(w, diagnostic, sized)), None)
        if waiver is None:
            result.append(diagnostic)
        else:
            used.add(waiver)
            result.append(diagnostic._replace(severity="note", waiver=waiver))
    for waiver in waivers:
        if waiver.until < date:
            text = f"the waiver of `{waiver.rule}` for `{waiver.of}` ended on {waiver.until}; the job is of {date}"
            result.append(placed(Finding((*waiver.at, "until"), text, "settle the finding, or have it accepted again"),
                                 "waiver-expired", "error", documents))  # fmt: skip
        elif waiver not in used:
            text = f"no finding of `{waiver.rule}` concerns `{waiver.of}`"
            result.append(placed(Finding((*waiver.at, "rule"), text, "remove the waiver, or correct its rule or item"),
                                 "waiver-unused", "warning", documents))  # fmt: skip
    return result
