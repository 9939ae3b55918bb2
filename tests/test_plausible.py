"""Figures that no vehicle has are refused at their place, with the bound and why, whatever document is named."""

from __future__ import annotations

import csv
import pathlib

import pytest
import rule_fixtures
from rule_fixtures import laid_over

from buildspec import pipeline, read
from buildspec.findings import Diagnostic
from buildspec.resolve import plausible

RULE = "implausible-figure"
TABLE = pathlib.Path(__file__).parent / "reference" / "data" / "battery_rest_voltage.csv"
LEAD = ("flooded_lead_acid", "agm_lead_acid", "gel_lead_acid")


def said(text: str) -> list[Diagnostic]:
    """What stands in the way of a text laid over the clean base."""
    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, faults = read.read_text(text, file="over")
    assert base is not None and over is not None, faults
    found = pipeline.check_documents(laid_over(base, over), None, {}).diagnostics
    return [d for d in found if d.rule in (RULE, "laxer-without-document")]


def limits(figure: str) -> str:
    return f"limits:\n  document: bulletin 7, revision C\n  {figure}\n"


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        ("resting_voltage: 14 V", "11.5 V to 13.4 V"),
        ("resting_voltage: 1.22 V", "11.5 V to 13.4 V"),
        ("lowest_voltage: 12.6 V", "9 V to 12 V"),
        ("alternator_share: 120 %", "1 % to 100 %"),
        ("signal_allowance: 10 A", "0 A to 2 A"),
        ("key_off_current: 50 A", "1 A"),
        ("fuse_share: {cabin: 150 %}", "100 %"),
        ("drop_limit: {critical: 30 %}", "20 %"),
        ("wire_margin: 10 %", "66.7 %"),
        ("unprotected: {bare: 20 m}", "1.83 m"),
        ("min_wire: 0.05 mm2", "0.3 mm"),
    ],
)
def test_a_figure_outside_its_bound_is_refused_with_a_document_too(figure: str, words: str) -> None:
    (one,) = said(limits(figure))
    assert one.rule == RULE and words in one.message and "no document" in one.help
    assert one.span.line == 3


@pytest.mark.parametrize(
    "figure", ["resting_voltage: 12.6 V", "signal_allowance: 0.5 A", "drop_limit: {general: 12 %}"]
)
def test_a_figure_within_its_bound_passes_with_a_document(figure: str) -> None:
    assert not said(limits(figure))


@pytest.mark.parametrize("figure", ["resting_voltage: 12.6 V", "lowest_voltage: 11.5 V"])
def test_a_higher_voltage_is_laxer_and_needs_a_document(figure: str) -> None:
    (one,) = said(f"limits:\n  {figure}\n")
    assert one.rule == "laxer-without-document" and one.span.line == 2


def test_the_voltages_follow_the_system() -> None:
    wide = "vehicle: {system: 24 V, own_loads: null}\naccessories: {fridge: {electrical: {cut_out: 21 V}}}\n"
    assert not said(wide + limits("resting_voltage: 24.4 V"))
    assert [d.rule for d in said(wide + limits("resting_voltage: 12.2 V"))] == [RULE]


def test_the_bound_of_the_resting_voltage_holds_every_published_lead_acid_table() -> None:
    """Every verified row of the published tables from empty to full, flooded and AGM."""
    bound = plausible.BOUNDS["resting_voltage"]
    with open(TABLE, encoding="utf-8", newline="") as file:
        rows = [r for r in csv.DictReader(file) if r["verified"] == "yes" and r["chemistry"] in LEAD]
    assert len(rows) > 9
    for row in rows:
        assert bound.least <= float(row["ocv_v_typ"]) <= bound.most, row


ALTERNATOR = "vehicle:\n  alternator:\n    {}\n"


@pytest.mark.parametrize(
    ("own", "words"),
    [("idle: 180 A", "`idle: 180 A`"), ("allowance: 200 A", "`allowance: 200 A`")],
)
def test_an_alternator_gives_at_most_its_rating(own: str, words: str) -> None:
    (one,) = said(ALTERNATOR.format(own))
    assert one.rule == RULE and words in one.message and "150 A" in one.message and one.span.line == 3


def test_an_alternator_within_its_rating_passes() -> None:
    assert not said(ALTERNATOR.format("idle: 150 A"))


