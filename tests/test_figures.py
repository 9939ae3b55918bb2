"""Layers of figures: the most specific wins, laxer ones need a document, both are kept."""

from __future__ import annotations

import pytest

from buildspec.figures import Layer, decide
from buildspec.model import Beaten

BASE = {
    "wire_margin": "100 %",
    "drop_limit": {"critical": "3 %", "general": "10 %"},
    "min_wire": "1 mm2",
    "covers": False,
    "insulation": 105,
}
SOURCES = {"wire_margin": "a circular", "drop_limit": "a standard"}


def layer(name: str, **written: object) -> Layer:
    return Layer(name, name, (), written)


def test_the_most_specific_layer_wins_and_the_others_are_kept() -> None:
    made = decide(
        BASE, SOURCES, [layer("practice", wire_margin="110 %"), layer("profile", wire_margin="125 %")]
    )
    margin = next(c for c in made.choices if c.figure == "wire_margin")
    assert (margin.value, margin.layer) == ("125 %", "profile")
    assert margin.beaten == (
        Beaten("built-in basis", "100 %", "a circular"),
        Beaten("practice", "110 %", "practice"),
    )
    assert made.written == {"wire_margin": "125 %"}
    assert not made.faults


def test_groups_are_laid_key_by_key() -> None:
    made = decide(
        BASE,
        SOURCES,
        [layer("practice", drop_limit={"general": "5 %"}), layer("profile", drop_limit={"critical": "2 %"})],
    )
    assert made.written["drop_limit"] == {"general": "5 %", "critical": "2 %"}
    assert {c.figure: c.value for c in made.choices if c.figure.startswith("drop")} == {
        "drop_limit.critical": "2 %", "drop_limit.general": "5 %"}  # fmt: skip


@pytest.mark.parametrize(
    ("figure", "value", "lax"),
    [
        ("wire_margin", "90 %", True), ("wire_margin", "135 %", False), ("min_wire", "0.75 mm2", True),
        ("min_wire", "14 AWG", False), ("drop_limit", {"critical": "4 %"}, True), ("drop_limit", {"critical": "3 %"}, False),
        ("covers", True, False), ("insulation", 125, True), ("insulation", 90, False),
    ],
)  # fmt: skip
def test_a_laxer_figure_needs_a_document(figure: str, value: object, lax: bool) -> None:
    bare = decide(BASE, SOURCES, [layer("practice", **{figure: value})])
    named = decide(
        BASE, SOURCES, [layer("practice", **{figure: value, "documents": {figure: "bulletin 7, revision C"}})]
    )
    assert [rule for rule, _ in bare.faults] == (["laxer-without-document"] if lax else [])
    assert not named.faults
    assert next(c for c in named.choices if c.figure.startswith(figure)).source == "bulletin 7, revision C"


@pytest.mark.parametrize("name", ["", "   ", "x", "n/a", "Common practice, no source"])
def test_a_word_is_no_document(name: str) -> None:
    for written in ({"document": name}, {"documents": {"wire_margin": name}}):
        made = decide(BASE, SOURCES, [layer("practice", wire_margin="90 %", **written)])
        assert [rule for rule, _ in made.faults] == ["laxer-without-document"]


def test_laxer_is_measured_against_the_layer_below_and_not_the_basis() -> None:
    made = decide(
        BASE, SOURCES, [layer("practice", wire_margin="135 %"), layer("profile", wire_margin="125 %")]
    )
    assert [finding.doc for _, finding in made.faults] == ["profile"]
    assert "the practice's 135 %" in made.faults[0][1].message


def test_switching_a_demand_off_is_laxer() -> None:
    made = decide(BASE, SOURCES, [layer("practice", covers=True), layer("spec", covers=False)])
    assert [finding.at for _, finding in made.faults] == [("covers",)]


LATER = [{"at": "200 %", "min": "60 s", "max": "90 s"}]
"""Of a strip fuse, whose built-in gate at twice its rating is 1 to 15 s."""
SOONER = [{"at": "200 %", "max": "2 s"}]
SAME = [{"at": "200 %", "min": "1 s", "max": "15 s"}]


@pytest.mark.parametrize(
    ("rows", "lax"),
    [
        (LATER, "at 200 % it opens no sooner than 60 s instead of 1 s"),
        (SOONER, "at 200 % it opens no later than 2 s instead of 15 s"),
        ([{"at": "135 %", "max": "1 s"}], "at 135 % it opens no later than 1 s instead of 1.8e+03 s"),
        (
            [{"at": "200 %", "min": "0.5 s", "max": "20 s"}, {"at": "600 %", "min": "0.05 s", "max": "2 s"}],
            "",
        ),
    ],
)
def test_opening_times_that_ask_for_less_need_a_curve_sheet(rows: object, lax: str) -> None:
    bare = decide(BASE, SOURCES, [layer("practice", fuse_gates={"strip-m5": rows})])
    named = decide(
        BASE,
        SOURCES,
        [layer("practice", fuse_gates={"strip-m5": rows}, documents={"fuse_gates": "curve sheet 3, C"})],
    )
    assert [rule for rule, _ in bare.faults] == (["laxer-without-document"] if lax else [])
    assert not named.faults
    if lax:
        (_, one), *_ = bare.faults
        assert lax in one.message and one.at == ("fuse_gates", "strip-m5") and one.doc == "practice"


def test_a_curve_that_a_sheet_brought_is_the_measure_for_the_next_layer() -> None:
    shop = layer("practice", fuse_gates={"strip-m5": LATER}, document="curve sheet 3, C")
    assert not decide(BASE, SOURCES, [shop, layer("spec", fuse_gates={"strip-m5": LATER})]).faults
    made = decide(BASE, SOURCES, [shop, layer("spec", fuse_gates={"strip-m5": SAME})])
    assert [finding.doc for _, finding in made.faults] == ["spec"]
