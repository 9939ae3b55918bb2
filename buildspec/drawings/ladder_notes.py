"""Notes under the rows of a ladder: free positions, and where the grounds are when that does not stand beside each."""

from __future__ import annotations

from collections.abc import Sequence

from buildspec.drawings import load_words
from buildspec.drawings.marks import Group, Text
from buildspec.drawings.measure import SMALL, wrap
from buildspec.drawings.palette import QUIET
from buildspec.drawings.plan import Section
from buildspec.drawings.strands import ASCENT, Scene
from buildspec.model import Circuit, Resolved

NOTE_LINE = 34.0


def height(lines: Sequence[str]) -> float:
    return len(lines) * NOTE_LINE + 12 if lines else 0.0


def positions(build: Resolved, section: Section, room: float) -> tuple[str, ...]:
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
    return wrap("   ".join(texts), room)


def grounds(scene: Scene, circuits: Sequence[Circuit], room: float) -> tuple[str, ...]:
    """`X3 bar of three studs behind the left kick panel · X4 …` for a sheet that shows designations only."""
    found = dict.fromkeys(load_words.ground_words(scene, c) for c in circuits)
    listed = [f"{name} {where}" for name, where in sorted(found) if name]
    return wrap("Grounds:  " + "   ·   ".join(listed), room) if listed else ()


def note(
    scene: Scene, name: str, title: str, lines: Sequence[str], left: float, top: float
) -> tuple[Group, ...]:
    if not lines:
        return ()
    marks = tuple(
        Text(left, top + ASCENT + n * NOTE_LINE, line, SMALL, colour=QUIET) for n, line in enumerate(lines)
    )
    return (Group(scene.id(name), title, " ".join(lines), marks, layer=3),)
