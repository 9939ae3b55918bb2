"""Rules that a practice sharpens: a caution by default, a refusal where the law of the place is known."""

from __future__ import annotations

import pathlib

import pytest
from rule_fixtures import BASE, PRACTICE
from sample_packets import EXAMPLES, written

from buildspec import pipeline

SCENE = (
    "accessories:\n  scene: {at: load-bed, switch: main.1, legend: SCENE, electrical: {model: constant-current,"
    " worst: 2 A}, lamp: {kind: work, colour: white, faces: rear}}\n"
)


def severities(folder: pathlib.Path, *, change: tuple[str, str], practice: str) -> dict[str, set[str]]:
    """Rule → severities over the base spec with one piece of its text changed."""
    text = BASE.read_text(encoding="utf-8")
    assert change[0] in text
    (folder / "t.build.yaml").write_text(text.replace(*change, 1), encoding="utf-8")
    (folder / "practice.yaml").write_text(PRACTICE.read_text(encoding="utf-8") + practice, encoding="utf-8")
    found: dict[str, set[str]] = {}
    for one in pipeline.check_file(folder / "t.build.yaml").diagnostics:
        found.setdefault(one.rule, set()).add(one.severity)
    return found


FREE_BAR = ("with_main_beam: true", "with_main_beam: false")
REAR_LAMP = ("accessories:\n", SCENE)


@pytest.mark.parametrize(
    ("rule", "change", "practice", "severity"),
    [
        ("driving-lamp-without-main-beam", FREE_BAR, "", "warning"),
        ("driving-lamp-without-main-beam", FREE_BAR, "main_beam_interlock: true\n", "error"),
        ("white-light-to-rear", REAR_LAMP, "", "warning"),
        ("white-light-to-rear", REAR_LAMP, "rear_white: caution\n", "warning"),
        ("white-light-to-rear", REAR_LAMP, "rear_white: reverse only\n", "error"),
        ("lamp-without-cover", FREE_BAR, "", None),
        ("lamp-without-cover", FREE_BAR, "covers: true\n", "error"),
        ("too-many-driving-lamps", FREE_BAR, "lamps_max: 1\n", None),
        ("too-many-driving-lamps", FREE_BAR, "lamps_max: 0\n", "error"),
        ("driving-lamps-not-symmetric", FREE_BAR, "", None),
        ("driving-lamps-not-symmetric", FREE_BAR, "lamps_symmetric: true\n", "error"),
        ("key-without-indicator", FREE_BAR, "", None),
        ("key-without-indicator", FREE_BAR, "indicators: true\n", "error"),
    ],
)
def test_the_practice_turns_a_caution_into_a_refusal(
    tmp_path: pathlib.Path, rule: str, change: tuple[str, str], practice: str, severity: str | None
) -> None:
    """A81: the same bar passes with a warning by default and is refused under the rules of that country."""
    found = severities(tmp_path, change=change, practice=practice)
    assert found.get(rule) == (None if severity is None else {severity})


def test_what_stays_as_it_came_is_printed_on_the_cover_and_on_the_work_order() -> None:
    told = 0
    for path in EXAMPLES:
        document, _, _ = pipeline.spec_of(path)
        assert document is not None
        for function in document.data["vehicle"]["untouched"]:
            assert f"- {function}" in written(path)["cover"]
            assert function in written(path)["work_order"]
            told += 1
    assert told >= 3
