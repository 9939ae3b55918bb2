"""`buildspec size`: the text to print, and whether it fits."""

from __future__ import annotations

import pathlib
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from buildspec import pipeline, reports
from buildspec.bench import answer, data, question, reserve, reserve_text, text
from buildspec.errors import UsageError
from buildspec.findings import Diagnostic


class Printed(NamedTuple):
    text: str
    fits: bool


def run(asked: Mapping[str, Any]) -> Printed:
    """Answer for the words of the command line; raises UsageError for words that ask nothing clear."""
    spec, name = asked["spec"], asked["reserve"]
    if spec is None and name is None:
        return bench(asked)
    if spec is None or name is None:
        raise UsageError("a reserve is asked for with both: buildspec size SPEC --reserve NAME")
    if asked["load"] is not None or asked["length"] is not None:
        raise UsageError(
            "--load and --length ask about a circuit on the bench; leave them out beside --reserve"
        )
    return of_reserve(pathlib.Path(spec), name, as_json=asked["format"] == "json")


def bench(asked: Mapping[str, Any]) -> Printed:
    """One circuit by its figures; where something written does not fit, what would."""
    asking = question.question(asked)
    found = answer.answer(asking)
    written = asking.wire is not None or asking.fuse is not None
    fits = answer.answer(answer.free(asking)) if written and not found.passes else None
    render = data.render if asked["format"] == "json" else text.render
    return Printed(render(asking, found, fits), found.passes)


def of_reserve(path: pathlib.Path, name: str, *, as_json: bool) -> Printed:
    """One reserve of a spec; a spec with errors is reported instead, for nothing holds in it."""
    outcome = pipeline.check_file(path)
    if outcome.build is None or reports.fails(outcome.diagnostics, strict=False):
        return Printed(report(outcome.diagnostics, as_json=as_json), False)
    found = reserve.reserve(outcome.build, name)
    return Printed(reserve_text.render_json(found) if as_json else reserve_text.render(found), True)


def report(found: Sequence[Diagnostic], *, as_json: bool) -> str:
    if as_json:
        from buildspec.reports import json

        return json.render(found)
    from buildspec.reports import text as plain

    return (
        plain.render(found, colour=False, files=1)
        + "no answer: what a reserve may carry holds only in a spec without errors\n"
    )
