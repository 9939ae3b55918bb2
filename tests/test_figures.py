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
        ("covers", True, False),
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


def test_laxer_is_measured_against_the_layer_below_and_not_the_basis() -> None:
    made = decide(
        BASE, SOURCES, [layer("practice", wire_margin="135 %"), layer("profile", wire_margin="125 %")]
    )
    assert [finding.doc for _, finding in made.faults] == ["profile"]
    assert "the practice's 135 %" in made.faults[0][1].message


def test_switching_a_demand_off_is_laxer() -> None:
    made = decide(BASE, SOURCES, [layer("practice", covers=True), layer("spec", covers=False)])
    assert [finding.at for _, finding in made.faults] == [("covers",)]
