"""The spreadsheets as another program reads them: numbers are numbers, no word of a spec runs, each sum is whole."""

from __future__ import annotations

import csv
import io
import json
import math
import pathlib
import re
import shutil
import xml.etree.ElementTree as ElementTree
import zipfile
from collections import Counter
from decimal import Decimal
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.utils import get_column_letter
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec import compile as compiling
from buildspec import pipeline
from buildspec.compile import csvfile, workbook
from buildspec.money import Money
from buildspec.worksheets import HUNDREDTHS, Column, Workbook, Worksheet, cells, currency_form, letter

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
FILES = ("bom.xlsx", "cut-list.xlsx")
M_PER_IN, M_PER_FT, KG_PER_LB = 0.0254, 0.3048, 0.45359237
"""NIST special publication 811, appendix B: exact."""
SAMPLE_M = 0.3
HOSTILE = (
    '=HYPERLINK("http://steal.example","press")', "+1", "@x", "-2", "=1+1", "\t=1+1", "\r=1+1", "\n=1", "＝1+1",
    "＋1", "－1", "＠x", "﹦1", " =1", "\u200b=1", "\ufeff=1", "http://press.example", "mailto:x@press.example", "1e9",
    "0042", "<r><t>x</t></r>", "<b>&amp;</b>", "{=1+1}", "internal:'Pick list'!A1", "_x0041_", "a\x00b\x07c\x1f",
    "\ufffe\uffff", "\ud800", "x" * 40_000, "",
)  # fmt: skip


def opened(content: bytes, *, values: bool = False) -> Any:
    return openpyxl.load_workbook(io.BytesIO(content), data_only=values)


def read(path: pathlib.Path, file: str, sheet: str, *, values: bool = False) -> list[dict[str, Any]]:
    """Rows of a table by heading, up to the first empty row."""
    book = opened(dict(compiling.books(packet(path)))[file], values=values)
    head, *rows = book[sheet].iter_rows(values_only=True)
    filled = rows[: next((n for n, row in enumerate(rows) if not any(row)), len(rows))]
    return [dict(zip(head, row, strict=True)) for row in filled]


def one_book(*texts: str, name: str = "T-1", title: str = "Trial") -> bytes:
    """A file with the texts in a column, of a job that is called so."""
    build = packet(EXAMPLES[0]).sized.build
    rows = tuple((text, 1.5) for text in texts)
    sheet = Worksheet("Sheet", (Column("Text"), Column("Number [A]", HUNDREDTHS)), rows)
    job = build.job._replace(number=name, title=title)
    return workbook.data(Workbook("x.xlsx", (sheet,)), job, build.practice)


