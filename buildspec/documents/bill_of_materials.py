"""What to buy: items by category with mass, sheet goods, conductor, fuses with spares, holders, terminals."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from buildspec import money, show
from buildspec.documents import _bill_book as bill_book
from buildspec.documents import _bought as bought
from buildspec.documents import _bought_csv as bought_csv
from buildspec.documents import _materials as materials
from buildspec.documents import _prices as prices
from buildspec.documents import _words as words
from buildspec.packet import Packet
from buildspec.worksheets import Workbook

TITLE = "Bill of materials"
ORDER = 70
WIDE = True
OWN_PAGE = True


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    unknown, found = materials.without_mass(build), prices.lines(packet)
    items, goods = weighed(packet)
    return {
        "intro": "Maker and part number are filled in when bought, so that a recall can find this vehicle.",
        "mass": f"Items and sheet goods: {show.fine_mass(materials.added_kg(build), build.practice)}.",
        "mass_note": "Conductors come on top: the mass that was added, with them, is in the mass sheet, and only that "
        "one counts for axles, payload and load label. Terminals, screws and tape are in neither."
        + (f" No mass is stated for {', '.join(unknown)}." if unknown else ""),
        "items": items,
        "goods": goods,
        "samples": (
            f"For crimp samples, {show.small_length(materials.SAMPLE_M, build.practice)} more of each size and "
            f"colour, and {words.count(materials.SAMPLES_EACH, 'terminal')} more of each kind, are in the numbers."
        ),
        "conductors": list(bought.conductor_lines(packet)),
        "fuses": list(bought.fuse_lines(packet)),
        "small": list(bought.small_lines(packet)),
        "order": [order_line(one) for one in found if one.kind in prices.ORDERED],
        "order_sum": f"Together: {prices.added(prices.order_total(found))}, without tax.",
        "order_missing": unpriced(found),
        "nothing": "None.",
    }


def weighed(packet: Packet) -> tuple[list[dict[str, str]], list[dict[str, str]]]:
    """(items, sheet goods) with totals that add up to the sum as printed."""
    build = packet.sized.build
    kinds = [(c, same) for c, found in materials.by_category(build).items() for same in found]
    goods = materials.goods(build)
    kilograms = [(same[0].part.mass_kg or 0.0) * sum(i.quantity for i in same) for _, same in kinds]
    totals = show.fine_masses([*kilograms, *(g.mass_kg for g in goods)], build.practice)
    items = [
        {"group": words.capital(category), **item_line(packet, same, total)}
        for (category, same), total in zip(kinds, totals, strict=False)
    ]
    return items, [goods_line(packet, g, t) for g, t in zip(goods, totals[len(kinds) :], strict=True)]


def item_line(packet: Packet, same: list[materials.Item], total: str) -> dict[str, str]:
    build, part = packet.sized.build, same[0].part
    quantity = sum(i.quantity for i in same)
    mass = part.mass_kg
    places = dict.fromkeys(words.place(build, i.place) for i in same)
    return {
        "item": part.title,
        "part": part.id or "as written in the spec",
        "designations": ", ".join(i.designation for i in same),
        "quantity": str(quantity),
        "each": "not stated" if mass is None else show.fine_mass(mass, build.practice),
        "total": "not stated" if mass is None else total,
        "from": "customer" if part.supplied_by == "customer" else "shop",
        "places": "; ".join(places),
        "source": part.source,
        "maker": bought.identity(part),
    }


def goods_line(packet: Packet, one: materials.Goods, total: str) -> dict[str, str]:
    build, item = packet.sized.build, one.item
    material = item.part.material
    assert material is not None
    return {
        "item": item.part.title,
        "part": item.part.id or "as written in the spec",
        "surface": show.surface(one.surface_m2, build.practice),
        "unit": show.surface(material.sheet_m2, build.practice),
        "quantity": str(one.units),
        "total": total,
        "places": words.place(build, item.place),
        "source": item.part.source,
        "maker": bought.identity(item.part),
    }


def order_line(one: prices.Line) -> dict[str, str]:
    part = one.part
    return {
        "item": one.item,
        "part": part.id if part and part.id else words.NOT_APPLICABLE,
        "own": part.own_number if part and part.own_number else words.NOT_APPLICABLE,
        "supplier": prices.supplier(one),
        "quantity": str(one.quantity),
        "each": "not stated" if one.each is None else money.show(one.each),
        "price": "not stated" if one.price is None else money.show(one.price),
        "substitutes": ", ".join(part.substitutes) if part and part.substitutes else words.NOT_APPLICABLE,
    } | ({"each": words.NOT_APPLICABLE, "price": words.NOT_APPLICABLE} if one.by_customer else {})


def unpriced(found: Sequence[prices.Line]) -> str:
    """The lines without a price, counted and named."""
    names = [
        prices.name(one)
        for one in found
        if one.kind in prices.ORDERED and one.wants_price and one.price is None
    ]
    return f"No price for {words.count(len(names), 'line')}: {'; '.join(names)}." if names else ""


def csv(packet: Packet) -> tuple[str, list[list[str]]]:
    """`bom.csv`: one line a thing to buy."""
    return "bom.csv", [list(bought_csv.COLUMNS), *bought_csv.rows(packet)]


def book(packet: Packet) -> Workbook:
    """`bom.xlsx`."""
    return bill_book.book(packet)
