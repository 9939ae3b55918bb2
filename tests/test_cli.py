"""The command line: exit codes, where things are printed, and what a person is told when it goes wrong."""

from __future__ import annotations

import itertools
import json
import os
import pathlib
import subprocess
import sys
import types
from typing import Any, NamedTuple

import pytest

import buildspec
from buildspec import bugreport, discover, explain
from buildspec.cli import find_specs, main, stem
from buildspec.errors import UsageError
from buildspec.findings import Diagnostic, Span

ROOT = pathlib.Path(buildspec.__file__).parents[1]


class Outcome(NamedTuple):
    diagnostics: tuple[Diagnostic, ...]
    build: object | None


def finding(file: str, severity: Any) -> Diagnostic:
    return Diagnostic(Span(file, 3, 1, 3, 5), severity, "thin-wire", f"one {severity}")


@pytest.fixture
def stages(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """A pipeline that finds what the file's text names, and a compiler that notes what it is asked."""
    asked: list[str] = []

    def check_file(path: pathlib.Path) -> Outcome:
        word = path.read_text().strip()
        if word == "crash":
            raise RuntimeError(f"no key in {path.resolve()}")
        if word == "stop":
            raise KeyboardInterrupt
        found = tuple(finding(str(path), one) for one in word.split() if one != "clean")
        return Outcome(found, None if "error" in word else object())

    def compile_file(
        path: pathlib.Path, out: pathlib.Path, outcome: Outcome, *, pdf: bool = False
    ) -> tuple[str, ...]:
        if out.is_file():
            raise UsageError(f"cannot write to {out}: it is a file")
        asked.append(out.name)
        return ("index.html", "labels.html")

    for name, attributes in {
        "pipeline": {"check_file": check_file},
        "compile": {"compile_file": compile_file},
    }.items():
        fake = types.ModuleType(f"buildspec.{name}")
        vars(fake).update(attributes)
        monkeypatch.setitem(sys.modules, f"buildspec.{name}", fake)
        monkeypatch.setattr(buildspec, name, fake, raising=False)
    return asked


@pytest.fixture
def folder(tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch) -> pathlib.Path:
    monkeypatch.chdir(tmp_path)
    for name in ("clean", "warning", "error", "crash", "stop"):
        (tmp_path / f"{name}.build.yaml").write_text(name)
    return tmp_path


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["check", "clean.build.yaml"], 0),
        (["check", "warning.build.yaml"], 0),
        (["check", "warning.build.yaml", "--strict"], 1),
        (["check", "clean.build.yaml", "error.build.yaml"], 1),
        (["check", "crash.build.yaml"], 3),
        (["check", "stop.build.yaml"], 130),
        (["check", "missing.build.yaml"], 2),
        (["check"], 2),
        (["check", "clean.build.yaml", "--stri"], 2),
        (["frobnicate"], 2),
        ([], 2),
        (["compile", "clean.build.yaml"], 0),
        (["compile", "warning.build.yaml"], 0),
        (["compile", "warning.build.yaml", "--strict"], 1),
        (["compile", "error.build.yaml"], 1),
        (["compile", "clean.build.yaml", "--out", "clean.build.yaml"], 2),
        (["explain", "duplicate-key"], 0),
        (["explain"], 0),
        (["explain", "no-such-rule"], 2),
        (["--version"], 0),
        (["--help"], 0),
    ],
)
def test_exit_codes(
    words: list[str],
    code: int,
    stages: list[str],
    folder: pathlib.Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(words) == code
    printed = capsys.readouterr()
    if code == 2:
        assert printed.out == ""
        assert printed.err.startswith("buildspec: ")
        assert printed.err.count("\n") == 1
    assert ("Traceback" in printed.err) is (code == 3)


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["--load", "12A", "--length", "4m"], 0),
        (["--load", "12A", "--length", "4m", "--format", "json"], 0),
        (["--load", "12A", "--length", "4m", "--intermittent", "--return", "body", "--place", "engine"], 0),
        (["--load", "12A", "--length", "4m", "--wire", "14 AWG", "--fuse", "50A"], 1),
        (["--load", "400A", "--length", "30m"], 1),
        (["--load", "12", "--length", "4m"], 2),
        (["--load", "12A"], 2),
        (["--load", "12A", "--length", "4m", "--place", "moon"], 2),
        (["--load", "12A", "--length", "4m", "--continuous", "--intermittent"], 2),
        (["nowhere.build.yaml", "--reserve", "x"], 2),
        (["--reserve", "x"], 2),
        ([], 2),
    ],
)
def test_exit_codes_of_size(words: list[str], code: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["size", *words]) == code
    printed = capsys.readouterr()
    if code == 2:
        assert printed.out == ""
        assert printed.err.startswith("buildspec: ") and printed.err.count("\n") == 1
    else:
        assert (printed.err, bool(printed.out)) == ("", True)


