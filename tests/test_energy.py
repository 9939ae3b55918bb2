"""The parked scenario: hand-worked sums, and published rules of thumb recomputed."""

from __future__ import annotations

import pathlib

import pytest

from buildspec import energy, pipeline, read
from buildspec.calc import battery

SPEC = """
buildspec: 1
job: {{number: T-1, title: Trial, revision: A, date: 2026-10-05, owner: {{name: Fernhollow}}}}
vehicle: {{description: Pickup, system: 12 V}}
places:
  bay: {{environment: engine}}
  cab: {{environment: cabin}}
runs:
  - {{between: [bay, cab], length: 1 m, through: grommet}}
grounds:
  stud-bay: {{at: bay}}
  stud-cab: {{at: cab}}
signals:
  ignition: {{at: cab, kind: ignition, allowance: 0.5 A, source: survey}}
batteries:
  start: {{chemistry: flooded, capacity: 45 Ah, cranking: 500 A, at: bay, existing: true}}
  house: {{chemistry: {chemistry}, capacity: 100 Ah, cranking: 520 A, at: bay}}
isolation:
  charger: {{type: dc-dc, from: start, to: house, output: {output}, wake: ignition, at: bay}}
blocks:
  rear: {{block: {{positions: 6, position_limit: 30 A, total: 100 A, family: blade}}, fed_from: house, at: cab{cut_off}}}
accessories:
  fridge:
    at: cab
    fed_from: rear.1
    hours_per_day: 24
    electrical: {{model: constant-current, typical: 4 A, worst: 8 A, duty: 35 %}}
  radio:
    at: cab
    fed_from: rear.2
    works_when: {radio}
    hours_per_day: 6
    electrical: {{model: constant-current, typical: 1 A, worst: 2 A, standby: 20 mA}}
  lamp:
    at: cab
    fed_from: rear.3
    electrical: {{model: constant-current, typical: 2 A, worst: 2 A}}
"""


def built(*, chemistry="agm", output="25 A", radio="any time", practice="", cut_off=""):
    spec, said = read.read_text(
        SPEC.format(chemistry=chemistry, output=output, radio=radio, cut_off=cut_off), file="t.build.yaml"
    )
    assert spec is not None, said
    text = f"practice: 1\ndocument: the sheet of this case\n{practice}"
    own = read.read_text(text, file="practice.yaml", doc="practice")[0] if practice else None
    outcome = pipeline.check_documents(spec, own, {})
    assert outcome.build is not None, outcome.diagnostics
    return outcome.build.build


def house(**given):
    (parked,) = energy.energy(built(**given)).parked
    return parked


def test_mean_current_by_hand():
    """4 A x 35 % all day (EB-13, 33.6 Ah a day), 1 A for 6 h and 20 mA for 18 h; the lamp is off."""
    draws = {d.item: d.mean_a for d in house().draws}
    assert draws == {"fridge": pytest.approx(33.6 / 24), "radio": pytest.approx((6 + 0.02 * 18) / 24)}


def test_below_the_20_h_rate_the_label_is_the_limit():
    """PK-08 at 2.5 A promises 107 Ah of a label of 100 Ah; the time is 100 Ah / I, at 50 % depth."""
    mean = (33.6 + 6 + 0.36) / 24
    assert house().hours.value == pytest.approx(100 * 0.5 / mean)


@pytest.mark.parametrize(
    ("current_a", "hours"),
    [
        pytest.param(10, 8.7, id="PK-05 above the rate"),
        pytest.param(5, 20.0, id="PK-07 at the rate"),
        pytest.param(2.5, 40.0, id="PK-08 below the rate, capped"),
    ],
)
def test_hours_to_empty(current_a, hours):
    """Published and hand-worked examples of the 20 h form: 100 Ah, exponent 1.2, all of it used."""
    found = energy.lasting(capacity_ah=100, exponent=1.2, depth=1.0, current_a=current_a)
    assert found == pytest.approx(hours, rel=0.005)


