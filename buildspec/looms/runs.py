"""The loom of each run: its wires by kind, its diameter, its conduit, its supports, its tightest bend."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from typing import NamedTuple

from buildspec import show
from buildspec.calc import bundle, conductors
from buildspec.model import Circuit, Conductor, Practice, Resolved, Run, Sized, Wire
from buildspec.size.loom import CABLE_KINDS

TIE_FROM_M = 12 * show.M_PER_IN
"""A bundle is tied between supports that are further apart than this: AC 43.13-1B 11-158(b)."""


class Lying(NamedTuple):
    """One wire where it lies in a run or passes a hole."""

    circuit: Circuit
    wire: Wire
    conductor: Conductor
    diameter_m: float
    """Over the insulation."""
    verified: str
    """`yes` when the diameter was read in a sheet, `memory` when it is recalled or estimated."""
    kind: str
    """`feed`, `return`, `signal`, or `cable`: a battery cable or feeder."""


class Supports(NamedTuple):
    """Clips on one run, and ties between them."""

    spacing_m: float
    """Written, or the practice's own."""
    clips: int
    """One at each end and between; a cable that lies apart has its own."""
    ties: int


class Conduit(NamedTuple):
    """A tube over wires of one run."""

    lying: tuple[Lying, ...]
    needed_m: float
    """Least inside diameter for the wires that are there."""
    inside_m: float | None
    """Written, or of the chosen size; None where no size is large enough."""
    size: str
    """Trade size that was chosen, `` where the inside diameter is written."""
    room: int
    """More wires of the smallest load size that it takes."""


class Loom(NamedTuple):
    """What lies in one run."""

    run: Run
    lying: tuple[Lying, ...]
    inner: tuple[Lying, ...]
    """In the loom itself: all, or all but the cables that are tied beside it."""
    apart: tuple[Lying, ...]
    """Cables beside the loom."""
    supports: Supports
    conduits: tuple[Conduit, ...]
    """One over the loom and one over each cable apart; none on a run that is not sheathed."""
    bend_m: float
    """Least inside radius of a bend, by the largest wire."""


def looms(sized: Sized) -> tuple[Loom, ...]:
    """The loom of every run, in the order of the runs; a run without wires has an empty one."""
    laid = tuple(all_lying(sized))
    return tuple(loom(sized.build, run, laid) for run in sized.build.runs)


def number(build: Resolved, run: Run) -> str:
    """`R3`: what every sheet calls a run, by its place in the spec."""
    return f"R{1 + next(n for n, one in enumerate(build.runs) if one.at == run.at)}"


def loom(build: Resolved, run: Run, laid: tuple[Lying, ...]) -> Loom:
    lying = tuple(one for one in laid if any(r.at == run.at for r in one.wire.route.runs))
    beside = build.practice.battery_cables_apart
    apart = tuple(one for one in lying if beside and one.kind == "cable")
    inner = tuple(one for one in lying if one not in apart)
    return Loom(
        run,
        lying,
        inner,
        apart,
        supports(build.practice, run, inner, apart),
        conduits(build.practice, run, inner, apart),
        bundle.bend_radius_mm(max((mm(one) for one in lying), default=0.0)) / 1000,
    )


def all_lying(sized: Sized) -> Iterable[Lying]:
    """Every wire that is cut, with its diameter."""
    for circuit in sized.build.circuits:
        if not circuit.existing:
            conductor = sized.sizings[circuit.key].conductor
            diameter_m, verified = outside(conductor)
            for wire in (*circuit.feeds, *circuit.returns):
                yield Lying(circuit, wire, conductor, diameter_m, verified, kind(circuit, wire))


def kind(circuit: Circuit, wire: Wire) -> str:
    if circuit.kind in CABLE_KINDS:
        return "cable"
    if circuit.kind in ("signal", "coil") or wire.role in ("signal", "coil"):
        return "signal"
    return "return" if wire.role == "return" else "feed"


def outside(conductor: Conductor) -> tuple[float, str]:
    """Outside diameter [m] and its mark: of the sheet, of the next larger size there, or an estimate."""
    rows = conductors.conductors("awg" if conductor.system == "awg" else "metric")
    known = [r for r in rows if r.outside_diameter_mm and r.area_mm2 >= conductor.area_mm2 * 0.995]
    if not known:
        return bundle.cable_diameter_mm(conductor.area_mm2) / 1000, "memory"
    row = min(known, key=lambda r: r.area_mm2)
    same = row.area_mm2 <= conductor.area_mm2 * 1.005
    return (row.outside_diameter_mm or 0.0) / 1000, row.diameter_verified if same else "memory"


