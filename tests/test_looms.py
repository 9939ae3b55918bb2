"""Looms and holes of a build: what lies where, sleeves, supports, room, and the routing sheet that prints them."""

from __future__ import annotations

import math
import pathlib

import pytest
import rule_fixtures
from sample_packets import EXAMPLES, NAMES, by_first, packet, tables, written

from buildspec import show
from buildspec.documents import _routing as lines
from buildspec.looms import holes, runs
from buildspec.model import Sized

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
NEC = {1: 0.53, 2: 0.31}
"""Fill of NFPA 70 chapter 9 table 1; 0.40 for more."""


def base(text: str = "places: {}\n") -> Sized:
    """The base build of the rule fixtures with some text laid over it."""
    made = rule_fixtures.checked(rule_fixtures.Case("trial", "trial", text)).build
    assert made is not None
    return made


@EACH
def test_every_wire_that_is_cut_lies_in_the_runs_of_its_route_and_nowhere_else(path: pathlib.Path) -> None:
    sized = packet(path).sized
    laid = {(one.wire.designation, loom.run.name) for loom in runs.looms(sized) for one in loom.lying}
    wanted = {
        (wire.designation, run.name)
        for circuit in sized.build.circuits
        if not circuit.existing
        for wire in (*circuit.feeds, *circuit.returns)
        for run in wire.route.runs
    }
    assert laid == wanted and len(wanted) > 20


@EACH
def test_cables_lie_apart_and_nothing_is_counted_twice(path: pathlib.Path) -> None:
    for loom in runs.looms(packet(path).sized):
        assert sorted(one.wire.key for one in (*loom.inner, *loom.apart)) == sorted(
            one.wire.key for one in loom.lying
        )
        assert {one.kind for one in loom.apart} <= {"cable"} and "cable" not in {
            one.kind for one in loom.inner
        }


def test_cables_in_the_loom_when_the_practice_says_so() -> None:
    together = base("practice: {battery_cables: in loom}\n")
    for loom in runs.looms(together):
        assert loom.apart == () and loom.inner == loom.lying
    thickest = [runs.diameter_m(loom.inner) for loom in runs.looms(together)]
    assert max(thickest) > max(runs.diameter_m(loom.inner) for loom in runs.looms(base()))


@EACH
def test_a_chosen_tube_is_filled_to_the_share_of_the_code_at_most(path: pathlib.Path) -> None:
    seen = 0
    for loom in runs.looms(packet(path).sized):
        for tube in loom.conduits:
            assert tube.inside_m is not None
            filled = sum(one.diameter_m**2 for one in tube.lying) / tube.inside_m**2
            assert filled <= NEC.get(len(tube.lying), 0.40) + 1e-9
            seen += 1
    assert seen


@EACH
def test_the_room_left_in_a_tube_is_room_for_no_more_than_it_says(path: pathlib.Path) -> None:
    sized = packet(path).sized
    each_m, _ = runs.outside(runs.smallest(sized.build.practice))
    for loom in runs.looms(sized):
        for tube in loom.conduits:
            assert tube.inside_m is not None
            taken = sum(one.diameter_m**2 for one in tube.lying)
            full = (taken + tube.room * each_m**2) / tube.inside_m**2
            assert tube.room == 0 or full <= 0.40
            assert (taken + (tube.room + 1) * each_m**2) / tube.inside_m**2 > 0.40


@EACH
def test_no_gap_between_clips_is_wider_than_the_spacing(path: pathlib.Path) -> None:
    practice = packet(path).sized.build.practice
    for loom in runs.looms(packet(path).sized):
        groups = bool(loom.inner) + len(loom.apart)
        if groups == 1:
            gaps = loom.supports.clips - 1
            assert loom.run.length_m / gaps <= loom.supports.spacing_m + 1e-9
            assert gaps == 1 or loom.run.length_m / (gaps - 1) > loom.supports.spacing_m
        if loom.apart:
            assert loom.supports.spacing_m <= max(practice.cable_support_m, loom.run.support_m or 0)


