"""The order of work can be followed: holes before wires, floor before boxes, tests before linings, no circle of holds."""

from __future__ import annotations

import pathlib
import re

import pytest
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec import compile as compiling

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
VAN = next(path for path in EXAMPLES if "van" in path.name)


def phase(path: pathlib.Path, number: int) -> str:
    text = written(path)["work_order"]
    return text.split(f"\n## {number} ")[1].split("\n## ")[0]


@EACH
def test_every_new_hole_is_made_before_a_wire_is_laid(path: pathlib.Path) -> None:
    rows = [r for t in tables(written(path)["routing"]) for r in t if r.get("New or reused") == "new"]
    assert rows
    for row in rows:
        assert f"Hole {row['Hole']}:" in phase(path, 4)
    assert not re.search(r"\d holes?\b", phase(path, 6)), "a hole is left to the places"


@EACH
def test_no_hold_asks_for_rows_that_wait_for_what_it_holds(path: pathlib.Path) -> None:
    record = written(path)["commissioning_record"]
    before, after = record.split("\n## After reassembly\n")
    assert "reassembl" not in re.sub(r"\n#.*", "", before).lower() and "Road test" not in before
    assert "Road test" in after
    assert "After reassembly" in phase(path, 9) and "After reassembly" not in phase(path, 8)
    held = next(
        line for line in written(path)["work_order"].splitlines() if "before the trim goes back" in line
    )
    assert "but for “After reassembly”" in held


def test_floor_and_insulation_go_in_before_the_wires_and_linings_after_the_tests() -> None:
    build = packet(VAN).sized.build
    under = [build.accessories[n].designation for n in ("door-deadening", "wall-insulation", "floor")]
    at = [phase(VAN, 4).index(f"Fit: {mark} ") for mark in under]
    assert at == sorted(at)
    for name in ("wall-lining", "roof-lining"):
        item = build.accessories[name]
        assert f"Fit: {item.designation} " in phase(VAN, 9)
        assert item.part.title not in phase(VAN, 6)
    assert "battery box" in phase(VAN, 6)


def test_a_place_where_nobody_drills_says_so_and_how_things_are_held() -> None:
    sheet = written(VAN)["place_sheets"].split("\n## Rear left pillar")[1].split("\n## ")[0]
    assert "belt reel" in sheet and "Nothing is drilled or cut here" in sheet and "M6 holes" in sheet


def test_no_stud_is_stripped_that_no_lug_goes_on() -> None:
    for path in EXAMPLES:
        build, sheets = packet(path).sized.build, written(path)["place_sheets"]
        lugs = {
            r["Joint"].partition(":")[0]
            for t in tables(written(path)["terminations_and_torque"])
            for r in t
            if "Joint" in r
        }
        bare = {r["Mark"] for t in tables(sheets) for r in t if "bare metal" in r.get("Why here, note", "")}
        assert bare and bare <= lugs
        assert bare >= {g.letter_name for g in build.grounds.values() if not g.post_of} & lugs


def test_what_stays_out_is_not_inspected_as_back_in_its_place() -> None:
    line = next(x for x in written(VAN)["inspection_list"].splitlines() if "factory half lining" in x)
    assert "taken out" in line and "back in its place" not in line


@EACH
def test_cut_list_and_place_sheets_name_the_stud_of_a_ring(path: pathlib.Path) -> None:
    joints = {
        r["Joint"].split()[0]: r["Stud"].split(",")[0]
        for t in tables(written(path)["terminations_and_torque"])
        for r in t
        if "Stud" in r
    }
    rows = [r for t in tables(written(path)["place_sheets"]) for r in t if "End here" in r]
    rings = [r for r in rows if r["Terminal"].startswith("ring")]
    assert rings
    for row in rings:
        stud = joints[row["End here"]]
        if re.fullmatch(r"M\d+", stud):
            assert row["Terminal"].startswith(f"ring, {stud}")
    assert re.search(r"\| ring, M\d+ ", written(path)["cut_list"])


@EACH
def test_cover_counts_what_is_added_as_the_bill_does(path: pathlib.Path) -> None:
    added = {r["Mark"]: int(r["Number"]) for t in tables(written(path)["cover"]) for r in t if "Mark" in r}
    build = packet(path).sized.build
    marks = {b.designation for b in build.batteries.values() if not b.existing}
    marks |= {p.designation for p in build.panels.values()} | {
        i.designation for i in build.isolation.values()
    }
    marks |= {c.designation for one in build.circuits for c in one.contacts if c.kind == "relay" and c.part}
    assert marks <= set(added)
    for item in build.accessories.values():
        material = item.part.material
        units = -(-round(item.surface_m2 or 0.0, 6) // material.sheet_m2) if material else item.quantity
        assert added[item.designation] == units


@EACH
def test_links_shorter_than_their_loops_are_named_as_such(path: pathlib.Path) -> None:
    build, text = packet(path).sized.build, written(path)["cut_list"]
    short = [
        w.designation
        for c in build.circuits
        if not c.existing
        for w in (*c.feeds, *c.returns)
        if w.cut_m < 2 * build.practice.service_loop_m
    ]
    named = text.partition(": short links to a device")[0].split(". ")[-1]
    assert all(re.search(rf"\b{mark}\b", named) for mark in short)


def test_contents_leads_to_every_document_on_paper_as_well() -> None:
    page = compiling.files_of(packet(VAN))["index.html"].decode()
    contents = page.split('id="cover-contents"')[1].split("</ul>")[0]
    leads = re.findall(r'href="#([a-z-]+)"', contents)
    assert len(leads) > 20 and ".md" not in contents
    assert all(f'<section id="{one}"' in page for one in leads)
    assert "target-counter(attr(href), page)" in page
