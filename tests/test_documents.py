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
SAMPLE_M = 0.3
"""Of each size and colour, for crimp samples; what the shop was asked for."""
METRES_IN = {"m": 1.0, "ft": 0.3048}
KG_IN = {"kg": 1.0, "lb": 0.45359237}
"""Exact by definition: international foot and pound, 1959."""

SCHEDULE_FIELDS = (
    "number", "function", "from", "position", "rating", "type", "reset", "holder", "both_sizes", "gauge",
    "insulation", "colours", "one_way", "loop", "loaded", "zone", "temperature", "base", "factors", "corrected",
    "margin", "drop", "drop_share", "drop_limit", "at_load", "key", "relay", "return_to", "return_size",
    "connector", "state", "governed", "left", "sum",
)  # fmt: skip
DOCUMENTS = (
    "cover", "drawings", "circuit_schedule", "cut_list", "labels", "fuse_map", "bill_of_materials", "work_order",
    "commissioning_record", "reserves_register", "changes_and_waivers", "routing", "handover", "legend",
    "mass_sheet", "terminations_and_torque", "condition_report", "place_sheets", "inspection_list", "trace_record",
    "service_log", "connector_table", "short_circuits",
)  # fmt: skip


def test_every_document_is_found() -> None:
    assert {d.name for d in documents.catalogue()} >= set(DOCUMENTS)
    assert documents.catalogue()[0].name == "cover"


@EACH
@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_document_says_which_job_and_tables_are_whole(path: pathlib.Path, name: str) -> None:
    text, job = written(path)[name], packet(path).sized.build.job
    assert text.startswith("# ")
    state = (
        {"as designed": "as planned", "as built": "as built"}[job.state] if name == "handover" else job.state
    )
    even = text.replace("\u00a0", " ")
    assert job.number in even and f"evision {job.revision}" in even and state in even
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
            expected += current / circuit.quantity * links_by_hand(made, circuit.key)
            assert volts(printed[circuit.number]["Expected drop"]) == pytest.approx(expected, abs=0.0051)


def links_by_hand(made: Packet, key: str) -> float:
    """Resistance to the worst of several items, each link as often as it carries the current of one [ohm]."""
    branch = next((c for c in made.sized.build.circuits if c.key == f"{key}/branches"), None)
    if branch is None:
        return 0.0
    sizing = made.sized.sizings[branch.key]
    metres = [out.cut_m + back.cut_m for out, back in zip(branch.feeds, branch.returns, strict=True)]
    counted = sum(m * n for n, m in enumerate(reversed(metres), start=1))
    hot = sizing.conductor.r20_ohm_per_m * (1 + ALPHA_20 * (sizing.temp_c - 20))
    return hot * (counted if branch.form == "chain" else max(metres))


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
def test_bought_conductor_covers_cut_list_and_samples_and_no_more_than_a_metre_over(
    path: pathlib.Path,
) -> None:
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
        over_m = float(amount) * METRES_IN[unit] - metres - SAMPLE_M
        assert -1e-6 <= over_m < METRES_IN[unit]


@EACH
def test_fuses_bought_are_those_in_the_map_and_a_spare_of_each(path: pathlib.Path) -> None:
    texts = written(path)
    in_map = [
        r
        for t in tables(texts["fuse_map"])
        for r in t
        if r.get("Origin") == "added" and r.get("Type", "–") not in ("electronic limit", "–")
    ]
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
        for name in ("cover", "labels", "commissioning_record", "reserves_register", "place_sheets"):
            assert reserve.designation in texts[name], name
        assert reserve.end in texts["reserves_register"] and reserve.end in texts["place_sheets"]
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
            assert f"stays empty. {reason}" in texts["place_sheets"]


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


def example(name: str) -> pathlib.Path:
    return next(p for p in EXAMPLES if p.parent.name == name)


PICKUP, FLATBED, VAN = map(example, ("river-gauging-pickup", "beekeepers-flatbed", "bicycle-workshop-van"))


def section(text: str, heading: str) -> str:
    """What stands under a heading of the second level."""
    return text.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]


