"""Fuse ratings, colours and breaking capacity against the gathered table."""

from __future__ import annotations

import pytest
from reference_rows import cases, rows

from buildspec.calc import fuses

DATA = "fuse_ratings_colours.csv"
FAMILIES = {
    "mini blade": "mini-blade",
    "regular blade": "blade",
    "maxi blade": "maxi-blade",
    "slow-blow cartridge with female terminals": "cartridge-a1",
    "bolt-down strip, M5 studs": "strip-m5",
    "bolt-down strip, M8 studs": "strip-m8",
    "battery-post cube fuse (single stud, ceramic)": "post-cube",
    "fuse limiter strip (slotted, 5/16 in studs)": "limiter-strip",
    "fast-acting class T cartridge": "class-t",
}
LEFT_OUT = {
    "low-profile mini blade": 10,
    "two-leg micro blade": 7,
    "three-leg micro blade": 4,
    "glass cartridge 6.3 x 32 mm": 11,
    "glass cartridge, length coded by rating (6.3 mm dia)": 6,
    "ceramic cone-ended 6 x 25 mm": 4,
}


def is_proof(row):
    return row["family"] in FAMILIES and row["verified"] == "yes" and row["confidence"] == "high"


def found(row):
    return fuses.standard(FAMILIES[row["family"]], float(row["rating_a"]))


@pytest.mark.parametrize("row", cases(DATA, ids=["family", "rating_a", "source_id"], where=is_proof))
def test_rating_and_colour_as_read(row):
    fuse = found(row)
    assert fuse.colour == row["colour"] != ""
    assert (fuse.verified, fuse.confidence) == ("yes", "high")


@pytest.mark.parametrize(
    "row",
    cases(
        DATA,
        ids=["family", "rating_a", "source_id"],
        where=lambda r: is_proof(r) and r["verified_voltage_breaking"] == "yes",
    ),
)
def test_voltage_and_breaking_capacity_as_read(row):
    fuse = found(row)
    assert fuse.max_v == float(row["max_system_voltage_v"])
    assert fuse.breaking_a == float(row["breaking_capacity_a"])
    assert fuses.breaking_a_at(fuse, nominal_v=float(row["breaking_capacity_at_v"])) == fuse.breaking_a


@pytest.mark.parametrize(("family", "breaking_a"), [("strip-m5", 1000), ("strip-m8", 2000)])
def test_breaking_capacity_of_strips_as_read(family, breaking_a):
    """The kA figure was read, its voltage was not; both are marked so."""
    assert {f.breaking_a for f in fuses.fuses(family)} == {breaking_a}
    assert {f.verified_breaking for f in fuses.fuses(family)} == {"breaking only"}


def test_class_t_breaks_20_ka_at_125_v():
    assert {(f.breaking_a, f.breaking_at_v, f.verified_breaking) for f in fuses.fuses("class-t")} == {
        (20000.0, 125.0, "yes")
    }


def test_every_mark_is_kept():
    """A recalled colour must not turn into a read one on its way into the table."""
    for row in rows(DATA):
        if row["family"] in FAMILIES:
            fuse = found(row)
            assert fuse.verified == row["verified"]
            assert fuse.verified_breaking == row["verified_voltage_breaking"]
            assert fuse.confidence == row["confidence"]


@pytest.mark.parametrize("rating_a", [25, 35])
def test_maxi_ratings_outside_the_colour_code(rating_a):
    assert fuses.standard("maxi-blade", rating_a).colour == ""


def test_no_row_is_dropped_in_silence():
    counted = dict.fromkeys([*FAMILIES, *LEFT_OUT], 0)
    for row in rows(DATA):
        counted[row["family"]] += 1
    assert {family: n for family, n in counted.items() if family in LEFT_OUT} == LEFT_OUT
    for family, short in FAMILIES.items():
        assert len(fuses.fuses(short)) == counted[family]
    assert fuses.families() == tuple(FAMILIES.values())
