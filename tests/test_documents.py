"""The documents: every field there, the same value wherever it is printed, sums that add up."""

from __future__ import annotations

import pathlib
import re

import pytest
from sample_packets import EXAMPLES, NAMES, by_first, packet, tables, written

from buildspec import documents, pipeline
from buildspec.documents import _predict as predict
from buildspec.documents import _wires as wires
from buildspec.packet import Packet

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
ALPHA_20 = 0.00393
"""Temperature coefficient of annealed copper at 20 °C, IEC 60028."""
METRES_IN = {"m": 1.0, "ft": 0.3048}
KG_IN = {"kg": 1.0, "lb": 0.45359237}
"""Exact by definition: international foot and pound, 1959."""

SCHEDULE_FIELDS = (
    "number", "function", "from", "position", "rating", "type", "reset", "holder", "both_sizes", "gauge",
    "insulation", "colours", "one_way", "loop", "loaded", "environment", "base", "factors", "corrected",
    "margin", "drop", "drop_share", "drop_limit", "at_load", "key", "relay", "return_to", "return_size",
    "connector", "state", "governed", "left", "sum",
)  # fmt: skip
DOCUMENTS = (
    "cover", "drawings", "circuit_schedule", "cut_list", "labels", "fuse_map", "bill_of_materials", "work_order",
    "commissioning_record", "reserves_register", "changes_and_waivers", "routing", "handover", "legend",
    "mass_sheet", "terminations_and_torque",
)  # fmt: skip


def test_every_document_is_found() -> None:
    assert {d.name for d in documents.catalogue()} >= set(DOCUMENTS)
    assert documents.catalogue()[0].name == "cover"


@EACH
@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_document_says_which_job_and_tables_are_whole(path: pathlib.Path, name: str) -> None:
    text, job = written(path)[name], packet(path).sized.build.job
    assert text.startswith("# ")
    assert job.number in text and f"evision {job.revision}" in text and job.state in text
    assert not re.findall(r"\bNone\b(?!\.)|\b(?:nan|inf|False)\b|\{'", text), "a missing value was printed"
    for table in tables(text):
        assert table, "a table without rows"


@EACH
def test_schedule_has_every_field_of_every_circuit(path: pathlib.Path) -> None:
    made = packet(path)
    view = documents.context(document("circuit_schedule"), made)
    lines = view["circuits"]
    assert [line["number"] for line in lines] == [
        c.number for c in made.sized.build.circuits if not c.existing
    ]
    for line in lines:
        assert all(line[field] for field in SCHEDULE_FIELDS), line["number"]
    printed = written(path)["circuit_schedule"]
    assert len([t for t in tables(printed) if "No." in t[0]]) == 4
    assert "33 CFR 183.425" in printed


@EACH
def test_rating_is_the_same_in_schedule_fuse_map_labels_and_sizing(path: pathlib.Path) -> None:
    made, texts = packet(path), written(path)
    schedule, fuse_map = (
        by_first(texts["circuit_schedule"], "Rating"),
        by_first(texts["fuse_map"], "Do not fit above"),
    )
    checked = 0
    for circuit in made.sized.build.circuits:
        for device in made.sized.sizings[circuit.key].devices:
            if device.kind != "fuse" or circuit.existing:
                continue
            rating = fuse_map[device.designation]["Rating"]
            assert rating == fuse_map[device.designation]["Do not fit above"] == f"{device.rating_a:g} A"
            assert rating in schedule[circuit.number]["Rating"].split(", ")
            assert f"{device.designation} {circuit.number} {rating} max" in texts["labels"]
            checked += 1
    assert checked > 5


@EACH
def test_drop_limit_and_size_agree_between_documents(path: pathlib.Path) -> None:
    texts = written(path)
    limits = by_first(texts["circuit_schedule"], "At the device")
    sizes = by_first(texts["circuit_schedule"], "Table row")
    tested = by_first(texts["commissioning_record"], "Expected drop")
    assert tested
    for number, row in tested.items():
        assert row["Limit"] == limits[number]["Limit"]
        assert volts(row["Expected drop"]) <= volts(row["Passes"].removeprefix("≤ ")) <= volts(row["Limit"])
    for row in by_first(texts["cut_list"], "Sleeve here").values():
        assert sizes[row["Circuit"]]["Size"].startswith(row["Size"])