@EACH
def test_posts_of_an_added_battery_stay_off_until_fuses_and_polarity_are_proved(path: pathlib.Path) -> None:
    text, build = written(path)["work_order"], packet(path).sized.build
    added = {b.designation for b in build.batteries.values() if not b.existing}
    fitted = [row for t in tables(written(path)["place_sheets"]) for row in t if "End here" in row]
    for row in fitted:
        assert ("stays off until phase 7" in row["Terminal"]) == (row["End here"].split(":")[0] in added), row
    ends = [row["End here"].split(":") for row in fitted]
    assert {"+", "−"} <= {pin for item, pin in ends if item in added}
    rows = tables(section(text, "7 Protect"))[0]
    order = [row["Step"] for row in rows]
    assert rows[0]["Hold"] == "HOLD" and "“Before power”" in order[0]
    start, house = (
        next(b for b in build.batteries.values() if b.role == role) for role in ("start", "house")
    )
    found = [
        next(n for n, step in enumerate(order) if step.startswith(text))
        for text in (
            f"Positive leads on to house battery {house.designation}",
            f"Negative lead of the house battery {house.designation}",
            f"Negative lead of the start battery {start.designation} on, last of all",
            "Fuses in one at a time",
        )
    ]
    assert found == sorted(found)
    assert all(
        p.wire.designation in order[found[0]]
        for p in wires.pieces(packet(path))
        if p.near.at == f"{house.designation}:+"
    )


@EACH
def test_no_fuse_goes_in_before_power(path: pathlib.Path) -> None:
    text = written(path)["commissioning_record"]
    before = section(text, "Before power")
    assert "fuses out" in before and "Fuses in" not in before
    assert "Fuses in, one at a time" in section(text, "Supply").splitlines()[3]


def test_contacts_above_40_a_take_the_wide_receptacle_and_coils_do_not() -> None:
    ends = {end.at: end.terminal for p in wires.pieces(packet(VAN)) for end in (p.near, p.far)}
    relay = next(
        c
        for c in packet(VAN).sized.build.circuits
        for k in c.contacts
        if k.rating_a > 40 and k.kind == "relay"
    )
    name = next(k.designation for k in relay.contacts if k.rating_a > 40)
    assert ends[f"{name}:30"] == ends[f"{name}:87"] == "receptacle 9.5 mm, see the socket's sheet"
    assert ends[f"{name}:85"] == ends[f"{name}:86"] == "receptacle 6.3 mm"
    other = {end.at: end.terminal for p in wires.pieces(packet(PICKUP)) for end in (p.near, p.far)}
    assert other["K2:30"] == other["K2:87"] == "receptacle 6.3 mm", "a contact of 40 A or less"


def test_owner_and_record_agree_how_long_to_crank() -> None:
    """The link of the example is rated for 10 s, less than the 15 s that a starter stands."""
    texts = written(PICKUP)
    rows = by_first(texts["commissioning_record"], "Should be")
    cranked = rows["Assist K1: time cranked"]
    assert cranked["Should be"] == "cranking at most 10 s a try"
    assert cranked["How"].startswith("pressed and held 10 s, then the key turned while holding")
    assert "Crank at most 10 seconds a try, then let go." in texts["handover"]
    assert "Press and hold **ASSIST** (key 8" in texts["handover"]


def test_limit_of_the_link_scales_with_what_the_starter_drew() -> None:
    row = by_first(written(PICKUP)["commissioning_record"], "Should be")["Assist K1: drop while cranking"]
    found = re.fullmatch(
        r"at most ([\d.]+) V at ([\d.]+) A; at other currents limit = amperes × ([\d.]+) mΩ", row["Should be"]
    )
    assert found is not None and "drew … A" in row["How"]
    assert float(found[2]) * float(found[3]) / 1000 == pytest.approx(float(found[1]), abs=0.006)


