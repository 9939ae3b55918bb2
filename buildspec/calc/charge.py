"""Charge of a battery: what a day takes, what the voltage at rest says, what cold leaves of the capacity."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from buildspec.tabledata import rows

LEAD_ACID = ("flooded", "agm", "gel")


def daily_ah(*, current_a: float, hours: float, duty: float) -> float:
    """Charge that a load takes in a day.

    Parameters
    ----------
    current_a : float
        Current while it works. [A]
    hours : float
        Time for which it is on. [h]
    duty : float
        Share of that time in which it draws current, 0 to 1. [-]

    Returns
    -------
    float
        Charge. [Ah]

    Examples
    --------
    A fridge of 4 A that runs 35 % of the day:

    >>> round(daily_ah(current_a=4, hours=24, duty=0.35), 6)
    33.6

    References
    ----------
    arithmetic
    """
    return current_a * hours * duty


def rest_v(name: str, *, charge: float) -> float | None:
    """Voltage of a 12 V battery at rest for a state of charge.

    Parameters
    ----------
    name : str
        Chemistry, as in `battery.chemistry`. [-]
    charge : float
        State of charge, 0 to 1. [-]

    Returns
    -------
    float or None
        Voltage after hours without load, linear between the published rows; None where no published row
        holds, as for gel. [V]

    Notes
    -----
    Tables disagree by 0.1 V, which is a quarter of the charge: a guide, no gauge.

    Examples
    --------
    >>> rest_v("flooded", charge=0.5)
    12.22
    >>> rest_v("gel", charge=0.5) is None
    True

    References
    ----------
    engine-battery-page
    agm-owner-manual
    lithium-charge-table
    """
    return between(_rest_points(name), charge)


def charge_at(name: str, *, rest_v: float) -> float | None:
    """State of charge of a 12 V battery by its voltage at rest: the way back of `rest_v`.

    Parameters
    ----------
    name : str
        Chemistry, as in `battery.chemistry`. [-]
    rest_v : float
        Voltage after hours without load. [V]

    Returns
    -------
    float or None
        State of charge, 0 to 1; None outside the published rows and where they do not rise. [-]

    Examples
    --------
    >>> charge_at("flooded", rest_v=12.22)
    0.5
    >>> charge_at("flooded", rest_v=11.0) is None
    True

    References
    ----------
    engine-battery-page
    agm-owner-manual
    lithium-charge-table
    """
    points = [(volts, charge) for charge, volts in _rest_points(name)]
    rising = all(a[0] < b[0] for a, b in itertools.pairwise(points))
    return between(points, rest_v) if rising else None


def _rest_points(name: str) -> list[tuple[float, float]]:
    """Published (charge, voltage at rest) of a chemistry, from empty to full."""
    return sorted(
        (float(row["charge"]), float(row["rest_v"]))
        for row in rows("battery_rest_voltage")
        if row["chemistry"] == name and row["verified"] == "yes"
    )


def cold_share(name: str, *, temp_c: float) -> float | None:
    """Share of a lead-acid battery's capacity that is left in the cold.

    Parameters
    ----------
    name : str
        Chemistry, as in `battery.chemistry`. [-]
    temp_c : float
        Temperature of the battery. [degC]

    Returns
    -------
    float or None
        Share of the capacity at 26.7 degC (80 degF), linear between the published multipliers; None below
        -6.7 degC, above 26.7 degC, and for lithium. [-]

    Examples
    --------
    >>> round(cold_share("agm", temp_c=4.4), 3)
    0.769

    References
    ----------
    solar-worksheets
    """
    if name not in LEAD_ACID:
        return None
    points = sorted((float(row["temp_c"]), float(row["multiplier"])) for row in rows("battery_cold"))
    found = between(points, temp_c)
    return None if found is None else 1 / found


def between(points: Sequence[tuple[float, float]], at: float) -> float | None:
    """Value of a broken line at a place.

    Parameters
    ----------
    points : sequence
        (place, value) in ascending order of place. [-]
    at : float
        Where to read it. [-]

    Returns
    -------
    float or None
        Value, None outside the line. [-]

    Examples
    --------
    >>> between([(0, 10), (2, 20)], 1)
    15.0

    References
    ----------
    arithmetic
    """
    for (low, low_value), (high, high_value) in itertools.pairwise(points):
        if low <= at <= high:
            share = (at - low) / (high - low)
            return float(low_value + (high_value - low_value) * share)
    return None
