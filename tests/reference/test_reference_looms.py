"""Fill, circles round equal wires, supports, clearances, bends and shrink tube against their published figures."""

from __future__ import annotations

import math

import pytest
from reference_rows import cases, rows

from buildspec import layers
from buildspec.calc import bundle
from buildspec.documents import routing
from buildspec.looms import runs
from buildspec.quantity import Fault, parse

LOOM = "conduit_loom.csv"
COUNTS = {"count 1": 1, "count 2": 2, "count over 2": 3}
M_IN = {"in": 0.0254, "mm": 0.001}


def proven(row):
    return row["verified"] in ("yes", "computed") and row["confidence"] == "high"


def of(kind):
    return lambda row: row["record_type"] == kind and proven(row)


def rule(item, condition):
    (row,) = [r for r in rows(LOOM) if r["item"] == item and condition in r["condition"] and proven(r)]
    return row


def length_m(text):
    found = parse(text, "length")
    assert not isinstance(found, Fault)
    return found.value


@pytest.mark.parametrize("row", cases(LOOM, ids=["condition"], where=of("fill_factor")))
def test_fill_of_nec_chapter_9_table_1(row):
    count = COUNTS[row["condition"]]
    assert bundle.fill_share(count) * 100 == pytest.approx(float(row["value"]))
    assert bundle.fill_share(12) == bundle.fill_share(3)


@pytest.mark.parametrize("row", cases(LOOM, ids=["condition"], where=of("fill_computed")))
def test_least_inside_diameter_over_the_root_of_the_squares(row):
    diameters = [2.0] * COUNTS[row["condition"]]
    root = math.sqrt(sum(d * d for d in diameters))
    assert bundle.conduit_inside_mm(diameters) / root == pytest.approx(float(row["value"]), abs=5e-5)


@pytest.mark.parametrize(
    "row",
    cases(LOOM, ids=["condition"], where=lambda r: of("bundle_formula_check")(r) and "exact" in r["item"]),
)
def test_circle_round_equal_wires(row):
    count, exact = int(row["condition"].removeprefix("n = ")), float(row["value"])
    assert bundle.equal_ratio(count) == pytest.approx(exact, abs=5e-5)
    found = bundle.bundle([3.0] * count).diameter_mm / 3.0
    if count <= 7:
        assert found == pytest.approx(exact, abs=5e-5)
    else:
        assert exact <= found <= bundle.ROUND_BUNDLE * math.sqrt(count) + 1e-9


def test_the_formula_is_that_of_the_calculators_and_the_exact_value_is_larger_for_two_to_six():
    (row,) = [r for r in rows(LOOM) if r["record_type"] == "bundle_formula"]
    assert row["verified"] == "yes" and float(row["value"]) == bundle.ROUND_BUNDLE
    for count in range(2, 7):
        assert bundle.bundle([1.0] * count).diameter_mm > bundle.ROUND_BUNDLE * math.sqrt(count)


@pytest.mark.parametrize(
    ("key", "condition"),
    [("loom", "others than battery cables"), ("battery_cable", "small craft, battery cable")],
)
def test_support_spacing_is_that_of_iso_10133(key, condition):
    row = rule("clamp or support spacing", condition)
    assert row["source"] == "ISO 10133:2012"
    assert length_m(layers.builtin()["support_spacing"][key]) == pytest.approx(
        float(row["value"]) * M_IN[row["unit"]]
    )


@pytest.mark.parametrize("condition", ["aircraft wiring", "small passenger vessel", "boat DC wiring"])
def test_the_other_published_spacings_are_wider(condition):
    row = rule("clamp or support spacing", condition)
    assert length_m(layers.builtin()["support_spacing"]["loom"]) < float(row["value"]) * M_IN[row["unit"]]


def test_clearance_from_fuel_and_ties_are_those_of_ac_43_13_1b():
    least, wanted = (rule("clearance", f"flammable fluid line, {word}") for word in ("least", "wanted"))
    assert length_m(layers.builtin()["clearance"]["fuel"]) == pytest.approx(float(least["value"]) * 0.0254)
    assert pytest.approx(float(wanted["value"]) * 0.0254) == routing.FUEL_WANTED_M
    tie = rule("tie spacing trigger", "tie the bundle")
    assert pytest.approx(float(tie["value"]) * 0.0254) == runs.TIE_FROM_M


def test_bend_is_ten_diameters():
    row = rule("bend radius", "single wire or cable")
    assert row["unit"] == "x outside diameter"
    assert bundle.bend_radius_mm(6.0) == pytest.approx(6.0 * float(row["value"]))


@pytest.mark.parametrize(
    "row",
    cases(LOOM, ids=["nominal"], where=lambda r: of("heat_shrink_dual_wall")(r) and " in" in r["nominal"]),
)
def test_dual_wall_shrink_tube(row):
    size = next(s for s in bundle.sleeves("dual-wall shrink") if s.name == row["nominal"])
    assert size.inside_mm == float(row["inside_dia_mm"]) and size.verified == "yes"
    assert size.recovered_mm == float(row["recovered_inside_dia_mm"])
    assert size.inside_mm / size.recovered_mm == pytest.approx(float(row["value"]), abs=0.01)


def test_a_shrink_tube_is_20_percent_wider_than_what_it_goes_over():
    row = rule("heat shrink choice", "supplied ID above")
    assert pytest.approx(1 + float(row["value"]) / 100) == bundle.SHRINK_OVER
    widest = max(s.inside_mm for s in bundle.sleeves("dual-wall shrink"))
    over = widest / (1 + float(row["value"]) / 100)
    assert bundle.shrink_for(over_mm=over - 0.01, grip_mm=10.0) is not None
    assert bundle.shrink_for(over_mm=over + 0.01, grip_mm=10.0) is None
    assert bundle.shrink_for(over_mm=5.0, grip_mm=0.5) is None


def test_recalled_tubes_keep_their_mark():
    recalled = [r for r in rows(LOOM) if r["record_type"] == "split_loom"]
    assert {r["verified"] for r in recalled} == {"memory"}
    tubes = [*bundle.sleeves("split loom, inch"), *bundle.sleeves("corrugated conduit, metric")]
    assert len(tubes) == len(recalled) and {t.verified for t in tubes} == {"memory"}


@pytest.mark.parametrize(
    "row", cases("awg.csv", ids=["awg"], where=lambda r: r["nec_t8_stranded_overall_diameter_mm"] != "")
)
def test_stranded_copper_under_the_wall_of_a_cable(row):
    """NEC chapter 9 table 8: the copper of the estimate is as thick as the table's, within 2 %."""
    copper_mm = bundle.cable_diameter_mm(float(row["area_mm2"])) - 2 * bundle.CABLE_WALL_MM
    assert copper_mm == pytest.approx(float(row["nec_t8_stranded_overall_diameter_mm"]), rel=0.02)
