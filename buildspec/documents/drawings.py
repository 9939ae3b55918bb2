"""Index of the drawing sheets and of the switch legends at true size."""

from __future__ import annotations

from typing import Any

from buildspec import show
from buildspec.packet import Packet, Sheet

TITLE = "Drawings"
ORDER = 20
WIDE = True


def view(packet: Packet) -> dict[str, Any]:
    return {
        "intro": (
            "Each sheet is a file of its own in the folder drawings, at true size. A wire is drawn in its "
            "own colour, with its number, size and colour letters (IEC 60757) beside it. Reserves are "
            "dashed. An arrow with a sheet and a zone, such as 2/B4, says where a wire goes on or comes from: "
            "letters down the right edge, numbers across the top. Places and looms show what shares each run."
        ),
        "sheets": [line(f"D{sheet.number}", sheet) for sheet in packet.sheets],
        "nothing": "No sheet.",
        "strips": [line(f"L{n}", strip) for n, strip in enumerate(packet.strips, start=1)],
        "no_strips": "No switch legend.",
    }


def line(number: str, sheet: Sheet) -> dict[str, str]:
    size = f"{show.plain(sheet.width_mm, 1)} mm × {show.plain(sheet.height_mm, 1)} mm"
    return {"number": number, "title": sheet.title, "size": size, "file": f"drawings/{sheet.id}.svg"}
