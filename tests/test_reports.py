"""Reports: the exact text a person reads, and the exact shape a program reads."""

from __future__ import annotations

import io
import json

import pytest

from buildspec import __version__
from buildspec.findings import Diagnostic, Span, Waiver
from buildspec.reports import fails, text
from buildspec.reports import json as json_report

AT = Span("jobs/a.build.yaml", 12, 3, 12, 9)
OTHER = Span("jobs/a.build.yaml", 20, 5, 20, 9)
WAIVER = Waiver("loose-drawer", "tray", "static display", "shop lead", "2027-10-01", ("waivers", 0))
ERROR = Diagnostic(AT, "error", "thin-wire", "5.2 A exceeds 4 A", "use `2.5 mm2`", ((OTHER, "fuse is here"),))
WARNING = Diagnostic(OTHER, "warning", "long-run", "9 m is long")
WAIVED = Diagnostic(OTHER, "error", "loose-drawer", "no anchor", waiver=WAIVER)


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_text() -> None:
    assert text.render([ERROR, WARNING, WAIVED], colour=False, files=2) == (
        "jobs/a.build.yaml:12:3: error[thin-wire]: 5.2 A exceeds 4 A\n"
        "  help: use `2.5 mm2`\n"
        "  note: jobs/a.build.yaml:20:5: fuse is here\n"
        "jobs/a.build.yaml:20:5: warning[long-run]: 9 m is long\n"
        "jobs/a.build.yaml:20:5: note[loose-drawer]: no anchor\n"
        "  waived: static display (by shop lead, until 2027-10-01)\n"
        "1 error, 1 warning, 1 waived in 2 files\n"
    )


def test_text_without_findings_and_with_many() -> None:
    assert text.render([], colour=False, files=1) == "no findings in 1 file\n"
    assert text.render([ERROR, ERROR], colour=False, files=1).endswith("2 errors in 1 file\n")


def test_colour_marks_the_label_only() -> None:
    plain = text.render([WARNING], colour=False, files=1)
    coloured = text.render([WARNING], colour=True, files=1)
    assert "\x1b[1;33mwarning[long-run]\x1b[0m:" in coloured
    assert coloured.replace("\x1b[1;33m", "").replace("\x1b[0m", "") == plain


def test_a_spec_cannot_steer_the_terminal() -> None:
    sly = ERROR._replace(message="a\x1b[2J\nb\u202e", help="", related=())
    lines = text.render([sly], colour=False, files=1).splitlines()
    assert lines[0].endswith("error[thin-wire]: a\\u001b[2J\\u000ab\\u202e")
    assert len(lines) == 2


@pytest.mark.parametrize(
    ("environ", "wanted"),
    [({}, True), ({"NO_COLOR": "1"}, False), ({"NO_COLOR": ""}, True), ({"TERM": "dumb"}, False)],
)
def test_colour_only_where_wanted(environ: dict[str, str], wanted: bool) -> None:
    assert text.wants_colour(Terminal(), environ) is wanted
    assert text.wants_colour(io.StringIO(), environ) is False


def test_json() -> None:
    report = json_report.render([ERROR, WAIVED])
    assert json.loads(report) == {
        "buildspec": __version__,
        "findings": [
            {
                "file": "jobs/a.build.yaml",
                "line": 12,
                "column": 3,
                "end_line": 12,
                "end_column": 9,
                "severity": "error",
                "rule": "thin-wire",
                "message": "5.2 A exceeds 4 A",
                "help": "use `2.5 mm2`",
                "related": [
                    {
                        "file": "jobs/a.build.yaml",
                        "line": 20,
                        "column": 5,
                        "end_line": 20,
                        "end_column": 9,
                        "message": "fuse is here",
                    }
                ],
                "waived_by": None,
            },
            {
                "file": "jobs/a.build.yaml",
                "line": 20,
                "column": 5,
                "end_line": 20,
                "end_column": 9,
                "severity": "note",
                "rule": "loose-drawer",
                "message": "no anchor",
                "help": "",
                "related": [],
                "waived_by": "shop lead",
            },
        ],
        "summary": {"error": 1, "warning": 0, "note": 0, "waived": 1},
    }
    keys = [line.split('"')[1] for line in report.splitlines() if line.startswith('      "')]
    assert keys[:11] == keys[11:] == list(json.loads(report)["findings"][0])
    assert json.loads(json_report.render([]))["findings"] == []


@pytest.mark.parametrize(
    ("found", "strict", "failing"),
    [
        ([], True, False),
        ([WARNING], False, False),
        ([WARNING], True, True),
        ([ERROR], False, True),
        ([WAIVED], True, False),
        ([WAIVED._replace(waiver=None)], False, True),
    ],
)
def test_what_refuses_a_build(found: list[Diagnostic], strict: bool, failing: bool) -> None:
    assert fails(found, strict=strict) is failing
