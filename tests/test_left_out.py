"""What a report names as not checked: a note that goes away with the last figure."""

from __future__ import annotations

import pytest
import rule_fixtures

from buildspec.findings import Diagnostic

RULE = "vehicle-checks-left-out"
WHOLE = {
    "alternator": "  alternator: {rated: 150 A, idle: 130 A, controlled: true, allowance: 65 A, source: survey}\n",
    "own_loads": "  own_loads: {idle: 30 A, driving: 50 A, cranking: 250 A, source: measured}\n",
    "gross_mass": "  gross_mass: 3100 kg\n",
    "kerb_mass": "  kerb_mass: 2000 kg\n",
    "axles": (
        "  axles: {wheelbase: 3 m, front: {limit: 1500 kg, kerb: 1100 kg}, "
        "rear: {limit: 1800 kg, kerb: 900 kg}, source: scales}\n"
    ),
}


def said(*, but: str = "") -> list[Diagnostic]:
    """The report on a vehicle with every figure but one."""
    lines = [line for key, line in WHOLE.items() if key != but]
    lines += [f"  {but}: null\n"] if but in ("alternator", "own_loads") else []
    case = rule_fixtures.Case("over", "", "vehicle:\n" + "".join(lines))
    return [d for d in rule_fixtures.checked(case).diagnostics if d.rule == RULE]


def test_with_every_figure_nothing_is_said() -> None:
    assert not said()


@pytest.mark.parametrize(
    ("but", "words"),
    [
        ("own_loads", "idling, hot (`own_loads: {idle}`); what the alternator has left"),
        ("gross_mass", "figures: payload and load label (`gross_mass`)"),
        ("axles", "figures: axle loads (`axles`)"),
    ],
)
def test_without_one_it_is_named(but: str, words: str) -> None:
    (one,) = said(but=but)
    assert words in one.message and one.severity == "note" and one.path == ("vehicle",)


def test_an_error_about_the_alternator_is_not_said_twice() -> None:
    """The charger of the base has no alternator then, which `alternator-unknown` reports."""
    assert not said(but="alternator")
