"""Terminations: pull of a crimp, torque of a stud, lugs on one stud, hole of a ring, battery cases."""

from __future__ import annotations

from typing import NamedTuple

from buildspec import tabledata
from buildspec.units import awg_area_mm2, awg_number

MOST_LUGS = 4
"""On one stud; ABYC E-11 as publicly quoted."""


class Pull(NamedTuple):
    """Least pull of a crimp by the row of a gauge."""

    gauge: str
    least_n: float
    source: str


class Torque(NamedTuple):
    """Torque of an electrical joint, as published for one kind of it."""

    item: str
    least_nm: float
    most_nm: float
    source: str
    verified: str


class Case(NamedTuple):
    """Largest outside size of a battery of one group."""

    length_m: float
    width_m: float
    height_m: float


def crimp_pull(area_mm2: float) -> Pull | None:
    """What a crimp must hold for a minute: the row of the largest gauge that is not larger than the wire.

    Parameters
    ----------
    area_mm2 : copper area of the wire [mm2]

    Returns
    -------
    gauge, force, source; None below the table [N]

    References
    ----------
    crimp-specification

    Examples
    --------
    >>> crimp_pull(2.5).gauge, crimp_pull(2.5).least_n
    ('14', 222.5)
    """
    found = None
    for row in tabledata.rows("crimp_pull"):
        number = awg_number(row["gauge"])
        if number is not None and awg_area_mm2(number) <= area_mm2 * 1.001:
            found = Pull(row["gauge"], float(row["least_n"]), row["source"])
    return found


def stud_torques(record: str, thread: str) -> tuple[Torque, ...]:
    """Published torques of one kind of joint and thread; they differ by maker, so the label comes first.

    Parameters
    ----------
    record : `battery_terminal_torque` or `electrical_stud_torque` [name]
    thread : thread of the stud, `` for a tapered post [name]

    Returns
    -------
    rows of the table [N m]

    References
    ----------
    battery-torque-sheets

    Examples
    --------
    >>> [t.least_nm for t in stud_torques("battery_terminal_torque", "M8")]
    [9.6, 6.6, 10.0, 8.0]
    """
    return tuple(
        Torque(row["item"], float(row["least"]), float(row["most"]), row["source"], row["verified"])
        for row in tabledata.rows("torque")
        if row["record"] == record and row["thread"] == thread
    )


def ring_hole_m(*, area_mm2: float, thread: str) -> float | None:
    """Hole of a ring for a stud: round terminals to 15 mm², battery-cable terminals above.

    Parameters
    ----------
    area_mm2 : copper area of the wire [mm2]
    thread : thread of the stud [name]

    Returns
    -------
    diameter; None for a thread that the table lacks [m]

    References
    ----------
    small-craft-ring-terminals

    Examples
    --------
    >>> ring_hole_m(area_mm2=50, thread="M8")
    0.009
    """
    found = None
    for row in tabledata.rows("ring_holes"):
        if row["stud"] == thread and area_mm2 > float(row["over_mm2"]):
            found = float(row["hole_mm"]) / 1000
    return found


def battery_case(group: str) -> Case | None:
    """Size of a battery group's case; `G31` and `31` are the same.

    Parameters
    ----------
    group : case size group [name]

    Returns
    -------
    length, width and height; None for a group that the table lacks [m]

    References
    ----------
    bci-case-chart

    Examples
    --------
    >>> battery_case("G31").length_m
    0.3302
    """
    for row in tabledata.rows("battery_cases"):
        if group.removeprefix("G") == row["group"]:
            return Case(*(float(row[key]) / 1000 for key in ("length_mm", "width_mm", "height_mm")))
    return None