def test_ties_stand_only_where_clips_are_more_than_a_foot_apart() -> None:
    """AC 43.13-1B 11-158(b): from 12 in."""
    close = (
        "practice: {battery_cables: in loom}\nruns:\n"
        "  - {between: [engine-bay, bulkhead], length: 0.9 m}\n  - {between: [bulkhead, roof-rail], length: 2.4 m}\n"
    )
    for spacing, tied in (("300 mm", False), ("400 mm", True)):
        text = f"{close}  - {{between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall], support: {spacing}}}\n"
        loom = runs.looms(base(text))[2]
        assert len(loom.inner) > 1
        assert bool(loom.supports.ties) == tied


@EACH
def test_a_loom_with_room_has_the_section_that_the_practice_asks_for(path: pathlib.Path) -> None:
    sized = packet(path).sized
    for loom in runs.looms(sized):
        now, wide = runs.diameter_m(loom.inner), runs.with_spare_m(sized.build.practice, loom.inner)
        assert wide**2 == pytest.approx(now**2 * 1.2)


def test_an_unlisted_diameter_is_that_of_the_next_larger_size_and_never_counts_as_read() -> None:
    sized = base()
    rows = {one.conductor.name: one for one in runs.all_lying(sized)}
    for one in rows.values():
        assert one.diameter_m * 1000 > math.sqrt(4 * one.conductor.area_mm2 / math.pi)
    assert {one.verified for one in rows.values()} == {"yes", "memory"}
    thick = [one for one in rows.values() if one.conductor.area_mm2 > 12]
    assert thick and {one.verified for one in thick} == {"memory"}


def test_wires_of_two_runs_pass_a_hole_once() -> None:
    text = """runs:
  - {between: [engine-bay, bulkhead], length: 0.9 m, through: grommet, passes: [engine-wall]}
  - {between: [bulkhead, roof-rail], length: 2.4 m}
  - {between: [bulkhead, load-bed], length: 3.6 m, passes: [engine-wall]}
"""
    sized = base(text)
    passage = holes.passages(sized)[0]
    keys = [one.wire.key for one in passage.lying]
    first, _, third = runs.looms(sized)
    assert len(keys) == len(set(keys)) < len(first.lying) + len(third.lying)
    assert set(keys) == {one.wire.key for one in (*first.lying, *third.lying)}
    assert passage.bore_m == pytest.approx(0.05 - 2 * 0.003)


def test_a_run_passes_the_only_hole_at_its_ends_without_naming_it() -> None:
    text = """runs:
  - {between: [engine-bay, bulkhead], length: 0.9 m, through: grommet}
  - {between: [bulkhead, roof-rail], length: 2.4 m}
  - {between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall]}
"""
    build = base(text).build
    assert [h.name for h in holes.passed(build, build.runs[0])] == ["engine-wall"]
    assert holes.passed(build, build.runs[1]) == ()


@EACH
def test_every_hole_that_a_run_passes_is_linked_and_large_enough_in_the_examples(path: pathlib.Path) -> None:
    sized = packet(path).sized
    for run in sized.build.runs:
        if run.through:
            assert run.passes and len(holes.passed(sized.build, run)) == len(run.passes)
    for one in holes.passages(sized):
        assert not one.lying or (one.bore_m is not None and one.diameter_m <= one.bore_m)
    engine = [
        r for r in sized.build.runs if "engine" in {sized.build.places[p].environment for p in (r.a, r.b)}
    ]
    assert engine and all(run.near and run.support_m for run in engine)


