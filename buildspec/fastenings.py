"""How an item is held: what one bolt of it may carry, which part is the weakest, and how it is tightened."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.calc import fasteners as calc
from buildspec.model import Accessory, Fastening


class Strength(NamedTuple):
    """What one part of a fastening may carry at one point."""

    what: str
    may_n: float


class Tightening(NamedTuple):
    """A torque, where it comes from and how far that is to be trusted."""

    nm: float
    source: str
    verified: str


def strengths(one: Fastening) -> tuple[Strength, ...]:
    """Of one bolt, weakest first; parts that nobody knows are left to `unknown`."""
    return tuple(sorted((*of_bolt(one), *of_base(one)), key=lambda s: s.may_n))


def of_bolt(one: Fastening) -> Iterator[Strength]:
    proof = calc.proof_load_n(thread=one.bolt, grade=one.grade)
    if proof is None:
        return
    name = f"{one.bolt} bolt of class {one.grade}"
    share = f"{show.percent(calc.WORKING_SHARE)} of its proof load {proof:.0f} N"
    if one.pull != "along":
        yield Strength(f"{name}, {share}", proof * calc.WORKING_SHARE)
    if one.pull != "out":
        yield Strength(
            f"{name}, along the joint {show.percent(calc.ALONG_SHARE)} of {share}",
            proof * calc.WORKING_SHARE * calc.ALONG_SHARE,
        )


def of_base(one: Fastening) -> Iterator[Strength]:
    """What the bolt is held by."""
    if one.holds_n is not None:
        yield Strength("the base, as its maker or a test says", one.holds_n)
        return
    if one.into == "rivet nut" and one.body and one.metal == "steel" and one.pull != "along":
        out = calc.rivet_nut_push_out_n(thread=one.bolt, body=one.body)
        if out is not None:
            yield Strength(
                f"{one.body} rivet nut {one.bolt}, {show.percent(calc.WORKING_SHARE)} of {out:.0f} N push-out",
                out * calc.WORKING_SHARE,
            )
    if one.sheet_m is None or one.into in ("weld nut", "tapped"):
        return
    if one.into != "rivet nut" and one.pull != "along":
        bearing = one.bearing_m or calc.HEAD_TIMES * calc.diameter_m(one.bolt)
        through = calc.pull_through_n(bearing_m=bearing, sheet_m=one.sheet_m, metal=one.metal)
        yield Strength(
            f"{one.metal} sheet, {show.percent(calc.WORKING_SHARE)} of {through:.0f} N pull-through",
            through * calc.WORKING_SHARE,
        )
    if one.pull != "out":
        hole = calc.hole_bearing_n(thread=one.bolt, sheet_m=one.sheet_m, metal=one.metal)
        yield Strength(
            f"edge of the hole, {show.percent(calc.WORKING_SHARE)} of {hole:.0f} N", hole * calc.WORKING_SHARE
        )


def unknown(one: Fastening) -> tuple[str, ...]:
    """What has to be stated before the base can be checked."""
    if one.holds_n is not None:
        return ()
    found = []
    if one.into in ("sheet", "rivet nut", "through bolt with plate") and one.sheet_m is None:
        found.append("the thickness of the sheet (`sheet`)")
    if one.into == "through bolt with plate" and one.bearing_m is None:
        found.append("the side of the plate (`bearing`)")
    if one.into == "rivet nut" and not one.body:
        found.append("the body of the rivet nut (`body`)")
    if one.into == "rivet nut" and (one.metal != "steel" or of_no_table(one)):
        found.append("what this rivet nut holds in its sheet (`holds`)")
    if one.into == "weld nut":
        found.append("what the weld nut holds (`holds`)")
    if one.into == "tapped" and one.engagement_m is None:
        found.append("the thread engagement (`engagement`)")
    return tuple(found)


def of_no_table(one: Fastening) -> bool:
    return bool(one.body) and calc.rivet_nut_push_out_n(thread=one.bolt, body=one.body) is None


def bolts_per_point(item: Accessory, one: Fastening) -> int:
    """Bolts that share the load of one anchor point; at least one."""
    points = item.part.anchor.points if item.part.anchor is not None else one.quantity
    return max(1, one.quantity // points)


def tightening(one: Fastening) -> Tightening | None:
    """As written, else by a rivet-nut maker, else from class and size; the lower of the last two."""
    if one.torque_nm is not None:
        return Tightening(one.torque_nm, "as written in the spec", "yes")
    by_class = calc.tightening_torque_nm(thread=one.bolt, grade=one.grade, lubrication=one.lubrication)
    if by_class is None:
        return None
    nut = calc.rivet_nut_torque_nm(one.bolt) if one.into == "rivet nut" else None
    if nut is not None and nut < by_class:
        return Tightening(nut, "a rivet-nut maker's sheet", "yes")
    recalled = one.lubrication != "dry" or one.grade.startswith("A")
    factor = calc.K_FACTOR[one.lubrication]
    return Tightening(
        by_class,
        f"{factor:g} × {one.bolt} × {show.percent(calc.PRELOAD_SHARE)} of the proof load of class {one.grade}",
        "memory" if recalled else "computed",
    )


def spin_out_nm(one: Fastening) -> float | None:
    """Torque at which its rivet nut turns: by its maker, else as tested in thin steel sheet; None if no rivet nut."""
    if one.into != "rivet nut":
        return None
    if one.spin_out_nm is not None:
        return one.spin_out_nm
    return calc.spin_out_nm(thread=one.bolt, body=one.body or "round")
