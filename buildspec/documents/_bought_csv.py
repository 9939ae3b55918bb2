"""The bill of materials for a spreadsheet: masses in kg, conductor in whole metres."""

from __future__ import annotations

import math
from collections.abc import Iterator

from buildspec.documents import _bought as bought
from buildspec.documents import _materials as materials
from buildspec.model import Part
from buildspec.packet import Packet

COLUMNS = (
    "group", "item", "part", "quantity", "unit", "mass_kg", "designations", "places", "source", "maker_and_number",
    "own_number", "supplier", "price_each", "currency", "substitutes",
)  # fmt: skip


def rows(packet: Packet) -> Iterator[list[str]]:
    """One row a thing to buy, in the order of the document."""
    for row in (*items(packet), *goods(packet), *lengths(packet), *small(packet)):
        yield [row.get(column, "") for column in COLUMNS]


def items(packet: Packet) -> Iterator[dict[str, str]]:
    for category, found in materials.by_category(packet.sized.build).items():
        for same in found:
            part, quantity = same[0].part, sum(i.quantity for i in same)
            yield {
                "group": category,
                "item": part.title,
                "part": part.id,
                "quantity": str(quantity),
                "unit": "piece",
                "mass_kg": "" if part.mass_kg is None else number(part.mass_kg * quantity),
                "designations": " ".join(dict.fromkeys(i.designation for i in same)),
                "places": " ".join(dict.fromkeys(i.place for i in same)),
                "source": part.source,
                **purchase(part),
            }


def purchase(part: Part) -> dict[str, str]:
    """How it is bought; empty cells for what nobody states."""
    return {
        "maker_and_number": bought.identity(part),
        "own_number": part.own_number,
        "supplier": part.supplier if part.supplied_by == "shop" else "customer",
        "price_each": "" if part.price is None else str(part.price.amount),
        "currency": "" if part.price is None else part.price.currency,
        "substitutes": " ".join(part.substitutes),
    }


def number(value: float) -> str:
    return f"{value:.6g}"


def goods(packet: Packet) -> Iterator[dict[str, str]]:
    for one in materials.goods(packet.sized.build):
        part = one.item.part
        yield {
            "group": "sheet goods",
            "item": part.title,
            "part": part.id,
            "quantity": str(one.units),
            "unit": "unit",
            "mass_kg": number(one.mass_kg),
            "designations": one.item.designation,
            "places": one.item.place,
            "source": part.source,
            **purchase(part),
        }


def lengths(packet: Packet) -> Iterator[dict[str, str]]:
    for one in materials.conductors(packet):
        yield {
            "group": "conductor",
            "item": bought.conductor_words(one),
            "quantity": str(math.ceil(round(one.length_m, 6))),
            "unit": "m",
            "source": one.conductor.source,
        }


def small(packet: Packet) -> Iterator[dict[str, str]]:
    for (family, rating, colour), count in materials.fuse_counts(packet):
        yield {
            "group": "fuse",
            "item": bought.fuse_words(family, rating, colour),
            "quantity": str(count + materials.SPARES_EACH),
            "unit": "piece",
        }
    for line in bought.small_lines(packet):
        amount, _, unit = line["quantity"].partition(" ")
        name = f"{line['item']}, {line['size']}"
        yield {"group": "small parts", "item": name, "quantity": amount, "unit": unit or "piece"}
