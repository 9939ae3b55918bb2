"""What to buy: items by category with mass, sheet goods, conductor, fuses with spares, holders, terminals."""

from __future__ import annotations

from typing import Any

from buildspec import show
from buildspec.documents import _bought as bought
from buildspec.documents import _bought_csv as bought_csv
from buildspec.documents import _materials as materials
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Bill of materials"
ORDER = 70
WIDE = True


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    unknown = materials.without_mass(build)
    return {
        "intro": "Maker and part number are filled in when bought, so that a recall can find this vehicle.",
        "mass": f"Added mass, items and sheet goods: {show.mass(materials.added_kg(build), build.practice)}.",
        "mass_note": "Wire, terminals and small parts are not in this sum."
        + (f" No mass is stated for {', '.join(unknown)}." if unknown else ""),
        "items": [
            {"group": words.capital(category), **item_line(packet, same)}
            for category, found in materials.by_category(build).items()
            for same in found
        ],
        "goods": [goods_line(packet, g) for g in materials.goods(build)],
        "conductors": list(bought.conductor_lines(packet)),
        "fuses": list(bought.fuse_lines(packet)),
        "small": list(bought.small_lines(packet)),
        "nothing": "None.",
    }


def item_line(packet: Packet, same: list[materials.Item]) -> dict[str, str]:
    build, part = packet.sized.build, same[0].part
    quantity = sum(i.quantity for i in same)
    mass = part.mass_kg
    places = dict.fromkeys(words.place(build, i.place) for i in same)
    return {
        "item": part.title,
        "part": part.id or "as written in the spec",
        "designations": ", ".join(i.designation for i in same),
        "quantity": str(quantity),
        "each": "not stated" if mass is None else show.mass(mass, build.practice),
        "total": "not stated" if mass is None else show.mass(mass * quantity, build.practice),
        "places": "; ".join(places),
        "source": part.source,
        "maker": words.BLANK,
    }


def goods_line(packet: Packet, one: materials.Goods) -> dict[str, str]:
    build, item = packet.sized.build, one.item
    material = item.part.material
    assert material is not None
    return {
        "item": item.part.title,
        "part": item.part.id or "as written in the spec",
        "surface": show.surface(one.surface_m2, build.practice),
        "unit": show.surface(material.sheet_m2, build.practice),
        "quantity": str(one.units),
        "total": show.mass(one.mass_kg, build.practice),
        "places": words.place(build, item.place),
        "source": item.part.source,
        "maker": words.BLANK,
    }


def csv(packet: Packet) -> tuple[str, list[list[str]]]:
    """`bom.csv`: one line a thing to buy."""
    return "bom.csv", [list(bought_csv.COLUMNS), *bought_csv.rows(packet)]
