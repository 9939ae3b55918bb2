"""The numbering file: a designation has the IEC 81346-2 letter of what it names."""

from __future__ import annotations

import pathlib

import pytest

from buildspec import pipeline
from buildspec.findings import Diagnostic

RIGHT = {
    "bar": "E1", "bar/feed": "W02", "bar/fuse": "F1", "bar/relay": "K3", "data/power_off": "S4", "assist/feed2": "W11",
    "charger/in/start/lead": "W01", "circuit bar": "W12", "bench": "U6",
}  # fmt: skip


def said(folder: pathlib.Path, kept: dict[str, str]) -> list[Diagnostic]:
    lines = "".join(f'  "{key}": {designation}\n' for key, designation in kept.items())
    (folder / "job.numbers.yaml").write_text(f"numbers:\n{lines}", encoding="utf-8")
    return [
        d for d in pipeline.numbers_of(folder / "job.build.yaml")[1] if d.rule == "designation-of-wrong-kind"
    ]


def test_the_letters_of_iec_81346_pass(tmp_path: pathlib.Path) -> None:
    assert not said(tmp_path, RIGHT)


@pytest.mark.parametrize(
    ("key", "designation", "words"),
    [
        ("bar/fuse", "W03", "`bar/fuse` is a fuse and is kept as `W03`; its letter is `F`"),
        ("bar/feed", "F2", "is a conductor and is kept as `F2`; its letter is `W`"),
        ("charger/in/start/lead", "F9", "is a conductor"),
        ("bar/relay", "W9", "is a relay"),
        ("data/power_off", "K9", "is a switch"),
        ("bar", "W09", "is an item and no conductor"),
    ],
)
def test_a_swapped_letter_is_refused_at_its_line(
    tmp_path: pathlib.Path, key: str, designation: str, words: str
) -> None:
    (one,) = said(tmp_path, RIGHT | {key: designation})
    assert words in one.message and "label" in one.help
    assert one.span.file == str(tmp_path / "job.numbers.yaml")
    assert one.span.line == 2 + list(RIGHT).index(key)
