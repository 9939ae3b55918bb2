"""One sheet a place where a fitter works: everything that is fitted, ends, is bolted, drilled and labelled there."""

from __future__ import annotations

from typing import Any

from buildspec import show
from buildspec.documents import _places as places
from buildspec.packet import Packet

TITLE = "Place sheets"
ORDER = 85


def view(packet: Packet) -> dict[str, Any]:
    practice = packet.sized.build.practice
    loop = show.small_length(practice.service_loop_m, practice)
    return {
        "intro": (
            "Take the sheet of the place along; tick what is done. Every wire end has a sleeve that says circuit, wire "
            f"and → the other end, or a flag with the same words; {loop} of loop stays at each end, but for the short "
            "links that the cut list names. “Leaves” and “arrives” follow the current. Fuses stay out until phase 7, "
            "whatever state is listed here: that is the one at the end. Where a torque comes from is in Terminations "
            "and torque."
        ),
        "places": list(places.sections(packet)),
        "nothing": "Nothing is done to the vehicle.",
    }