def test_size_says_that_the_length_is_one_way(capsys: pytest.CaptureFixture[str]) -> None:
    main(["size", "--help"])
    assert "ONE WAY" in capsys.readouterr().out
    main(["size", "--load", "12A", "--length", "4m"])
    printed = capsys.readouterr().out
    assert printed.startswith("fits: 2 mm², 15 A mini blade fuse, blue, 1.07 V lost (8.9 %)\n")
    assert "4m (4.00 m) one way" in printed


def test_check_prints_the_findings_of_all_files(
    stages: list[str], folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["check", "error.build.yaml", "warning.build.yaml"])
    assert capsys.readouterr().out == (
        "error.build.yaml:3:1: error[thin-wire]: one error\n"
        "warning.build.yaml:3:1: warning[thin-wire]: one warning\n"
        "1 error, 1 warning in 2 files\n"
    )


def test_check_as_json(stages: list[str], folder: pathlib.Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "error.build.yaml", "--format", "json"]) == 1
    assert json.loads(capsys.readouterr().out)["summary"]["error"] == 1


def test_compile_says_where_to_look(
    stages: list[str], folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["compile", "warning.build.yaml"])
    printed = capsys.readouterr()
    assert (
        printed.out
        == f"2 files in warning-packet; look first at {pathlib.Path('warning-packet/index.html')}\n"
    )
    assert "warning[thin-wire]" in printed.err
    assert stages == ["warning-packet"]


def test_compile_writes_nothing_when_refused(
    stages: list[str], folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["compile", "error.build.yaml", "--out", "elsewhere"])
    printed = capsys.readouterr()
    assert (printed.out, stages) == ("", [])
    assert printed.err.endswith("packet refused: nothing was written\n")


def test_folders_are_searched_in_order_without_hidden_ones(folder: pathlib.Path) -> None:
    for name in (
        "b/x.build.yaml",
        "b/other.yaml",
        "a/z.build.yaml",
        ".git/y.build.yaml",
        "a/.hid/w.build.yaml",
    ):
        file = pathlib.Path("jobs", name)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("clean")
    found = find_specs(["jobs", "jobs/a/z.build.yaml", "clean.build.yaml"])
    assert [path.as_posix() for path in found] == [
        "jobs/a/z.build.yaml",
        "jobs/b/x.build.yaml",
        "clean.build.yaml",
    ]


def test_a_folder_without_specs_is_wrong_use(folder: pathlib.Path) -> None:
    pathlib.Path("empty").mkdir()
    with pytest.raises(UsageError, match=r"no \*\.build\.yaml in empty"):
        find_specs(["empty"])


@pytest.mark.parametrize(
    ("name", "expected"), [("fr-1.build.yaml", "fr-1"), ("x.yaml", "x"), ("a.b.build.yaml", "a.b")]
)
def test_stem(name: str, expected: str) -> None:
    assert stem(pathlib.Path(name)) == expected


def test_a_fault_of_ours_is_ready_to_paste_and_names_no_folder(
    stages: list[str], folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(folder / "crash.build.yaml")]) == 3
    report = capsys.readouterr().err
    assert f"buildspec {buildspec.__version__}\npython 3." in report
    assert "command: buildspec check crash.build.yaml\n" in report
    assert "RuntimeError: no key in crash.build.yaml" in report
    assert 'File "cli.py", line' in report
    assert str(folder) not in report
    assert str(ROOT) not in report


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ('File "/srv/ann doe/x/y.py", line 3', 'File "y.py", line 3'),
        (r"open C:\Users\ann\a.yaml failed", "open a.yaml failed"),
        ("[Errno 2] No such file: '/srv/jobs/a.build.yaml'", "[Errno 2] No such file: 'a.build.yaml'"),
        ("a/b.yaml and 3 / 4 stay", "a/b.yaml and 3 / 4 stay"),
        (f"in {pathlib.Path.home()}/jobs/a.yaml", "in a.yaml"),
        (r'"\n".join', r'"\n".join'),
    ],
)
def test_paths_are_cut_to_names(said: str, left: str) -> None:
    assert bugreport.without_folders(said) == left


def test_explain_prints_a_rule_and_lists_all(capsys: pytest.CaptureFixture[str]) -> None:
    main(["explain", "duplicate-key"])
    assert capsys.readouterr().out.startswith("The same key is written twice in one group.\n\nWhat\n----\n")
    main(["explain"])
    lines = capsys.readouterr().out.splitlines()
    assert lines == sorted(lines)
    assert any(line.startswith("schema ") for line in lines)


def test_explain_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    main(["explain", "duplicate-keys"])
    assert "did you mean duplicate-key" in capsys.readouterr().err


