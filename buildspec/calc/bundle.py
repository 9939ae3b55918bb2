"""Wires together: the circle round a loom, what a conduit may hold, bends, sleeves and shrink tube.

Diameters here are in mm, as wire and tube are sold.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from buildspec.tabledata import rows

ROUND_BUNDLE = 1.2
"""Diameter of a random round bundle over √Σd²; too small for two to six wires."""
BEND_TIMES = 10.0
"""Least inside radius of a bend over the outside diameter of the largest wire."""
SHRINK_OVER = 1.2
"""Supplied diameter of a shrink tube over the largest thing that it must slip over."""
STRAND_FACTOR = 1.15
"""Stranded conductor over a solid one of the same copper: 1.13 to 1.15 in NEC chapter 9 table 8."""
CABLE_WALL_MM = 1.65
"""Insulation of a battery cable, recalled."""

Kind = Literal["dual-wall shrink", "split loom, inch", "corrugated conduit, metric"]

_EQUAL = {1: 1.0, 2: 2.0, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2), 5: 1 + 1 / math.sin(math.pi / 5),
          6: 3.0, 7: 3.0, 19: 1 + math.sqrt(2) + math.sqrt(6)}  # fmt: skip


class Bundle(NamedTuple):
    """Diameter of a bundle and the relation that gave it, for printing."""

    diameter_mm: float
    by: str


class Sleeve(NamedTuple):
    """A size of tube. `recovered_mm` only for shrink tube, `outside_mm` only where it is known."""

    kind: str
    name: str
    inside_mm: float
    outside_mm: float | None
    recovered_mm: float | None
    source: str
    verified: str


def equal_ratio(count: int) -> float | None:
    """Smallest circle round equal wires, over the diameter of one.

    Parameters
    ----------
    count : int
        Number of wires. [-]

    Returns
    -------
    float or None
        Exact for 1 to 7 and for 19 wires, None for others. [-]

    Examples
    --------
    >>> equal_ratio(2), round(equal_ratio(5), 4)
    (2.0, 2.7013)

    References
    ----------
    circle-packing
    """
    return _EQUAL.get(count)


def three_mm(first_mm: float, second_mm: float, third_mm: float) -> float:
    """Smallest circle round three wires, by Descartes' theorem of four touching circles.

    Parameters
    ----------
    first_mm : float
        Outside diameter. [mm]
    second_mm : float
        Outside diameter. [mm]
    third_mm : float
        Outside diameter; the smallest may lie in the gap beside the other two. [mm]

    Returns
    -------
    float
        Diameter. [mm]

    Examples
    --------
    >>> round(three_mm(1, 1, 1), 4), three_mm(3, 3, 1)
    (2.1547, 6.0)

    References
    ----------
    circle-packing
    """
    a, b, c = (2 / d for d in sorted((first_mm, second_mm, third_mm), reverse=True))
    two_mm = 2 / a + 2 / b
    in_the_gap = a + b - 2 / two_mm
    if c >= in_the_gap:
        return two_mm
    return 2 / (2 * math.sqrt(a * b + b * c + c * a) - (a + b + c))


def bundle(diameters_mm: Sequence[float]) -> Bundle:
    """Circle round a bundle of wires of any sizes.

    One to three wires: exact. More: 1.2 √Σd², never less than the exact circle of the three largest, nor than
    that of any k of them taken as small as the k-th, and for up to seven never more than that of as many
    of the largest. Against searched packings of up to eight wires it is at most 3 % short.

    Parameters
    ----------
    diameters_mm : sequence of float
        Outside diameter of each wire; may be empty. [mm]

    Returns
    -------
    Bundle
        Diameter and the relation that gave it. [mm]

    Examples
    --------
    >>> bundle([3.0, 3.0]).diameter_mm, round(bundle([2.0] * 12).diameter_mm, 2)
    (6.0, 8.31)

    References
    ----------
    circle-packing
    bundle-calculators
    """
    d = sorted(diameters_mm, reverse=True)
    if len(d) <= 3:
        exact = (0.0, d[0] if d else 0.0, sum(d), three_mm(d[0], d[1], d[2]) if len(d) == 3 else 0.0)[len(d)]
        return Bundle(exact, "exact circle")
    random = Bundle(ROUND_BUNDLE * math.sqrt(sum(x * x for x in d)), "1.2 × √Σd²")
    least = [Bundle(three_mm(d[0], d[1], d[2]), "exact circle of the three largest")]
    least += [
        Bundle(r * d[k - 1], f"exact circle of the {k} largest") for k, r in _EQUAL.items() if 3 < k <= len(d)
    ]
    found = max(random, *least)
    most = _EQUAL[len(d)] * d[0] if len(d) <= 7 else math.inf
    return Bundle(most, f"exact circle of {len(d)} equal wires") if found.diameter_mm >= most else found


def fill_share(count: int) -> float:
    """Share of a conduit's inside that conductors may take.

    Parameters
    ----------
    count : int
        Number of conductors, one or more. [-]

    Returns
    -------
    float
        0.53 for one, 0.31 for two, 0.40 for more. [-]

    Examples
    --------
    >>> fill_share(1), fill_share(2), fill_share(9)
    (0.53, 0.31, 0.4)

    References
    ----------
    nec-ch9-table1
    """
    return {1: 0.53, 2: 0.31}.get(count, 0.40)


def conduit_inside_mm(diameters_mm: Sequence[float]) -> float:
    """Least inside diameter of a conduit for some conductors: √(Σd² / share).

    Parameters
    ----------
    diameters_mm : sequence of float
        Outside diameter of each; may be empty. [mm]

    Returns
    -------
    float
        Inside diameter. [mm]

    Examples
    --------
    >>> round(conduit_inside_mm([10.0]), 3), round(conduit_inside_mm([10.0] * 3), 2)
    (13.736, 27.39)

    References
    ----------
    nec-ch9-table1
    """
    return math.sqrt(sum(d * d for d in diameters_mm) / fill_share(len(diameters_mm)))


def bend_radius_mm(largest_mm: float) -> float:
    """Least inside radius of a bend in a cable, or in a loom by its largest wire.

    Parameters
    ----------
    largest_mm : float
        Outside diameter of the largest wire. [mm]

    Returns
    -------
    float
        Radius, ten diameters. [mm]

    Examples
    --------
    >>> bend_radius_mm(4.1)
    41.0

    References
    ----------
    tm-1-1500-bends
    """
    return BEND_TIMES * largest_mm


def cable_diameter_mm(area_mm2: float) -> float:
    """Outside diameter of a stranded battery cable whose sheet is not at hand.

    Stranded copper is 1.15 times as thick as a solid conductor; the wall is recalled, so the result is a default.

    Parameters
    ----------
    area_mm2 : float
        Conductor cross-section. [mm2]

    Returns
    -------
    float
        Outside diameter. [mm]

    Examples
    --------
    >>> round(cable_diameter_mm(35.0), 1)
    11.0

    References
    ----------
    nec-ch9-table8
    recalled
    """
    return STRAND_FACTOR * math.sqrt(4 * area_mm2 / math.pi) + 2 * CABLE_WALL_MM


@functools.cache
def sleeves(kind: Kind) -> tuple[Sleeve, ...]:
    """Sizes of one kind of tube, smallest first.

    Parameters
    ----------
    kind : str
        `dual-wall shrink`, `split loom, inch` or `corrugated conduit, metric`. [-]

    Returns
    -------
    tuple of Sleeve
        Sizes. [mm]

    Examples
    --------
    >>> sleeves("dual-wall shrink")[0].name
    '1/8 in'

    References
    ----------
    shrink-material-spec
    recalled
    """
    found = [_sleeve(row) for row in rows("sleeves") if row["kind"] == kind]
    return tuple(sorted(found, key=lambda s: s.inside_mm))


def _sleeve(row: dict[str, str]) -> Sleeve:
    outside, recovered = (float(row[c]) if row[c] else None for c in ("outside_mm", "recovered_mm"))
    return Sleeve(
        row["kind"], row["name"], float(row["inside_mm"]), outside, recovered, row["source"], row["verified"]
    )


def sleeve_for(kind: Kind, *, inside_mm: float) -> Sleeve | None:
    """Smallest loom tube with at least some inside diameter.

    Parameters
    ----------
    kind : str
        `split loom, inch` or `corrugated conduit, metric`. [-]
    inside_mm : float
        Inside diameter that is needed. [mm]

    Returns
    -------
    Sleeve or None
        None where the largest is too small. [mm]

    Examples
    --------
    >>> sleeve_for("corrugated conduit, metric", inside_mm=12.5).name
    'NW 13'

    References
    ----------
    recalled
    """
    return next((s for s in sleeves(kind) if s.inside_mm >= inside_mm), None)


def shrink_for(*, over_mm: float, grip_mm: float) -> Sleeve | None:
    """Smallest dual-wall shrink tube that slips over one diameter and grips another.

    Parameters
    ----------
    over_mm : float
        Largest thing that it must slip over; the tube is 20 % wider. [mm]
    grip_mm : float
        Smallest diameter that it must close on. [mm]

    Returns
    -------
    Sleeve or None
        None where no size does both. [mm]

    Examples
    --------
    >>> shrink_for(over_mm=5.0, grip_mm=2.4).name
    '1/4 in'

    References
    ----------
    shrink-material-spec
    """
    fitting = (s for s in sleeves("dual-wall shrink") if s.inside_mm >= SHRINK_OVER * over_mm)
    return next((s for s in fitting if s.recovered_mm is not None and s.recovered_mm < grip_mm), None)
