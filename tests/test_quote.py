"""The quote: sums worked out by hand, what has no price named, what the customer brings; money as decimals."""

from __future__ import annotations

import csv
import io
import pathlib
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec import compile as compiling
from buildspec import documents, money, pipeline
from buildspec.documents import _prices as prices
from buildspec.money import Money
from buildspec.packet import Packet
from buildspec.render import templates

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
VAN = next(p for p in EXAMPLES if "van" in p.name)
SPEC = """buildspec: 1
job: {number: T-1, title: Trial, revision: C, date: 2026-10-05, approved_by: shop lead, owner: {name: Fernhollow}}
quote: {excluded: [the mains side], instructions: [keep the old bolts]}
vehicle: {description: Double-cab pickup, system: 12 V}
places: {bed: {environment: cabin}}
grounds: {stud: {at: bed}}
batteries: {house: {chemistry: agm, capacity: 75 Ah, cranking: 520 A, at: bed, price: 168.00 EUR, hours: 0.5 h}}
accessories:
  lamps: {part: led-work-10, quantity: 3, at: bed, fed_from: house, option: L2}
  mat: {part: rubber-mat-8, at: bed, surface: 2.3 m2, price: 33.335 EUR, hours: 20 min}
  radio: {title: Radio, at: bed, supplied_by: customer, price: 999 EUR, hours: 0.25 h}
  box: {title: Box, at: bed}
works:
  - {do: drill, what: bed floor, reversal: plugs, hours: 10 min, price: 4.10 EUR}
"""
PARTS = "parts:\n  led-work-10: {extends: led-work-10, price: 22.905 EUR, hours: 20 min, substitutes: [led-work-18]}\n"
PRACTICE = """practice: 1
labour: 65.00 EUR/h
small_parts: 80.00 EUR
tax_note: Without tax.
validity: Thirty days.
"""


def made(folder: pathlib.Path, practice: str = PRACTICE) -> Packet:
    for name, text in (("t.build.yaml", SPEC), ("t.parts.yaml", PARTS), ("practice.yaml", practice)):
        (folder / name).write_text(text, encoding="utf-8")
    outcome = pipeline.check_file(folder / "t.build.yaml")
    assert outcome.build is not None, [d.message for d in outcome.diagnostics]
    return Packet(outcome.build, outcome.diagnostics, (), ())


def text_of(packet: Packet, name: str) -> str:
    document = next(d for d in documents.catalogue() if d.name == name)
    return templates.markdown(name, documents.context(document, packet))


def by_item(packet: Packet) -> dict[str, dict[str, str]]:
    return {row["Item"]: row for row in tables(text_of(packet, "quote"))[0]}


def test_a_line_is_rounded_once_halves_up(tmp_path: pathlib.Path) -> None:
    """3 × 22.905 = 68.715 → 68.72, not 3 × 22.91 = 68.73; one roll of mat at 33.335 → 33.34."""
    rows = by_item(made(tmp_path))
    lamps = rows["LED work lamp, 10 W"]
    assert (lamps["Number"], lamps["Each"], lamps["Price"]) == ("3", "22.905 EUR", "68.72 EUR")
    assert (lamps["Option"], lamps["Hours"]) == ("L2", "1 h")
    mat = next(row for item, row in rows.items() if item.startswith("Rubber mat"))
    assert (mat["Number"], mat["Price"]) == ("1", "33.34 EUR")


def test_the_sums_are_those_of_a_pencil(tmp_path: pathlib.Path) -> None:
    """Parts: 168.00 + 68.72 + 33.34 + 80.00 + 4.10 = 354.16. Time: 30 + 60 + 20 + 15 + 10 = 135 min = 2.25 h,
    at 65.00: 146.25. Together 500.41; box, fuse and holder have no price, so it is not complete."""
    packet = made(tmp_path)
    done = prices.sums(packet, prices.lines(packet))
    assert done.parts == {"EUR": Money(Decimal("354.16"), "EUR")}
    assert done.seconds == 135 * 60
    assert done.labour == Money(Decimal("146.25"), "EUR")
    assert done.whole == {"EUR": Money(Decimal("500.41"), "EUR")}
    foot = {row["Sum"]: row["Amount"] for row in tables(text_of(packet, "quote"))[1]}
    assert foot == {
        "Parts and material": "354.16 EUR",
        "Working time, 2.25 h at 65.00 EUR/h": "146.25 EUR",
        "Total without tax of what is priced; not complete": "500.41 EUR",
    }


def test_what_has_no_price_or_time_is_counted_and_named(tmp_path: pathlib.Path) -> None:
    packet = made(tmp_path)
    done = prices.sums(packet, prices.lines(packet))
    assert [name.split(" ", 1)[-1] for name in done.unpriced[:1]] == ["Box"]
    assert (
        len(done.unpriced) == 3
        and done.unpriced[1].startswith("Fuses")
        and done.unpriced[2].startswith("Holders")
    )
    assert len(done.untimed) == 1 and done.untimed[0].endswith("Box")
    text = text_of(packet, "quote")
    assert "No price for 3 lines: " in text and "No working time for 1 line: " in text
    assert by_item(packet)["Box"]["Price"] == by_item(packet)["Box"]["Hours"] == "not stated"


def test_what_the_customer_brings_costs_its_fitting_only(tmp_path: pathlib.Path) -> None:
    row = by_item(made(tmp_path))["Radio"]
    assert (row["Each"], row["Price"], row["Hours"]) == ("customer's own", "–", "0.25 h")
    assert "999" not in text_of(made(tmp_path), "quote")


