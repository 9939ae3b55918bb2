"""A hole is drilled, ordered and inspected only where something passes it, and before anything is laid."""

from __future__ import annotations

import pathlib
import re

import pytest
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec import compile as compiling
from buildspec import documents, pipeline
from buildspec.render import templates

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)


def built(tmp_path: pathlib.Path) -> dict[str, str]:
    """The van with one more hole, on a run to a place where nothing is."""
    van = next(path for path in EXAMPLES if "van" in path.name)
    for file in van.parent.iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    text = (tmp_path / van.name).read_text(encoding="utf-8")
    text = text.replace("\nplaces:\n", "\nplaces:\n  attic: {environment: cabin, station: 2 m}\n")
    run = "  - {between: [header, attic], length: 1 m, through: grommet, passes: [idle-hole]}\n"
    text = text.replace("\ngrounds:\n", f"{run}\ngrounds:\n")
    hole = "  idle-hole: {at: attic, what: attic wall, size: 41 mm, protection: grommet, seal: sealant}\n"
    text = text.replace("\nholes:\n", f"\nholes:\n{hole}")
    (tmp_path / van.name).write_text(text, encoding="utf-8")
    outcome = pipeline.check_file(tmp_path / van.name)
    assert any(d.rule == "hole-made-for-nothing" and "idle-hole" in d.message for d in outcome.diagnostics)
    made = compiling.packet_of(outcome)
    return {d.name: templates.markdown(d.name, documents.context(d, made)) for d in documents.catalogue()}


def test_nobody_drills_orders_or_inspects_a_hole_that_nothing_passes(tmp_path: pathlib.Path) -> None:
    text = built(tmp_path)
    for name in ("work_order", "place_sheets", "inspection_list"):
        assert "idle-hole" not in text[name] and "attic wall" not in text[name], name
    assert "41 mm" not in text["bill_of_materials"]
    row = next(
        row
        for table in tables(text["routing"])
        for row in table
        if "New or reused" in row and row["Hole"] == "idle-hole"
    )
    assert row["New or reused"].startswith("not drilled") and row["Protection"] == "–"


@EACH
def test_what_is_drilled_has_something_that_passes_it_and_a_grommet_in_the_bill(path: pathlib.Path) -> None:
    rows = [r for t in tables(written(path)["routing"]) for r in t if r.get("New or reused") == "new"]
    wanted = [r for r in rows if r["Protection"] in ("grommet", "gland")]
    assert wanted, "no example without a new hole: this test would pass on nothing"
    assert all(row["What passes"] != "–" for row in wanted)
    bought = [r for t in tables(written(path)["bill_of_materials"]) for r in t]
    counted = sum(
        int(row["Number"])
        for row in bought
        if re.match(r"(Grommet|Gland)\b", next(iter(row.values()))) and "Number" in row
    )
    assert counted == len(wanted)


def test_leads_through_a_gland_of_their_own_are_sealed() -> None:
    van = next(path for path in EXAMPLES if "van" in path.name)
    build = packet(van).sized.build
    outside = {build.accessories[name].designation for name in ("side-lamp", "side-camera")}
    rows = [r for t in tables(written(van)["connector_table"]) for r in t if "Seal" in r]
    sealed = {next(iter(r.values())).partition(":")[0] for r in rows if r["Seal"] == "wire seal"}
    assert rows and outside <= sealed
