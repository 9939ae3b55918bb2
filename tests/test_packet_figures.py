"""Figures of the packet against sums made here by hand: shorts, sums of masses, labels, readings."""

from __future__ import annotations

import math
import pathlib
import re

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_packets import EXAMPLES, NAMES, by_first, packet, tables, written

from buildspec import show

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
COPPER_K = math.sqrt(3.45e-3 * (234.5 + 20) / 17.241e-6)
"""A s^0.5/mm²: sqrt(Qc (beta + 20) / rho20) with the constants for copper in IEC 60949."""
FINAL_C = 160
"""Of thermoplastic insulation in a short, IEC 60364-5-54."""
REST_V = 12.6
"""Full lead-acid battery at rest; published battery tables."""


def far(path: pathlib.Path) -> list[dict[str, str]]:
    return [r for t in tables(written(path)["short_circuits"]) for r in t if "Goes dead" in r]


def area_mm2(text: str) -> float:
    """`16 mm²`, `8 AWG (8.37 mm²)`."""
    found = re.search(r"([\d.]+) mm²", text)
    assert found is not None, text
    return float(found[1])


@EACH
def test_what_the_thinnest_conductor_stands_is_k2_s2(path: pathlib.Path) -> None:
    insulation = packet(path).sized.build.practice.insulation_c
    k = COPPER_K * math.sqrt(math.log((234.5 + FINAL_C) / (234.5 + insulation)))
    sizes = by_first(written(path)["circuit_schedule"], "Table row")
    assert far(path)
    for row in far(path):
        area = area_mm2(sizes[row["It is in"]]["Size"])
        assert float(row["Thinnest stands, A² s"]) == pytest.approx(k**2 * area**2, rel=0.006)
        assert row["Lets through, A² s"] == "–" or float(row["Lets through, A² s"]) <= float(
            row["Thinnest stands, A² s"]
        )


@EACH
def test_what_goes_dead_is_everything_behind_the_device(path: pathlib.Path) -> None:
    """By a walk over feeders with networkx."""
    sized = packet(path).sized
    circuits = [c for c in sized.build.circuits if not c.existing]
    graph = networkx.DiGraph((c.source, c.target) for c in circuits if c.kind == "feeder")
    home = {d.designation: c for c in circuits for d in sized.sizings[c.key].devices}
    number_of = {c.key: c.number for c in circuits}
    for row in far(path):
        own = home[row["Opens"].split(" ")[0]]
        fed = {own.target, *networkx.descendants(graph, own.target)} if own.kind == "feeder" else set()
        behind = {c.number for c in circuits if c.source in fed} | {own.number}
        behind |= {c.number for c in circuits if c.kind == "branch" and number_of[c.source] in behind}
        assert set(row["Goes dead"].split(", ")) == behind
        assert row["No."] in behind, "the device that opens stands before the short"


@EACH
def test_every_circuit_that_carries_supply_has_its_shorts(path: pathlib.Path) -> None:
    sized = packet(path).sized
    wanted = {
        c.number
        for c in sized.build.circuits
        if c.kind in ("load", "branch", "reserve", "feeder", "charge-in", "charge-out", "link")
        and c.feeds and not (c.existing or c.open_reason)
    }  # fmt: skip
    assert wanted <= {row["No."] for row in far(path)}


@EACH
def test_a_short_right_behind_a_device_is_no_weaker_than_one_at_the_end(path: pathlib.Path) -> None:
    near = by_first(written(path)["short_circuits"], "At the most")
    for row in far(path):
        most = near[row["Opens"].split(" ")[0]]["At the most"].removesuffix(" kA")
        assert float(row["At least"].removesuffix(" A")) <= float(most) * 1000 + 5


@EACH
def test_nothing_is_asked_of_a_fuse_that_it_does_not_break(path: pathlib.Path) -> None:
    rows = [r for t in tables(written(path)["short_circuits"]) for r in t if "At the most" in r]
    fuses = [r for r in rows if r["Device"].startswith("F") and "–" not in (r["Must break"], r["Breaks"])]
    assert fuses
    for row in fuses:
        most, asked, breaks = (
            float(row[k].removesuffix(" kA")) for k in ("At the most", "Must break", "Breaks")
        )
        assert most <= asked <= breaks, row


