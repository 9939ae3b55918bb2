"""Who fitted which part of which lot, with which tool: kept, so that a recall finds this vehicle."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _trace as trace
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Trace record"
ORDER = 110
WIDE = True
LINES_FOR_PEOPLE = 4
TOOLS = (
    "Crimp tool, insulated and small terminals",
    "Crimp tool, lugs",
    "Pull tester",
    "Torque wrench, small",
    "Torque wrench, large",
    "Multimeter",
    "Clamp ammeter, d.c.",
)


def view(packet: Packet) -> dict[str, Any]:
    job = packet.sized.build.job
    return {
        "intro": (
            f"Belongs to job {job.number}, revision {job.revision}; vehicle identification number: …; kept by the shop "
            "for … years, as the shop sets and the law asks. Filled while fitting, not afterwards. What is printed "
            "under maker and part number is what was ordered: correct it where another was fitted."
        ),
        "people": [
            {"name": words.BLANK, "role": words.BLANK, "initials": words.BLANK, "dates": words.BLANK}
            for _ in range(LINES_FOR_PEOPLE)
        ],
        "tools": [
            {"tool": tool, "number": words.BLANK, "checked": words.BLANK, "due": words.BLANK}
            for tool in TOOLS
        ],
        "parts": list(trace.parts(packet)),
        "fuses": list(trace.fuse_lots(packet)),
        "reels": list(trace.reels(packet)),
        "crimps": list(trace.samples(packet)),
        "torques": list(trace.torques(packet)),
        "nothing": "None.",
    }
