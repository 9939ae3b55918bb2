"""The bill of materials as a spreadsheet: what to buy, what it costs, and what to take for each step of the work."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from buildspec import show
from buildspec.documents import _bought as bought
from buildspec.documents import _bought_csv as bought_csv
from buildspec.documents import _materials as materials
from buildspec.documents import _pick as pick
from buildspec.documents import _prices as prices
from buildspec.documents import _units as units
from buildspec.documents import _words as words
from buildspec.packet import Packet
from buildspec.worksheets import HUNDREDTHS, WHOLE, Cell, Column, Formula, Workbook, Worksheet, cells

PRICE, CURRENCY = 6, 8
"""Columns of the order that its sums look at."""


def book(packet: Packet) -> Workbook:
    return Workbook("bom.xlsx", (materials_sheet(packet), order(packet), pick_list(packet)))


def materials_sheet(packet: Packet) -> Worksheet:
    mass = units.mass(packet.sized.build.practice)
    columns = (
        Column("Group"), Column("Item"), Column("Part"), Column("Number", WHOLE), Column("Unit"),
        Column(f"Mass [{mass.name}]", HUNDREDTHS), Column("Marks"), Column("Places"), Column("Ratings from"),
        Column("Maker and part number"), Column("Own number"), Column("Supplier"), Column("May be replaced by"),
    )  # fmt: skip
    return Worksheet("Bill of materials", columns, tuple(material_rows(packet)), kept=2)


def material_rows(packet: Packet) -> Iterator[tuple[Cell, ...]]:
    """The lines of `bom.csv` with numbers as numbers, in the units of the practice."""
    mass = units.mass(packet.sized.build.practice)
    lines = (
        *bought_csv.items(packet),
        *bought_csv.goods(packet),
        *lengths(packet),
        *bought_csv.small(packet),
    )
    for row in lines:
        kilograms = row.get("mass_kg", "")
        yield (
            row["group"], row["item"], row.get("part", ""), int(row["quantity"]), row["unit"],
            float(kilograms) / mass.kilograms if kilograms else None, row.get("designations", ""),
            places(packet, row.get("places", "")),
            *(row.get(key, "") for key in ("source", "maker_and_number", "own_number", "supplier", "substitutes")),
        )  # fmt: skip


def places(packet: Packet, names: str) -> str:
    return "; ".join(words.place(packet.sized.build, name) for name in names.split())


def lengths(packet: Packet) -> Iterator[dict[str, str]]:
    for one in materials.conductors(packet):
        amount, _, unit = show.whole_length(one.length_m, packet.sized.build.practice).partition(" ")
        yield {
            "group": "conductor",
            "item": bought.conductor_words(one),
            "quantity": amount,
            "unit": unit,
            "source": one.conductor.source,
        }


def order(packet: Packet) -> Worksheet:
    """The lines to order with their prices; an empty price is one that nobody states."""
    columns = (
        Column("Item"), Column("Part"), Column("Own number"), Column("Supplier"), Column("Number", WHOLE),
        Column("Price each"), Column("Price"), Column("Without a price"), Column("Currency"),
        Column("May be replaced by"),
    )  # fmt: skip
    found = [one for one in prices.lines(packet) if one.kind in prices.ORDERED]
    rows = tuple(order_row(one) for one in found)
    return Worksheet("Order and prices", columns, rows, tuple(sums(found, len(rows))))


def order_row(one: prices.Line) -> tuple[Cell, ...]:
    part = one.part
    return (
        one.item,
        part.id if part else "",
        part.own_number if part else "",
        prices.supplier(one),
        one.quantity,
        None if one.by_customer else one.each,
        one.price,
        "not stated" if one.wants_price and one.price is None else "",
        one.price.currency if one.price is not None else "",
        ", ".join(part.substitutes) if part else "",
    )


def sums(found: Sequence[prices.Line], rows: int) -> Iterator[tuple[Cell, ...]]:
    """What all of it costs, each currency by itself, and how many lines are not in it."""
    for currency, total in prices.order_total(found).items():
        formula = f'ROUND(SUMIFS({cells(PRICE, rows)},{cells(CURRENCY, rows)},"{currency}"),2)'
        label = f"Together without tax, {currency}"
        yield (label, "", "", "", None, None, Formula(formula, total), "", currency, "")
    missing = sum(one.wants_price and one.price is None for one in found)
    if missing:
        formula = f'COUNTIF({cells(PRICE + 1, rows)},"not stated")'
        yield (
            "Lines without a price, not in the sum",
            "",
            "",
            "",
            None,
            None,
            None,
            Formula(formula, missing),
            "",
            "",
        )


def pick_list(packet: Packet) -> Worksheet:
    columns = (
        Column("Step of the work order"), Column("Place"), Column("Item"), Column("Number", WHOLE), Column("Unit"),
        Column("For"), Column("Taken"),
    )  # fmt: skip
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (one.step, one.place, one.item, one.quantity, one.unit, one.marks, words.TICK)
        for one in pick.picks(packet)
    )
    return Worksheet("Pick list", columns, rows, kept=0)
