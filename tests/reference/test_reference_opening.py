"""Opening times and resistance of fuses against the gathered table.

No gate of a vehicle fuse was read in a published copy: those rows prove nothing and are only compared, so that
a figure or its mark does not change on its way into the package's table. What proves is resistance and drop from a
maker's sheet, UL 248-14, and the energy that follows from gate and current.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference_rows import cases, rows

from buildspec import tabledata
from buildspec.calc import adiabatic, fuses, opening

DATA = "fuse_time_current.csv"
FAMILIES = {
    "mini blade": "mini-blade",
    "regular blade": "blade",
    "maxi blade": "maxi-blade",
    "bolt-down strip, M5 studs": "strip-m5",
    "bolt-down strip, M8 studs": "strip-m8",
}
GATED = (
    "mini-blade",
    "blade",
    "maxi-blade",
    "cartridge-a1",
    "strip-m5",
    "strip-m8",
    "post-cube",
    "limiter-strip",
)


def is_read(kind):
    return lambda r: (
        (r["record_type"], r["confidence"]) == (kind, "high") and r["verified"] in ("yes", "computed")
    )


@pytest.mark.parametrize("row", cases(DATA, ids=["family", "rating_a"], where=is_read("cold_resistance")))
def test_cold_resistance_as_read(row):
    found = opening.cold_ohm(FAMILIES[row["family"]], rating_a=float(row["rating_a"]))
    # mini blades lie within 5 % of regular ones (same sheet) and take theirs
    assert found == pytest.approx(
        float(row["y_typ"]) / 1000, rel=0.05 if row["family"] == "mini blade" else 1e-9
    )


@pytest.mark.parametrize(
    "row", cases(DATA, ids=["family", "rating_a"], where=is_read("voltage_drop_at_rated_current"))
)
def test_hot_resistance_is_not_below_what_the_sheet_says_at_rated_current(row):
    rating = float(row["rating_a"])
    read = float(row["y_typ"]) / 1000 / rating
    assert read <= opening.HOT_TIMES * opening.cold_ohm("blade", rating_a=rating) <= read * 1.15


@pytest.mark.parametrize(
    "row", cases(DATA, ids=["rating_a"], where=lambda r: r["record_type"] == "i2t_window_at_600_percent")
)
def test_energy_at_six_times_the_rating(row):
    rating = float(row["rating_a"])
    found = opening.let_through_a2s("blade", rating_a=rating, least_a=6 * rating, most_a=1000)
    assert found == pytest.approx(float(row["y_max"]), rel=1e-3)


@pytest.mark.parametrize(
    ("kind", "times"), [("i2t_upper_bound_at_350_percent", 3.5), ("i2t_upper_bound_at_200_percent", 2.0)]
)
def test_energy_bounds_at_the_gates_that_relay_sheets_agree_with(kind, times):
    found = [r for r in rows(DATA) if r["record_type"] == kind]
    assert found
    for row in found:
        rating = float(row["rating_a"])
        energy = opening.let_through_a2s(
            "blade", rating_a=rating, least_a=times * rating, most_a=times * rating
        )
        assert energy == pytest.approx(float(row["y_max"]), rel=1e-4)


def test_no_mark_and_no_figure_changed_on_its_way():
    mine = {
        (r["family"], float(r["multiple"])): r for r in tabledata.rows("fuse_gates") if r["kind"] == "gate"
    }
    counted = 0
    for row in rows(DATA):
        if row["record_type"] != "opening_time_gate" or row["family"] not in FAMILIES:
            continue
        own = mine[FAMILIES[row["family"]], float(row["x_value"]) / 100]
        for here, there in (("min_s", "y_min"), ("max_s", "y_max")):
            assert (float(own[here]) if own[here] else None) == (float(row[there]) if row[there] else None)
        assert (own["verified"], own["confidence"]) == (row["verified"], row["confidence"])
        counted += 1
    assert counted == 27


def test_every_family_that_is_sold_has_gates_and_all_of_them_are_recalled():
    for family in fuses.families():
        assert opening.curve(family), family
        assert {gate.verified for gate in opening.curve(family)} == {"memory"}


def test_glass_cartridge_as_a_curve_of_ones_own():
    """UL 248-14, read: 135 % within an hour, 200 % within 120 s (0 to 30 A)."""
    read = {
        float(r["x_value"]) / 100: float(r["y_max"])
        for r in rows(DATA)
        if r["family"].startswith("glass")
        and "35-60" not in r["family"]
        and r["y_max"]
        and r["verified"] == "yes"
    }
    assert read == {1.35: 3600.0, 2.0: 120.0}
    own = tuple(opening.Gate(m, None, s, "yes") for m, s in sorted(read.items()))
    assert [opening.opening_s(own, multiple=m)[1] for m in read] == pytest.approx([*read.values()])
    assert opening.opening_s(own, multiple=4) == (
        None,
        pytest.approx(30.0),
    )  # I²t constant beyond the last gate
    assert not opening.recalled(own)


@given(st.sampled_from(GATED), st.floats(0.5, 200), st.floats(1.001, 4))
def test_more_current_never_opens_later(family, multiple, times):
    before, after = (opening.opening_s(family, multiple=m) for m in (multiple, multiple * times))
    assert after[0] <= before[0] * (1 + 1e-9)
    assert before[1] is None or after[1] <= before[1] * (1 + 1e-9)
    assert after[1] is None or after[0] <= after[1] * (1 + 1e-9)


@given(st.sampled_from(GATED), st.floats(0.001, 1000))
def test_the_multiple_for_a_time_gives_that_time_back(family, time):
    sure, holds = opening.least_multiple(family, within_s=time), opening.greatest_multiple(family, for_s=time)
    assert opening.opening_s(family, multiple=sure * (1 + 1e-9))[1] <= time * (1 + 1e-6)
    assert opening.opening_s(family, multiple=holds * (1 - 1e-9))[0] >= min(time, 14400) * (1 - 1e-6)


@given(
    st.sampled_from(GATED),
    st.floats(1, 400),
    st.floats(1.4, 60),
    st.floats(1, 30),
    st.floats(0, 1),
)
def test_no_current_within_a_range_lets_through_more(family, rating, least, span, share):
    most = least * span
    energy = opening.let_through_a2s(family, rating_a=rating, least_a=least * rating, most_a=most * rating)
    within = least * span**share
    amps, time = within * rating, opening.opening_s(family, multiple=within)[1]
    assert amps**2 * time <= energy * (1 + 1e-6)


K = [row for row in rows("adiabatic_k.csv") if row["conductor"] == "Cu"]


@pytest.mark.parametrize("insulation_c", [70, 90])
def test_k_of_thermoplastic_insulation_is_the_published_one(insulation_c):
    published = next(
        float(r["k_published_a_sqrt_s_per_mm2"])
        for r in K
        if r["verified_published"] == "yes"
        and (float(r["initial_temp_c"]), float(r["final_temp_c"])) == (insulation_c, 160)
    )
    assert adiabatic.insulation_k(insulation_c=insulation_c) == pytest.approx(published, abs=0.5)


@pytest.mark.parametrize(("row_id", "insulation_c"), [("K31", 105), ("K32", 125)])
def test_k_of_vehicle_insulation_is_the_formula_at_its_rated_temperature(row_id, insulation_c):
    row = next(r for r in K if r["k_id"] == row_id)
    assert row["verified_formula"] == "computed" and float(row["initial_temp_c"]) == insulation_c
    found = adiabatic.insulation_k(insulation_c=insulation_c)
    assert found == pytest.approx(float(row["k_from_formula_a_sqrt_s_per_mm2"]), abs=0.01)
