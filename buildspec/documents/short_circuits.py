"""What happens when something chafes through: which device opens, how soon, what it spares, what stays live."""

from __future__ import annotations

from typing import Any

from buildspec import show
from buildspec.documents import _circuits as circuits
from buildspec.documents import _short_rows as rows
from buildspec.packet import Packet

TITLE = "Short circuits"
ORDER = 32
WIDE = True


def view(packet: Packet) -> dict[str, Any]:
    insulation = show.plain(packet.sized.build.practice.insulation_c, 0)
    return {
        "intro": (
            "A dead short is put at the end of every circuit and right behind every device; the current is worked out "
            "in the whole network, no current is assumed."
        ),
        "least_intro": (
            f"At the least: conductors at {insulation} °C, contacts, fuses and body with their resistance, battery "
            "cold and low, engine stopped, links open (a link's own short with the link closed). The device that is "
            "sure to open first cuts its battery off by its slowest gate. Passes: the energy that it lets through "
            "stays below what the thinnest conductor on the way stands, k²S². Times with a question mark rest on gates "
            "from memory: the device's own curve decides."
        ),
        "faults": rows.far(packet),
        "most_intro": (
            "At the most: conductors at 20 °C, full and strong sources, everything joined that joins by itself, no "
            "resistance in contacts and returns. Must break: the same, and on a battery no less than the battery's "
            "own figure (its maker's, or ABYC E-11 table V-A by cranking current); a device that breaks less refuses "
            "the build. Held: the same while a hand closes a link, for its seconds only."
        ),
        "near": rows.near(packet),
        "by_sheet": by_sheet(packet),
        "nothing": "No circuit of this build carries supply.",
    }


def by_sheet(packet: Packet) -> list[str]:
    """Families of which the fuse that is bought breaks what its own sheet says."""
    fitted = {d.family for s in packet.sized.sizings.values() for d in s.devices}
    return [
        f"{show.family(family)} fuses break {circuits.kilo(own.breaking_a)} by the sheet of {own.part} "
        f"({own.breaking_source}): no other make."
        for family, own in packet.sized.build.practice.fuse_parts.items()
        if family in fitted and own.breaking_a is not None
    ]
