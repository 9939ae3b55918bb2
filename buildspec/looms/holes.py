"""What passes each hole, and whether its grommet or gland leaves enough room."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.looms import runs
from buildspec.looms.runs import Lying
from buildspec.model import Accessory, Hole, Resolved, Run, Sized

WALL_M = {"grommet": 0.003, "gland": 0.003, "edge trim": 0.002}
"""Rubber on each side of a hole where `bore` is not written: common practice, no source."""


class Passage(NamedTuple):
    """One hole with what passes it."""

    hole: Hole
    runs: tuple[Run, ...]
    lying: tuple[Lying, ...]
    diameter_m: float
    """Of the bundle that passes; 0 where nothing does."""
    bore_m: float | None
    """What is left inside the grommet or gland; None where no size is written."""
    needed_m: float
    """Least hole in the panel for this bundle with this protection."""
    items: tuple[Accessory, ...] = ()
    """Items whose own leads go through it."""

    @property
    def made(self) -> bool:
        """Is it drilled and fitted for this build? One that is there is not, nor one that nothing goes through."""
        there = self.hole.reused or self.hole.removed_item
        return not there and (not self.for_wires or bool(self.lying or self.items))

    @property
    def for_wires(self) -> bool:
        """An edge trim may go round a cut for an item; a grommet or gland is for what goes through it."""
        return self.hole.protection in ("grommet", "gland")


def named(build: Resolved, run: Run) -> tuple[Hole, ...]:
    """Holes that a run may mean: those it names; else those at its ends, of the protection it goes through first."""
    if run.passes:
        return tuple(hole for hole in build.holes if hole.name in run.passes)
    if not run.through:
        return ()
    near = [hole for hole in build.holes if hole.place in (run.a, run.b)]
    return tuple(hole for hole in near if hole.protection == run.through) or tuple(near)


def passed(build: Resolved, run: Run) -> tuple[Hole, ...]:
    """Holes that a run passes: those it names, or the only one that it can mean."""
    found = named(build, run)
    return found if run.passes or len(found) == 1 else ()


def passages(sized: Sized) -> tuple[Passage, ...]:
    """Every hole, in the order of the spec, with every wire that passes it on a run or into an item, once each."""
    looms, laid = runs.looms(sized), tuple(runs.all_lying(sized))
    return tuple(passage(sized.build, hole, looms, laid) for hole in sized.build.holes)


def passage(build: Resolved, hole: Hole, looms: tuple[runs.Loom, ...], laid: tuple[Lying, ...]) -> Passage:
    through = [loom for loom in looms if hole in passed(build, loom.run)]
    own = tuple(item for item in build.accessories.values() if hole.name in item.passes)
    marks = {item.designation for item in own}
    leads = (one for one in laid if marks & {one.wire.start.item, one.wire.end.item})
    lying = {one.wire.key: one for one in (*(one for loom in through for one in loom.lying), *leads)}
    wall_m = wall(hole)
    bore_m = hole.bore_m
    if bore_m is None and hole.size_m is not None:
        bore_m = max(0.0, hole.size_m - 2 * wall_m)
    diameter_m = runs.diameter_m(tuple(lying.values()))
    needed_m = diameter_m + 2 * wall_m if lying else 0.0
    through_runs = tuple(loom.run for loom in through)
    return Passage(hole, through_runs, tuple(lying.values()), diameter_m, bore_m, needed_m, own)


def wall(hole: Hole) -> float:
    """What the protection takes on each side [m]: from the written bore, or the usual figure."""
    if hole.bore_m is not None and hole.size_m is not None:
        return max(0.0, (hole.size_m - hole.bore_m) / 2)
    return WALL_M.get(hole.protection, 0.0)
