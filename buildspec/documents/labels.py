"""The list for the label printer: text, quantity, where it goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from buildspec.documents import _label_paper as sheets
from buildspec.documents import _page as own
from buildspec.documents import _words as words
from buildspec.documents._labels import Label, labels
from buildspec.packet import Packet

TITLE = "Labels"
ORDER = 50
WIDE = True

KINDS = {
    "wire sleeve": "Wire sleeves", "fuse tag": "Fuses", "device tag": "Devices", "reserve tag": "Reserves",
    "stay-empty tag": "Positions that stay empty",
}  # fmt: skip


def view(packet: Packet) -> dict[str, Any]:
    order = list(packet.sized.build.places)
    found = sorted(labels(packet), key=lambda label: order.index(label.place))
    counts = Counter(dict.fromkeys(KINDS, 0))
    for label in found:
        counts[label.kind] += label.quantity
    total = sum(counts.values())
    return {
        "intro": (
            f"{total} labels. Each wire has one at both ends, and each says where the other end is. "
            "Printed sleeve, or the flags and wraps of the label sheets on laminated tape that stands oil and heat; no "
            "insulating tape."
        ),
        "sections": [
            {
                "heading": f"{title}: {counts[kind]}",
                "labels": [line(packet, label) for label in found if label.kind == kind],
            }
            for kind, title in KINDS.items()
            if counts[kind]
        ],
    }


def line(packet: Packet, label: Label) -> dict[str, str]:
    return {
        "text": label.text,
        "quantity": str(label.quantity),
        "where": words.capital(label.where),
        "place": words.place(packet.sized.build, label.place),
        "done": words.TICK,
    }


def pages(packet: Packet) -> Iterator[tuple[str, str]]:
    """`label-sheets.html`: every label at true size, to be printed."""
    yield "label-sheets.html", own.html(packet, "label-sheets", pages=sheets.pages(packet))


def csv(packet: Packet) -> tuple[str, list[list[str]]]:
    """`labels.csv`, for a label printer."""
    rows = [
        [label.text, str(label.quantity), label.kind, label.where, label.place] for label in labels(packet)
    ]
    return "labels.csv", [["text", "quantity", "kind", "where", "place"], *rows]
