"""What was accepted and why: waivers with their expiry, warnings that stand, room for changes on the floor."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _findings as findings
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Changes and waivers"
ORDER = 120
LINES_FOR_CHANGES = 6


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    return {
        "waivers_intro": (
            "A waiver accepts one finding for a reason, in somebody's name, until a date. After that date "
            "the build is refused until somebody decides again."
        ),
        "waivers": [
            {"rule": w.rule, "of": w.of, "reason": w.reason, "by": w.by, "until": w.until}
            for w in build.waivers
        ],
        "no_waivers": "No waiver is in force.",
        "waived": [findings.line(d) for d in findings.waived(packet)],
        "warnings_intro": "These were shown when the packet was made, and it was made all the same.",
        "warnings": [findings.line(d) for d in findings.warnings(packet)],
        "no_warnings": "No warning stands.",
        "notes": [findings.line(d) for d in findings.notes(packet)],
        "no_notes": "No note.",
        "changes_intro": (
            f"The packet says {build.job.state}. What is built otherwise is written here, then into the "
            "spec, and the packet is printed again with a new revision."
        ),
        "differs": difference(build.job.state),
        "changes": [change_line(number) for number in range(1, LINES_FOR_CHANGES + 1)],
    }


def difference(state: str) -> str:
    """What this table is for, by the state of the packet."""
    if state == "as built":
        return (
            "As built: everything that was done otherwise than designed is in the spec by now. What is found later is "
            "written here."
        )
    return (
        "As designed: the difference to what is built is this table. Nothing written in it at the end, initialled: "
        "built as designed."
    )


def change_line(number: int) -> dict[str, str]:
    blanks = dict.fromkeys(("designed", "built", "why", "who", "revision"), words.BLANK)
    return {"number": str(number), **blanks}
