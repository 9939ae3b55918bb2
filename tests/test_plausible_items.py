"""Figures of items that no such item has, and slips that no bound shows: refused at their place."""

from __future__ import annotations

import pytest
import rule_fixtures

RULE = "implausible-figure"


def said(text: str) -> list[tuple[str, int, str]]:
    """(rule, line, message) of what refuses a text laid over the clean base."""
    found = rule_fixtures.checked(rule_fixtures.Case("over", "", text)).diagnostics
    return [(d.rule, d.span.line, d.message) for d in found if d.severity == "error"]


HOUSE = "batteries:\n  house:\n    capacity: {}\n    battery: {{capacity: {}}}\n"
ITEMS = [
    ("a lost digit of a capacity", HOUSE.format("0.75 Ah", "0.75 Ah"), 3, "outside 2 Ah to 3000 Ah"),
    (
        "two capacities",
        HOUSE.format("75 Ah", "200 Ah"),
        4,
        "`capacity` of `house` is 75 Ah, and 200 Ah under `battery`",
    ),
    ("cranking", "batteries:\n  start:\n    cranking: 7 A\n", 3, "outside 40 A to 4800 A"),
    (
        "less in a short than into a starter",
        "batteries:\n  start:\n    short_circuit: 500 A\n",
        3,
        "`short_circuit: 500 A` is less than it gives to a starter, `cranking: 760 A`",
    ),
    ("a short of nothing", "batteries:\n  house:\n    short_circuit: 50 A\n", 3, "outside 150 A to 75000 A"),
    (
        "a charging limit that no battery has",
        "batteries:\n  house:\n    battery: {max_voltage: 148 V}\n",
        3,
        "outside 13 V to 16 V",
    ),
    ("a charger of nothing", "isolation:\n  charger:\n    output: 1 mA\n", 3, "gives at least 0.5 A"),
    (
        "a charger that makes power",
        "isolation:\n  charger:\n    charger: {input_max: 1 A}\n",
        3,
        "for 40 A at 14.4 V it takes at least 36 A, at 16 V and without any loss",
    ),
    (
        "a contact beyond itself",
        "isolation:\n  assist:\n    rating: 20 A\n    link: {rating: 20 A, short_time: 500 A}\n",
        4,
        "`short_time: 500 A` is outside 20 A to 400 A",
    ),
    ("a short time of a day", "isolation:\n  assist:\n    link: {for: 24 h}\n", 3, "`for: 24 h` is outside"),
    (
        "a position larger than its fuses",
        "blocks:\n  rear:\n    block: {position_limit: 300 A}\n",
        3,
        "no blade fuse above 40 A is made",
    ),
    ("no system", "vehicle:\n  system: 13.8 V\n", 2, "`system: 13.8 V` is no nominal voltage"),
    (
        "cubic centimetres",
        "vehicle:\n  engine: {fuel: diesel, displacement: 2000 l}\n",
        2,
        "`displacement: 2000 l`",
    ),
    ("a key-off draw that starts nothing", "vehicle:\n  own_loads: {key_off: 60 A}\n", 2, "is more than 1 A"),
    ("a sensor on the battery that is added", "vehicle:\n  sensed_post: house\n", 2, "this job adds `house`"),
    ("a day that is none", "job:\n  date: 2026-02-31\n", 2, "`2026-02-31` is no day of the calendar"),
    (
        "driving without the key",
        "states:\n  odd:\n    key: off\n    engine: driving\n    on: [fridge]\n",
        4,
        "`key: off` and `engine: driving` do not go together",
    ),
]


@pytest.mark.parametrize(
    ("text", "line", "message"), [one[1:] for one in ITEMS], ids=[one[0] for one in ITEMS]
)
def test_it_is_refused_at_its_place(text: str, line: int, message: str) -> None:
    ((rule, at, found),) = said(text)
    assert (rule, at) == (RULE, line) and message in found


SOUND = [
    HOUSE.format("75 Ah", "75.0 Ah"),
    "batteries:\n  start:\n    cranking: 760 A\n    short_circuit: 2600 A\n",
    "batteries:\n  house:\n    battery: {max_voltage: 14.7 V}\n",
    "isolation:\n  charger:\n    charger: {input_max: 55 A}\n",
    "vehicle:\n  engine: {fuel: petrol, displacement: 0.66 l}\n",
    "vehicle:\n  own_loads: {key_off: 20 mA, cranking: 250 A, source: measured}\n",
    "batteries:\n  house:\n    existing: true\nvehicle:\n  sensed_post: house\ngrounds: {stud-engine: {at: engine-bay}}\n",
    "job:\n  date: 2028-02-29\n",
    'states:\n  ride:\n    key: "on"\n    engine: driving\n    on: [fridge]\n',
]


@pytest.mark.parametrize("text", SOUND)
def test_what_exists_passes(text: str) -> None:
    assert not [one for one in said(text) if one[0] == RULE]


RUNS = "runs:\n  - {{between: [engine-bay, bulkhead], length: 0.9 m, through: grommet, passes: [engine-wall]}}\n{}"
REST = (
    "  - {between: [bulkhead, roof-rail], length: 2.4 m}\n"
    "  - {between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall]}\n"
)


def test_a_run_from_a_place_to_itself_is_refused() -> None:
    text = RUNS.format(REST + "  - {between: [bulkhead, bulkhead], length: 1 m}\n")
    assert said(text) == [("ends-alike", 5, "both ends are `bulkhead`")]


@pytest.mark.parametrize("length", ["0.1 m", "0.9 m"])
def test_a_second_run_between_two_places_is_refused(length: str) -> None:
    text = RUNS.format(REST + f"  - {{between: [bulkhead, engine-bay], length: {length}, conduit: 20 mm}}\n")
    ((rule, line, message),) = said(text)
    assert (rule, line) == ("run-written-twice", 5) and "`bulkhead` and `engine-bay`" in message


@pytest.mark.parametrize("position", ["²", "٣", "0"])
def test_a_position_is_plain_digits(position: str) -> None:
    text = f"accessories:\n  lamp:\n    at: load-bed\n    fed_from: rear.{position}\n    electrical: {{model: motor, worst: 3 A}}\n"
    ((rule, line, message),) = said(text)
    assert (rule, line) == ("unknown-name", 4) and "does not say which position of `rear`" in message