@EACH
def test_the_routing_sheet_prints_every_wire_and_every_hole(path: pathlib.Path) -> None:
    sized, text = packet(path).sized, written(path)["routing"]
    found = [row for table in tables(text) for row in table if "Battery cables and feeders" in row]
    laid = [loom for loom in runs.looms(sized) if loom.lying]
    for row, loom in zip(found, laid, strict=True):
        kinds = ("Feeds", "Returns", "Signals and coils", "Battery cables and feeders")
        numbers = sorted(n for kind in kinds for n in row[kind].split(", ") if n != "–")
        assert numbers == sorted(one.wire.designation for one in loom.lying)
    assert by_first(text, "New or reused").keys() == {hole.name for hole in sized.build.holes}
    assert by_first(text, "Closed on removal with").keys() == {hole.name for hole in sized.build.holes}


@EACH
def test_clips_tubes_and_grommets_are_bought_as_the_sheet_counts_them(path: pathlib.Path) -> None:
    sized, practice = packet(path).sized, packet(path).sized.build.practice
    small = [r for t in tables(written(path)["bill_of_materials"]) for r in t if "Item" in r and "Size" in r]
    sheet = [r for t in tables(written(path)["routing"]) for r in t if "Clips" in r]
    (clips,) = [r["Number"] for r in small if r["Item"] == "Loom clips"]
    assert int(clips) == sum(int(row["Clips"].split(",")[0]) for row in sheet)
    unit = "m" if practice.units == "metric" else "ft"
    bought = sum(float(r["Number"].removesuffix(unit)) for r in small if r["Item"] == "Loom tube")
    laid_m = sum(loom.run.length_m * len(loom.conduits) for loom in runs.looms(sized))
    assert bought * (1.0 if unit == "m" else 0.3048) >= laid_m - 1e-9
    fresh = [h for h in sized.build.holes if not (h.reused or h.removed_item)]
    edged = [r for r in small if r["Item"] in ("Grommet", "Gland", "Edge trim")]
    assert sum(int(r["Number"]) for r in edged) == len(fresh)


def test_a_reserve_under_a_shrink_cap_gets_a_tube_that_goes_over_it_and_closes_on_it() -> None:
    """Base build: two conductors; 20 % wider than the largest item, as the shrink-tube guides say."""
    sized = base()
    (reserve,) = sized.build.reserves.values()
    over_m = runs.diameter_m([one for one in runs.all_lying(sized) if one.circuit.item == reserve.name])
    assert over_m * 1000 * 1.2 <= 6.35, "1/4 in is 6.35 mm as supplied"
    assert over_m * 1000 * 1.2 > 4.75, "3/16 in is 4.75 mm as supplied"
    assert lines.cap_size(sized, reserve).startswith(", tube 1/4 in over ")
    assert show.diameter(over_m, sized.build.practice) in lines.cap_size(sized, reserve)
    assert lines.cap_size(sized, reserve._replace(cap="sealed connector")) == ""


@pytest.mark.parametrize("of", ["engine-bay - bulkhead", "bulkhead - engine-bay"])
def test_a_finding_on_a_run_is_waived_by_its_two_places(of: str) -> None:
    text = f"""runs:
  - {{between: [engine-bay, bulkhead], length: 0.9 m, through: grommet, passes: [engine-wall], support: 400 mm}}
  - {{between: [bulkhead, roof-rail], length: 2.4 m}}
  - {{between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall]}}
waivers:
  - {{rule: supports-too-far-apart, of: {of}, reason: held by the vehicle's own tray, by: shop lead, until: 2027-01-01}}
"""
    found = rule_fixtures.checked(rule_fixtures.Case("trial", "trial", text)).diagnostics
    assert [d.severity for d in found if d.rule == "supports-too-far-apart"] == ["note"]
    assert "waiver-unused" not in {d.rule for d in found}


def test_an_unknown_hole_is_named_with_the_nearest_one() -> None:
    text = """runs:
  - {between: [engine-bay, bulkhead], length: 0.9 m, passes: [engine-wal]}
"""
    (found,) = rule_fixtures.checked(rule_fixtures.Case("trial", "trial", text)).diagnostics
    assert (found.rule, found.message) == ("unknown-name", "hole `engine-wal` is not defined")
    assert found.help == "did you mean `engine-wall`?" and found.span.line == 2