def mm(one: Lying) -> float:
    return one.diameter_m * 1000


def diameter_m(lying: Iterable[Lying]) -> float:
    """Of the bundle of some wires [m]; 0 for none."""
    return bundle.bundle([mm(one) for one in lying]).diameter_mm / 1000


def with_spare_m(practice: Practice, lying: Iterable[Lying]) -> float:
    """Diameter of the bundle [m] with the practice's room for more wires."""
    return diameter_m(lying) * math.sqrt(1 + practice.loom_spare)


def sum_text(practice: Practice, lying: Iterable[Lying]) -> str:
    """The sum behind a diameter: `2 × 9.1 mm, 5 × 2.4 mm: 1.2 × √Σd² = 16.8 mm`."""
    listed = tuple(lying)
    found = bundle.bundle([mm(one) for one in listed])
    counted = sorted(Counter(one.diameter_m for one in listed).items(), reverse=True)
    wires = ", ".join(f"{n} × {show.diameter(d, practice)}" for d, n in counted)
    recalled = len([one for one in listed if one.verified != "yes"])
    mark = f"; {recalled} of these diameters recalled, measure the cable" if recalled else ""
    return f"{wires}: {found.by} = {show.diameter(found.diameter_mm / 1000, practice)}{mark}"


def support_limit(practice: Practice, lying: Iterable[Lying]) -> tuple[str, float]:
    """Key of the practice and largest distance [m] between supports for what lies there."""
    if any(one.kind == "cable" for one in lying):
        return "battery_cable", practice.cable_support_m
    return "loom", practice.support_m


def supports(practice: Practice, run: Run, inner: tuple[Lying, ...], apart: tuple[Lying, ...]) -> Supports:
    clips = ties = 0
    groups = [*([inner] if inner else []), *((one,) for one in apart)]
    spacings = [run.support_m or support_limit(practice, group)[1] for group in groups]
    for group, spacing_m in zip(groups, spacings, strict=True):
        gaps = math.ceil(round(run.length_m / spacing_m, 6))
        clips += gaps + 1
        ties += gaps if len(group) > 1 and run.length_m / gaps > TIE_FROM_M else 0
    return Supports(min(spacings, default=run.support_m or practice.support_m), clips, ties)


def conduits(
    practice: Practice, run: Run, inner: tuple[Lying, ...], apart: tuple[Lying, ...]
) -> tuple[Conduit, ...]:
    """A written inside diameter is that of the tube over the loom, or over the cables where there is no loom."""
    if not run.sheathed and run.conduit_m is None:
        return ()
    groups = [*([inner] if inner else []), *((one,) for one in apart)]
    return tuple(
        conduit(practice, group, run.conduit_m if group == inner or not inner else None) for group in groups
    )


def conduit(practice: Practice, lying: tuple[Lying, ...], written_m: float | None) -> Conduit:
    needed_mm = bundle.conduit_inside_mm([mm(one) for one in lying])
    spare = practice.loom_spare if len(lying) > 1 else 0.0
    kind: bundle.Kind = "corrugated conduit, metric" if practice.units != "imperial" else "split loom, inch"
    chosen = (
        bundle.sleeve_for(kind, inside_mm=needed_mm * math.sqrt(1 + spare)) if written_m is None else None
    )
    inside_m = chosen.inside_mm / 1000 if chosen else written_m
    room = 0 if inside_m is None else more(practice, lying, inside_m)
    return Conduit(lying, needed_mm / 1000, inside_m, chosen.name if chosen else "", room)


def smallest(practice: Practice) -> Conductor:
    """The smallest size in stock for a load."""
    return next((c for c in practice.sizes if c.area_mm2 >= practice.min_area_mm2), practice.sizes[-1])


def more(practice: Practice, lying: tuple[Lying, ...], inside_m: float) -> int:
    """How many more of the smallest load wires a tube takes, all with the share for more than two."""
    each_m, _ = outside(smallest(practice))
    left = bundle.fill_share(3) * inside_m**2 - sum(one.diameter_m**2 for one in lying)
    return max(0, math.floor(left / each_m**2))
