"""What must hold for any numbers: order, inverses, known slopes."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildspec.calc import (
    adiabatic,
    ampacity,
    battery,
    conductors,
    copper,
    drop,
    fuses,
    gauge,
    interrupting,
    load,
)

positive = st.floats(min_value=1e-3, max_value=1e4)
share = st.floats(min_value=0.01, max_value=1.0)
insulation = st.sampled_from(ampacity.INSULATIONS_C)


@given(st.integers(min_value=-3, max_value=39))
def test_39_gauges_span_a_ratio_of_92_in_diameter(n):
    """ASTM B258: neighbours differ by 92^(2/39) in area, six numbers by almost four."""
    assert gauge.awg_area_mm2(n) / gauge.awg_area_mm2(n + 1) == pytest.approx(92 ** (2 / 39))


@given(insulation)
def test_ampacity_rises_with_size(insulation_c):
    sizes = [18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3]
    found = [ampacity.base_a(awg=n, insulation_c=insulation_c) for n in sizes]
    assert found == sorted(set(found))


@pytest.mark.parametrize("awg", [18, 14, 6, -3])
def test_ampacity_never_falls_with_better_insulation(awg):
    found = [ampacity.base_a(awg=awg, insulation_c=c) for c in ampacity.INSULATIONS_C]
    assert found == sorted(found)
    factors = [ampacity.engine_factor(insulation_c=c) for c in ampacity.INSULATIONS_C]
    assert factors == sorted(factors)


@given(st.integers(min_value=1, max_value=80))
def test_one_more_conductor_never_helps(loaded):
    assert ampacity.bundle_factor(loaded=loaded + 1) <= ampacity.bundle_factor(loaded=loaded) <= 1


@given(st.floats(min_value=0.1, max_value=200))
def test_a_row_is_never_larger_than_the_wire(area_mm2):
    row = ampacity.awg_row_for(area_mm2)
    smallest = gauge.awg_area_mm2(18)
    if row is None:
        assert area_mm2 < smallest
    else:
        assert gauge.awg_area_mm2(row) <= area_mm2 * 1.006


@given(current_a=positive, loop_m=positive, area_mm2=positive)
def test_area_for_a_drop_gives_that_drop(current_a, loop_m, area_mm2):
    lost = drop.drop_v(current_a=current_a, ohm_per_m=copper.r20_ohm_per_m(area_mm2=area_mm2), loop_m=loop_m)
    back = drop.area_for_mm2(
        current_a=current_a, loop_m=loop_m, drop_v=lost, resistivity_ohm_mm2_per_m=0.017241
    )
    assert back == pytest.approx(area_mm2)


@given(current_a=positive, loop_ft=positive, lost_v=positive)
def test_circular_mil_rule_is_copper_at_about_25_degc(current_a, loop_ft, lost_v):
    """K = 10.75 is 17.87 nohm m: copper of IEC 60028 at 29 degC, so within 2 % of 25 degC."""
    cmil = drop.circular_mils_for(current_a=current_a, loop_ft=loop_ft, drop_v=lost_v)
    rho = copper.resistance_at(r20_ohm=0.017241, temp_c=25)
    metric = drop.area_for_mm2(
        current_a=current_a, loop_m=loop_ft * 0.3048, drop_v=lost_v, resistivity_ohm_mm2_per_m=rho
    )
    assert gauge.circular_mils(area_mm2=metric) == pytest.approx(cmil, rel=0.02)


@given(current_a=positive, ambient_c=st.floats(min_value=-40, max_value=90))
def test_operating_temperature_at_no_and_at_full_load(current_a, ambient_c):
    ends = [
        copper.operating_temp_c(current_a=i, ampacity_a=current_a, ambient_c=ambient_c, rated_c=105)
        for i in (0, current_a)
    ]
    assert ends == pytest.approx([ambient_c, 105])


@given(initial_c=st.floats(min_value=0, max_value=150), rise=st.floats(min_value=1, max_value=300))
def test_a_cooler_start_and_a_higher_limit_both_raise_k(initial_c, rise):
    k = adiabatic.k_factor(initial_c=initial_c, final_c=initial_c + rise)
    assert adiabatic.k_factor(initial_c=initial_c, final_c=initial_c + rise + 5) > k
    assert adiabatic.k_factor(initial_c=initial_c - 5, final_c=initial_c + rise) > k


@given(area_mm2=positive, time_s=st.floats(min_value=0.01, max_value=5))
def test_insulation_fails_before_copper_melts(area_mm2, time_s):
    k = adiabatic.k_factor(initial_c=30, final_c=250)
    limit = adiabatic.let_through_limit_a2s(k=k, area_mm2=area_mm2)
    melts = adiabatic.onderdonk_a(area_mm2=area_mm2, time_s=time_s, ambient_c=30)
    assert limit < melts**2 * time_s


@pytest.mark.parametrize("family", fuses.families())
def test_ratings_ascend_and_the_smallest_is_the_next(family):
    ratings = [f.rating_a for f in fuses.fuses(family)]
    assert ratings == sorted(set(ratings))
    for lower, upper in itertools.pairwise(ratings):
        assert fuses.smallest(family, at_least_a=lower).rating_a == lower
        assert fuses.smallest(family, at_least_a=lower + 0.01).rating_a == upper
        assert fuses.standard(family, (lower + upper) / 2) is None


@pytest.mark.parametrize("system", ["awg", "metric"])
def test_conductors_ascend_in_area_and_fall_in_resistance(system):
    found = conductors.conductors(system)
    areas = [c.area_mm2 for c in found]
    resistances = [c.r20_ohm_per_km for c in found]
    assert areas == sorted(set(areas))
    assert resistances == sorted(set(resistances), reverse=True)


@pytest.mark.parametrize("system", ["awg", "metric"])
def test_no_conductor_is_better_than_pure_copper_of_its_area(system):
    for size in conductors.conductors(system):
        assert size.r20_ohm_per_km > copper.r20_ohm_per_m(area_mm2=size.area_mm2) * 1000


@given(cranking_a=st.floats(min_value=1, max_value=2200), more=st.floats(min_value=0, max_value=500))
def test_a_larger_bank_never_asks_for_less(cranking_a, more):
    main = interrupting.required_breaking_a(cranking_a=cranking_a, main=True)
    branch = interrupting.required_breaking_a(cranking_a=cranking_a, main=False)
    larger = interrupting.required_breaking_a(cranking_a=cranking_a + more, main=True)
    assert branch < main
    assert larger is None or larger >= main


@given(capacity_ah=positive, hours=st.floats(min_value=1, max_value=100), exponent=st.floats(1, 1.6))
def test_peukert_returns_the_label_at_the_rated_current(capacity_ah, hours, exponent):
    found = battery.peukert_hours(
        capacity_ah=capacity_ah, rated_hours=hours, exponent=exponent, current_a=capacity_ah / hours
    )
    assert found == pytest.approx(hours)


@given(capacity_ah=positive, current_a=positive, exponent=st.floats(1, 1.6))
def test_both_forms_of_peukert_agree_on_the_capacity_at_one_ampere(capacity_ah, current_a, exponent):
    """The label form with rated hours = capacity is a battery rated at one ampere."""
    label = battery.peukert_hours(
        capacity_ah=capacity_ah, rated_hours=capacity_ah, exponent=exponent, current_a=current_a
    )
    one_ampere = battery.peukert_hours_from_one_ampere(
        one_ampere_ah=capacity_ah, exponent=exponent, current_a=current_a
    )
    assert label == pytest.approx(one_ampere)


@given(power_w=positive, volts=st.floats(min_value=6, max_value=30))
def test_constant_power_rises_and_resistive_falls_as_the_voltage_falls(power_w, volts):
    lower = volts * 0.9
    assert load.power_current_a(power_w=power_w, volts=lower) > load.power_current_a(
        power_w=power_w, volts=volts
    )
    assert load.resistive_current_a(rated_w=power_w, rated_v=12, volts=lower) < load.resistive_current_a(
        rated_w=power_w, rated_v=12, volts=volts
    )


@given(output_a=positive, efficiency=share)
def test_a_converter_never_gives_more_power_than_it_takes(output_a, efficiency):
    found = load.converter_input_a(output_a=output_a, output_v=14.4, input_v=12, efficiency=efficiency)
    assert found * 12 >= output_a * 14.4 * (1 - 1e-12)
