"""Edges of the tables and of the valid ranges: no silent extrapolation."""

from __future__ import annotations

import pytest

from buildspec.calc import adiabatic, ampacity, battery, conductors, fuses, gauge, load


def test_insulation_outside_the_table_says_what_is_covered_and_what_would_fit():
    with pytest.raises(ampacity.OutsideTable) as caught:
        ampacity.base_a(awg=14, insulation_c=85)
    assert str(caught.value) == (
        "insulation 85 C is not in 33 CFR 183.425 Table 5, which covers 60, 75, 80, 90, 105, 125, 200 C; "
        "the 80 C column is the next below"
    )


def test_insulation_below_the_table_has_no_column_to_offer():
    with pytest.raises(ampacity.OutsideTable, match=r"insulation 50 C is not in .* 200 C$"):
        ampacity.engine_factor(insulation_c=50)
    with pytest.raises(ampacity.OutsideTable, match=r"insulation 50 C is not in"):
        ampacity.engine_factor_mark(insulation_c=50)


@pytest.mark.parametrize("awg", [20, 17, 5, -4])
def test_gauge_outside_the_table(awg):
    with pytest.raises(ampacity.OutsideTable, match=r"is not in .* which covers 18 AWG, 16 AWG, .* 4/0 AWG$"):
        ampacity.base_a(awg=awg, insulation_c=105)


def test_no_conductor_is_no_bundle():
    with pytest.raises(ampacity.OutsideTable, match="0 loaded conductors"):
        ampacity.bundle_factor(loaded=0)


@pytest.mark.parametrize(("loaded", "factor"), [(1, 1.0), (2, 1.0), (3, 0.7), (25, 0.4), (500, 0.4)])
def test_bundle_steps(loaded, factor):
    assert ampacity.bundle_factor(loaded=loaded) == factor


@pytest.mark.parametrize(
    ("area_mm2", "row"), [(0.82, 18), (0.8, None), (0.5, None), (2.07, 16), (2.071, 14), (120, -3)]
)
def test_row_for_an_area(area_mm2, row):
    assert ampacity.awg_row_for(area_mm2) == row


@pytest.mark.parametrize("n", [41, -4])
def test_no_such_gauge(n):
    with pytest.raises(ValueError, match=f"no gauge {n}: 40 AWG to 4/0 AWG"):
        gauge.awg_area_mm2(n)


def test_a_cooling_fault_has_no_k():
    with pytest.raises(ValueError, match="final temperature 70 C must exceed the initial 70 C"):
        adiabatic.k_factor(initial_c=70, final_c=70)


@pytest.mark.parametrize("efficiency", [0, -0.1, 1.01, 90])
def test_efficiency_is_a_share(efficiency):
    with pytest.raises(ValueError, match="efficiency .* is not above 0 and up to 1"):
        load.converter_input_a(output_a=1, output_v=12, input_v=12, efficiency=efficiency)
    with pytest.raises(ValueError, match="charge efficiency .* is not above 0 and up to 1"):
        battery.recharge_hours(removed_ah=1, charge_a=1, charge_efficiency=efficiency)


@pytest.mark.parametrize("depth", [-0.1, 1.1, 50])
def test_depth_is_a_share(depth):
    with pytest.raises(ValueError, match="depth .* is not between 0 and 1"):
        battery.days_standing(capacity_ah=45, depth=depth, current_a=1)


def test_unknown_chemistry_lists_the_known_ones():
    with pytest.raises(
        ValueError, match="no chemistry `nickel`: flooded, agm, gel, lithium-iron-phosphate are known"
    ):
        battery.chemistry("nickel")


def test_marks_of_a_chemistry_name_its_figures_and_cannot_be_changed():
    marks = battery.chemistry("gel").marks
    assert set(marks) == set(battery.Chemistry._fields) - {"name", "marks", "source"}
    with pytest.raises(TypeError):
        marks["peukert"] = "yes"


def test_names_that_are_no_standard_size():
    for name in ("2.5", "6 mm", "15 AWG", "14AWG"):
        assert conductors.conductor(name) is None


def test_a_size_without_stock_keeps_its_name_but_is_never_chosen():
    three = conductors.conductor("3 AWG")
    assert three is not None
    assert not three.stocked
    assert three not in conductors.conductors("awg")


def test_unknown_family_has_no_fuses():
    assert fuses.fuses("glass") == ()
    assert fuses.standard("glass", 10) is None
    assert fuses.smallest("mini-blade", at_least_a=30.1) is None


def test_a_figure_without_its_voltage_holds_up_to_the_rated_one():
    strip = fuses.standard("strip-m8", 200)
    assert strip.breaking_at_v is None
    assert fuses.breaking_a_at(strip, nominal_v=24) == 2000
    assert fuses.breaking_a_at(strip, nominal_v=48) is None
