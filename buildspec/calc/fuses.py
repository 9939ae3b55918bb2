"""Fuse families that a vehicle build uses, with the ratings that exist.

Left out, because a new build has no place for them and no breaking capacity or no standard was found:
low-profile and micro blades (ratings recalled only), glass cartridges, cone-ended ceramic fuses.
"""

from __future__ import annotations

import functools
from typing import NamedTuple

from buildspec.tabledata import rows


class Fuse(NamedTuple):
    """One rating of one family.

    `verified` marks the rating and its colour, `verified_breaking` voltage and breaking capacity
    (`breaking only`: the kA figure was read, the voltage was not). An empty colour means that no
    standard colour exists: read the printed number. `breaking_at_v` is the voltage of the breaking
    capacity, None where the source gives none.
    """

    family: str
    rating_a: float
    colour: str
    max_v: float
    breaking_a: float
    verified: str
    source: str
    verified_breaking: str
    breaking_at_v: float | None
    confidence: str
    note: str


def _fuse(row: dict[str, str]) -> Fuse:
    return Fuse(
        family=row["family"],
        rating_a=float(row["rating_a"]),
        colour=row["colour"],
        max_v=float(row["max_v"]),
        breaking_a=float(row["breaking_a"]),
        verified=row["verified"],
        source=row["source"],
        verified_breaking=row["verified_voltage_breaking"],
        breaking_at_v=float(row["breaking_at_v"]) if row["breaking_at_v"] else None,
        confidence=row["confidence"],
        note=row["note"],
    )


@functools.cache
def _by_family() -> dict[str, tuple[Fuse, ...]]:
    grouped: dict[str, list[Fuse]] = {}
    for row in rows("fuses"):
        grouped.setdefault(row["family"], []).append(_fuse(row))
    return {family: tuple(sorted(found, key=lambda f: f.rating_a)) for family, found in grouped.items()}


def families() -> tuple[str, ...]:
    """Short names of the fuse families, smallest bodies first.

    Returns
    -------
    tuple of str
        Family names. [-]

    Examples
    --------
    >>> families()[:3]
    ('mini-blade', 'blade', 'maxi-blade')

    References
    ----------
    vec-fuse-types
    """
    return tuple(_by_family())


def fuses(family: str) -> tuple[Fuse, ...]:
    """Ratings of a family, ascending; none for an unknown family.

    Parameters
    ----------
    family : str
        Family name. [-]

    Returns
    -------
    tuple of Fuse
        Ratings in A. [A]

    References
    ----------
    fuse-article-copies
    fuse-markings-page
    """
    return _by_family().get(family, ())


def standard(family: str, rating_a: float) -> Fuse | None:
    """The fuse of exactly one rating.

    Parameters
    ----------
    family : str
        Family name. [-]
    rating_a : float
        Rating. [A]

    Returns
    -------
    Fuse or None
        None when the family has no such rating. [A]

    Examples
    --------
    >>> standard("blade", 15).colour, standard("blade", 12)
    ('blue', None)

    References
    ----------
    fuse-article-copies
    fuse-markings-page
    """
    return next((fuse for fuse in fuses(family) if fuse.rating_a == rating_a), None)


def smallest(family: str, *, at_least_a: float) -> Fuse | None:
    """The smallest fuse of a family for a current.

    Parameters
    ----------
    family : str
        Family name. [-]
    at_least_a : float
        Least rating. [A]

    Returns
    -------
    Fuse or None
        None when the family ends below. [A]

    Examples
    --------
    600 W at 12 V with a margin of 1.25 asks for 62.5 A:

    >>> smallest("strip-m5", at_least_a=62.5).rating_a
    70.0

    References
    ----------
    fuse-selection-guide
    """
    return next((fuse for fuse in fuses(family) if fuse.rating_a >= at_least_a), None)


def breaking_a_at(fuse: Fuse, *, nominal_v: float) -> float | None:
    """Breaking capacity of a fuse in a system of one nominal voltage.

    Parameters
    ----------
    fuse : Fuse
        The fuse. [-]
    nominal_v : float
        Nominal system voltage, such as 12 or 24. [V]

    Returns
    -------
    float or None
        Breaking capacity; None above the voltage that its figure holds for. [A]

    Notes
    -----
    A battery-post cube fuse breaks 10 kA at 14 V and less at 32 V; the figure must not be carried
    over. Where the source names no voltage, the rated voltage of the fuse stands.

    Examples
    --------
    >>> cube = standard("post-cube", 100)
    >>> breaking_a_at(cube, nominal_v=12), breaking_a_at(cube, nominal_v=24)
    (10000.0, None)

    References
    ----------
    recalled
    off-grid-fuse-article
    """
    holds_to_v = fuse.max_v if fuse.breaking_at_v is None else fuse.breaking_at_v
    return fuse.breaking_a if nominal_v <= holds_to_v else None
