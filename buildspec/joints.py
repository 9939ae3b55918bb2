"""Studs where several lugs meet: grounds and battery posts, with the wires that end there."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.calc.terminations import MOST_LUGS
from buildspec.findings import Path
from buildspec.model import Circuit, Resolved, Wire


class Lug(NamedTuple):
    circuit: Circuit
    wire: Wire


class Joint(NamedTuple):
    """A ground, or one post of a battery."""

    item: str
    """Designation."""
    pin: str
    words: str
    place: str
    stud: str
    """Thread, `post`, or `` where nobody states it."""
    studs: int
    torque_nm: float | None
    battery: str
    """Name of the battery whose post it is, or ``."""
    existing: bool
    """The vehicle's own post: its own cables are there too."""
    lugs: tuple[Lug, ...]
    at: Path

    @property
    def room(self) -> int:
        """Lugs that its studs take."""
        return MOST_LUGS * self.studs


def joints(build: Resolved) -> tuple[Joint, ...]:
    """Every joint with at least one lug of this job: batteries first, then grounds, in the order of the spec."""
    ends: dict[tuple[str, str], list[Lug]] = {}
    for circuit in (c for c in build.circuits if not c.existing):
        for wire in (*circuit.feeds, *circuit.returns):
            for end in (wire.start, wire.end):
                ends.setdefault((end.item, end.pin), []).append(Lug(circuit, wire))
    posts = [
        Joint(
            b.designation, pin, f"{name} battery, {word} post", b.place, b.stud, b.studs, b.torque_nm, name,
            b.existing, tuple(ends.get((b.designation, pin), ())), b.at,
        )
        for name, b in build.batteries.items()
        for pin, word in (("+", "positive"), ("−", "negative"))
    ]  # fmt: skip
    grounds = [
        Joint(
            g.letter_name, "stud", g.words, g.place, g.stud, g.studs, g.torque_nm, "", False,
            tuple(ends.get((g.letter_name, "stud"), ())), g.at,
        )
        for g in build.grounds.values()
        if not g.post_of
    ]  # fmt: skip
    return tuple(j for j in (*posts, *grounds) if j.lugs)
