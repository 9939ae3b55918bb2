"""Rest voltages, cold capacity and low-voltage disconnects: published tables against the package."""

from __future__ import annotations

import json

import pytest
import rule_fixtures
from reference_rows import cases, rows

from buildspec import pipeline, read
from buildspec.calc import charge
from buildspec.catalogue import shipped
from buildspec.rules import cut_off_too_low_to_start

REST = "battery_rest_voltage.csv"
SETTINGS = "low_voltage_disconnect.csv"
NAMES = {"flooded_a": "flooded", "agm_a": "agm", "lfp_a": "lithium-iron-phosphate"}
OTHERS = {"flooded_b": "flooded", "flooded_c": "flooded", "lfp_b": "lithium-iron-phosphate"}
DISAGREE_V = 0.25
"""How far published tables lie apart at the most (flooded, empty); the notes of the rows say so."""


def is_read(row):
    return row["verified"] == "yes"


@pytest.mark.parametrize(
    "row", cases(REST, ids=("set_id", "soc_pct"), where=lambda r: r["set_id"] in NAMES and is_read(r))
)
def test_rest_voltage_is_the_published_one(row):
    found = charge.rest_v(NAMES[row["set_id"]], charge=float(row["soc_pct"]) / 100)
    assert found == pytest.approx(float(row["ocv_v_typ"]))


@pytest.mark.parametrize(
    "row", cases(REST, ids=("set_id", "soc_pct"), where=lambda r: r["set_id"] in OTHERS and is_read(r))
)
def test_other_tables_lie_as_near_as_tables_do(row):
    found = charge.rest_v(OTHERS[row["set_id"]], charge=min(float(row["soc_pct"]) / 100, 0.99))
    assert found == pytest.approx(float(row["ocv_v_typ"]), abs=DISAGREE_V)


def test_no_published_table_no_voltage():
    assert not [r for r in rows(REST) if r["chemistry"].startswith("gel") and is_read(r)]
    assert charge.rest_v("gel", charge=0.5) is None


def test_between_two_rows_and_outside():
    """By hand: 60 % of a flooded battery lies at two fifths of the way from 12.22 V to 12.425 V."""
    assert charge.rest_v("flooded", charge=0.6) == pytest.approx(12.22 + 0.4 * (12.425 - 12.22))
    assert charge.rest_v("agm", charge=0.1) is None


def test_cold_share_is_one_over_the_published_multiplier():
    found = [
        r for r in rows("battery_math_examples.csv") if r["example_id"].startswith("EB-12") and is_read(r)
    ]
    assert len(found) == 7
    for row in found:
        temp_c = json.loads(row["inputs_json"])["temperature_degc"]
        share = charge.cold_share("agm", temp_c=temp_c)
        assert share == pytest.approx(1 / float(row["published_value"]), abs=1e-9)


@pytest.mark.parametrize(
    ("name", "temp_c"), [("lithium-iron-phosphate", 0.0), ("flooded", -20.0), ("agm", 40.0)]
)
def test_what_the_table_does_not_cover_is_not_covered(name, temp_c):
    assert charge.cold_share(name, temp_c=temp_c) is None


def test_restart_lies_1_2_to_2_3_v_above_the_cut_out():
    """What the manual of `cut-off-without-hysteresis` says of appliance manuals."""
    apart = [
        float(r["cut_in_v"]) - float(r["cut_out_v"])
        for r in rows(SETTINGS)
        if is_read(r) and r["cut_in_v"] and r["system_v"] == "12"
    ]
    assert (round(min(apart), 6), round(max(apart), 6)) == (1.2, 2.3)


def test_a_lithium_manager_of_the_catalogue_opens_at_the_published_hard_stop():
    (row,) = (r for r in rows(SETTINGS) if r["device"].startswith("lifepo4") and is_read(r))
    packs = [p["cut_off"]["opens_at"] for name, p in shipped().items() if name.startswith("lithium-")]
    assert packs and {float(text.removesuffix(" V")) for text in packs} == {float(row["cut_out_v"])}


CAMERA = """
accessories:
  camera:
    at: bulkhead
    fed_from: start
    electrical: {{model: constant-power, power: 5 W}}
    cut_off: {{opens_at: {volts} V}}
"""


def settings():
    """(device, cut-out) of every published setting for a 12 V starter battery."""
    for row in rows(SETTINGS):
        if is_read(row) and row["system_v"] == "12" and row["use"].startswith("starter battery"):
            yield from ((row["device"], float(volts)) for volts in row["cut_out_v"].split("/"))


@pytest.mark.parametrize(("device", "volts"), list(settings()))
def test_published_settings_on_a_starter_battery(device, volts):
    """Half charge of the engine battery page, 12.20 V at the least, is the limit; most settings lie below it."""
    (half,) = (r for r in rows(REST) if (r["set_id"], r["soc_pct"]) == ("flooded_a", "50"))
    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, _ = read.read_text(CAMERA.format(volts=volts), file="case")
    outcome = pipeline.check_documents(rule_fixtures.laid_over(base, over), None, {})
    fired = list(cut_off_too_low_to_start.check(outcome.build))
    assert bool(fired) == (volts < float(half["ocv_v_min"])), device


def test_some_published_settings_pass_and_some_do_not():
    low = [volts for _, volts in settings() if volts < 12.2]
    assert low and len(low) < len(list(settings()))
