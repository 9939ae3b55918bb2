"""The table in the README names every data file and the tests that read it, and nothing else."""

from __future__ import annotations

import re
from pathlib import Path

from reference_rows import DATA

HERE = Path(__file__).parent
LISTED = {
    cells[1].strip(): {name.strip() for name in cells[4].split(",")}
    for line in (HERE / "README.md").read_text(encoding="utf-8").splitlines()
    if re.match(r"\| \w+\.csv ", line) and (cells := line.split("|"))
}


def test_every_data_file_has_its_line():
    assert set(LISTED) == {path.name for path in DATA.iterdir()}


def test_the_named_tests_are_those_that_read_the_file():
    for data, named in LISTED.items():
        readers = {
            path.name
            for path in HERE.parent.rglob("test_*.py")
            if f'"{data}"' in path.read_text(encoding="utf-8")
        }
        assert named == readers, data


def test_every_data_file_carries_source_and_mark():
    for path in DATA.iterdir():
        header = path.read_text(encoding="utf-8").splitlines()[0].split(",")
        assert any(column in ("source", "source_id") for column in header), path.name
        assert any("verified" in column for column in header), path.name