def test_keys_with_a_signal_are_tested_with_and_without_it() -> None:
    rows = by_first(section(written(PICKUP)["commissioning_record"], "Keys"), "Should be")
    assert rows["S1.2 BAR"]["Should be"] == "main beam on: works: LED light bar, 760 mm, 120 W; off: nothing"
    assert rows["S1.3 BED"]["Should be"].endswith("cargo lamp on, without the key: works too")
    assert "beam" not in rows["S1.1 BEACON"]["Should be"]


@EACH
def test_a_charger_gives_back_by_its_common_negative(path: pathlib.Path) -> None:
    schedule = by_first(written(path)["circuit_schedule"], "Returns to")
    outputs = [
        c
        for c in packet(path).sized.build.circuits
        if c.kind == "charge-out" and c.item in packet(path).sized.build.isolation
    ]
    assert outputs
    for circuit in outputs:
        assert schedule[circuit.number]["Returns to"] == f"common negative at {circuit.target_designation}:−"


def test_lead_to_the_keys_is_laid_listed_and_not_cut() -> None:
    """Run of 2.4 m by the spec, two service loops of 0.1 m by the built-in practice, 4 m by the panel."""
    texts = written(PICKUP)
    looms = section(texts["work_order"], "5 Lay looms by run")
    said = "ead to the keys, comes with S1, 4.00 m; 2.60 m needed; not cut"
    assert said in looms and said in texts["cut_list"]
    assert by_first(texts["bill_of_materials"], "Size")["Lead to the keys"]["Size"] == "comes with S1, 4.00 m"
    assert "Lead to the keys" not in written(VAN)["bill_of_materials"]


@EACH
def test_small_parts_hold_a_sample_of_each_and_whole_connectors(path: pathlib.Path) -> None:
    made, text = packet(path), written(path)["bill_of_materials"]
    small = [
        r for t in tables(text) for r in t if list(r) == ["Item", "Size", "Number", "Maker and part number"]
    ]
    rings = sum(e.terminal == "ring" for p in wires.pieces(made) for e in (p.near, p.far))
    kinds = [int(r["Number"]) for r in small if r["Item"].startswith("Ring")]
    assert sum(kinds) == rings + len(kinds)
    ended = [r for r in made.sized.build.reserves.values() if r.connector != "none"]
    halves = sum(int(r["Number"]) for r in small if r["Item"].startswith("Half of connector"))
    contacts = [int(r["Number"]) for r in small if r["Item"].startswith("Contact of connector")]
    assert halves == 2 * len(ended) and sum(contacts) == 4 * len(ended) + len(contacts)
    reserves = [r for r in made.sized.build.reserves.values() if r.cap]
    ends = [end.at for p in wires.pieces(made) for end in (p.near, p.far)]
    wanted = 0
    for r in reserves:
        cores = sum(at.startswith(f"{r.designation}:") for at in ends)
        each = "shrink" in r.cap and r.connector == "none" and cores > 1
        wanted += cores + 1 if each else 1
    caps = {r.cap.lower() for r in reserves}
    assert sum(int(r["Number"]) for r in small if r["Item"].lower() in caps) == wanted
    assert "crimp samples, 300 mm" in text or "crimp samples, 11.8 in" in text


def test_notes_are_printed_with_their_help_and_counted_on_the_cover() -> None:
    made, texts = packet(PICKUP), written(PICKUP)
    notes = [d for d in made.diagnostics if d.severity == "note" and d.waiver is None]
    listed = tables(section(texts["changes_and_waivers"], "Notes"))
    assert notes and [row["Rule"] for row in listed[0]] == [d.rule for d in notes]
    assert all(row["What would fit"] not in ("", "–") for row in listed[0])
    assert f", {len(notes)} note{'s' * (len(notes) > 1)}." in section(texts["cover"], "Accepted")


@EACH
def test_markdown_of_the_owners_sheet_has_spaces_and_single_empty_lines(path: pathlib.Path) -> None:
    text = written(path)["handover"]
    rest = re.sub(r"(?<!\S)\*\*[^*\n]+\*\*(?=[\s,;:.]|$)", "", text)
    assert "**" not in rest, "bold that touches a word"
    assert "\n\n\n" not in text


def document(name: str) -> documents.Document:
    return next(d for d in documents.catalogue() if d.name == name)
