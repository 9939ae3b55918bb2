"""Names, missing ratings, reach and numbers: what stands in the way of a build, and what never moves."""

from __future__ import annotations

import pathlib

import pytest
import rule_fixtures
from rule_fixtures import laid_over

from buildspec import pipeline, read
from buildspec.model import Resolved

KNOWN = "job: {title: Trial}\n"


def outcome(text: str, kept: dict[str, str] | None = None) -> pipeline.Outcome:
    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, said = read.read_text(text, file="over")
    assert base is not None and over is not None, said
    return pipeline.check_documents(laid_over(base, over), None, kept or {})


def build(text: str, kept: dict[str, str] | None = None) -> Resolved:
    made = outcome(text, kept)
    assert made.build is not None, made.diagnostics
    return made.build.build


FAULTS = {
    "place": (
        "accessories:\n  lamp: {at: loadbed, fed_from: rear.1, electrical: {model: resistive, worst: 1 A}}",
        2, "unknown-name", "`loadbed` is not defined", "did you mean `load-bed`?",
    ),
    "part": ("accessories:\n  lamp: {at: load-bed, part: led-bar-761, fed_from: rear.1}", 2, "unknown-name", "`led-bar-761`", "led-bar-760"),
    "source": ("accessories:\n  fridge:\n    fed_from: reer.3", 3, "unknown-name", "source `reer`", "did you mean `rear`?"),
    "position": ("accessories:\n  fridge:\n    fed_from: rear.7", 3, "unknown-name", "`rear` has 6 positions", "1 to 6"),
    "no position": ("accessories:\n  fridge:\n    fed_from: rear", 3, "unknown-name", "which position", "rear.1"),
    "channel": ("accessories:\n  bar:\n    switch: main.9", 3, "unknown-name", "`main` has 8 channels", "1 to 8"),
    "signal": ("isolation:\n  charger:\n    wake: ignitoin", 3, "unknown-name", "signal `ignitoin`", "`ignition`"),
    "ground": ("accessories:\n  fridge:\n    return: stud-bet", 3, "unknown-name", "ground `stud-bet`", "`stud-bed`"),
    "battery": ("isolation:\n  charger:\n    to: hause", 3, "unknown-name", "battery `hause`", "`house`"),
    "twice": ("accessories:\n  house: {at: load-bed}", 2, "name-used-twice", "`house` names something", "name of its own"),
    "both feeds": (
        "accessories:\n  fridge:\n    switch: main.3", 3, "no-single-feed", "nothing joins them", "`relay`",
    ),
    "no current": ("accessories:\n  lamp: {at: load-bed, fed_from: rear.1}", 2, "missing-rating", "current is not stated", "`electrical:`"),
    "only its usual current": (
        "accessories:\n  pump: {at: load-bed, fed_from: rear.1, electrical: {model: motor, typical: 4 A}}",
        2, "missing-rating", "current is not stated", "`power` or `worst`",
    ),
    "not connected": (
        "accessories:\n  lamp: {at: load-bed, electrical: {model: resistive, worst: 1 A}}",
        2, "no-single-feed", "connected to nothing", "`switch` or `fed_from`",
    ),
    "no route": (
        "places: {shed: {environment: cabin}}\naccessories:\n  lamp: {at: shed, fed_from: rear.1, electrical: {model: resistive, worst: 1 A}}",
        3, "no-route", "no run leads from `engine-bay` to `shed`", "add the run",
    ),
    "more links than a chain has": (
        "accessories:\n  lamps:\n    at: load-bed\n    fed_from: rear.1\n    quantity: 3\n    branches:\n      form: chain\n"
        "      lengths: [1 m, 1 m, 1 m]\n    electrical: {model: resistive, worst: 1 A}",
        8, "branches-do-not-fit", "3 lengths for a chain of 3 items, which has 2 links", "write 2 lengths",
    ),
    "fewer links than a star has": (
        "accessories:\n  lamps:\n    at: load-bed\n    fed_from: rear.1\n    quantity: 3\n    branches:\n      form: star\n"
        "      lengths: [1 m, 1 m]\n    electrical: {model: resistive, worst: 1 A}",
        8, "branches-do-not-fit", "2 lengths for a star of 3 items, which has 3 links", "write 3 lengths",
    ),
    "branches of one item": (
        "accessories:\n  lamp:\n    at: load-bed\n    fed_from: rear.1\n    branches: {form: star, lengths: [1 m]}\n"
        "    electrical: {model: resistive, worst: 1 A}",
        5, "branches-do-not-fit", "this is one item", "write `quantity`",
    ),
    "branches without a feed": (
        "accessories:\n  bolts:\n    at: load-bed\n    quantity: 2\n    mass: 1 kg\n    branches: {form: chain, lengths: [1 m]}",
        6, "branches-do-not-fit", "connected to nothing", "write `switch` or `fed_from`",
    ),
    "loop": ("blocks:\n  rear:\n    fed_from: rear.2", 3, "feed-loop", "`rear` is fed from itself", "battery"),
    "no end": ("isolation:\n  charger: {to: null}", 2, "missing-end", "needs `to`", "batteries"),
    "no role": (
        "batteries:\n  spare: {chemistry: agm, capacity: 20 Ah, at: load-bed}", 2, "missing-rating", "side of the isolation", "role: house",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_fault_is_placed_and_says_what_would_fit(name: str) -> None:
    text, line, rule, message, help = FAULTS[name]
    made = outcome(text)
    found = [
        (d.span.line if d.span.file == "over" else 0, d.rule, d.message, d.help) for d in made.diagnostics
    ]
    assert made.build is None
    assert len(found) == 1, found
    assert found[0][:2] == (line, rule), found
    assert message in found[0][2] and help in found[0][3], found


def test_numbers_stay_when_something_is_put_in_above() -> None:
    before = build(KNOWN)
    lamp = "{at: load-bed, fed_from: rear.1, electrical: {model: resistive, worst: 1 A}}"
    reordered = f"accessories:\n  aaa-lamp: {lamp}\n"
    after = build(reordered, dict(before.numbers))
    assert {k: v for k, v in after.numbers.items() if k in before.numbers} == dict(before.numbers)
    new = {k: v for k, v in after.numbers.items() if k not in before.numbers}
    assert new and not set(new.values()) & {
        v for k, v in before.numbers.items() if not k.startswith("circuit ")
    }


def test_a_number_is_not_given_out_again() -> None:
    before = build(KNOWN)
    fuse = before.numbers["fridge/fuse"]
    without = build("accessories: {fridge: null}\n", dict(before.numbers))
    assert without.numbers["fridge/fuse"] == fuse
    other = "accessories:\n  fridge: null\n  cooler: {at: load-bed, fed_from: rear.3, electrical: {model: motor, worst: 6 A}}\n"
    replaced = build(other, dict(without.numbers))
    assert replaced.numbers["cooler/fuse"] != fuse


@pytest.mark.parametrize(
    ("line", "clash"),
    [
        ('  "lamp": E1\n', "designation `E1` of `lamp` is that of `bar` already"),
        ('  "pump/feed": W2\n', "designation `W2` of `pump/feed` is that of `bar/feed` already"),
        ('  "circuit lamp": E1\n', ""),
        ('  "lamp": E2\n', ""),
    ],
)
def test_a_designation_that_two_keys_have_is_refused(tmp_path: pathlib.Path, line: str, clash: str) -> None:
    """As git leaves it where two branches each gave the next number; circuits count apart."""
    kept = f'numbers:\n  "bar": E1\n  "bar/feed": W02\n{line}'
    (tmp_path / "job.numbers.yaml").write_text(kept, encoding="utf-8")
    _, said = pipeline.numbers_of(tmp_path / "job.build.yaml")
    found = [(d.rule, d.severity, d.span.line, d.related[0][0].line, d.message) for d in said]
    first = 2 if "lamp" in clash else 3
    assert found == ([("name-used-twice", "error", 4, first, clash)] if clash else [])


def test_designations_follow_iec_81346_letters() -> None:
    made = build(KNOWN)
    assert {b.designation[0] for b in made.batteries.values()} == {"G"}
    assert {p.designation[0] for c in made.circuits for p in c.protections if p.kind == "fuse"} == {"F"}
    assert {w.designation[0] for c in made.circuits for w in (*c.feeds, *c.returns)} == {"W"}
    assert made.isolation["charger"].designation[0] == "T"
    assert made.isolation["assist"].designation[0] == "K"


def test_every_wire_joins_on_to_the_next() -> None:
    for circuit in build(KNOWN).circuits:
        for first, second in zip(circuit.feeds, circuit.feeds[1:], strict=False):
            assert first.end.item == second.start.item, circuit.key
            assert first.end.place == second.start.place, circuit.key
        for wire in (*circuit.feeds, *circuit.returns):
            assert wire.cut_m > 0
            assert wire.route.places[0] == wire.start.place and wire.route.places[-1] == wire.end.place


def test_a_return_goes_to_the_nearest_ground() -> None:
    made = build(KNOWN)
    circuits = {c.key: c for c in made.circuits}
    assert circuits["fridge"].ground == "stud-bed"
    assert circuits["bar"].ground == "stud-engine"