@EACH
def test_the_device_reads_what_the_posts_give_less_the_drop(path: pathlib.Path) -> None:
    rows = by_first(written(path)["commissioning_record"], "Device reads")
    assert rows
    for row in rows.values():
        drop, most = (
            float(row[k].removeprefix("≤ ").removesuffix(" V")) for k in ("Expected drop", "Passes")
        )
        assert float(row["Device reads"].removesuffix(" V")) == pytest.approx(REST_V - drop, abs=0.011)
        assert float(row["At least"].removesuffix(" V")) == pytest.approx(REST_V - most, abs=0.011)


@EACH
def test_masses_of_the_bill_add_up_to_its_sum_as_printed(path: pathlib.Path) -> None:
    text = written(path)["bill_of_materials"]
    stated = re.search(r"Items and sheet goods: ([\d.]+) (kg|lb)\.", text)
    assert stated is not None
    cells = [r.get("Total") or r["Mass"] for t in tables(text) for r in t if "Total" in r or "Surface" in r]
    listed = [float(cell.split(" ")[0]) for cell in cells if cell != "not stated"]
    assert sum(listed) == pytest.approx(float(stated[1]), abs=1e-6)


@EACH
def test_payload_and_axles_add_up_as_printed(path: pathlib.Path) -> None:
    text = written(path)["mass_sheet"].replace("−", "-").replace("\\", "")
    rows = {r["What"]: r["Mass"] for t in tables(text) for r in t if list(r) == ["What", "Mass"]}
    amounts = [float(cell.split(" ")[0]) for cell in rows.values()]
    if amounts:
        assert amounts[0] - sum(amounts[1:-1]) == pytest.approx(amounts[-1], abs=1e-6)
    for row in (r for t in tables(text) for r in t if "Unladen after" in r):
        kerb, added, whole = (float(row[k].split(" ")[0]) for k in ("Kerb", "Added", "Unladen after"))
        assert kerb + added == pytest.approx(whole, abs=1e-6)


@EACH
def test_labels_are_bought_as_listed_and_relays_grounds_and_holders_have_one(path: pathlib.Path) -> None:
    made, text = packet(path), written(path)
    listed = [r for t in tables(text["labels"]) for r in t if "Text" in r]
    bought = next(
        int(r["Number"]) for t in tables(text["bill_of_materials"]) for r in t if r.get("Item") == "Labels"
    )
    assert sum(int(r["Number"]) for r in listed) == bought
    texts = [r["Text"] for r in listed]
    build = made.sized.build
    relays = {k.designation for c in build.circuits for k in c.contacts if k.part and k.kind != "link"}
    ended = {
        e.item
        for c in build.circuits
        if not c.existing
        for w in (*c.feeds, *c.returns)
        for e in (w.start, w.end)
    }
    studs = {g.letter_name for g in build.grounds.values() if not g.post_of and g.letter_name in ended}
    holders = {
        d.designation
        for c in build.circuits
        if not c.existing
        for d in made.sized.sizings[c.key].devices
        if d.kind == "fuse"
    }
    for mark in (*relays, *studs, *holders):
        assert sum(t.startswith(f"{mark} ") for t in texts) == 1, mark


def test_the_condition_report_tells_the_key_off_current_that_the_vehicle_has() -> None:
    """20 mA by the vehicle's data in the spec, 50 mA as the usual published limit."""
    path = next(p for p in EXAMPLES if p.parent.name == "river-gauging-pickup")
    rows = by_first(written(path)["condition_report"], "Found")
    expected = rows["Key-off current of the whole vehicle"]["Should be"]
    assert expected.startswith("20 mA by ") and expected.endswith("at most 50 mA")
    assert rows["Start battery G2, at rest"]["Should be"] == "12.60 V or more"


@given(st.lists(st.floats(-500, 5000), min_size=1, max_size=40), st.integers(0, 3))
def test_rounded_values_add_up_and_none_moves_by_a_whole_unit(values: list[float], places: int) -> None:
    found = show.adding_up(values, places)
    unit = 10.0**-places
    assert sum(found) == pytest.approx(round(sum(values), places), abs=unit * 1e-3 + 1e-9)
    assert all(abs(a - b) <= unit * 1.001 for a, b in zip(found, values, strict=True))
