"""Conductors between the items of one accessory in the lists and on the sheets of the river-gauging pickup."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

import pytest
import sample_builds
from sample_packets import EXAMPLES, by_first, packet, tables, written

from buildspec.documents import _materials as materials
from buildspec.drawings import sheet_set
from buildspec.model import Circuit

PICKUP = next(path for path in EXAMPLES if "river" in path.parent.name)


def branches_of(form: str) -> Circuit:
    return next(c for c in packet(PICKUP).sized.build.circuits if c.form == form)


CHAIN, STAR = branches_of("chain"), branches_of("star")


def test_each_link_is_cut_out_and_back_and_labelled_at_both_ends() -> None:
    """Four lamps in a chain have three links; lengths as written with a loop of 0.1 m at each end."""
    rows = [r for t in tables(written(PICKUP)["cut_list"]) for r in t if r.get("Circuit") == CHAIN.number]
    assert sorted(row["Cut"] for row in rows) == sorted(["1.00 m", "1.60 m", "1.00 m"] * 2)
    text = written(PICKUP)["labels"]
    for wire in (*CHAIN.feeds, *CHAIN.returns):
        assert len(re.findall(rf"{CHAIN.number} {wire.designation} → ", text)) == 2


def test_joints_are_bought_one_a_pole() -> None:
    """By hand: three lamps of the chain have two links or link and feed with their lead, the star joins three ends."""
    packet_ = packet(PICKUP)
    found = Counter((j.conductors, j.largest.name) for j in materials.joined(packet_))
    assert found == {(3, "2.5 mm2"): 2, (3, "1 mm2"): 4 + 2}
    bought = {r["Size"]: r["Number"] for t in tables(written(PICKUP)["bill_of_materials"]) for r in t
              if r.get("Item") == "Sealed joint"}  # fmt: skip
    assert bought == {"3 conductors, up to 2.5 mm²": "3", "3 conductors, up to 1 mm²": "7"}


def test_the_reading_is_taken_at_the_item_that_reads_lowest() -> None:
    rows = by_first(written(PICKUP)["commissioning_record"], "Expected drop")
    trunk = {c.key: c.number for c in packet(PICKUP).sized.build.circuits}
    assert rows[trunk[CHAIN.source]]["At"].startswith("E2.4, ")
    assert rows[trunk[STAR.source]]["At"].startswith("E3.2, ")
    assert CHAIN.number not in rows


def test_the_schedule_names_the_device_that_guards_the_links() -> None:
    of = packet(PICKUP).sized
    rows = [r for t in tables(written(PICKUP)["circuit_schedule"]) for r in t if STAR.number in r.values()]
    fuse = of.sizings[STAR.source].devices[0].designation
    assert any(fuse in row.values() for row in rows)


@pytest.mark.parametrize(("form", "count"), [("chain", 30), ("star", 24), ("chain", 2), ("star", 2)])
@pytest.mark.parametrize("back", ["own", "body"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_any_number_of_items_is_drawn_without_overlaps(form: str, count: int, back: str, paper: str) -> None:
    data: dict[str, Any] = sample_builds.spec(6, panels=0)
    links = count - (form == "chain")
    data["accessories"]["load-0"] |= {
        "quantity": count,
        "return": back,
        "electrical": {"model": "constant-current", "worst": "0.1 A"},
        "branches": {"form": form, "lengths": ["0.6 m"] * links},
    }
    sized = sample_builds.built(data, {"practice": 1, "paper": paper})
    made = sheet_set.sheets(sized)
    text = "".join(sheet.svg for sheet in made)
    circuit = next(c for c in sized.build.circuits if c.key == "load-0/branches")
    assert all(f">{w.designation}<" in text for w in (*circuit.feeds, *circuit.returns))
    for sheet in (s for s in made if f">{circuit.number}<" in s.svg):
        assert sheet.checks is not None
        assert sum(sheet.checks) == 0, sheet.checks
