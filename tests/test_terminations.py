"""The sheet of terminations: every ring on its stud, the largest at the bottom, a pull for every crimp."""

from __future__ import annotations

import pathlib
import re

import pytest
import sample_builds
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec.documents import _wires as wires
from buildspec.joints import joints
from buildspec.units import awg_area_mm2, awg_number

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
MOST = 4
"""ABYC E-11, as marine suppliers quote it."""


def area(text: str) -> float:
    number, unit = text.split()
    gauge = awg_number(number) if unit == "AWG" else None
    return awg_area_mm2(gauge) if gauge is not None else float(number)


def rows(path: pathlib.Path, heading: str) -> list[dict[str, str]]:
    return [r for t in tables(written(path)["terminations_and_torque"]) for r in t if heading in r]


@EACH
def test_largest_lug_at_the_bottom_and_no_more_than_four(path: pathlib.Path) -> None:
    piles = [
        re.findall(r"W\d+ ([\d./]+ (?:AWG|mm²))", pile)
        for row in rows(path, "Lugs, from the bottom")
        for pile in row["Lugs, from the bottom"].split(";")
    ]
    assert any(len(pile) > 2 for pile in piles)
    for pile in piles:
        areas = [area(size) for size in pile]
        assert areas == sorted(areas, reverse=True) and 1 <= len(areas) <= MOST


@EACH
def test_every_ring_of_the_cut_list_is_on_one_joint(path: pathlib.Path) -> None:
    ends = [
        (p.wire.designation, end.at)
        for p in wires.pieces(packet(path))
        for end in (p.near, p.far)
        if end.terminal == wires.RING
    ]
    found = [
        (wire, row["Joint"].split()[0])
        for row in rows(path, "Lugs, from the bottom")
        for wire in re.findall(r"W\d+", row["Lugs, from the bottom"])
    ]
    assert sorted(found) == sorted(ends)


@EACH
def test_torque_of_a_battery_defers_to_its_label(path: pathlib.Path) -> None:
    posts = [r for r in rows(path, "Torque") if "post" in r.get("Joint", "")]
    assert posts and all("battery's label first" in r["From"] for r in posts)


def test_m8_posts_print_the_span_of_the_makers() -> None:
    """Installation manuals of three battery makers: 6.6 to 11 N m."""
    path = next(p for p in EXAMPLES if p.parent.name == "bicycle-workshop-van")
    house = [r for r in rows(path, "Joint") if "house battery" in r["Joint"]]
    assert {r["Torque"] for r in house} == {"6.6 to 11 N m"}


@EACH
def test_each_crimp_states_a_pull_and_counts_its_ends(path: pathlib.Path) -> None:
    crimps = rows(path, "Sample holds")
    for row in crimps:
        assert re.fullmatch(r"[\d.]+ N \(\d+ lbf\)", row["Sample holds"])
        assert int(row["Number"]) == len(row["Wire ends"].split(", "))
        gauge = awg_number(row["Row"].split()[0])
        assert gauge is not None and awg_area_mm2(gauge) <= area(row["Wire"]) * 1.001
    ends = [e for p in wires.pieces(packet(path)) for e in (p.near, p.far) if e.terminal != "none"]
    assert sum(int(row["Number"]) for row in crimps) == len(ends)


@EACH
def test_a_fastening_is_printed_with_torque_and_source(path: pathlib.Path) -> None:
    stated = [a for a in packet(path).sized.build.accessories.values() if a.fastening]
    printed = rows(path, "One bolt carries")
    assert len(printed) == len(stated) > 0
    assert all(re.fullmatch(r"[\d.]+ N m", r["Torque"]) and len(r["From"]) > 10 for r in printed)


def test_a_point_with_three_studs_takes_twelve() -> None:
    data = sample_builds.spec(6, blocks=1)
    stud = next(iter(data["grounds"]))
    data["grounds"][stud]["studs"] = 3
    found = {j.at[-1]: j for j in joints(sample_builds.built(data).build)}
    assert found[stud].room == 3 * MOST
    assert all(j.room == MOST for name, j in found.items() if name != stud)
