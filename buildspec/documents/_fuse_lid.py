"""The card in the lid of each block and panel: what sits in which position, and what may go in."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _fuses as fuses
from buildspec.documents import _words as words
from buildspec.documents._owner_fuses import SWATCHES
from buildspec.packet import Packet

HELD = "\u00a0"


def cards(packet: Packet) -> list[dict[str, Any]]:
    """One card for each host that holds a device; devices in line have no lid."""
    return [
        card(packet, heading, lines)
        for heading, lines in fuses.groups(packet)
        if not heading.startswith(("In line", fuses.OWN)) and any(is_used(line) for line in lines)
    ]


def card(packet: Packet, heading: str, lines: list[dict[str, str]]) -> dict[str, Any]:
    """Two halves that fold together, the first positions on the left."""
    name, _, where = heading.partition(": ")
    rows = [row(line) for line in lines]
    half = (len(rows) + 1) // 2
    fuse = any(line["no_more"] != words.NOT_APPLICABLE for line in lines)
    return {
        "name": name,
        "where": where,
        "halves": [rows[:half], rows[half:]],
        "rule": (
            "Never fit a larger fuse than the row says: the wire behind it would burn."
            if fuse
            else "Limits are electronic and set by the workshop: nothing here is changed by hand."
        ),
        "after": sorted({line["after"].rstrip(".") for line in lines} - {words.NOT_APPLICABLE}),
    }


def is_used(line: dict[str, str]) -> bool:
    return line["device"] != words.NOT_APPLICABLE


def row(line: dict[str, str]) -> dict[str, str]:
    """A position; what is not fitted says so in its last cell."""
    used = is_used(line)
    fuse = line["no_more"] != words.NOT_APPLICABLE
    return {
        "position": line["position"],
        "device": line["device"] if used else "",
        "rating": line["rating"].replace(" ", HELD) if used else "",
        "colour": line["colour"] if line["colour"] != words.NOT_APPLICABLE else "",
        "chip": SWATCHES.get(line["colour"], ""),
        "feeds": line["feeds"] if used else "",
        "limit": f"max{HELD}{line['no_more'].replace(' ', HELD)}" if fuse else "electronic" if used else "",
        "state": "" if line["state"] in ("fitted", "on") else line["state"],
        "use": "used" if used else "empty",
    }
