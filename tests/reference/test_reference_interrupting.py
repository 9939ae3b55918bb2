"""Interrupting capacity by ABYC E-11 table V-A and prospective current of a bank."""

from __future__ import annotations

import pytest
from reference_rows import rows

from buildspec.calc import interrupting

DATA = "interrupting.csv"
PUBLISHED = [
    ("PR13", 650, True),
    ("PR14", 650, False),
    ("PR15", 651, True),
    ("PR15", 1100, True),
    ("PR16", 651, False),
    ("PR16", 1100, False),
    ("PR17", 1101, True),
    ("PR18", 1101, False),
]


def rule(rule_id):
    (row,) = (r for r in rows(DATA) if r["rule_id"] == rule_id)
    assert row["verified"] == "yes"
    return row


@pytest.mark.parametrize(("rule_id", "cranking_a", "main"), PUBLISHED)
def test_table_va(rule_id, cranking_a, main):
    found = interrupting.required_breaking_a(cranking_a=cranking_a, main=main)
    assert found == float(rule(rule_id)["value"])


def test_pr19_no_answer_above_2200_cca():
    assert rule("PR19")["value"].startswith("2200 CCA")
    assert interrupting.required_breaking_a(cranking_a=2200, main=True) == 5000
    assert interrupting.required_breaking_a(cranking_a=2201, main=True) is None


def test_pr21_parallel_strings_add_and_series_members_do_not():
    """Six 6 V batteries of 2400 A each, three strings of two: resistance of one is 6 V / 2400 A."""
    one_ohm = 6 / 2400
    found = interrupting.prospective_a(open_circuit_v=12, source_ohm=2 * one_ohm / 3, loop_ohm=0)
    assert found == pytest.approx(float(rule("PR21")["value"]))


def test_lithium_pack_beats_a_2_ka_strip_fuse():
    """Four cells of 0.75 milliohm and three links of 0.25 milliohm at 14 V: about 3 730 A."""
    found = interrupting.prospective_a(open_circuit_v=14, source_ohm=3e-3, loop_ohm=0.75e-3)
    assert found == pytest.approx(3730, rel=0.002)