def test_days_until_the_engine_does_not_start():
    """PD-02, rule of a service bulletin: 40 % of 42 Ah at 30 mA is 23.3 days; here 45 Ah."""
    (standing,) = energy.energy(built(practice="key_off_current: 30 mA\n")).standing
    assert standing.days.value == pytest.approx(23.3333333 * 45 / 42, rel=1e-6)
    depth = next(t for t in standing.days.terms if t.value == energy.START_DEPTH)
    assert (depth.source, depth.verified) == ("parasitic-drain-bulletin", "yes")


@pytest.mark.parametrize(("drain", "days"), [("200 mA", 3.75), ("500 mA", 1.5)])
def test_a_copied_rule_of_thumb_is_recomputed(drain, days):
    """A page says that 200 to 500 mA flattens 45 Ah in 8 to 18 h; 40 % of it is 1.5 to 3.75 days."""
    (standing,) = energy.energy(built(practice=f"key_off_current: {drain}\n")).standing
    assert standing.days.value == pytest.approx(days, abs=0.05)
    assert standing.days.value * 24 > 18


def test_refill_by_hand():
    """RT-04: 50 Ah at 25 A and 85 % is 2.35 h; here what runs meanwhile is taken off the charger."""
    mean = (33.6 + 6 + 0.36) / 24
    refill = house().refill
    assert refill is not None
    assert refill.value == pytest.approx(2.35294118 * 25 / (25 - mean))
    assert "2 to 4 h more" in house().refill_note


def test_lithium_uses_more_of_its_label_and_has_no_slow_last_fifth():
    """UE-02: 80 % of 100 Ah; RT-05: 80 Ah at 98 %."""
    parked = house(chemistry="lithium-iron-phosphate", output="40 A")
    mean = (33.6 + 6 + 0.36) / 24
    assert parked.usable.value == pytest.approx(80)
    assert parked.refill is not None and parked.refill.value == pytest.approx(2.04081633 * 40 / (40 - mean))
    assert parked.refill_note == ""


def test_a_charger_that_gives_less_than_what_runs_fills_nothing():
    parked = house(output="1.5 A")
    assert parked.refill is None
    assert parked.refill_note == "The charger gives no more than what runs takes"


def test_what_needs_the_ignition_is_not_counted():
    parked = house(radio="ignition on")
    assert {d.item: d.hours_per_day for d in parked.draws} == {"fridge": 24, "radio": 0}
    assert [name for name, _ in parked.alone] == ["fridge"]


def test_the_round_the_clock_item_alone():
    """1.4 A and 20 mA of standby out of 50 Ah."""
    ((name, hours),) = house().alone
    assert (name, hours.value) == ("fridge", pytest.approx(50 / 1.42))


@pytest.mark.parametrize(("hours", "nights"), [(13.9, 0), (14, 1), (37.9, 1), (38, 2), (62, 3)])
def test_whole_nights_from_18_to_8(hours, nights):
    assert energy.nights(hours) == nights


def test_every_sum_names_its_terms_and_what_is_recalled():
    """The Peukert exponent of AGM is recalled (battery_chemistry.csv); its depth was read."""
    parked = house()
    assert battery.chemistry("agm").marks["peukert"] == "memory"
    assert parked.hours.from_memory == ("Peukert exponent",)
    assert all(term.source for result in (parked.hours, parked.usable) for term in result.terms)
    line = energy.spelled(parked.usable)
    assert line == "50 Ah = capacity × share; capacity on the label 100 Ah, share that may be used 0.5"


def test_a_written_key_off_current_is_no_recalled_one():
    (default,) = energy.energy(built()).standing
    (written,) = energy.energy(built(practice="key_off_current: 30 mA\n")).standing
    assert "drawn by the vehicle itself with the key off" in default.days.from_memory
    assert "drawn by the vehicle itself with the key off" not in written.days.from_memory


EXAMPLES = sorted(pathlib.Path(__file__).parents[1].glob("examples/*/*.build.yaml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_usable_charge_pays_for_the_hours(path):
    """At or below the 20 h rate, hours x mean current is the usable charge, never more."""
    outcome = pipeline.check_file(path)
    assert outcome.build is not None
    for parked in energy.energy(outcome.build.build).parked:
        mean = sum(d.mean_a for d in parked.draws)
        assert parked.hours.value * mean <= parked.usable.value * (1 + 1e-9)
        assert parked.nights <= parked.hours.value / 14
