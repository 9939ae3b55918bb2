"""Every bolted joint with the order of its lugs and its torque, every kind of crimp, and what holds the items."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _bolts as bolts
from buildspec.documents import _joints as joints
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Terminations and torque"
ORDER = 65
WIDE = True


def view(packet: Packet) -> dict[str, Any]:
    practice = packet.sized.build.practice
    return {
        "intro": (
            "The largest lug goes to the bottom, against the post or the bar; nothing between post and lug, no "
            "washer, no paint. At most four lugs a stud (ABYC E-11 as suppliers quote it). The ring has the size of "
            "the stud. A maker's label or sheet comes before every figure here."
        ),
        "studs": list(joints.lines(packet)),
        "crimp_intro": (
            "Before the first crimp of each kind a sample is pulled for one minute at the force below (UL 486A level, "
            "row of the largest gauge that is not above the wire). A sample that slips stops the job: other die, "
            "other terminal."
        ),
        "crimps": list(joints.crimps(packet)),
        "bolt_intro": (
            "Clean thread, dry unless it says oiled; tightened in two passes, crosswise. Stainless is oiled, or it "
            "seizes."
        ),
        "bolts": list(bolts.lines(packet)),
        "no_bolts": "No fastening is stated; each item is held as its maker says.",
        "recheck": f"Re-check after {practice.retorque_km:g} km, then yearly: tighten, never loosen first.",
        "signatures": [
            {"role": role, "name": words.BLANK, "tool": words.BLANK, "date": words.BLANK}
            for role in ("Tightened", "Checked", "Re-checked")
        ],
    }