def volts(text: str) -> float:
    return float(text.removesuffix(" V"))


@EACH
def test_predicted_drop_is_ohms_law_over_the_path(path: pathlib.Path) -> None:
    """By hand from lengths, IEC 60028 copper, contacts and body; the printed figure has two places."""
    made = packet(path)
    printed = by_first(written(path)["commissioning_record"], "Expected drop")
    for circuit in made.sized.build.circuits:
        if circuit.kind == "load":
            current = predict.test_current_a(made.sized, circuit)
            expected = current * sum(ohm_by_hand(made, key) for key in chain(made, circuit.key))
            assert volts(printed[circuit.number]["Expected drop"]) == pytest.approx(expected, abs=0.0051)


def chain(made: Packet, key: str) -> list[str]:
    """The load, the feeders before it, and the battery's negative where the return takes the body."""
    build = made.sized.build
    circuit = next(c for c in build.circuits if c.key == key)
    keys, node = [key], circuit.source
    while node not in build.batteries:
        feeder = next(c for c in build.circuits if c.kind == "feeder" and c.target == node)
        keys.append(feeder.key)
        node = feeder.source
    to_post = circuit.ground and build.grounds[circuit.ground].post_of
    return (
        keys if to_post else keys + [c.key for c in build.circuits if c.kind == "bond" and c.source == node]
    )


def ohm_by_hand(made: Packet, key: str) -> float:
    build, sizing = made.sized.build, made.sized.sizings[key]
    circuit = next(c for c in build.circuits if c.key == key)
    length = sum(w.cut_m for w in (*circuit.feeds, *circuit.returns))
    copper = length * sizing.conductor.r20_ohm_per_m * (1 + ALPHA_20 * (sizing.temp_c - 20))
    to_stud = circuit.ground and not build.grounds[circuit.ground].post_of and circuit.kind != "bond"
    by_body = circuit.body_return or to_stud
    joints = len(circuit.protections) + len(circuit.contacts)
    return copper + joints * build.practice.contact_ohm + (build.practice.body_ohm if by_body else 0.0)


@EACH
def test_bought_conductor_covers_the_cut_list_and_no_more_than_a_metre_over(path: pathlib.Path) -> None:
    made = packet(path)
    _, rows = document("cut_list").module.csv(made)
    need: dict[str, float] = {}
    for row in rows[1:]:
        need[f"{row[2]} {row[4]}"] = need.get(f"{row[2]} {row[4]}", 0.0) + float(row[5])
    bought = {
        f"{row['Size'].partition(' (')[0]} {row['Colour']}": row["Buy"]
        for table in tables(written(path)["bill_of_materials"])
        for row in table
        if "Pieces" in row
    }
    assert set(bought) == set(need)
    for kind, metres in need.items():
        amount, unit = bought[kind].split()
        over_m = float(amount) * METRES_IN[unit] - metres
        assert -1e-6 <= over_m < METRES_IN[unit]


@EACH
def test_fuses_bought_are_those_in_the_map_and_a_spare_of_each(path: pathlib.Path) -> None:
    texts = written(path)
    in_map = [r for t in tables(texts["fuse_map"]) for r in t if r["Type"] not in ("electronic limit", "–")]
    bought = [r for t in tables(texts["bill_of_materials"]) for r in t if "In the vehicle" in r]
    assert sum(int(r["In the vehicle"]) for r in bought) == len(in_map)
    kinds = {(r["Type"].lower(), r["Rating"]) for r in in_map}
    assert {(r["Family"].lower(), r["Rating"]) for r in bought} == kinds
    assert all(int(r["Buy"]) == int(r["In the vehicle"]) + 1 for r in bought)


@EACH
def test_added_mass_is_the_sum_of_its_lines(path: pathlib.Path) -> None:
    text = written(path)["bill_of_materials"]
    _, rows = document("bill_of_materials").module.csv(packet(path))
    total = sum(float(row[5]) for row in rows[1:] if row[5])
    found = re.search(r"sheet goods: ([\d.]+) (kg|lb)", text)
    assert found is not None
    assert float(found[1]) * KG_IN[found[2]] == pytest.approx(total, abs=0.06)


