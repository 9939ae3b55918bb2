"""AWG geometry and resistance, NEC chapter 9 table 8, IEC 60228, and outside diameters."""

from __future__ import annotations

import pytest
from reference_rows import FOOT_M, awg, cases, rows

from buildspec.calc import conductors, copper, gauge

AWG = "awg.csv"
METRIC = "metric_wire.csv"
FEET_PER_KM = 1000 / FOOT_M


def per_km(row, *, temp_c):
    r20 = copper.r20_ohm_per_m(area_mm2=gauge.awg_area_mm2(int(row["n"]))) * 1000
    return copper.resistance_at(r20_ohm=r20, temp_c=temp_c)


@pytest.mark.parametrize(
    "row", cases(AWG, ids=["awg"], where=lambda r: r["verified_geometry_and_r"] == "computed")
)
def test_geometry_and_resistance(row):
    area = gauge.awg_area_mm2(awg(row["awg"]))
    assert area == pytest.approx(float(row["area_mm2"]), rel=5e-5)
    assert gauge.circular_mils(area_mm2=area) == pytest.approx(float(row["circular_mils"]), rel=5e-5)
    for temp_c in (20, 50, 75, 105):
        assert per_km(row, temp_c=temp_c) == pytest.approx(
            float(row[f"r_solid_{temp_c}c_ohm_per_km"]), rel=2e-4
        )


@pytest.mark.parametrize(
    "row", cases(AWG, ids=["awg"], where=lambda r: r["nec_t8_stranded_circular_mils"] != "")
)
def test_circular_mils_of_nec_table_8(row):
    found = gauge.circular_mils(area_mm2=gauge.awg_area_mm2(awg(row["awg"])))
    assert found == pytest.approx(float(row["nec_t8_stranded_circular_mils"]), rel=0.003)


@pytest.mark.parametrize(
    "row", cases(AWG, ids=["awg"], where=lambda r: r["nec_t8_solid_uncoated_75c_ohm_per_kft"] != "")
)
def test_solid_wire_at_75c_of_nec_table_8(row):
    """Read values; they prove resistivity and temperature coefficient together."""
    found = per_km(row, temp_c=75) / FEET_PER_KM * 1000
    assert found == pytest.approx(float(row["nec_t8_solid_uncoated_75c_ohm_per_kft"]), rel=0.0045)


@pytest.mark.parametrize(
    "row", cases(AWG, ids=["awg"], where=lambda r: r["nec_t8_stranded_uncoated_75c_ohm_per_km"] != "")
)
def test_stranding_factor_against_nec_table_8(row):
    """The 1.02 of the AWG sizes: stranded rows at 75 degC within 0.6 %."""
    found = conductors.conductor(gauge.awg_name(awg(row["awg"])))
    at_75c = copper.resistance_at(r20_ohm=found.r20_ohm_per_km, temp_c=75)
    assert at_75c == pytest.approx(float(row["nec_t8_stranded_uncoated_75c_ohm_per_km"]), rel=0.006)


@pytest.mark.parametrize("row", cases(AWG, ids=["awg"], where=lambda r: r["verified_gxl"] == "yes"))
def test_outside_diameter_of_the_wire_sheet(row):
    found = conductors.conductor(gauge.awg_name(awg(row["awg"])))
    assert found.outside_diameter_mm == float(row["sae_j1128_gxl_overall_diameter_mm"])
    assert found.diameter_verified == "yes"


@pytest.mark.parametrize(
    "row", cases(METRIC, ids=["nominal_area_mm2"], where=lambda r: r["verified_iec60228"] == "yes")
)
def test_metric_resistance_is_the_class_5_limit(row):
    found = conductors.conductor(f"{row['nominal_area_mm2']} mm2")
    assert found.r20_ohm_per_km == float(row["iec60228_class5_plain_max_r_20c_ohm_per_km"])
    assert found.verified == "yes"


def test_factor_for_unlisted_metric_sizes_is_the_largest_of_class_5():
    listed = [r for r in rows(METRIC) if r["verified_iec60228"] == "yes"]
    ratios = [
        float(r["iec60228_class5_plain_max_r_20c_ohm_per_km"]) * float(r["nominal_area_mm2"]) / 17.241
        for r in listed
    ]
    unlisted = [c for c in conductors.conductors("metric") if c.verified == "computed"]
    assert len(unlisted) == len(conductors.conductors("metric")) - len(listed) == 13
    for size in unlisted:
        solid = copper.r20_ohm_per_m(area_mm2=size.area_mm2) * 1000
        assert size.r20_ohm_per_km / solid == pytest.approx(max(ratios), abs=0.001)


def test_every_metric_size_from_035_up_is_there():
    expected = [float(r["nominal_area_mm2"]) for r in rows(METRIC) if float(r["nominal_area_mm2"]) >= 0.35]
    assert [c.area_mm2 for c in conductors.conductors("metric")] == expected


@pytest.mark.parametrize(
    "row", cases(METRIC, ids=["nominal_area_mm2"], where=lambda r: r["verified_od"] == "yes")
)
def test_thin_wall_diameter(row):
    found = conductors.conductor(f"{row['nominal_area_mm2']} mm2")
    assert found.outside_diameter_mm == float(row["thin_wall_max_outside_diameter_mm"])
    assert found.diameter_verified == "yes"


def test_recalled_diameters_keep_their_mark():
    recalled = {
        f"{r['nominal_area_mm2']} mm2"
        for r in rows(METRIC)
        if r["verified_od"] == "memory" and float(r["nominal_area_mm2"]) >= 0.35
    }
    marked = {c.name for c in conductors.conductors("metric") if c.diameter_verified == "memory"}
    assert marked == recalled == {"0.35 mm2", "5 mm2", "8 mm2", "12 mm2"}


@pytest.mark.parametrize(
    "row", cases("faa_table_11_9.csv", ids=["awg"], where=lambda r: r["verified"] == "yes")
)
def test_tin_plated_aircraft_wire_is_never_below_plain_copper(row):
    """FAA table 11-9 maximum, per its own circular mils: 12 to 30 % above 17.241 / area."""
    area_mm2 = float(row["nominal_area_circular_mils"]) * gauge.MM2_PER_CIRCULAR_MIL
    plain = copper.r20_ohm_per_m(area_mm2=area_mm2) * 1000
    printed = float(row["max_r_tin_plated_20c_ohm_per_kft"]) * FEET_PER_KM / 1000
    assert 1.12 <= printed / plain <= 1.31