@pytest.mark.parametrize("volts", ["1.47 V", "12.5 V", "16.5 V"])
def test_no_alternator_charges_so_high_or_low(volts: str) -> None:
    (one,) = said(ALTERNATOR.format(f"voltage: {volts}"))
    assert one.rule == RULE and "13 V to 16 V" in one.message and one.span.line == 3
    assert not said(ALTERNATOR.format("voltage: 15.2 V"))


def test_a_starter_takes_more_than_a_lamp() -> None:
    (one,) = said("vehicle:\n  own_loads: {cranking: 25 A, source: survey}\n")
    assert one.rule == RULE and "50 A" in one.message
    assert not said("vehicle:\n  own_loads: {cranking: 250 A, source: survey}\n")


REST = """  - {between: [bulkhead, roof-rail], length: 2.4 m}
  - {between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall]}
"""
GATES = "limits:\n  document: curve sheet 3, revision B\n  fuse_gates:\n    blade:\n      - {}\n      - {}\n"


@pytest.mark.parametrize(
    ("first", "second", "line", "words"),
    [
        ("{at: 135 %, min: 30 s, max: 1 s}", "{at: 200 %, max: 0.5 s}", 5, "no sooner than 30 s and no later than 1 s"),
        ("{at: 135 %, max: 10 s}", "{at: 200 %, max: 20 s}", 6, "`max: 20 s` at 200 % is longer than 10 s at 135 %"),
        ("{at: 135 %, min: 1 s}", "{at: 200 %, min: 2 s}", 6, "opens sooner at more current"),
        ("{at: 200 %, max: 1 s}", "{at: 200 %, max: 1 s}", 6, "two rows at 200 %"),
    ],
)  # fmt: skip
def test_opening_times_fall_with_the_current(first: str, second: str, line: int, words: str) -> None:
    (one,) = said(GATES.format(first, second))
    assert one.rule == RULE and words in one.message and one.span.line == line


def test_opening_times_as_a_maker_prints_them_pass() -> None:
    """Longest times as relay sheets that cite ISO 8820-3 reproduce them for 135 % and 200 %."""
    assert not said(
        GATES.format("{at: 135 %, min: 0.75 s, max: 1800 s}", "{at: 200 %, min: 0.15 s, max: 5 s}")
    )


LINKS = """accessories:
  lamps:
    at: load-bed
    fed_from: rear.5
    quantity: 3
    electrical: {model: constant-current, worst: 0.5 A}
    branches: {form: chain, lengths: [0.8 m, LENGTH]}
"""


@pytest.mark.parametrize(
    ("length", "wrong"), [("9 mm", True), ("25 m", True), ("8 in", False), ("12 m", False)]
)
def test_a_link_between_two_items_fits_into_a_vehicle(length: str, wrong: bool) -> None:
    found = said(LINKS.replace("LENGTH", length))
    assert [(d.span.line, f"`{length}`" in d.message) for d in found] == ([(7, True)] if wrong else [])


def test_a_run_of_less_than_a_millimetre_is_a_wrong_unit() -> None:
    text = (
        "runs:\n  - {between: [engine-bay, bulkhead], length: LENGTH, through: grommet, passes: [engine-wall]}\n"
        + REST
    )
    (one,) = said(text.replace("LENGTH", "0.9 mm"))
    assert one.rule == RULE and "at least 0.05 m apart" in one.message and one.span.line == 2
    assert not said(text.replace("LENGTH", "0.9 m"))


def test_a_cut_out_with_a_lost_digit_is_refused() -> None:
    text = "accessories:\n  fridge:\n    electrical: {cut_out: CUT}\n"
    (one,) = said(text.replace("CUT", "1.09 V"))
    assert one.rule == RULE and "6 V and 12.8 V" in one.message and one.span.line == 3
    assert not said(text.replace("CUT", "10.9 V"))


def test_a_stock_without_a_usable_size_is_said_once() -> None:
    (one,) = said("limits:\n  stock: [40 AWG]\n")
    assert one.rule == RULE and "(40 AWG)" in one.message and "1 mm2" in one.help and one.span.line == 2
    assert not said("limits:\n  stock: [22 AWG, 14 AWG, 4 AWG]\n")
