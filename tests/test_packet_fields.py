"""Each document has the fields that its readers ask for, and every wire, device and hole as often as it should."""

from __future__ import annotations

import pathlib
import re
from collections import Counter

import pytest
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec import fitted
from buildspec.documents import _fuses as fuses
from buildspec.documents import _wires as wires
from buildspec.model import Wire

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)

FIELDS = {
    "condition_report": (
        "Odometer", "Lamp", "Stays lit", "Code", "Front", "Left side", "Cabin and load space", "Should be", "Found",
        "Kept at, or given to", "Signature",
    ),
    "load_analysis": ("Power", "Typical", "Worst", "Start", "Kind", "A day", "Works", "Group", "Fed from", "Battery"),
    "circuit_schedule": (
        "No.", "Function", "From", "To", "Key", "Relay or cut-off", "Returns to", "Connector", "State", "Wires", "Rating",
        "Type", "Holder", "After a trip", "Size", "Table row", "Return", "Insulation", "Colour", "One way", "Loop",
        "Loaded", "Zone", "At work", "Ampacity", "Factors", "Corrected", "Margin", "Drop", "Share", "At the device",
    ),
    "short_circuits": ("Short at", "At least", "Opens", "Within", "Goes dead", "Stays live", "At the most", "Breaks"),
    "cut_list": (
        "Wire", "Circuit", "Size", "Colour", "Cut", "From", "On this end", "Sleeve here", "To", "On that end",
        "Sleeve there", "Made by", "Checked by",
    ),
    "connector_table": ("Connector", "Place", "Half", "Pin: wire", "Terminal", "Seal", "Empty cavities", "Mates with", "Tool"),
    "fuse_map": (
        "Device", "Position", "Rating", "Type", "Feeds", "Origin", "Do not fit above", "Spare", "State", "After a trip",
        "Picture number, or sketch of the way there",
    ),
    "terminations_and_torque": ("Stud", "Lugs, from the bottom", "Torque", "From", "Initials", "Re-check due"),
    "bill_of_materials": ("Mark", "Number", "Each", "Total", "Place", "From", "Maker and part number", "May be replaced by"),
    "work_order": ("Hold point", "When", "Initials", "Date, time", "Step", "Hold", "Initials, date"),
    "place_sheets": ("End here", "Wire", "Circuit", "Way", "Other end", "Terminal", "Feeds", "Stud", "Torque"),
    "commissioning_record": (
        "Draws about", "Drew", "Expected drop", "Passes", "Limit", "Device reads", "At least", "At the posts",
        "At the device", "Measured", "Engine running", "Ignition on", "Key off", "Instrument", "Signature",
    ),
    "inspection_list": (
        "What", "Should be", "Pass", "Defective", "Corrected", "Date", "By", "Line", "Statement", "Signature",
    ),
    "trace_record": (
        "Mark", "Part", "Maker and part number", "Serial", "Lot, date of make", "Fitted by, date", "Tool", "Checked on",
        "Sample must hold", "Held", "Torque", "Reached", "Lot of the terminals",
    ),
    "reserves_register": ("Purpose", "At most", "Wire", "Protection", "Fuse in, channel on", "State"),
    "changes_and_waivers": ("As designed", "As built", "Why", "Who, date", "New revision"),
    "service_log": (
        "When", "Work", "Date", "Odometer", "Readings", "Spares and reserves used", "New revision", "By",
    ),
}  # fmt: skip
"""Document → headings or first cells that must stand in it, after the lists of what trade buyers and codes ask for."""


@EACH
@pytest.mark.parametrize("name", FIELDS)
def test_every_field_is_printed(path: pathlib.Path, name: str) -> None:
    found = tables(written(path)[name])
    printed = {heading for table in found for heading in table[0]}
    printed |= {next(iter(row.values())) for table in found for row in table}
    if name == "reserves_register" and not packet(path).sized.build.reserves:
        return
    assert set(FIELDS[name]) <= printed, sorted(set(FIELDS[name]) - printed)


def marks(text: str, letter: str) -> Counter[str]:
    """Designations of one letter in a text, not as a part of a longer word."""
    return Counter(re.findall(rf"(?<![\w.]){letter}\d+(?![\w.])", text))


