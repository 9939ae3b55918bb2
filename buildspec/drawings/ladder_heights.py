"""Heights of a ladder: the pitch of its rows, and whether sections fit on one sheet."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec.drawings.ladder_source import info_height
from buildspec.drawings.marks import Box, Group, Text
from buildspec.drawings.measure import SMALL, wrap
from buildspec.drawings.palette import QUIET
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import ASCENT, Scene
from buildspec.model import Resolved

LEAST_PITCH = 88.0


MOST_PITCH = 175.0


NOTE_LINE = 34.0


SECTION_GAP = 60.0


HEAD = 60.0
"""Above the rows of a section that has a heading of its own."""


TWO_LINES = 118.0
"""From this pitch on, words below a conductor may take two lines."""


def note_height(lines: Sequence[str]) -> float:
    return len(lines) * NOTE_LINE + 12 if lines else 0.0


def height(scene: Scene, section: Section, pitch: float) -> float:
    """Rows of a section, but never less than the words at their left need."""
    least = info_height(scene, section) if section.kind == "host" else 0.0
    return max(len(section.rows) * pitch, least)


def needed(scene: Scene, sections: Sequence[Section], pitch: float, across: float) -> float:
    """Height of all sections of a sheet at a pitch of the rows."""
    notes = sum(note_height(position_notes(scene.sized.build, s, across)) for s in sections)
    heads = sum(HEAD for s in sections if s.kind == "signals")
    return sum(height(scene, s, pitch) for s in sections) + notes + heads + SECTION_GAP * (len(sections) - 1)


def pitch_for(scene: Scene, sections: Sequence[Section], area: Box) -> float:
    """The widest pitch, down to the least, at which the sheet is not too high."""
    pitch = MOST_PITCH
    while (
        pitch > LEAST_PITCH
        and needed(scene, sections, pitch, area.right - area.left) > area.bottom - area.top
    ):
        pitch -= 1
    return pitch


def fits(scene: Scene, sections: Sequence[Section], area: Box) -> bool:
    """Is there room for these sections on one sheet?"""
    inner = inside(area)
    return needed(scene, sections, LEAST_PITCH, inner.right - inner.left) <= inner.bottom - inner.top


def inside(area: Box) -> Box:
    return Box(area.left + 30, area.top + 16, area.right - 24, area.bottom - 20)


def position_notes(build: Resolved, section: Section, room: float) -> tuple[str, ...]:
    """Free and kept-empty positions of a block, blank keys of a panel, once for each source."""
    if section.kind != "host" or (section.part and not section.part.startswith("1/")):
        return ()
    name = section.host
    texts: list[str] = []
    if name in build.blocks and (trait := build.blocks[name].part.block):
        empty = build.blocks[name].empty
        used = {p.position for c in build.circuits for p in c.protections if p.host == name}
        used |= {
            int(w.start.pin)
            for c in build.circuits
            if c.source == name
            for w in c.feeds[:1]
            if w.start.pin.isdigit()
        }
        free = [str(n) for n in range(1, trait.positions + 1) if n not in used and n not in empty]
        texts += [f"Free positions: {', '.join(free)}."] if free else []
        texts += [f"Keep {n} empty: {why}" for n, why in sorted(empty.items())]
    if name in build.panels:
        blanks = [str(c.number) for c in build.channels if c.panel == name and c.use == "blank"]
        texts += [f"Blank keys, no wire: {', '.join(blanks)}."] if blanks else []
    return wrap("   ".join(texts), room, lines=6) if texts else ()


def note(scene: Scene, section: Section, lines: Sequence[str], left: float, top: float) -> tuple[Group, ...]:
    if not lines:
        return ()
    marks = tuple(
        Text(left, top + ASCENT + n * NOTE_LINE, line, SMALL, colour=QUIET) for n, line in enumerate(lines)
    )
    name = scene.id(f"{section.host}-positions")
    return (Group(name, "free and kept-empty positions", " ".join(lines), marks, layer=3),)
