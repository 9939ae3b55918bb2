"""A file that cannot be read is a finding at its place, stops nothing else, and never makes `check` wait."""

from __future__ import annotations

import json
import os
import pathlib
import subprocess
import sys

import pytest
from previews import ROOT, SPEC

from buildspec import cli, pipeline, read
from buildspec.errors import UsageError

LINE = SPEC.count("\n") + 1


@pytest.fixture
def folder(tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch) -> pathlib.Path:
    monkeypatch.chdir(tmp_path)
    pathlib.Path("good.build.yaml").write_text(SPEC)
    return tmp_path


def findings(
    capsys: pytest.CaptureFixture[str], *words: str
) -> tuple[int, list[tuple[str, int, int, str, str]]]:
    """Exit code, and the errors of a JSON report."""
    code = cli.main(["check", *words, "--format", "json"])
    found = json.loads(capsys.readouterr().out)["findings"]
    return code, [
        (f["file"], f["line"], f["column"], f["rule"], f["message"])
        for f in found
        if f["severity"] == "error"
    ]


def test_one_dangling_link_does_not_hide_the_other_specs(
    folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pathlib.Path("a-dangling.build.yaml").symlink_to("gone.build.yaml")
    pathlib.Path("z-bad.build.yaml").write_text(SPEC.replace("at: bed, fed", "at: roof, fed"))
    code, found = findings(capsys, ".")
    assert code == 2
    assert found == [
        (
            "a-dangling.build.yaml", 1, 1, "unreadable-file",
            "cannot read a-dangling.build.yaml: no such file or directory",
        ),
        ("z-bad.build.yaml", 8, 47, "unknown-name", "place `roof` is not defined"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("key", "column", "name"),
    [
        ("profile: nope.yaml", 10, "nope.yaml"),
        ("profile: [real.yaml, nope.yaml]", 22, "nope.yaml"),
        ("practice: ../shop/none.yaml", 11, "../shop/none.yaml"),
        ("practice: .", 11, "."),
    ],
)
def test_a_file_that_a_spec_names_is_missed_where_it_is_named(
    folder: pathlib.Path, capsys: pytest.CaptureFixture[str], key: str, column: int, name: str
) -> None:
    pathlib.Path("real.yaml").write_text("profile: 1\nname: customer\ndocument: letter of May, revision 1\n")
    pathlib.Path("a.build.yaml").write_text(f"{SPEC}{key}\n")
    code, found = findings(capsys, ".")
    why = "is a directory" if name == "." else "no such file or directory"
    assert code == 1
    assert found == [("a.build.yaml", LINE, column, "unreadable-file", f"cannot read {name}: {why}")]


def test_a_catalogue_is_missed_where_the_practice_names_it(
    folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pathlib.Path("practice.yaml").write_text("practice: 1\ncatalogues: [none.parts.yaml]\n")
    code, found = findings(capsys, "good.build.yaml")
    message = "cannot read none.parts.yaml: no such file or directory"
    assert (code, found) == (1, [("practice.yaml", 2, 14, "unreadable-file", message)])


@pytest.mark.parametrize("name", ["own.parts.yaml", "practice.yaml", "good.numbers.yaml"])
def test_a_file_beside_the_spec_that_cannot_be_read_is_said_at_itself(
    folder: pathlib.Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    pathlib.Path(name).mkdir()
    code, found = findings(capsys, "good.build.yaml")
    assert (code, found) == (1, [(name, 1, 1, "unreadable-file", f"cannot read {name}: is a directory")])


@pytest.mark.parametrize("key", ["profile", "practice"])
def test_a_name_that_no_file_has_is_said_where_it_is_named(
    folder: pathlib.Path, capsys: pytest.CaptureFixture[str], key: str
) -> None:
    pathlib.Path("a.build.yaml").write_text(f'{SPEC}{key}: "a\\0b"\n')
    code, found = findings(capsys, "a.build.yaml")
    assert code == 1
    assert [one[3:] for one in found] == [
        ("unreadable-file", "cannot read 'a\\x00b': no file has such a name")
    ]
    assert [one[:2] for one in found] == [("a.build.yaml", LINE)]


def test_compile_refuses_a_missing_profile_and_writes_nothing(
    folder: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pathlib.Path("a.build.yaml").write_text(f"{SPEC}profile: nope.yaml\n")
    assert cli.main(["compile", "a.build.yaml"]) == 1
    assert f"a.build.yaml:{LINE}:10: error[unreadable-file]: cannot read nope.yaml" in capsys.readouterr().err
    assert sorted(p.name for p in folder.iterdir()) == ["a.build.yaml", "good.build.yaml"]


@pytest.mark.parametrize(
    "words", [["check", "."], ["check", "pipe.build.yaml"], ["compile", "pipe.build.yaml"]]
)
def test_a_pipe_is_refused_at_once(folder: pathlib.Path, words: list[str]) -> None:
    os.mkfifo("pipe.build.yaml")
    done = subprocess.run(
        [sys.executable, "-m", "buildspec", *words],
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert done.returncode == 2
    said = "cannot read pipe.build.yaml: it is a pipe or a device, not a file"
    assert said in done.stdout + done.stderr and "Traceback" not in done.stderr


def test_a_device_is_refused() -> None:
    with pytest.raises(UsageError, match="cannot read /dev/null: it is a pipe or a device"):
        read.read_file(pathlib.Path("/dev/null"))


def test_a_spec_that_is_read_alone_still_raises(folder: pathlib.Path) -> None:
    with pytest.raises(UsageError, match="cannot read none: no such file"):
        pipeline.check_file(pathlib.Path("none"))