def parts(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@EACH
def test_the_cut_list_holds_the_wires_of_the_packet_as_numbers(path: pathlib.Path) -> None:
    files = compiling.files_of(packet(path))
    circuits = json.loads(files["packet.json"])["circuits"]
    wires = {
        w["designation"]: (w, c["sizing"]["conductor"], c["number"])
        for c in circuits
        if not c["existing"]
        for w in (*c["feeds"], *c["returns"])
    }
    rows = read(path, "cut-list.xlsx", "Cut list")
    assert sorted(row["Wire"] for row in rows) == sorted(wires)
    length = next(head for head in rows[0] if head.startswith("Cut ["))
    metres = {"Cut [m]": 1.0, "Cut [in]": M_PER_IN}[length]
    for row in rows:
        wire, conductor, number = wires[row["Wire"]]
        assert isinstance(row[length], float | int) and isinstance(row["Area [mm²]"], float | int)
        assert row[length] * metres == pytest.approx(wire["cut_m"], rel=1e-8)
        assert row["Area [mm²]"] == pytest.approx(conductor["area_mm2"], rel=1e-8)
        assert (row["Circuit"], row["Colour"]) == (number, wire["colour"])
        assert row["From"] == f"{wire['start']['item']}:{wire['start']['pin']}"


@EACH
def test_the_store_gets_each_size_and_colour_with_a_sum_that_covers_the_cut_list(path: pathlib.Path) -> None:
    cut, sums = Counter[tuple[str, str]](), Counter[tuple[str, str]]()
    rows = read(path, "cut-list.xlsx", "Cut list")
    length = next(head for head in rows[0] if head.startswith("Cut ["))
    unit = length[5:-1]
    for row in rows:
        cut[(row["Size"], row["Colour"])] += 1
        sums[(row["Size"], row["Colour"])] += row[length]
    totals = read(path, "cut-list.xlsx", "Wire for the store", values=True)
    assert {(row["Size"], row["Colour"]) for row in totals} == set(cut)
    for row in totals:
        kind = (row["Size"], row["Colour"])
        assert row["Pieces"] == cut[kind]
        assert row[f"Cut in all [{unit}]"] == pytest.approx(sums[kind], rel=1e-9)
        bought = row.get("Buy, rounded up [m]") or row["Buy, rounded up [ft]"] * M_PER_FT
        over_m = bought - sums[kind] * {"m": 1.0, "in": M_PER_IN}[unit] - SAMPLE_M
        assert -1e-6 <= over_m < (1.0 if unit == "m" else M_PER_FT)
    formulas = read(path, "cut-list.xlsx", "Wire for the store")
    last = len(rows) + 1
    for number, row in enumerate(formulas, 2):
        alike = f"'Cut list'!$C$2:$C${last},$A{number},'Cut list'!$E$2:$E${last},$C{number}"
        assert row["Pieces"] == f"=COUNTIFS({alike})"
        assert row[f"Cut in all [{unit}]"] == f"=SUMIFS('Cut list'!$G$2:$G${last},{alike})"


@EACH
def test_the_bill_is_that_of_the_csv_file_and_its_mass_in_the_shop_s_unit(path: pathlib.Path) -> None:
    text = compiling.files_of(packet(path))["bom.csv"].decode()
    lines = list(csv.DictReader(io.StringIO(text, newline="")))
    rows = read(path, "bom.xlsx", "Bill of materials")
    assert [row["Item"] for row in rows] == [line["item"] for line in lines]
    for row, line in zip(rows, lines, strict=True):
        mass = row["Mass [kg]"] if "Mass [kg]" in row else row["Mass [lb]"] and row["Mass [lb]"] * KG_PER_LB
        assert mass == (pytest.approx(float(line["mass_kg"])) if line["mass_kg"] else None)
        assert isinstance(row["Number"], int)
        if line["group"] != "conductor":
            assert (row["Number"], row["Unit"]) == (int(line["quantity"]), line["unit"])


@EACH
def test_prices_are_decimal_amounts_and_their_sum_is_that_of_the_document(path: pathlib.Path) -> None:
    book = opened(dict(compiling.books(packet(path)))["bom.xlsx"])
    sheet = book["Order and prices"]
    shown = [row for table in tables(written(path)["bill_of_materials"]) for row in table if "Price" in row]
    rows = read(path, "bom.xlsx", "Order and prices")
    assert [row["Item"] for row in rows] == [row["Item"].replace("\\", "") for row in shown]
    total = Decimal(0)
    for number, (row, line) in enumerate(zip(rows, shown, strict=True), 2):
        price = sheet.cell(number, 7)
        if line["Price"] in ("not stated", "–"):
            assert price.value is None
            assert row["Without a price"] == ("not stated" if line["Price"] == "not stated" else None)
            continue
        amount, currency = line["Price"].split()
        assert (price.data_type, price.number_format) == ("n", f"#,##0.00 [${currency}]")
        assert Decimal(str(price.value)) == Decimal(amount)
        assert Decimal(str(row["Price each"])) == Decimal(line["Each"].split()[0])
        total += Decimal(amount)
    foot = [cell for row in sheet.iter_rows(min_row=len(rows) + 2) for cell in row if cell.data_type == "f"]
    values = opened(dict(compiling.books(packet(path)))["bom.xlsx"], values=True)["Order and prices"]
    found = re.search(r"Together: ([\d.]+) ([A-Z]{3}), without tax", written(path)["bill_of_materials"])
    if found is None:
        assert total == 0
    else:
        assert (
            foot[0].value == f'=ROUND(SUMIFS($G$2:$G${len(rows) + 1},$I$2:$I${len(rows) + 1},"{found[2]}"),2)'
        )
        assert Decimal(str(values[foot[0].coordinate].value)) == total == Decimal(found[1])
    missing = sum(row["Without a price"] == "not stated" for row in rows)
    assert (values[foot[-1].coordinate].value == missing) if missing else len(foot) <= 1


def test_the_examples_have_prices_to_compare() -> None:
    assert any(
        "Together: " in written(path)["bill_of_materials"] and "EUR" in written(path)["bill_of_materials"]
        for path in EXAMPLES
    )


@EACH
def test_the_pick_list_takes_just_what_is_bought_and_names_steps_of_the_work_order(
    path: pathlib.Path,
) -> None:
    bought, taken = Counter[tuple[str, str]](), Counter[tuple[str, str]]()
    for row in read(path, "bom.xlsx", "Bill of materials"):
        bought[(row["Item"], row["Unit"])] += row["Number"]
    rows = read(path, "bom.xlsx", "Pick list")
    for row in rows:
        taken[(row["Item"], row["Unit"])] += row["Number"]
    assert taken == bought
    headings = re.findall(r"^## (.+)$", written(path)["work_order"], re.MULTILINE)
    steps = list(dict.fromkeys(row["Step of the work order"] for row in rows))
    assert set(steps) <= set(headings) and steps == sorted(steps, key=headings.index)


@EACH
def test_what_is_fitted_at_a_place_is_picked_for_that_place(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    rows = read(path, "bom.xlsx", "Pick list")
    for item in build.accessories.values():
        found = [row for row in rows if row["For"] == item.designation and row["Item"] == item.part.title]
        assert [row["Place"] for row in found] == [build.places[item.place].words]


@EACH
@pytest.mark.parametrize("file", FILES)
def test_heads_stay_in_sight_filter_and_repeat_and_pages_fit(path: pathlib.Path, file: str) -> None:
    made = packet(path)
    job, paper = made.sized.build.job, made.sized.build.practice.paper
    content = dict(compiling.books(made))[file]
    for number, sheet in enumerate(opened(content).worksheets, 1):
        last = letter(sheet.max_column - 1)
        assert sheet.freeze_panes in ("A2", "B2", "C2")
        assert sheet.print_title_rows == "$1:$1"
        assert sheet.print_area == f"'{sheet.title}'!$A$1:${last}${sheet.max_row}"
        assert re.fullmatch(rf"A1:{last}\d+", sheet.auto_filter.ref)
        assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
        assert sheet.sheet_properties.pageSetUpPr.fitToPage
        # ECMA-376 part 1, 18.3.1.63: 1 is Letter, 9 is A4
        assert (
            sheet.page_setup.paperSize in (None, 1) if paper == "Letter" else sheet.page_setup.paperSize == 9
        )
        xml = parts(content)[f"xl/worksheets/sheet{number}.xml"].decode()
        head = re.search(r"<oddHeader>(.*?)</oddHeader>", xml)
        assert head is not None
        assert head[1].startswith(f"&amp;L{job.number}, revision {job.revision}&amp;C")
        assert head[1].endswith(f"&amp;R{sheet.title}")
        assert "&amp;RPage &amp;P of &amp;N</oddFooter>" in xml


@EACH
@pytest.mark.parametrize("file", FILES)
def test_columns_are_as_wide_as_their_longest_line_within_bounds(path: pathlib.Path, file: str) -> None:
    for sheet in opened(dict(compiling.books(packet(path)))[file]).worksheets:
        widths = {n: d.width for d in sheet.column_dimensions.values() for n in range(d.min, d.max + 1)}
        last = re.sub(r"\D", "", sheet.auto_filter.ref.rpartition(":")[2])
        table = list(sheet.iter_rows(min_row=2, max_row=int(last)))
        for number, column in enumerate(zip(*table, strict=True), 1):
            longest = max((len(str(c.value)) for c in column if c.data_type == "s"), default=0)
            assert 5.0 <= widths[number] <= 33.0
            assert widths[number] >= min(longest * 0.6, 30.0), (sheet.title, number)
            assert all(c.alignment.wrap_text for c in column if c.data_type == "s")


@EACH
@pytest.mark.parametrize("file", FILES)
def test_formulas_are_ours_only_and_nothing_is_a_link(path: pathlib.Path, file: str) -> None:
    content = dict(compiling.books(packet(path)))[file]
    for sheet in opened(content).worksheets:
        found = [c.value for row in sheet.iter_rows() for c in row if c.data_type == "f"]
        assert all(re.match(r"=(ROUND\(SUMIFS|COUNTIF|SUMIFS|COUNTIFS)\(", text) for text in found)
        assert not [c for row in sheet.iter_rows() for c in row if c.hyperlink]


def test_hostile_texts_stay_texts() -> None:
    content = one_book(*HOSTILE)
    sheet = opened(content)["Sheet"]
    for number, text in enumerate(HOSTILE, 2):
        cell = sheet.cell(number, 1)
        assert cell.data_type == ("s" if text else "n") and not cell.hyperlink
        assert sheet.cell(number, 2).value == 1.5
    assert b"<f>" not in parts(content)["xl/worksheets/sheet1.xml"]
    for name, part in parts(content).items():
        if name.endswith((".xml", ".rels")):
            ElementTree.fromstring(part)
    assert b"<t>&lt;b&gt;&amp;amp;&lt;/b&gt;</t>" in parts(content)["xl/sharedStrings.xml"]
    assert b"<r><t>" not in parts(content)["xl/sharedStrings.xml"]
    longest = sheet.cell(2 + HOSTILE.index("x" * 40_000), 1).value
    assert len(longest) == 32_767 and longest.endswith("xx … (cut here)")


def test_text_that_would_run_stays_text_when_it_is_edited() -> None:
    sheet = opened(one_book("=1+1", "＋1", "plain"))["Sheet"]
    assert [bool(sheet.cell(n, 1).quotePrefix) for n in (2, 3, 4)] == [True, True, False]


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.text(
            st.characters(blacklist_categories=("Cs", "Cc"), blacklist_characters="\ufffe\uffff"), min_size=1
        ),
        min_size=1,
        max_size=6,
    )
)
def test_any_text_comes_back_as_that_text(texts: list[str]) -> None:
    sheet = opened(one_book(*texts))["Sheet"]
    for number, text in enumerate(texts, 2):
        cell = sheet.cell(number, 1)
        assert (cell.data_type, cell.value) == ("s", text)