@pytest.fixture
def rules(tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch) -> types.ModuleType:
    package = types.ModuleType("buildspec.rules")
    package.__path__ = [str(tmp_path)]
    (tmp_path / "thin_wire.py").write_text(
        '"""A wire is too thin.\n\n    Why: heat.\n"""\nSEVERITY = "error"\n'
    )
    (tmp_path / "loose_end.py").write_text('"""An end is loose."""\n')
    (tmp_path / "_shared.py").write_text("raise RuntimeError\n")
    monkeypatch.setitem(sys.modules, "buildspec.rules", package)
    for name in ("thin_wire", "loose_end"):
        monkeypatch.delitem(sys.modules, f"buildspec.rules.{name}", raising=False)
    return package


def test_a_rule_is_explained_by_its_own_docstring(rules: types.ModuleType) -> None:
    assert explain.manual("thin-wire") == "A wire is too thin.\n\nWhy: heat."
    assert ["loose-end", "An end is loose."] in [
        line.split(maxsplit=1) for line in explain.listing().splitlines()
    ]


def test_discovery_is_sorted_and_demands_what_is_required(rules: types.ModuleType) -> None:
    assert discover.names(rules) == ("loose_end", "thin_wire")
    assert list(discover.modules(rules)) == ["loose_end", "thin_wire"]
    with pytest.raises(TypeError, match=r"buildspec\.rules\.loose_end lacks SEVERITY"):
        discover.modules(rules, required=["SEVERITY"])


def test_every_page_of_the_manual_is_of_a_fault_that_is_reported() -> None:
    package = ROOT / "buildspec"
    stages = (
        "read",
        "yaml_tree",
        "yaml_words",
        "validate",
        "prove",
        "figures",
        "pipeline",
        "vehicle_data",
        "letters",
    )
    files = [package / f"{name}.py" for name in stages]
    sources = "".join(
        file.read_text(encoding="utf-8") for file in (*files, *(package / "resolve").glob("*.py"))
    )
    assert len(explain.pages()) > 20
    assert [name for name in explain.pages() if f'"{name}"' not in sources] == []


HEADINGS = ["What", "Why", "Bad", "Good", "Sources"]


@pytest.mark.parametrize("rule", [line.split()[0] for line in explain.listing().splitlines()])
def test_every_manual_has_its_headings(rule: str) -> None:
    lines = explain.manual(rule).splitlines()
    assert lines[0].endswith(".") and lines[1] == ""
    headings = [a for a, b in itertools.pairwise(lines) if b and set(b) == {"-"} and len(a) == len(b)]
    assert headings == HEADINGS


def run(*words: str) -> subprocess.CompletedProcess[str]:
    environ = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run([sys.executable, *words], env=environ, text=True, capture_output=True, check=False)


@pytest.mark.parametrize("words", [["--version"], ["explain", "schema"], ["explain"]])
def test_light_commands_load_no_schema_engine(words: list[str]) -> None:
    code = (
        "import sys\nfrom buildspec.cli import main\n"
        f"code = main({words!r})\n"
        "sys.exit(code or 10 * bool({'jsonschema', 'jinja2', 'referencing'} & set(sys.modules)))"
    )
    done = run("-c", code)
    assert (done.returncode, done.stderr) == (0, "")


def test_version_as_a_module() -> None:
    assert run("-m", "buildspec", "--version").stdout == f"buildspec {buildspec.__version__}\n"


def test_a_reader_that_leaves_is_no_fault() -> None:
    code = "import os, sys\nfrom buildspec.cli import main\nos.close(1)\nread, write = os.pipe()\n"
    code += "os.close(read)\nos.dup2(write, 1)\nsys.exit(main(['explain']))"
    done = run("-c", code)
    assert (done.returncode, done.stderr) == (141, "")


@pytest.mark.parametrize(
    ("closed", "words", "code"),
    [
        ((1,), ["check", "examples/beekeepers-flatbed"], 0),
        ((1, 2), ["check", "examples/beekeepers-flatbed"], 0),
        ((1,), ["explain"], 0),
        ((2,), ["check", "no-such-file"], 2),
    ],
)
def test_closed_streams_are_no_fault(closed: tuple[int, ...], words: list[str], code: int) -> None:
    """As a shell closes them with `>&-` and `2>&-`."""
    outer = f"import os, sys\nfor n in {closed}: os.close(n)\n"
    outer += f"os.execv(sys.executable, [sys.executable, '-m', 'buildspec', *{words}])"
    environ = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", outer], env=environ, cwd=ROOT, capture_output=True, check=False
    )
    assert (done.returncode, done.stderr) == (code, b"")


def test_a_message_that_nobody_reads_keeps_its_exit_code() -> None:
    code = "import os, sys\nfrom buildspec.cli import main\nread, write = os.pipe()\n"
    code += "os.close(read)\nos.dup2(write, 2)\nsys.exit(main(['check', 'no-such-file']))"
    assert run("-c", code).returncode == 2
