"""k factors of the IEC 60364-5-54 family, adiabatic limits and Onderdonk's equation."""

from __future__ import annotations

import math

import pytest
from reference_rows import awg, cases, rows

from buildspec.calc import adiabatic, gauge

K = "adiabatic_k.csv"
WITHSTAND = "short_circuit_withstand.csv"
METALS = {"Cu": "copper", "Al": "aluminium", "steel": "steel"}


def k_of(row):
    return adiabatic.k_factor(
        initial_c=float(row["initial_temp_c"]),
        final_c=float(row["final_temp_c"]),
        metal=METALS[row["conductor"]],
    )


@pytest.mark.parametrize(
    "row", cases(K, ids=["k_id", "conductor"], where=lambda r: r["verified_published"] == "yes")
)
def test_published_k(row):
    assert k_of(row) == pytest.approx(float(row["k_published_a_sqrt_s_per_mm2"]), abs=1.0)


def test_published_k_rows_number_21():
    assert sum(r["verified_published"] == "yes" for r in rows(K)) == 21


@pytest.mark.parametrize("row", cases(K, ids=["k_id"], where=lambda r: r["verified_icea"] == "computed"))
def test_k_against_the_icea_form(row):
    """(I/A)^2 t = 0.0297 log10((T2 + 234)/(T1 + 234)), A in circular mils: other constants, 1 % apart."""
    assert k_of(row) == pytest.approx(float(row["k_from_icea_cmil_formula_a_sqrt_s_per_mm2"]), rel=0.01)


@pytest.mark.parametrize(
    "row", cases(WITHSTAND, ids=["awg", "time_s"], where=lambda r: r["verified_onderdonk"] == "computed")
)
def test_short_circuit_withstand(row):
    area = gauge.awg_area_mm2(awg(row["awg"]))
    time_s = float(row["time_s"])
    for k in (115, 143):
        limit = adiabatic.let_through_limit_a2s(k=k, area_mm2=area)
        assert limit == pytest.approx(float(row[f"i2t_limit_k{k}_a2s"]), rel=2e-4)
        assert math.sqrt(limit / time_s) == pytest.approx(float(row[f"adiabatic_current_k{k}_a"]), rel=2e-4)
    melts = adiabatic.onderdonk_a(area_mm2=area, time_s=time_s, ambient_c=float(row["ambient_c"]))
    assert melts == pytest.approx(float(row["onderdonk_fusing_current_a"]), rel=2e-4)


def test_onderdonk_against_the_energy_that_melts_copper():
    """k of bare copper from 25 to 1083 degC by IEC 60364-5-54 gives the same current within 1 %."""
    area = gauge.awg_area_mm2(14)
    k = adiabatic.k_factor(initial_c=25, final_c=1083)
    by_k = math.sqrt(adiabatic.let_through_limit_a2s(k=k, area_mm2=area) / 1.0)
    assert adiabatic.onderdonk_a(area_mm2=area, time_s=1.0, ambient_c=25) == pytest.approx(by_k, rel=0.01)