@settings(max_examples=30, deadline=None)
@given(st.text(max_size=400), st.text(max_size=400))
def test_any_job_fits_into_the_head_of_a_page(number: str, title: str) -> None:
    xml = parts(one_book("x", name=number, title=title))["xl/worksheets/sheet1.xml"]
    root = ElementTree.fromstring(xml)
    name = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
    head = root.findtext(f".//{name}oddHeader")
    assert head is not None and head.startswith("&L") and head.endswith("&RSheet")
    assert len(head.encode("utf-16-le")) // 2 <= 255
    codes = re.sub("&&", "", head)
    assert re.findall("&(.?)", codes, re.DOTALL) == ["L", "C", "R"]


def test_an_ampersand_in_a_title_is_no_code() -> None:
    xml = parts(one_book("x", title="Lamps &P &G & more"))["xl/worksheets/sheet1.xml"].decode()
    assert "&amp;CLamps &amp;&amp;P ＆G &amp;&amp; more&amp;R" in xml


@EACH
@pytest.mark.parametrize("file", FILES)
def test_same_tables_same_bytes_and_no_clock(path: pathlib.Path, file: str) -> None:
    first, second = (dict(compiling.books(packet(path)))[file] for _ in range(2))
    assert first == second
    with zipfile.ZipFile(io.BytesIO(first)) as archive:
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert {info.compress_type for info in archive.infolist()} == {zipfile.ZIP_STORED}
        assert archive.testzip() is None
    core = parts(first)["docProps/core.xml"].decode()
    assert re.findall(r"<dcterms:\w+ [^>]*>([^<]*)<", core) == ["1980-01-01T00:00:00Z"] * 2