def test_time_without_a_rate_is_not_free(tmp_path: pathlib.Path) -> None:
    packet = made(tmp_path, "practice: 1\n")
    done = prices.sums(packet, prices.lines(packet))
    assert done.labour is None and done.unpriced[-1] == "working time"
    assert "Working time, 2.25 h | – |" in " ".join(text_of(packet, "quote").split())
    assert "Tax is not stated." in text_of(packet, "quote")


def test_it_says_what_is_left_out_what_is_asked_and_who_approves(tmp_path: pathlib.Path) -> None:
    text = text_of(made(tmp_path), "quote")
    for said in (
        "- the mains side",
        "- keep the old bolts",
        "Without tax.",
        "Thirty days.",
        "revision C of 2026-10-05",
    ):
        assert said in text
    approval = tables(text)[-1]
    assert [(row["Role"], row["Name"], row["Revision"]) for row in approval] == [
        ("For the shop", "shop lead", "C"),
        ("For the customer", "", "C"),
    ]


def test_fuses_and_holders_are_priced_by_the_practice(tmp_path: pathlib.Path) -> None:
    """The lamps are fed straight from the battery: one fuse there, one spare: 2 × 6.90; one holder."""
    families = "{part: TR-1, mark: trial mark, price: 6.90 EUR, holder: TR-2, holder_price: 19.50 EUR}"
    known = f"fuse_parts: {{post-cube: {families}, strip-m8: {families}}}\n"
    packet = made(tmp_path, PRACTICE + known)
    lines = {line.kind: line for line in prices.lines(packet)}
    assert lines["fuse"].quantity == 2 and lines["fuse"].price == Money(Decimal("13.80"), "EUR")
    assert lines["holder"].quantity == 1 and lines["holder"].price == Money(Decimal("19.50"), "EUR")
    assert "TR-1, trial mark" in text_of(packet, "bill_of_materials")


def test_the_bill_of_materials_orders_the_same_lines(tmp_path: pathlib.Path) -> None:
    """168.00 + 68.72 + 33.34 + 80.00 = 350.06: bodywork is in the quote only."""
    text = text_of(made(tmp_path), "bill_of_materials")
    rows = {row["Item"]: row for row in tables(text)[-1]}
    assert rows["LED work lamp, 10 W"]["May be replaced by"] == "led-work-18"
    assert rows["Radio"]["Supplier"] == "customer's own" and rows["Box"]["Price"] == "not stated"
    assert "Together: 350.06 EUR, without tax. No price for 3 lines: " in text


def test_the_van_is_priced_whole() -> None:
    """Every line of the van has its price and its time; the foot is the sum of the printed lines."""
    rows, foot, *_ = tables(written(VAN)["quote"])
    assert [row for row in rows if "not stated" in row.values()] == []
    amounts = [Decimal(row["Price"].removesuffix(" EUR")) for row in rows if row["Price"] != "–"]
    hours = sum(Decimal(row["Hours"].removesuffix(" h")) for row in rows if row["Hours"] != "–")
    labour = Decimal(foot[1]["Amount"].removesuffix(" EUR"))
    assert foot[0]["Amount"] == f"{sum(amounts)} EUR"
    assert labour == hours * 65
    assert (foot[2]["Sum"], foot[2]["Amount"]) == ("Total without tax", f"{sum(amounts) + labour} EUR")


@EACH
def test_every_item_of_a_build_is_on_its_quote(path: pathlib.Path) -> None:
    made_packet = packet(path)
    build = made_packet.sized.build
    marks = {mark for line in prices.lines(made_packet) for mark in line.marks.split(", ")}
    assert {a.designation for a in build.accessories.values()} <= marks
    assert {r.designation for r in build.reserves.values()} <= marks
    fitted = [
        *build.isolation.values(),
        *build.panels.values(),
        *(block for block in build.blocks.values() if block.feed is None),
        *build.supplies.values(),
    ]
    assert {item.designation for item in fitted} <= marks
    assert not {b.designation for b in build.batteries.values() if b.existing} & marks


@EACH
def test_the_csv_has_the_same_lines_and_empty_cells_for_what_is_not_stated(path: pathlib.Path) -> None:
    files = compiling.files_of(packet(path))
    rows = list(csv.DictReader(io.StringIO(files["quote.csv"].decode("utf-8"), newline="")))
    printed = tables(written(path)["quote"])[0]
    assert [row["line"] for row in rows] == [row["Line"] for row in printed]
    for row, line in zip(rows, printed, strict=True):
        assert (row["line_price"] == "") == (line["Price"] in ("–", "not stated"))
        assert row["line_price"] == "" or f"{row['line_price']} {row['currency']}" == line["Price"]


@pytest.mark.parametrize(
    ("text", "number", "said"),
    [
        ("0.005 EUR", 1, "0.01 EUR"),
        ("0.0049 EUR", 1, "0.00 EUR"),
        ("2.675 EUR", 1, "2.68 EUR"),
        ("19.99 USD", 3, "59.97 USD"),
    ],
)
def test_halves_go_up(text: str, number: int, said: str) -> None:
    """2.675 has no exact binary form: as a float it would become 2.67."""
    assert money.show(money.times(money.parse(text), number)) == said


@pytest.mark.parametrize("text", ["129.50", "EUR", "1.2.3 EUR", "-3 EUR", "nan EUR", ""])
def test_what_is_no_amount_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not an amount"):
        money.parse(text)


@given(st.lists(st.integers(0, 10**7), min_size=1, max_size=50))
def test_a_sum_of_cents_is_exact(cents: list[int]) -> None:
    amounts = [Money(Decimal(c).scaleb(-2), "EUR") for c in cents]
    assert money.totals(amounts)["EUR"].amount * 100 == sum(cents)


def test_two_currencies_are_never_added() -> None:
    found = money.totals([money.parse("1 EUR"), money.parse("2 USD"), money.parse("0.50 EUR")])
    assert prices.added(found) == "1.50 EUR + 2.00 USD"
