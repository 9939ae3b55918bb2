"""What the checker looks at, line by line from the build: pass, defective, corrected, date."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec.documents import _findings as findings
from buildspec.documents import _inspect as inspect
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Inspection list"
ORDER = 97
LINES_FOR_DEFECTS = 5


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    return {
        "intro": (
            "Done by somebody who did not do the work, before the trim goes back where it hides something. One mark a "
            "line; a line that is defective names what is wrong under it in the record of defects, and is looked at "
            "again."
        ),
        "sections": list(numbered(packet)),
        "defects": [
            dict.fromkeys(("line", "what", "cause", "corrected", "again"), words.BLANK)
            for _ in range(LINES_FOR_DEFECTS)
        ],
        "statements": list(statements(packet)),
        "accepted": [
            {"rule": w.rule, "of": w.of, "by": w.by, "until": w.until, "seen": words.BLANK}
            for w in build.waivers
        ],
        "no_accepted": "No waiver is in force.",
        "declared": (
            f"Job {build.job.number}, revision {build.job.revision}: built and tested as this packet says; deviations "
            "are in Changes and waivers; defects above are corrected; the vehicle's own functions work as before."
        ),
        "signed": [
            {"role": role, "name": words.BLANK, "signature": words.BLANK, "date": words.BLANK}
            for role in ("Fitter", "Checker", "For the customer")
        ],
    }


def numbered(packet: Packet) -> Iterator[dict[str, Any]]:
    """Sections with lines numbered through, so that a defect can be named by its line."""
    number = 0
    for heading, found in inspect.sections(packet):
        lines = []
        for what, should in found:
            number += 1
            lines.append(line(number, what, should))
        if lines:
            yield {"heading": heading, "lines": lines}


def line(number: int, what: str, should: str) -> dict[str, str]:
    return {
        "number": str(number),
        "what": what,
        "should": should,
        "passed": words.TICK,
        "defective": words.TICK,
        "corrected": words.BLANK,
        "date": words.BLANK,
        "by": words.BLANK,
    }


def statements(packet: Packet) -> Iterator[dict[str, str]]:
    """What is declared beside the lines; law is named and left to those who may decide it."""
    build = packet.sized.build
    practice, vehicle = build.practice, build.vehicle
    yield {
        "what": "Profile in force",
        "is": ", ".join(practice.profiles) or f"none; practice of {practice.shop.name}",
    }
    if any(item.part.lamp is not None for item in build.accessories.values()):
        yield {
            "what": "Lighting",
            "is": "checked against the law where the vehicle is used, by: …; lamps for off the road covered or locked",
        }
    yield {"what": "Sold", "is": f"{vehicle.sold or 'not stated'}; duties of an alterer checked by: …"}
    if mass_label(packet):
        yield {"what": "Load label", "is": mass_label(packet)}
    count = len(findings.warnings(packet))
    yield {"what": "Warnings that stand", "is": f"{words.count(count, 'warning')}, in Changes and waivers"}
    yield {
        "what": "Documents handed over",
        "is": "handover sheet ☐  drawings ☐  fuse map ☐  makers' manuals and warranties ☐",
    }


def mass_label(packet: Packet) -> str:
    """`corrected with this job`, what the vehicle's label says, or `` where no rule asks."""
    vehicle = packet.sized.build.vehicle
    if vehicle.gross_kg is None:
        return ""
    return (
        "corrected with this job, mass sheet; seen in its place by: …"
        if vehicle.label
        else "see the mass sheet"
    )
