"""How long a protective device takes to open, and what it lets through until then.

A family has gates: at a multiple of its rating it opens no sooner than one time and no later than another.
Between two gates the logarithm of the time is taken to run straight over the logarithm of the multiple, as
the makers' curves nearly do. Beyond the last gate I²t stays what it is there: no heat gets away. Below the
first gate the device holds for as long as that gate says, and no longest time exists.

Most gates are recalled. They are defaults: a curve of one's own takes their place in every function.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Iterable
from typing import NamedTuple

from buildspec.tabledata import rows

HOT_TIMES = 1.5
"""Resistance of a blade fuse at its rating over the cold one; 1.32 to 1.49 by a maker's sheet."""
STARTS_ABOVE = 1.0
"""No device opens at its rating or below."""


class Gate(NamedTuple):
    """At `multiple` of the rating: no sooner than `min_s`, no later than `max_s`; None where nothing is known."""

    multiple: float
    min_s: float | None
    max_s: float | None
    verified: str


Curve = tuple[Gate, ...]
"""Gates of one family, ascending."""


@functools.cache
def _curves() -> dict[str, Curve]:
    found: dict[str, list[Gate]] = {}
    for row in rows("fuse_gates"):
        if row["kind"] == "gate":
            gate = Gate(float(row["multiple"]), _maybe(row["min_s"]), _maybe(row["max_s"]), row["verified"])
            found.setdefault(row["family"], []).append(gate)
    return {family: tuple(sorted(gates)) for family, gates in found.items()}


@functools.cache
def _cold() -> dict[str, tuple[tuple[float, float], ...]]:
    found: dict[str, list[tuple[float, float]]] = {}
    for row in rows("fuse_gates"):
        if row["kind"] == "cold resistance":
            found.setdefault(row["family"], []).append((float(row["rating_a"]), float(row["value"])))
    return {family: tuple(sorted(points)) for family, points in found.items()}


def _maybe(text: str) -> float | None:
    return float(text) if text else None


def curve(family: str) -> Curve:
    """Gates of a family.

    Parameters
    ----------
    family : str
        Family name. [-]

    Returns
    -------
    tuple of Gate
        Times by multiple of the rating; empty for a family without gates. [s]

    Examples
    --------
    >>> [(gate.multiple, gate.max_s) for gate in curve("blade")][-2:]
    [(3.5, 0.5), (6.0, 0.1)]

    References
    ----------
    recalled
    relay-sheet
    """
    return _curves().get(family, ())


def opening_s(family: str | Curve, *, multiple: float) -> tuple[float | None, float | None]:
    """Shortest and longest opening time at a multiple of the rating.

    Parameters
    ----------
    family : str or Curve
        Family name, or a curve of one's own. [-]
    multiple : float
        Current over the rating. [-]

    Returns
    -------
    tuple of float or None
        No sooner than, no later than; None where no gate says. [s]

    Examples
    --------
    A blade fuse at twice its rating, and at twelve times: a quarter of the time at six times.

    >>> opening_s("blade", multiple=2)
    (0.15, 5.0)
    >>> opening_s("blade", multiple=12)
    (0.005, 0.025)

    References
    ----------
    recalled
    relay-sheet
    """
    gates = curve(family) if isinstance(family, str) else family
    least = [(gate.multiple, gate.min_s) for gate in gates if gate.min_s is not None]
    most = [(gate.multiple, gate.max_s) for gate in gates if gate.max_s is not None]
    shortest = _along(least, multiple)
    if least and shortest is None:
        shortest = least[0][1]
    return shortest, _along(most, multiple)


def _along(points: list[tuple[float, float]], multiple: float) -> float | None:
    """Time at a multiple; None below the first point."""
    if not points or multiple < points[0][0]:
        return None
    for (m1, t1), (m2, t2) in itertools.pairwise(points):
        if multiple < m2:
            return float(t1 * (t2 / t1) ** (math.log(multiple / m1) / math.log(m2 / m1)))
    last, time = points[-1]
    return time * (last / multiple) ** 2


def least_multiple(family: str | Curve, *, within_s: float) -> float | None:
    """The smallest multiple of the rating at which a device is sure to open in time.

    Parameters
    ----------
    family : str or Curve
        Family name, or a curve of one's own. [-]
    within_s : float
        Time. [s]

    Returns
    -------
    float or None
        Multiple; None for a family without a longest time. [-]

    Examples
    --------
    >>> least_multiple("blade", within_s=5), least_multiple("strip-m8", within_s=5)
    (2.0, 3.5)

    References
    ----------
    recalled
    relay-sheet
    """
    return _reach(family, within_s, longest=True)


def greatest_multiple(family: str | Curve, *, for_s: float) -> float | None:
    """The largest multiple of the rating that a device is sure to carry for a time.

    Parameters
    ----------
    family : str or Curve
        Family name, or a curve of one's own. [-]
    for_s : float
        Time. [s]

    Returns
    -------
    float or None
        Multiple; None for a family without a shortest time. [-]

    Examples
    --------
    A strip fuse carries 1.6 times its rating for 15 s, for certain:

    >>> round(greatest_multiple("strip-m8", for_s=15), 2)
    1.6

    References
    ----------
    recalled
    """
    return _reach(family, for_s, longest=False)


