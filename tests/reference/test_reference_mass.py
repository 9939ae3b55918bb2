"""Axle loads, load limits and the label threshold against a body-builder manual, owner manuals and federal rules."""

from __future__ import annotations

import pytest
from reference_rows import cases, rows

from buildspec import show
from buildspec.calc import mass

DATA = "weights.csv"
LB_KG = 0.45359237
"""International pound, 1959, exact."""


def numbers(text):
    return {key: float(value) for key, value in (pair.split("=") for pair in text.split(";"))}


@pytest.mark.parametrize("row", cases(DATA, ids=["id"], where=lambda r: r["kind"] == "axle"))
def test_axle_change_as_in_the_body_builder_manual(row):
    """The lever is the same in inches and pounds; printed to a hundredth, or to a whole pound of thousands."""
    given, wanted = numbers(row["inputs"]), numbers(row["result"])
    front, rear = mass.axle_change_kg(
        mass_kg=given["mass_lb"], station_m=given["station_in"], wheelbase_m=given["wheelbase_in"]
    )
    assert rear == pytest.approx(wanted["rear"], abs=0.011, rel=2e-5)
    assert front == pytest.approx(wanted["front"], abs=0.011, rel=2e-5)


@pytest.mark.parametrize("row", cases(DATA, ids=["id"], where=lambda r: r["kind"] == "axle_si"))
def test_axle_change_ahead_between_and_behind_the_axles(row):
    given, wanted = numbers(row["inputs"]), numbers(row["result"])
    front, rear = mass.axle_change_kg(**given)
    assert (front, rear) == (
        pytest.approx(wanted["front"], abs=0.006),
        pytest.approx(wanted["rear"], abs=0.006),
    )


@pytest.mark.parametrize("row", cases(DATA, ids=["id"], where=lambda r: r["kind"] == "cargo"))
def test_cargo_left_as_owner_manuals_print_it(row):
    given = numbers(row["inputs"])
    left = mass.cargo_left_kg(
        capacity_kg=given["capacity"], people_kg=given["people"], cargo_kg=given["cargo"], added_kg=0
    )
    assert left == numbers(row["result"])["left"]


def test_moments_about_the_rear_axle():
    """W-13: with the datum at the rear axle the front takes m p / L, whatever L is."""
    row = next(r for r in rows(DATA) if r["kind"] == "moments")
    pairs = [tuple(float(v) for v in item.split("*")) for item in row["inputs"].split(";")]
    wanted, wheelbase = numbers(row["result"]), 330.0
    fronts = [
        mass.axle_change_kg(mass_kg=m, station_m=wheelbase - p, wheelbase_m=wheelbase)[0] for m, p in pairs
    ]
    assert sum(m for m, _ in pairs) == wanted["total"]
    assert sum(fronts) * wheelbase == pytest.approx(wanted["moment"])


@pytest.mark.parametrize("row", cases(DATA, ids=["id"], where=lambda r: r["kind"] == "label"))
def test_label_threshold(row):
    limit = mass.label_threshold_kg(gross_kg=numbers(row["inputs"])["gross_lb"] * LB_KG)
    assert limit / LB_KG == pytest.approx(numbers(row["result"])["limit_lb"])


def test_threshold_and_crossover_of_49_cfr_571_110_s10():
    listed = {row["rule_id"]: row for row in rows("us_vehicle_rules.csv")}
    assert listed["US-110-S10"]["numeric_values_with_units"] == "1.5 % of GVWR; 100 lb; 45.4 kg"
    assert mass.label_threshold_kg(gross_kg=10000 * LB_KG) == pytest.approx(45.4, abs=0.05)
    crossover_lb = float(listed["US-110-S10-x"]["numeric_values_with_units"].split(" lb")[0])
    below, above = (mass.label_threshold_kg(gross_kg=(crossover_lb + d) * LB_KG) / LB_KG for d in (-1, 1))
    assert below == pytest.approx(0.015 * (crossover_lb - 1)) and below < 100
    assert above == pytest.approx(100)
    assert "10 000 lb or less" in listed["US-110-S10"]["applies_when"]
    assert mass.is_label_law(gross_kg=10000 * LB_KG) and not mass.is_label_law(gross_kg=10001 * LB_KG)


def test_copper_of_a_square_millimetre_weighs_8_89_g_a_metre():
    """IEC 60028: density of annealed copper at 20 °C 8.89 g/cm³."""
    bare = mass.conductor_kg(area_mm2=1, length_m=1000) / mass.INSULATION_FACTOR
    assert bare == pytest.approx(8.89)


@pytest.mark.parametrize("row", cases("tiedown.csv", ids=["id"], where=lambda r: True))
def test_forces_in_pounds(row):
    assert float(row["newtons"]) / show.N_PER_LBF == pytest.approx(float(row["pounds_force"]), rel=1e-4)
