"""Every circuit with every figure: what it is, what protects it, what it runs through, why it has its size."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _circuits as circuits
from buildspec.packet import Packet

TITLE = "Circuit schedule"
ORDER = 30
WIDE = True


def anchors(packet: Packet) -> tuple[str, ...]:
    """Circuit numbers."""
    return tuple(c.number for c in circuits.shown(packet))


def tables(packet: Packet) -> list[str]:
    """The ampacity tables that were used, each once."""
    found = (s.ampacity.table for s in packet.sized.sizings.values() if s.ampacity is not None)
    return list(dict.fromkeys(found))


def view(packet: Packet) -> dict[str, Any]:
    """One line a circuit; the template sets it in four tables."""
    build = packet.sized.build
    prefix = build.practice.prefix
    return {
        "intro": (
            f"Numbers with {prefix} were fitted by {build.practice.shop.name}. A drop is taken at the "
            "design current, out and back, with every shared feeder in it and every reserve in use. Wire "
            "and fuse numbers lead to their lists."
        ),
        "loaded_note": (
            "Loaded: conductors that share the worst run and carry 1 A or more, returns and reserves included. "
            "Zone: around the worst run. At work: the conductor at its design current. Factors: place, then bundle. "
            "Margin: corrected ampacity over what the protective device lets through."
        ),
        "margin_note": (
            "Left: what remains to the limit that governed. The sum is printed as it was made; nothing is "
            "rounded before it is compared."
        ),
        "tables": f"Ampacity from {', '.join(tables(packet)) or 'no table'}.",
        "circuits": [circuits.line(packet, c) for c in circuits.shown(packet)],
        "nothing": "No circuit in this build.",
    }
