"""A packet is replaced whole or left alone, never over something else, and is the same everywhere."""

from __future__ import annotations

import hashlib
import json
import os
import pathlib
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
import yaml
from sample_packets import EXAMPLES, packet

from buildspec import cli, output
from buildspec import compile as compiling
from buildspec.errors import UsageError


def files(mark: str, *more: str) -> dict[str, bytes]:
    names = ["packet.json", "a/one.md", *more]
    content = {name: f"{mark} {name}".encode() for name in names}
    return {**content, "packet.json": json.dumps({"buildspec": "0", "files": names}).encode()}


def read(folder: pathlib.Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def beside(folder: pathlib.Path) -> list[str]:
    return sorted(p.name for p in folder.parent.iterdir())


class Killed(BaseException):
    """Stands for a run that ends at once."""


class Breaking(Mapping[str, bytes]):
    """Files of which the second cannot be had."""

    def __getitem__(self, name: str) -> bytes:
        if name == "packet.json":
            return b"half"
        raise Killed

    def __iter__(self) -> Iterator[str]:
        return iter(("packet.json", "b"))

    def __len__(self) -> int:
        return 2

    def items(self) -> Any:
        yield "packet.json", b"half"
        raise Killed


def test_a_new_packet_replaces_the_old_one_whole(tmp_path: pathlib.Path) -> None:
    out = tmp_path / "deep" / "packet"
    output.write(out, files("old", "gone.txt"))
    output.write(out, files("new"))
    assert read(out) == files("new")
    assert beside(out) == ["packet"]


def test_a_run_that_dies_while_writing_leaves_the_old_packet(tmp_path: pathlib.Path) -> None:
    out = tmp_path / "packet"
    output.write(out, files("old"))
    with pytest.raises(Killed):
        output.write(out, Breaking())
    assert read(out) == files("old") and beside(out) == ["packet"]


def test_a_run_that_dies_between_the_renames_leaves_the_old_packet(
    tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "packet"
    output.write(out, files("old"))
    rename = pathlib.Path.rename

    def dying(self: pathlib.Path, target: pathlib.Path) -> pathlib.Path:
        if ".new-" in self.name:
            raise Killed
        return rename(self, target)

    monkeypatch.setattr(pathlib.Path, "rename", dying)
    with pytest.raises(Killed):
        output.write(out, files("new"))
    assert read(out) == files("old") and beside(out) == ["packet"]


def test_what_a_killed_run_left_is_put_back_and_cleaned(tmp_path: pathlib.Path) -> None:
    out = tmp_path / "packet"
    output.write(out, files("old"))
    aside = tmp_path / ".packet.old-x1"
    aside.mkdir()
    out.rename(aside / "packet")
    (tmp_path / ".packet.new-x2").mkdir()
    (tmp_path / ".packet.new-x2" / "half").write_text("half")
    with pytest.raises(Killed):
        output.write(out, Breaking())
    assert read(out) == files("old") and beside(out) == ["packet"]


@pytest.mark.parametrize("index", [None, "{}", "[]", "not json", '{"files": ["mine.txt"]}'])
def test_a_folder_that_is_not_ours_is_refused(tmp_path: pathlib.Path, index: str | None) -> None:
    out = tmp_path / "photos"
    out.mkdir()
    (out / "mine.txt").write_text("mine")
    if index is not None:
        (out / "packet.json").write_text(index)
    before = read(out)
    with pytest.raises(UsageError, match=r"photos is not a packet of buildspec \(no packet\.json\)"):
        output.write(out, files("new"))
    assert read(out) == before


def test_a_file_that_somebody_put_into_a_packet_is_not_lost(tmp_path: pathlib.Path) -> None:
    out = tmp_path / "packet"
    output.write(out, files("old"))
    (out / "a" / "photo.jpg").write_bytes(b"x")
    with pytest.raises(UsageError, match=r"holds a/photo\.jpg, not of the packet"):
        output.write(out, files("new"))
    assert (out / "a" / "photo.jpg").exists()


def test_an_empty_folder_is_filled_and_a_file_refused(tmp_path: pathlib.Path) -> None:
    (tmp_path / "empty").mkdir()
    output.write(tmp_path / "empty", files("new"))
    assert read(tmp_path / "empty") == files("new")
    (tmp_path / "file").write_text("x")
    with pytest.raises(UsageError, match="is a file"):
        output.write(tmp_path / "file", files("new"))


def test_a_disk_that_refuses_is_said_in_one_line(tmp_path: pathlib.Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(UsageError, match="cannot write the packet"):
        output.write(tmp_path / "file" / "packet", files("new"))


def test_a_link_to_a_packet_stays_a_link(tmp_path: pathlib.Path) -> None:
    output.write(tmp_path / "real", files("old"))
    (tmp_path / "link").symlink_to("real")
    output.write(tmp_path / "link", files("new"))
    assert (tmp_path / "link").is_symlink() and read(tmp_path / "real") == files("new")


def test_one_file_is_written_only_when_it_changes(tmp_path: pathlib.Path) -> None:
    file = tmp_path / "n.yaml"
    assert output.write_beside(file, b"1") and not output.write_beside(file, b"1")
    assert output.write_beside(file, b"2") and file.read_bytes() == b"2"
    with pytest.raises(UsageError, match="cannot write"):
        output.write_beside(tmp_path / "none" / "n.yaml", b"1")


def compiled(folder: pathlib.Path, seed: str) -> dict[str, str]:
    """SHA-256 of every file of a packet made in a folder of its own, under a hash seed."""
    shutil.copytree(EXAMPLES[0].parent, folder)
    for old in folder.glob("*.numbers.yaml"):
        old.unlink()
    spec = folder / EXAMPLES[0].name
    env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
    subprocess.run(
        [sys.executable, "-m", "buildspec", "compile", str(spec), "--out", str(folder / "out")],
        check=True, env=env, capture_output=True, cwd=folder,
    )  # fmt: skip
    numbers = next(folder.glob("*.numbers.yaml"))
    return {
        name: hashlib.sha256(content).hexdigest()
        for name, content in {**read(folder / "out"), "numbers": numbers.read_bytes()}.items()
    }


def test_same_bytes_in_two_folders_under_two_hash_seeds(tmp_path: pathlib.Path) -> None:
    one, two = compiled(tmp_path / "one", "1"), compiled(tmp_path / "somewhere else" / "two", "4242")
    assert one == two
    assert {"index.html", "packet.json", "bom.csv", "cut-list.csv", "labels.csv", "handover.html"} <= set(one)


def test_compiling_twice_keeps_every_number(
    tmp_path: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(EXAMPLES[0].parent, tmp_path / "job")
    spec = tmp_path / "job" / EXAMPLES[0].name
    assert cli.main(["compile", str(spec)]) == 0
    numbers = next((tmp_path / "job").glob("*.numbers.yaml"))
    first, stamp = numbers.read_bytes(), numbers.stat().st_mtime_ns
    out = next(p for p in (tmp_path / "job").iterdir() if p.is_dir())
    before = read(out)
    assert cli.main(["compile", str(spec)]) == 0
    assert numbers.read_bytes() == first and numbers.stat().st_mtime_ns == stamp and read(out) == before
    assert "look first at" in capsys.readouterr().out


def job(number: str, title: str) -> dict[str, bytes]:
    data = {
        "buildspec": "0",
        "files": ["packet.json"],
        "job": {"number": number, "title": title, "revision": "A"},
    }
    return {"packet.json": json.dumps(data).encode()}


def test_the_packet_of_another_job_is_refused_and_both_are_named(tmp_path: pathlib.Path) -> None:
    out = tmp_path / "packet"
    output.write(out, job("FR-1", "River pickup"))
    with pytest.raises(UsageError) as error:
        output.write(out, job("FR-2", "Flatbed"))
    assert "holds the packet of job FR-1 River pickup and would lose it to job FR-2 Flatbed" in str(
        error.value
    )
    assert read(out) == job("FR-1", "River pickup") and beside(out) == ["packet"]
    output.write(out, job("FR-1", "River pickup, crew 3"))
    assert read(out) == job("FR-1", "River pickup, crew 3")


def test_compile_refuses_the_folder_of_another_job_and_keeps_its_numbers(
    tmp_path: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    specs = []
    for path in EXAMPLES[:2]:
        shutil.copytree(path.parent, tmp_path / path.parent.name)
        specs.append(tmp_path / path.parent.name / path.name)
    assert cli.main(["compile", str(specs[0]), "--out", str(tmp_path / "out")]) == 0
    before = read(tmp_path)
    capsys.readouterr()
    assert cli.main(["compile", str(specs[1]), "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr().err.splitlines()[-1]
    for content in (before["out/packet.json"], compiling.files_of(packet(EXAMPLES[1]))["packet.json"]):
        assert f"job {json.loads(content)['job']['number']} " in said
    assert read(tmp_path) == before


@pytest.mark.parametrize("step", ["numbers", "swap"])
def test_a_run_that_dies_between_packet_and_numbers_loses_neither(
    tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    """Old packet whole, and every number that it or the new one has is kept."""
    shutil.copytree(EXAMPLES[0].parent, tmp_path / "job")
    spec, out = tmp_path / "job" / EXAMPLES[0].name, tmp_path / "out"
    kept = next((tmp_path / "job").glob("*.numbers.yaml"))
    assert cli.main(["compile", str(spec), "--out", str(out)]) == 0
    before, old = read(out), yaml.safe_load(kept.read_text())["numbers"]
    lines = kept.read_text().splitlines(keepends=True)
    kept.write_text("".join(lines[:3]))
    numbered = kept.read_text()

    def dying(*_: object) -> bool:
        raise Killed

    monkeypatch.setattr(output, "write_beside" if step == "numbers" else "_swap", dying)
    with pytest.raises(Killed):
        cli.main(["compile", str(spec), "--out", str(out)])
    assert read(out) == before and beside(out) == ["job", "out"]
    if step == "numbers":
        assert kept.read_text() == numbered
    else:
        assert yaml.safe_load(kept.read_text())["numbers"].keys() >= old.keys()
