"""What to buy: items by category with mass, sheet goods, conductor, fuses with spares, holders, terminals."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.documents import _materials as materials
from buildspec.documents import _words as words
from buildspec.documents._labels import labels
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
        "conductors": list(conductor_lines(packet)),
        "fuses": list(fuse_lines(packet)),
        "small": list(small_lines(packet)),
        "none": "None.",
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


def conductor_lines(packet: Packet) -> Iterator[dict[str, str]]:
    practice = packet.sized.build.practice
    for metres in materials.conductors(packet):
        yield {
            "size": show.both_sizes(metres.conductor),
            "insulation": f"{show.plain(practice.insulation_c, 0)} °C",
            "colour": metres.colour,
            "colour_words": show.colour(metres.colour),
            "pieces": str(metres.pieces),
            "length": show.whole_length(metres.length_m, practice),
            "maker": words.BLANK,
        }


def fuse_lines(packet: Packet) -> Iterator[dict[str, str]]:
    for (family, rating, colour), count in materials.fuse_counts(packet):
        yield {
            "family": words.capital(show.family(family)),
            "rating": show.amps(rating),
            "colour": colour or words.NOT_APPLICABLE,
            "fitted": str(count),
            "spare": str(materials.SPARES_EACH),
            "quantity": str(count + materials.SPARES_EACH),
            "maker": words.BLANK,
        }


def small_lines(packet: Packet) -> Iterator[dict[str, str]]:
    """Holders, terminals, caps, seals, sleeves over the loom, labels."""
    build = packet.sized.build
    for (family, rating), count in materials.holder_counts(packet):
        yield small(f"Fuse holder, {show.family(family)}", show.amps(rating), str(count))
    for (terminal, _, size), count in materials.terminal_counts(packet):
        yield small(words.capital(terminal), size.replace("mm2", "mm²"), str(count))
    for cap, count in Counter(r.cap for r in build.reserves.values() if r.cap).items():
        yield small(words.capital(cap), "reserve", str(count))
    for (protection, size_m), count in Counter((h.protection, h.size_m) for h in build.holes).items():
        dimension = show.small_length(size_m, build.practice) if size_m else "to suit"
        yield small(words.capital(protection), dimension, str(count))
    sheathed = sum(run.length_m for run in build.runs if run.sheathed)
    if sheathed:
        yield small("Loom sleeve", "to suit the loom", show.whole_length(sheathed, build.practice))
    yield small("Labels", "see the list of labels", str(sum(label.quantity for label in labels(packet))))


def small(item: str, size: str, quantity: str) -> dict[str, str]:
    return {"item": item, "size": size, "quantity": quantity, "maker": words.BLANK}


def csv(packet: Packet) -> tuple[str, list[list[str]]]:
    """`bom.csv`: one line a thing to buy; masses in kg, conductor in whole metres."""
    build = packet.sized.build
    rows = [["group", "item", "part", "quantity", "unit", "mass_kg", "designations", "places", "source", "maker_and_number"]]
    for category, found in materials.by_category(build).items():
        for same in found:
            part, quantity = same[0].part, sum(i.quantity for i in same)
            mass = "" if part.mass_kg is None else f"{part.mass_kg * quantity:g}"
            marks, places = (" ".join(dict.fromkeys(x)) for x in ((i.designation for i in same), (i.place for i in same)))
            rows.append([category, part.title, part.id, str(quantity), "piece", mass, marks, places, part.source, ""])
    for g in materials.goods(build):
        item = g.item
        rows.append(["sheet goods", item.part.title, item.part.id, str(g.units), "unit", f"{round(g.mass_kg, 3):g}",
                     item.designation, item.place, item.part.source, ""])  # fmt: skip
    for m in materials.conductors(packet):
        name = f"conductor {show.size(m.conductor)} {m.colour}"
        rows.append(["conductor", name, "", str(math.ceil(round(m.length_m, 6))), "m", "", "", "", m.conductor.source, ""])
    for line in fuse_lines(packet):
        name = f"fuse {line['family']} {line['rating']} {line['colour']}"
        rows.append(["fuse", name, "", line["quantity"], "piece", "", "", "", "", ""])
    for line in small_lines(packet):
        quantity, _, unit = line["quantity"].partition(" ")
        rows.append(["small parts", f"{line['item']}, {line['size']}", "", quantity, unit or "piece", "", "", "", "", ""])
    return "bom.csv", rows
