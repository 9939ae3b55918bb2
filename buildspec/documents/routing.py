"""Where the looms run: what lies in each, what it passes, and every hole."""

from __future__ import annotations

from typing import Any

from buildspec import show
from buildspec.documents import _circuits as circuits
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.model import Hole, Run
from buildspec.packet import Packet
from buildspec.size import loom

TITLE = "Routing and holes"
ORDER = 90


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    return {
        "intro": (
            "Keep every loom clear of exhaust, moving parts, brake and fuel pipes, and sharp edges, by "
            "the distances that the vehicle's maker gives. Tie it where it cannot chafe, and never to a "
            "pipe or to the airbag loom."
        ),
        "apart": apart(packet),
        "runs": [run_line(packet, run) for run in build.runs],
        "no_runs": "No run.",
        "holes_intro": (
            "Look behind the panel before drilling. Deburr, treat the bare metal, seal. A hole without "
            "its grommet or gland is not finished."
        ),
        "holes": [hole_line(packet, hole) for hole in build.holes],
        "no_holes": "No hole is made.",
    }


def apart(packet: Packet) -> str:
    if packet.sized.build.practice.battery_cables_apart:
        return (
            "Battery cables and feeders are tied beside the loom, not in it, with a gap of at least one "
            "cable width: the sizes in this packet count on it."
        )
    return "Battery cables and feeders may lie in the loom: they are counted in its bundle."


def run_line(packet: Packet, run: Run) -> dict[str, str]:
    build = packet.sized.build
    here = [(c, w) for c, w in wires.cut(build) if any(r.at == run.at for r in w.route.runs)]
    amps = {key: sizing.design_a for key, sizing in packet.sized.sizings.items()}
    ends = {build.places[run.a].environment, build.places[run.b].environment}
    around = "engine" if "engine" in ends else build.places[run.b].environment
    return {
        "run": f"{words.capital(words.place(build, run.a))} – {words.place(build, run.b)}",
        "length": show.length(run.length_m, build.practice),
        "through": run.through or words.NOT_APPLICABLE,
        "sheathed": "yes" if run.sheathed else "no",
        "environment": circuits.ENVIRONMENTS[around],
        "wires": str(len(here)),
        "loaded": str(loom.loaded(build, amps)[run.name]),
        "circuits": ", ".join(dict.fromkeys(c.number for c, _ in here)) or words.NOT_APPLICABLE,
        "done": words.TICK,
    }


def hole_line(packet: Packet, hole: Hole) -> dict[str, str]:
    build = packet.sized.build
    return {
        "id": hole.name,
        "place": words.place(build, hole.place),
        "what": hole.what,
        "size": show.small_length(hole.size_m, build.practice) if hole.size_m else "to suit",
        "protection": hole.protection,
        "seal": hole.seal or "not stated",
        "clear": words.BLANK,
        "closed": words.BLANK,
        "done": words.TICK,
    }
