"""What is drawn, from what, for how long, and what remains: the five parts, every load, every operating state."""

from __future__ import annotations

from typing import Any

from buildspec.documents import _five_parts as five
from buildspec.documents import _load_rows as loads
from buildspec.documents import _states as states
from buildspec.packet import Packet

TITLE = "Load analysis"
ORDER = 10
WIDE = True
OWN_PAGE = True

INTRO = (
    "Worst: the largest working current at any allowed voltage; sizes are taken from it. Typical: the usual "
    "current at about 12.5 V, for energy. Start: current at switch-on. Every reserve counts at what it allows. "
    "Currents at chargers are their largest input."
)
OWN_INTRO = (
    "States that this job names, solved with each load at its usual draw: constant power takes more as its "
    "voltage falls. Currents are those taken at a battery's posts, the alternator's part included. The mean takes "
    "each load's duty."
)
ENERGY_INTRO = (
    "Batteries new, full at the start, as warm as for their label. Each result stands with its terms; a mean "
    "current is (running × duty × hours + standby × other hours) / 24 h."
)
TEST_INTRO = (
    "An output test at idle, hot, with everything on that may be on, fills the blank column; the smaller "
    "figure counts."
)


def view(packet: Packet) -> dict[str, Any]:
    sized, build = packet.sized, packet.sized.build
    return {
        "intro": INTRO,
        "test_intro": TEST_INTRO,
        "five": five.parts(sized),
        "budgets": five.remaining(build),
        "no_alternator": "The alternator is not described.",
        "loads": loads.rows(sized),
        "totals": loads.totals(sized),
        "feeders": loads.feeders(sized),
        "coverage": states.coverage(build),
        "method": states.METHOD,
        "modes": states.table(sized),
        "own_intro": OWN_INTRO,
        "own": states.own(sized),
        "energy_intro": ENERGY_INTRO,
        "parked": states.parked(sized),
        "standing": states.standing(build),
        "nothing": "Nothing in this build.",
    }