@EACH
def test_every_wire_has_a_label_at_both_ends_that_names_the_other(path: pathlib.Path) -> None:
    made = packet(path)
    sleeves = [row for row in document("labels").module.csv(made)[1] if row[2] == "wire sleeve"]
    pieces = wires.pieces(made)
    assert len(sleeves) == 2 * len(pieces) == 2 * len({p.wire.designation for p in pieces})
    for piece in pieces:
        assert piece.near.label.endswith(f"{piece.wire.end.item}:{piece.wire.end.pin}")
        assert piece.far.label.endswith(f"{piece.wire.start.item}:{piece.wire.start.pin}")


@EACH
def test_reserves_are_capped_dead_and_found_in_every_document(path: pathlib.Path) -> None:
    made, texts = packet(path), written(path)
    for reserve in made.sized.build.reserves.values():
        for name in ("cover", "labels", "commissioning_record", "reserves_register", "work_order"):
            assert reserve.designation in texts[name], name
        assert reserve.end in texts["reserves_register"] and reserve.end in texts["work_order"]
        register = by_first(texts["reserves_register"], "At most")[reserve.designation]
        assert register["At most"] == f"{reserve.allow_a:g} A"
        read = by_first(texts["commissioning_record"], "Should read")[reserve.designation]
        assert read["Should read"] == ("battery voltage" if reserve.powered else "0 V")
        assert read["Measured"] == ""


@EACH
def test_positions_that_stay_empty_are_said_with_their_reason(path: pathlib.Path) -> None:
    made, texts = packet(path), written(path)
    for block in made.sized.build.blocks.values():
        for reason in block.empty.values():
            assert f"must stay empty: {reason}" in texts["fuse_map"]
            assert f"stays empty. {reason}" in texts["work_order"]


def test_some_example_has_reserves_and_a_position_that_stays_empty() -> None:
    builds = [packet(path).sized.build for path in EXAMPLES]
    assert any(b.reserves for b in builds) and any(block.empty for b in builds for block in b.blocks.values())


def test_isolation_checks_expect_the_start_side_unchanged() -> None:
    path = next(p for p in EXAMPLES if p.parent.name == "river-gauging-pickup")
    rows = by_first(written(path)["commissioning_record"], "Should be")
    assert rows["Charger T1: apart"]["Should be"] == "start battery G2 unchanged within 0.05 V"
    assert rows["Assist K1: joined"]["Should be"] == "both batteries within 0.05 V"
    assert "engine stopped" in rows["Assist K1: apart"]["How"]


def test_waivers_and_warnings_are_printed(tmp_path: pathlib.Path) -> None:
    from buildspec import compile as compiling
    from buildspec.findings import Diagnostic, Span, Waiver

    path = EXAMPLES[0]
    outcome = pipeline.check_file(path)
    assert outcome.build is not None
    waiver = Waiver("loud-lamp", "bar", "static | display", "shop lead", "2027-10-01", ())
    span = Span("elsewhere/secret.build.yaml", 1, 1, 1, 2)
    waived = Diagnostic(span, "error", "loud-lamp", "too loud", path=("accessories", "bar"), waiver=waiver)
    warning = Diagnostic(span, "warning", "thin-wire", "5 A of 4 A on `bar`", "use `2.5 mm2`")
    build = outcome.build._replace(build=outcome.build.build._replace(waivers=(waiver,)))
    made = compiling.packet_of(pipeline.Outcome((waived, warning), build))
    texts = dict(compiling.texts(made))
    cover, changes = texts["documents/cover.md"], texts["documents/changes-and-waivers.md"]
    assert "1 waiver in force, 1 warning accepted" in cover
    assert r"static \| display" in cover and r"static \| display" in changes
    assert "5 A of 4 A on “bar”" in changes and "use “2.5 mm2”" in changes and "too loud" in changes
    assert not [name for name, text in texts.items() if "secret.build" in text], (
        "a packet says nothing of its place"
    )


def document(name: str) -> documents.Document:
    return next(d for d in documents.catalogue() if d.name == name)
