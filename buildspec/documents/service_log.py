"""What was done to the fit after handing over: the visits that are due already, and room for the others."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.documents import _labels as labels
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Service log"
ORDER = 130
WIDE = True
LINES_FOR_VISITS = 12


def view(packet: Packet) -> dict[str, Any]:
    return {
        "intro": (
            "One line a visit, whoever makes it. A reserve that is put to use, a fuse of another rating, a new wire: "
            "first in the job file, checked, printed with a new revision, then in the vehicle and here."
        ),
        "planned": [due_line(*one) for one in planned(packet)],
        "visits": [visit_line() for _ in range(LINES_FOR_VISITS)],
        "reserves": [
            {
                "reserve": labels.reserve_text(r),
                "used": words.BLANK,
                "by": words.BLANK,
                "revision": words.BLANK,
            }
            for r in packet.sized.build.reserves.values()
        ],
        "no_reserves": "This build has no reserves.",
    }


def planned(packet: Packet) -> Iterator[tuple[str, str, str]]:
    """(when, work, what should be read): what has a date first, then what comes every year."""
    build = packet.sized.build
    yield (
        f"after {build.practice.retorque_km:g} km",
        "Re-torque every joint and fastening; look for chafe and heat marks",
        "values of Terminations and torque",
    )
    yield from (
        (f"until {w.until}", f"Waiver {w.rule} of {w.of}: decide again", w.reason) for w in build.waivers
    )
    yield from (("yearly", work, expected) for work, expected in yearly(packet))


def yearly(packet: Packet) -> Iterator[tuple[str, str]]:
    build = packet.sized.build
    for name in build.batteries:
        yield (
            f"{words.capital(words.node(build, name))}: clean, tight, load-tested",
            "as its maker states",
        )
    yield "Re-torque; grounds clean and sealed", "values of Terminations and torque"
    yield (
        "Key-off current of the whole vehicle",
        f"at most {show.amps(build.practice.key_off_a)}; compare with the commissioning record",
    )
    yield "Every fuse still the rating of the fuse map; spares in the bag", "fuse map"
    if build.isolation:
        yield "Start and house side apart, engine stopped", "rows of the commissioning record"
    if build.reserves:
        yield "Reserves: capped, labelled, dead", "reserves register"
    if any(item.part.anchor is not None or item.fastening is not None for item in build.accessories.values()):
        yield (
            "Load rings, racks, mounts: no crack, no dish in the sheet, bolts tight",
            "inspection list",
        )


def due_line(when: str, work: str, expected: str) -> dict[str, str]:
    return {"when": when, "work": work, "expected": expected, **blanks()}


def visit_line() -> dict[str, str]:
    return {"work": words.BLANK, **blanks()}


def blanks() -> dict[str, str]:
    return dict.fromkeys(("date", "odometer", "readings", "spares", "revision", "by"), words.BLANK)