@pytest.mark.parametrize(
    ("amount", "form"),
    [
        ("129.50", "#,##0.00 [$EUR]"),
        ("3", "#,##0.00 [$EUR]"),
        ("0.045", "#,##0.000 [$EUR]"),
        ("1E+2", "#,##0.00 [$EUR]"),
    ],
)
def test_an_amount_shows_the_places_that_it_has(amount: str, form: str) -> None:
    assert currency_form(Money(Decimal(amount), "EUR")) == form


def test_addresses_of_columns() -> None:
    """As `openpyxl` counts them, from 1."""
    assert [letter(n) for n in range(800)] == [get_column_letter(n + 1) for n in range(800)]
    assert cells(26, 3, sheet="Cut list") == "'Cut list'!$AA$2:$AA$4"


def test_imperial_and_letter_by_practice(tmp_path: pathlib.Path) -> None:
    """A pound is 0.45359237 kg, an inch 0.0254 m (NIST SP 811, appendix B)."""
    folder = tmp_path / "job"
    shutil.copytree(EXAMPLES[0].parent, folder)
    practice = folder / "practice.yaml"
    text = re.sub(r"^(units|paper):.*\n", "", practice.read_text(), flags=re.MULTILINE)
    found = {}
    for units, paper in (("metric", "A4"), ("imperial", "Letter")):
        practice.write_text(f"{text.rstrip()}\nunits: {units}\npaper: {paper}\n")
        outcome = pipeline.check_file(folder / EXAMPLES[0].name)
        assert outcome.build is not None, [d.message for d in outcome.diagnostics]
        books = dict(compiling.books(compiling.packet_of(outcome)))
        found[units] = (
            opened(books["cut-list.xlsx"])["Cut list"],
            opened(books["bom.xlsx"])["Bill of materials"],
        )
    (cut, bill), (cut_in, bill_lb) = found["metric"], found["imperial"]
    assert (cut["G1"].value, cut_in["G1"].value) == ("Cut [m]", "Cut [in]")
    assert cut["G2"].value == pytest.approx(cut_in["G2"].value * M_PER_IN, rel=1e-9)
    assert (bill["F1"].value, bill_lb["F1"].value) == ("Mass [kg]", "Mass [lb]")
    masses = [
        (a.value, b.value) for (a,), (b,) in zip(bill["F2:F40"], bill_lb["F2:F40"], strict=True) if a.value
    ]
    assert masses and all(math.isclose(a, b * KG_PER_LB, rel_tol=1e-9) for a, b in masses)
    assert (cut.page_setup.paperSize, cut_in.page_setup.paperSize in (None, 1)) == (9, True)


