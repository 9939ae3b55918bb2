"""Every connector, terminal strip and socket with each of its pins: wire, terminal, seal, plug, mate."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _pins as pins
from buildspec.packet import Packet

TITLE = "Connectors and pins"
ORDER = 45
WIDE = True


def view(packet: Packet) -> dict[str, Any]:
    return {
        "intro": (
            "Seen from the side where the wire goes in. Sleeve on, then terminal, then pin; push until it clicks, pull "
            "back gently. Where current can come from, the half with shrouded contacts is the live one. An empty "
            "cavity outside the cabin is plugged. Rings on studs and posts are in Terminations and torque."
        ),
        "connectors": list(pins.lines(packet)),
        "tools_intro": "One line a kind of terminal: fill in the maker's tool before the first crimp.",
        "tools": list(pins.tools(packet)),
        "nothing": "No connector in this build.",
    }
