"""Every bolted joint with the order of its lugs and its torque, every kind of crimp, and what holds the items."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import fastenings, show
from buildspec.documents import _joints as joints
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Terminations and torque"
ORDER = 65
WIDE = True
MARKS = {"computed": " (computed)", "memory": " (recalled, confirm)", "yes": ""}


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
        "bolts": list(bolts(packet)),
        "no_bolts": "No fastening is stated; each item is held as its maker says.",
        "recheck": f"Re-check after {practice.retorque_km:g} km, then yearly: tighten, never loosen first.",
        "signatures": [
            {"role": role, "name": words.BLANK, "tool": words.BLANK, "date": words.BLANK}
            for role in ("Tightened", "Checked", "Re-checked")
        ],
    }


def bolts(packet: Packet) -> Iterator[dict[str, str]]:
    """One line an item that says how it is held."""
    build = packet.sized.build
    for item in build.accessories.values():
        held = item.fastening
        if held is None:
            continue
        tight, turns = fastenings.tightening(held), fastenings.spin_out_nm(held)
        weakest = min(fastenings.strengths(held), key=lambda s: s.may_n, default=None)
        sheet = f", {show.diameter(held.sheet_m, build.practice)} {held.metal}" if held.sheet_m else ""
        engagement = (
            show.diameter(held.engagement_m, build.practice) if held.engagement_m else words.NOT_APPLICABLE
        )
        yield {
            "item": f"{item.designation} {item.part.title}",
            "place": words.place(build, item.place),
            "bolts": f"{held.quantity * item.quantity} × {held.bolt}, class {held.grade}",
            "into": " ".join(w for w in (held.body, held.into) if w) + sheet,
            "engagement": engagement,
            "thread": held.lubrication,
            "carries": words.NOT_APPLICABLE if weakest is None else show.force(weakest.may_n, build.practice),
            "torque": words.BLANK if tight is None else joints.newton_metres(tight.nm),
            "source": words.NOT_APPLICABLE if tight is None else f"{tight.source}{MARKS[tight.verified]}",
            "turns": words.NOT_APPLICABLE if turns is None else joints.newton_metres(turns),
            "initials": words.BLANK,
            "due": words.BLANK,
        }
