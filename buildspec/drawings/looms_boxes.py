"""What stands in the box of a place and beside a run on the layout sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.drawings import labels, strands
from buildspec.drawings.marks import Box, Group, Mark, Rect, Text
from buildspec.drawings.measure import SMALL, width, wrap
from buildspec.drawings.palette import BAND, INK, QUIET
from buildspec.drawings.strands import ASCENT, GAP, LEADING, Scene
from buildspec.looms import runs
from buildspec.looms.runs import Loom
from buildspec.model import Place, Resolved

EDGE = 14.0
PORT_STEP = 50.0
"""From run to run on one side of a box: the label of each stands above its line."""


class Leg(NamedTuple):
    """A run with its number on this sheet."""

    number: str
    loom: Loom

    @property
    def circuits(self) -> str:
        """Numbers of the circuits in it, with a space between."""
        return " ".join(dict.fromkeys(one.circuit.number for one in self.loom.lying))


def station(build: Resolved, place: Place) -> str:
    """`1.45 m`, negative ahead of the front axle, or `` where nobody states it."""
    if place.station_m is None:
        return ""
    sign = "−" if place.station_m < 0 else ""
    return sign + show.length(abs(place.station_m), build.practice)


def contents(build: Resolved, place: str) -> Iterator[str]:
    """Designations of what stands at a place."""
    for found in (build.batteries, build.isolation, build.supplies, build.blocks):
        yield from (item.designation for item in found.values() if item.place == place)
    for panel in build.panels.values():
        if panel.module_at == place:
            yield panel.designation
        if panel.keypad_at == place:
            yield f"keys of {panel.designation}"
    yield from (a.designation for a in build.accessories.values() if a.place == place and a.part.electrical)
    yield from (r.designation for r in build.reserves.values() if r.place == place)
    yield from (g.letter_name for g in build.grounds.values() if g.place == place and not g.post_of)


def lines(build: Resolved, name: str, wide: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(name, quiet lines) of a place in a box of some width."""
    room = wide - 2 * EDGE
    found = build.places[name]
    there = ", ".join(dict.fromkeys(text for text in contents(build, name) if text))
    return wrap(found.words, room, bold=True), (*wrap(station(build, found), room), *wrap(there, room))


def height(build: Resolved, name: str, wide: float, ports: int) -> float:
    """For its words, and for the runs that arrive on its busier side."""
    names, quiet = lines(build, name, wide)
    return max(LEADING * (len(names) + len(quiet)) + 2 * EDGE, PORT_STEP * ports + EDGE)


def drawn(scene: Scene, name: str, box: Box) -> Group:
    """A place with its words."""
    build = scene.sized.build
    names, quiet = lines(build, name, box.right - box.left)
    marks: list[Mark] = [Rect(box, BAND, INK, 2, 12)]
    for n, line in enumerate((*names, *quiet)):
        own = n < len(names)
        y = box.top + EDGE + ASCENT + n * LEADING
        marks.append(Text(box.left + EDGE, y, line, SMALL, own, colour=INK if own else QUIET))
    desc = "; ".join((build.places[name].environment, *quiet))
    return Group(scene.id(f"at-{name}"), build.places[name].words, desc, tuple(marks), body=box)


def tag_width(scene: Scene, leg: Leg) -> float:
    return strands.pill_width(leg.number) + GAP + width(length(scene, leg))


def length(scene: Scene, leg: Leg) -> str:
    return show.length(leg.loom.run.length_m, scene.sized.build.practice)


def tag(scene: Scene, leg: Leg, x: float, y: float, half: float) -> Group:
    """Number and length above the line of a run, from x on."""
    bottom = y - half - 4
    middle = bottom - strands.PILL / 2 + ASCENT / 2
    after = Text(x + strands.pill_width(leg.number) + GAP, middle, length(scene, leg))
    pill = strands.pill(x, bottom, leg.number)
    box, text = pill[0], pill[1]
    assert isinstance(text, Text)
    title, marks = f"tag of {leg.number}", (box, text._replace(kind=""), after)
    name, words = scene.id(f"{leg.number}-tag"), run_words(scene, leg)
    return Group(name, title, words, marks, leg.circuits, layer=3)


def run_words(scene: Scene, leg: Leg) -> str:
    build, run = scene.sized.build, leg.loom.run
    return f"{labels.place(build, run.a)} – {labels.place(build, run.b)}"


def half_width(leg: Leg) -> float:
    """Half of the drawn line of a run: thicker with all that lies in it; thin where nothing does."""
    diameter_m = runs.diameter_m(leg.loom.lying)
    return min(22.0, 4.0 + 0.6 * diameter_m * 1000) / 2 if leg.loom.lying else 1.5