def laid(path: pathlib.Path) -> list[Wire]:
    build = packet(path).sized.build
    return [w for c in build.circuits if not c.existing for w in (*c.feeds, *c.returns)]


@EACH
def test_each_wire_end_is_on_the_sheet_of_its_place_once(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    text = written(path)["place_sheets"]
    printed: Counter[tuple[str, str, str]] = Counter()
    for heading, part in parts(text):
        for row in (r for t in tables(part) for r in t if "End here" in r):
            printed[(heading, row["Wire"], row["End here"])] += 1
    expected = Counter(
        (build.places[end.place].words.lower(), wire.designation, f"{end.item}:{end.pin}")
        for wire in laid(path)
        for end in (wire.start, wire.end)
    )
    assert printed == expected


def parts(text: str) -> list[tuple[str, str]]:
    """(heading of a place in small letters, its text)."""
    pieces = re.split(r"\n## (.+)\n", text)
    return list(zip([h.lower() for h in pieces[1::2]], pieces[2::2], strict=True))


@EACH
def test_wires_leave_one_end_and_arrive_at_the_other(path: pathlib.Path) -> None:
    rows = [r for t in tables(written(path)["place_sheets"]) for r in t if "End here" in r]
    ways = {(row["Wire"], row["Way"]) for row in rows}
    both = {w.key for c in packet(path).sized.build.circuits if c.kind in ("link", "tie") for w in c.feeds}
    assert ways == {
        (w.designation, way)
        for w in laid(path)
        for way in (("either way",) if w.key in both else ("leaves", "arrives"))
    }
    assert len(rows) == 2 * len(laid(path))


@EACH
def test_each_wire_is_on_one_reel_and_in_one_line_of_the_inspection(path: pathlib.Path) -> None:
    once = Counter(w.designation for w in laid(path))
    assert set(once.values()) == {1}
    reels = [r["Wires"] for t in tables(written(path)["trace_record"]) for r in t if "Reel" in r]
    assert marks(" ".join(reels), "W") == once
    lines = [r for t in tables(written(path)["inspection_list"]) for r in t if "Defective" in r]
    circuits = {c.number for c in packet(path).sized.build.circuits if not c.existing}
    mine = [r["Should be"].partition(":")[0] for r in lines if r["What"].split(" ")[0] in circuits]
    assert marks(" ".join(mine), "W") == once


@EACH
def test_each_device_is_once_in_inspection_place_sheets_and_trace(path: pathlib.Path) -> None:
    made = fuses.fitted(packet(path))
    every = Counter(f.device.designation for f in made)
    assert set(every.values()) == {1}
    lines = [r["Should be"] for t in tables(written(path)["inspection_list"]) for r in t if "Defective" in r]
    said = Counter(
        name for line in lines for name in every if re.search(rf"; {re.escape(name)} [\d.]+ A", line)
    )
    assert said == every
    rows = [r["Device"] for t in tables(written(path)["place_sheets"]) for r in t if "Holder fitted" in r]
    assert Counter(rows) == every
    lots = [r["Marks"] for t in tables(written(path)["trace_record"]) for r in t if "Lot of the fuses" in r]
    assert marks(" ".join(lots), "F") == Counter(
        f.device.designation for f in made if f.device.kind == "fuse"
    )


@EACH
def test_each_hole_is_once_in_inspection_and_on_its_place(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    assert build.holes
    lines = [r["What"] for t in tables(written(path)["inspection_list"]) for r in t if "Defective" in r]
    sheets = {
        heading: [r["Hole"] for t in tables(part) for r in t if "Hole" in r]
        for heading, part in parts(written(path)["place_sheets"])
    }
    for hole in build.holes:
        assert sum(line.startswith(f"{hole.name}: ") for line in lines) == 1, hole.name
        assert sheets[build.places[hole.place].words.lower()].count(hole.name) == 1
    assert sum(map(len, sheets.values())) == len(build.holes)


@EACH
def test_each_item_has_its_line_and_each_piece_its_serial(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    text = written(path)
    lines = [r["What"] for t in tables(text["inspection_list"]) for r in t if "Defective" in r]
    pieces = [r for t in tables(text["trace_record"]) for r in t if "Serial" in r]
    goods = [a for a in build.accessories.values() if a.part.material is not None]
    assert len(pieces) == sum(i.quantity for i in fitted.items(build)) + len(goods)
    assert all(r["Serial"] == r["Lot, date of make"] == r["Fitted by, date"] == "" for r in pieces)
    for item in fitted.items(build):
        count = f"{item.quantity} × " if item.quantity > 1 else ""
        assert lines.count(f"{item.designation} {count}{item.part.title}") >= 1, item.designation
        own = [
            r
            for r in pieces
            if r["Mark"] == item.designation or r["Mark"].startswith(f"{item.designation}, ")
        ]
        assert len(own) == item.quantity


@EACH
def test_inspection_lines_are_numbered_without_a_gap(path: pathlib.Path) -> None:
    rows = [r for t in tables(written(path)["inspection_list"]) for r in t if "Defective" in r]
    assert [int(r["No."]) for r in rows] == list(range(1, len(rows) + 1))
    assert all(r["Pass"] == r["Defective"] == "☐" and r["Corrected"] == r["Date"] == "" for r in rows)


@EACH
def test_each_pin_of_a_connector_is_listed_once_and_rings_are_in_the_torque_sheet(path: pathlib.Path) -> None:
    rows = [r for t in tables(written(path)["connector_table"]) for r in t if "Pin: wire" in r]
    printed = Counter(
        (row["Connector"], *pin.replace("\\", "").split(": "))
        for row in rows
        for pin in row["Pin: wire"].split("; ")
    )
    ends = [(p.wire.designation, e) for p in wires.pieces(packet(path)) for e in (p.near, p.far)]
    expected = Counter((*e.at.rpartition(":")[::2], w) for w, e in ends if e.terminal != "ring")
    assert printed == expected
    torque = [
        r for t in tables(written(path)["terminations_and_torque"]) for r in t if "Lugs, from the bottom" in r
    ]
    lugs = Counter(w for row in torque for w in marks(row["Lugs, from the bottom"], "W").elements())
    assert lugs == Counter(w for w, e in ends if e.terminal == "ring")


@EACH
def test_empty_cavities_are_the_positions_without_a_wire(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    rows = {
        r["Connector"]: r for t in tables(written(path)["connector_table"]) for r in t if "Pin: wire" in r
    }
    ringed = {
        e.at.partition(":")[0]
        for p in wires.pieces(packet(path))
        for e in (p.near, p.far)
        if e.terminal == "ring"
    }
    for block in (b for b in build.blocks.values() if b.feed is None):
        assert block.part.block is not None
        if block.designation not in rows:
            assert block.designation in ringed, "a block of studs is in the torque sheet"
            continue
        used = {pin.partition(":")[0] for pin in rows[block.designation]["Pin: wire"].split("; ")}
        empty = re.findall(r"(?:^|, )(\d+)", rows[block.designation]["Empty cavities"])
        assert used | set(empty) == {str(n) for n in range(1, block.part.block.positions + 1)}
        assert not used & set(empty)


@EACH
def test_hold_points_stand_in_the_order_of_work(path: pathlib.Path) -> None:
    text = written(path)["work_order"]
    points = [r["Hold point"] for t in tables(text) for r in t if "Hold point" in r]
    wanted = (
        "Condition report",
        "Batteries and every other source",
        "airbags",
        "Looked behind every panel",
        "without power",
    )
    found = [next(n for n, point in enumerate(points) if word in point) for word in wanted]
    assert found == sorted(found)
    held = [r["Step"] for t in tables(text) for r in t if r.get("Hold") == "HOLD"]
    for hole in (h for h in packet(path).sized.build.holes if h.near):
        assert any(step.startswith(f"Before hole {hole.name}: ") for step in held)
    places = [r["Step"] for t in tables(text) for r in t if r.get("Step", "").endswith(": place sheet done")]
    assert [p.removesuffix(": place sheet done").lower() for p in places] == [
        h for h, _ in parts(written(path)["place_sheets"])
    ]
