"""Where the looms run: what lies in each, how it is sleeved, held and bent, what it passes and comes near."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.documents import _circuits as circuits
from buildspec.documents import _routing as routing
from buildspec.documents import _words as words
from buildspec.looms import holes, runs
from buildspec.model import Neighbour, Work
from buildspec.packet import Packet
from buildspec.size import loom as bundles

TITLE = "Routing and holes"
ORDER = 90
WIDE = True
FUEL_WANTED_M = 6 * show.M_PER_IN
"""Under this, a loom beside a fuel part is clamped closely: AC 43.13-1B 11-96(w)."""


def view(packet: Packet) -> dict[str, Any]:
    practice = packet.sized.build.practice
    laid, passages = runs.looms(packet.sized), holes.passages(packet.sized)
    return {
        "intro": (
            "Keep every loom clear of exhaust, moving parts, brake and fuel pipes, and sharp edges, by "
            "the distances below, or by the vehicle maker's where they are larger. Tie it where it cannot chafe, "
            "and never to a pipe or to the airbag loom."
        ),
        "apart": apart(packet),
        "runs": [run_line(packet, one) for one in laid],
        "sizes_intro": (
            f"Supports: {practice.sources['support_spacing']}. Bends: ten diameters of the largest wire, "
            f"TM 1-1500-204-23-4. Room: {show.percent(practice.loom_spare)} of the section "
            f"({practice.sources['loom_spare']}). Sizes of loom tube are recalled: measure the tube."
        ),
        "sizes": [routing.size_line(packet, one) for one in laid if one.lying],
        "wires": [routing.wire_line(packet, one) for one in laid if one.lying],
        "no_runs": "No run.",
        "near_intro": (
            f"Least distances: {practice.sources['clearance']}. Measure with the suspension, the steering and "
            "the pedals at their ends."
        ),
        "near": [line for one in laid if one.lying for line in near_lines(packet, one)],
        "no_near": "Every run lies in the cabin, and none states anything near.",
        "holes_intro": (
            "Look behind the panel before drilling: tank, pipes, looms, airbags. Deburr, treat the bare metal, seal. "
            "A hole without its grommet or gland is not finished."
        ),
        "holes": [routing.hole_line(packet, one) for one in passages],
        "edges": [routing.edge_line(packet, one.hole) for one in passages],
        "no_holes": "No hole is made.",
        "moved": [moved_line(step) for step in moved(packet)],
        "no_moved": "No loom of the vehicle is moved.",
        "sums": list(sums(packet, laid, passages)),
    }


def apart(packet: Packet) -> str:
    if packet.sized.build.practice.battery_cables_apart:
        return (
            "Battery cables and feeders are tied beside the loom, not in it, with a gap of at least one "
            "cable width: the sizes in this packet count on it."
        )
    return "Battery cables and feeders may lie in the loom: they are counted in its bundle."


def run_line(packet: Packet, one: runs.Loom) -> dict[str, str]:
    build, run = packet.sized.build, one.run
    amps = {key: sizing.design_a for key, sizing in packet.sized.sizings.items()}
    ends = {build.places[run.a].environment, build.places[run.b].environment}
    around = "engine" if "engine" in ends else build.places[run.b].environment
    passes = ", ".join(hole.name for hole in holes.passed(build, run))
    return {
        "run": routing.run_words(packet, run),
        "length": show.length(run.length_m, build.practice),
        "through": ": ".join(text for text in (run.through, passes) if text) or words.NOT_APPLICABLE,
        "environment": circuits.ENVIRONMENTS[around],
        "wires": str(len(one.lying)),
        "loaded": str(bundles.loaded(build, amps)[run.name]),
        "circuits": ", ".join(dict.fromkeys(w.circuit.number for w in one.lying)) or words.NOT_APPLICABLE,
        "done": words.TICK,
    }


def near_lines(packet: Packet, one: runs.Loom) -> Iterator[dict[str, str]]:
    """What a run comes near; a line to measure for one that leaves the cabin and states nothing."""
    build = packet.sized.build
    for thing in one.run.near:
        yield near_line(packet, one, thing)
    ends = {build.places[end].environment for end in (one.run.a, one.run.b)}
    if not one.run.near and ends != {"cabin"}:
        least = (f"{k} {show.small_length(v, build.practice)}" for k, v in build.practice.clearance_m.items())
        yield {
            "run": routing.run_words(packet, one.run),
            "what": "not stated",
            "surveyed": "measure",
            "least": ", ".join(least),
            "how": words.NOT_APPLICABLE,
            "measured": words.BLANK,
            "done": words.TICK,
        }


def near_line(packet: Packet, one: runs.Loom, thing: Neighbour) -> dict[str, str]:
    practice = packet.sized.build.practice
    least_m = practice.clearance_m[{"heat": "exhaust"}.get(thing.what, thing.what)]
    closely = thing.what == "fuel" and thing.distance_m < FUEL_WANTED_M
    how = (
        "shield or guard between" if thing.shield else "",
        "clamp closely here, AC 43.13-1B 11-96(w)" if closely else "",
        "metal clips" if thing.what in ("exhaust", "heat") else "",
    )
    return {
        "run": routing.run_words(packet, one.run),
        "what": thing.words or routing.NEAR[thing.what],
        "surveyed": show.small_length(thing.distance_m, practice),
        "least": show.small_length(least_m, practice),
        "how": "; ".join(text for text in how if text) or words.NOT_APPLICABLE,
        "measured": words.BLANK,
        "done": words.TICK,
    }


def moved(packet: Packet) -> Iterator[Work]:
    """Steps that move the vehicle's own loom."""
    build = packet.sized.build
    yield from (step for step in build.works if step.loom)
    for item in build.accessories.values():
        yield from (step for step in item.works if step.loom)


def moved_line(step: Work) -> dict[str, str]:
    return {
        "what": step.what,
        "where": step.where or words.NOT_APPLICABLE,
        "secured": step.secured,
        "done": words.TICK,
    }


def sums(
    packet: Packet, laid: tuple[runs.Loom, ...], passages: tuple[holes.Passage, ...]
) -> Iterator[dict[str, str]]:
    """Every diameter of a bundle with the sum behind it."""
    practice = packet.sized.build.practice
    for one in laid:
        if one.inner:
            yield {"of": routing.run_words(packet, one.run), "sum": runs.sum_text(practice, one.inner)}
    for passage in passages:
        if passage.lying:
            yield {"of": f"hole {passage.hole.name}", "sum": runs.sum_text(practice, passage.lying)}
