"""Places as quiet bands behind the supply sheet."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec.drawings import labels, supply_words
from buildspec.drawings.graph import Thing
from buildspec.drawings.marks import Box, Group, Rect, Text
from buildspec.drawings.measure import SMALL
from buildspec.drawings.palette import BAND, QUIET
from buildspec.drawings.strands import LEADING, Scene
from buildspec.drawings.supply_spread import Spread, box_of


def bands(scene: Scene, at: Spread) -> tuple[Group, ...]:
    """Quiet bands: what stands in one place, one below the other, in one column."""
    made: list[Group] = []
    for rank in (0, 2, 3):
        column = sorted(
            (t for t in at.graph.things if t.rank == rank and t.kind != "pass"),
            key=lambda t: at.heights[t.key],
        )
        start = 0
        for index in range(1, len(column) + 1):
            if index < len(column) and band_name(scene, column[index]) == band_name(scene, column[start]):
                continue
            made += band(scene, at, column[start:index])
            start = index
    return tuple(made)


def band_name(scene: Scene, thing: Thing) -> str:
    build = scene.sized.build
    if thing.kind in ("flag", "more"):
        return "to other sheets"
    if thing.kind == "tie":
        return ""
    if thing.kind == "alternator":
        return supply_words.alternator_place(scene)
    if thing.kind == "contact" and thing.pieces and thing.pieces[0].contact:
        return labels.place(build, thing.pieces[0].contact.place)
    return labels.place(build, labels.node_place(build, thing.name))


def band(scene: Scene, at: Spread, things: Sequence[Thing]) -> tuple[Group, ...]:
    words = band_name(scene, things[0]) if things else ""
    if not words:
        return ()
    boxes = [box_of(at, t) for t in things]
    wide = boxes[0].right - boxes[0].left
    lines = supply_words.place_lines(words, wide)
    above = 0.0 if things[0].head else supply_words.headroom(words, wide) + 4
    box = Box(
        boxes[0].left - 14,
        min(b.top for b in boxes) - above - 4,
        boxes[0].right + 12,
        max(b.bottom for b in boxes) + 4,
    )
    label = [
        Text(box.left + 16, box.top + 32 + n * LEADING, line, SMALL, True, colour=QUIET)
        for n, line in enumerate(lines)
    ]
    name = scene.id(f"place-{words}")
    return (Group(name, words, f"place: {words}", (Rect(box, BAND, radius=16), *label), layer=0),)