def _reach(family: str | Curve, time_s: float, *, longest: bool) -> float | None:
    """Where a curve of longest or shortest times passes a time."""
    gates = curve(family) if isinstance(family, str) else family
    times = [(g.multiple, g.max_s if longest else g.min_s) for g in gates]
    points = [(m, t) for m, t in times if t is not None]
    if not points:
        return None
    if time_s >= points[0][1]:
        return points[0][0]
    for (m1, t1), (m2, t2) in itertools.pairwise(points):
        if t2 <= time_s:
            return float(m1 * (m2 / m1) ** (math.log(time_s / t1) / math.log(t2 / t1)))
    last, time = points[-1]
    return last * math.sqrt(time / time_s)


def holds(family: str | Curve, *, multiple: float, for_s: float) -> bool | None:
    """Is a device sure to survive a current for a time: an inrush, or a starter?

    Parameters
    ----------
    family : str or Curve
        Family name, or a curve of one's own. [-]
    multiple : float
        Current over the rating. [-]
    for_s : float
        Time. [s]

    Returns
    -------
    bool or None
        None where no gate says; always true at the rating and below. [-]

    Examples
    --------
    Three times the rating for 100 ms, then for 10 ms:

    >>> holds("blade", multiple=3, for_s=0.1), holds("blade", multiple=3, for_s=0.01)
    (False, True)

    References
    ----------
    recalled
    """
    if multiple <= STARTS_ABOVE:
        return True
    shortest, _ = opening_s(family, multiple=multiple)
    return None if shortest is None else shortest > for_s


def let_through_a2s(family: str | Curve, *, rating_a: float, least_a: float, most_a: float) -> float | None:
    """The most that a device lets through when a short draws a current within a range.

    Parameters
    ----------
    family : str or Curve
        Family name, or a curve of one's own. [-]
    rating_a : float
        Rating. [A]
    least_a : float
        Smallest fault current. [A]
    most_a : float
        Largest fault current. [A]

    Returns
    -------
    float or None
        I^2 t; None when it need not open at the smallest current. [A2 s]

    Notes
    -----
    Taken at both ends of the range and at each gate within it: between two gates I^2 t only rises or falls.

    Examples
    --------
    A 10 A blade fuse at 35 A and more: 0.5 s of 35 A, which is more than 0.1 s of 60 A.

    >>> let_through_a2s("blade", rating_a=10, least_a=35, most_a=750)
    612.5

    References
    ----------
    recalled
    relay-sheet
    arithmetic
    """
    gates = curve(family) if isinstance(family, str) else family
    within = [g.multiple * rating_a for g in gates if least_a < g.multiple * rating_a < most_a]
    energies = []
    for amps in (least_a, *within, max(least_a, most_a)):
        _, longest = opening_s(family, multiple=amps / rating_a)
        if longest is None:
            return None
        energies.append(amps**2 * longest)
    return max(energies)


def channel_s(*, times: float, within_s: float, multiple: float) -> float | None:
    """Longest time that an electronic channel takes to switch off.

    Parameters
    ----------
    times : float
        Multiple of its limit from which it trips. [-]
    within_s : float
        Time in which it trips there. [s]
    multiple : float
        Current over the limit. [-]

    Returns
    -------
    float or None
        Time; None below the trip. [s]

    Notes
    -----
    Above the trip I^2 t is taken as constant, which is slow for a dead short: common practice.

    Examples
    --------
    >>> round(channel_s(times=1.5, within_s=0.1, multiple=15), 6)
    0.001
    >>> channel_s(times=1.5, within_s=0.1, multiple=1.4) is None
    True

    References
    ----------
    recalled
    """
    return None if multiple < times else within_s * (times / multiple) ** 2


def cold_ohm(family: str, *, rating_a: float) -> float:
    """Resistance of a fuse at room temperature, without its holder.

    Parameters
    ----------
    family : str
        Family name. [-]
    rating_a : float
        Rating. [A]

    Returns
    -------
    float
        Resistance; between two ratings on a straight line of logarithms, and 0 for a family without
        figures. [ohm]

    Notes
    -----
    Mini blades lie within 5 % of regular ones; theirs are taken.

    Examples
    --------
    >>> cold_ohm("blade", rating_a=10), cold_ohm("strip-m8", rating_a=100)
    (0.0077, 0.0)

    References
    ----------
    blade-sheet-copy
    """
    points = _cold().get("blade" if family == "mini-blade" else family, ())
    if not points:
        return 0.0
    exact = [ohm for rating, ohm in points if rating == rating_a]
    if exact:
        return exact[0]
    (r1, o1), (r2, o2) = _around(points, rating_a)
    return float(o1 * (o2 / o1) ** (math.log(rating_a / r1) / math.log(r2 / r1)))


def _around(
    points: tuple[tuple[float, float], ...], at: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    """The two neighbours of a rating, or the last two on its side."""
    pairs = list(itertools.pairwise(points))
    return next((pair for pair in pairs if at < pair[1][0]), pairs[-1])


def recalled(gates: Iterable[Gate]) -> bool:
    """Does a curve rest on anything that nobody has read in a published copy?

    Parameters
    ----------
    gates : iterable of Gate
        A curve. [-]

    Returns
    -------
    bool
        True when one gate is marked `memory`. [-]

    Examples
    --------
    >>> recalled(curve("blade")), recalled((Gate(2.0, 1.0, 5.0, "shop"),))
    (True, False)

    References
    ----------
    recalled
    """
    return any(gate.verified == "memory" for gate in gates)