@pytest.mark.parametrize(
    "cell", [text for text in HOSTILE if text.strip(" \ufeff\u200b\t\r\n")[:1] in set("=+-@＝＋－＠﹦")]
)
def test_cells_that_would_run_get_an_apostrophe_in_csv(cell: str) -> None:
    assert csvfile.harmless(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["", "a=b", "12 V", "–", "'=1", "1-2", " plain", "x\t=1", "−5 °C"])
def test_other_cells_stay_as_they_are_in_csv(cell: str) -> None:
    assert csvfile.harmless(cell) == cell


@EACH
def test_rows_are_as_high_as_what_wraps_in_them_and_sums_fit_their_column(path: pathlib.Path) -> None:
    """Excel shows `###` for a number that is wider than its column; a character of a font is about a digit wide."""
    wrapped = 0
    for _, content in compiling.books(packet(path)):
        for sheet in opened(content, values=True):
            alike = sheet.column_dimensions.values()
            wide = {n: one.width for one in alike for n in range(one.min, one.max + 1)}
            for row in sheet.iter_rows():
                high = sheet.row_dimensions[row[0].row].height or 15
                for cell in row:
                    if isinstance(cell.value, str):
                        most = len(cell.value) / wide[cell.column]
                        wrapped += most > 1.3
                        assert high >= 30 or most <= 1.3, (sheet.title, cell.coordinate, cell.value)
                    elif isinstance(cell.value, int | float):
                        assert len(f"{cell.value:.2f}") <= wide[cell.column]
    assert wrapped > 5
