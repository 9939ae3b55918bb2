"""33 CFR 183.425 Table 5, its factors, and a boat-cable maker's own bundle table."""

from __future__ import annotations

import math

import pytest
from reference_rows import awg, cases, rows

from buildspec.calc import ampacity, copper

TABLE = "ampacity_33cfr183.csv"
FACTORS = "ampacity_33cfr183_factors.csv"
BOAT = "boat_cable_105c.csv"
BUNDLES = {"<=2": (1, 2), "3": (3,), "4-6": (4, 6), "7-24": (7, 24), ">=25": (25, 60)}
RULE_200C_EXCEEDS_FORMULA = 200.0


def test_the_whole_table_is_covered():
    assert sum(row["verified_ampacity"] == "yes" for row in rows(TABLE)) == 105


@pytest.mark.parametrize(
    "row", cases(TABLE, ids=["awg", "insulation_temp_c"], where=lambda r: r["verified_ampacity"] == "yes")
)
def test_table_5(row):
    found = ampacity.base_a(awg=awg(row["awg"]), insulation_c=float(row["insulation_temp_c"]))
    assert found == float(row["ampacity_outside_engine_space_a"])


@pytest.mark.parametrize("row", cases(TABLE, ids=["awg"], where=lambda r: r["verified_printed"] == "yes"))
def test_inside_engine_space_as_printed_in_whole_amperes(row):
    found = ampacity.base_a(awg=awg(row["awg"]), insulation_c=105) * ampacity.engine_factor(insulation_c=105)
    assert found == pytest.approx(float(row["inside_a_as_printed_in_trade_copy_of_table"]), abs=0.5)


@pytest.mark.parametrize(
    "row",
    cases(
        FACTORS,
        ids=["factor_id"],
        where=lambda r: r["verified"] == "yes" and r["factor_id"].startswith("BUN"),
    ),
)
def test_bundle_factor_as_read(row):
    last = int(row["to_value"] or 99)
    assert ampacity.bundle_factor(loaded=int(row["from_value"])) == float(row["factor"])
    assert ampacity.bundle_factor(loaded=last) == float(row["factor"])


def test_engine_factor_as_read_at_105c():
    (read,) = (r for r in rows(FACTORS) if r["factor_id"].startswith("ENG") and r["verified"] == "yes")
    assert ampacity.engine_factor(insulation_c=float(read["from_value"])) == float(read["factor"]) == 0.85
    assert ampacity.engine_factor_mark(insulation_c=105) == "yes"


@pytest.mark.parametrize(
    "row",
    cases(FACTORS, ids=["factor_id"], where=lambda r: r["verified"] == "memory"),
)
def test_recalled_engine_factor_only_cross_checked_by_heat_balance(row):
    """Not read in a copy: proved no further than the square-root law of its two ambients."""
    rated_c = float(row["from_value"])
    formula = math.sqrt((rated_c - 50) / (rated_c - 30))
    assert ampacity.engine_factor_mark(insulation_c=rated_c) == "memory"
    if rated_c == RULE_200C_EXCEEDS_FORMULA:
        assert ampacity.engine_factor(insulation_c=rated_c) == 1.0
        assert formula == pytest.approx(0.939, abs=0.001)
    else:
        assert ampacity.engine_factor(insulation_c=rated_c) == pytest.approx(formula, abs=0.01)


@pytest.mark.parametrize(
    "row",
    cases(
        BOAT,
        ids=["awg", "current_carrying_conductors", "engine_space"],
        where=lambda r: r["verified"] == "yes",
    ),
)
def test_boat_cable_maker_prints_the_same_products(row):
    inside = row["engine_space"] == "inside"
    factor = ampacity.engine_factor(insulation_c=105) if inside else 1.0
    for loaded in BUNDLES[row["current_carrying_conductors"]]:
        found = (
            ampacity.base_a(awg=awg(row["awg"]), insulation_c=105)
            * factor
            * ampacity.bundle_factor(loaded=loaded)
        )
        assert found == pytest.approx(float(row["published_ampacity_a"]), abs=0.06)


def test_boat_cable_rows_that_are_published_number_112():
    assert sum(row["verified"] == "yes" for row in rows(BOAT)) == 112


def test_table_current_inside_an_engine_space_brings_105c_wire_to_its_rating():
    """The factor read in the table and the square law of `operating_temp_c` agree within 1 K."""
    ampacity_at_50c = 100 * math.sqrt((105 - 50) / (105 - 30))
    current = 100 * ampacity.engine_factor(insulation_c=105)
    found = copper.operating_temp_c(current_a=current, ampacity_a=ampacity_at_50c, ambient_c=50, rated_c=105)
    assert found == pytest.approx(105, abs=1.0)
    assert found < 105


def test_law_of_table_5_row_for_every_gauge():
    """ASTM B258 areas of the reference file fall on their own rows."""
    listed = {awg(row["awg"]) for row in rows(TABLE)}
    for row in rows("awg.csv"):
        if awg(row["awg"]) in listed:
            assert ampacity.awg_row_for(float(row["area_mm2"])) == awg(row["awg"])
