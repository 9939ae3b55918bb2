"""What a fitter reads at the bench and compares between sheets."""

from __future__ import annotations

import pathlib
import re

from sample_packets import by_first, packet, tables, written
from test_documents import EACH, example, section


def test_current_leaves_a_source_and_comes_back_to_its_negative() -> None:
    """Kirchhoff: a charger's output gives, the battery's positive takes it; every return ends at the post."""
    made = packet(example("bicycle-workshop-van"))
    found = [
        row
        for t in tables(written(example("bicycle-workshop-van"))["place_sheets"])
        for row in t
        if "Way" in row
    ]
    ways = {(row["End here"], row["Wire"]): row["Way"] for row in found}
    outputs = [c for c in made.sized.build.circuits if c.kind == "charge-out"]
    assert len(outputs) == 2
    for circuit in outputs:
        first, last = circuit.feeds[0], circuit.feeds[-1]
        assert ways[(f"{first.start.item}:{first.start.pin}", first.designation)] == "arrives"
        assert ways[(f"{last.end.item}:{last.end.pin}", last.designation)] == "leaves"


def test_gaps_in_numbers_are_named() -> None:
    """Counted by hand on the van: no fuse is F1; W01, W02, W58 to W61 are the vehicle's or were given up."""
    texts = written(example("bicycle-workshop-van"))
    for name, letter in (("cut_list", "W"), ("fuse_map", "F")):
        head = texts[name].split("| ---")[0]
        found = {int(n) for n in re.findall(rf"\b{letter}(\d+)\b", head)}
        first = "Wire" if letter == "W" else "Device"
        listed = {
            int(row[first][1:]) for t in tables(texts[name]) for row in t if row.get(first, "")[:1] == letter
        }
        assert found & set(range(1, max(listed))) >= set(range(1, max(listed))) - listed
        assert set(range(1, max(listed))) - listed


def test_a_charger_that_the_key_wakes_is_put_to_sleep_for_the_cranking_test() -> None:
    """With the key on it takes its input from the battery that is being tested: its wake fuse has to be out."""
    made = packet(example("bicycle-workshop-van"))
    wake = next(
        c for c in made.sized.build.circuits if c.kind == "signal" and c.target_designation.startswith("T")
    )
    fuse = wake.protections[0].designation
    record = section(written(example("bicycle-workshop-van"))["commissioning_record"], "Cranking")
    assert f"off, its wake fuse {fuse} out" in record


def test_a_return_ends_at_the_same_name_in_schedule_and_cut_list() -> None:
    texts = written(example("bicycle-workshop-van"))
    cut = [
        (row["Circuit"], end)
        for t in tables(texts["cut_list"])
        for row in t
        for end in (row["From"], row["To"])
    ]
    posts = [
        row
        for t in tables(texts["circuit_schedule"])
        for row in t
        if "negative post of" in row.get("Returns to", "")
    ]
    assert len(posts) == 3
    for row in posts:
        name = row["Returns to"].partition(",")[0]
        assert any(number == row["No."] and end.startswith(name) for number, end in cut)


@EACH
def test_bolted_branches_go_in_before_their_feeder_and_those_of_reserves_stay_out(path: pathlib.Path) -> None:
    made, texts = packet(path), written(path)
    steps = [row["Step"] for row in tables(section(texts["work_order"], "7 Protect"))[0]]
    going_in = [s.partition(" in: ") for s in steps if re.match(r"F\d+ in: ", s)]
    order = [mark for mark, _, _ in going_in]
    strips = {"strip", "limiter", "cube"}
    bolted = [bool(strips & set(re.findall(r"[a-z]+", words))) for _, _, words in going_in]
    assert bolted == sorted(bolted, reverse=True), "what a nut holds goes in before what is plugged in"
    devices = {
        d.designation: (c, d) for c in made.sized.build.circuits for d in made.sized.sizings[c.key].devices
    }
    for mark, is_bolted in zip(order, bolted, strict=True):
        _, device = devices[mark]
        feeder = next(
            (
                d
                for c, d in devices.values()
                if c.kind == "feeder" and c.target == device.host and device.host
            ),
            None,
        )
        if is_bolted and feeder is not None:
            assert order.index(mark) < order.index(feeder.designation), (
                "its block is dead while its nut turns"
            )
    record = section(texts["commissioning_record"], "Supply")
    again = next(line for line in record.splitlines() if "torqued and marked again" in line)
    assert all(re.search(rf"\b{m}\b", again) for m, yes in zip(order, bolted, strict=True) if yes)
    fuse_map = by_first(texts["fuse_map"], "Do not fit above")
    assert all(words.startswith(fuse_map[mark]["Rating"]) for mark, _, words in going_in)
    reserved = {
        d.designation
        for r in made.sized.build.reserves
        for d in made.sized.sizings[r].devices
        if d.kind == "fuse"
    }
    out = {s.removesuffix(" stays out") for s in steps if s.endswith(" stays out")}
    assert reserved == out and not out & {mark for mark, _, _ in going_in}
    added = {mark for mark, row in fuse_map.items() if mark.startswith("F") and row["Origin"] == "added"}
    assert {mark for mark, _, _ in going_in} | out == added
