"""Capacity, discharge, charge and internal resistance of a battery."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from buildspec.tabledata import rows

CRANKING_TEST_FULL_V = 12.6
CRANKING_TEST_END_V = 7.2
HOURS_PER_DAY = 24


class Chemistry(NamedTuple):
    """Defaults of one chemistry for a 12 V battery; practice, parts and spec override them.

    `marks` says for each figure whether it was read in a source (`yes`), worked out (`computed`) or
    recalled (`memory`).
    """

    name: str
    nominal_v: float
    absorption_v: float
    max_charge_c: float
    max_depth: float
    peukert: float
    charge_efficiency: float
    marks: Mapping[str, str]
    source: str


@functools.cache
def _chemistries() -> dict[str, Chemistry]:
    return {row["name"]: _chemistry(row) for row in rows("battery_chemistry")}


def _chemistry(row: dict[str, str]) -> Chemistry:
    figures = [column for column in row if f"{column}_verified" in row]
    return Chemistry(
        name=row["name"],
        nominal_v=float(row["nominal_v"]),
        absorption_v=float(row["absorption_v"]),
        max_charge_c=float(row["max_charge_c"]),
        max_depth=float(row["max_depth"]),
        peukert=float(row["peukert"]),
        charge_efficiency=float(row["charge_efficiency"]),
        marks=MappingProxyType({column: row[f"{column}_verified"] for column in figures}),
        source=row["source"],
    )


def chemistry(name: str) -> Chemistry:
    """Defaults of a chemistry.

    Parameters
    ----------
    name : str
        `flooded`, `agm`, `gel` or `lithium-iron-phosphate`. [-]

    Returns
    -------
    Chemistry
        Voltages in V, charge rate in 1/h, depth, exponent and efficiency as numbers. [V]

    Raises
    ------
    ValueError
        For another name.

    Examples
    --------
    >>> chemistry("agm").peukert, chemistry("agm").marks["peukert"]
    (1.1, 'memory')

    References
    ----------
    battery-guide
    deep-cycle-faq
    lithium-pack-sheet
    lithium-module-manual
    """
    found = _chemistries().get(name)
    if found is None:
        raise ValueError(f"no chemistry `{name}`: {', '.join(_chemistries())} are known")
    return found


def peukert_hours(*, capacity_ah: float, rated_hours: float, exponent: float, current_a: float) -> float:
    """Discharge time from the capacity on the label (the 20 h form).

    Parameters
    ----------
    capacity_ah : float
        Capacity at the rated discharge time. [Ah]
    rated_hours : float
        Discharge time of that capacity, usually 20. [h]
    exponent : float
        Peukert exponent, 1 or more. [-]
    current_a : float
        Discharge current. [A]

    Returns
    -------
    float
        Time until empty. [h]

    Notes
    -----
    t = H (C / (I H))^k. Below the rated current C / H the law promises more than the label: cap the
    time at C / I in a budget.

    Examples
    --------
    120 Ah (20 h) at 120 A with an exponent of 1.4 lasts about 18 minutes:

    >>> round(peukert_hours(capacity_ah=120, rated_hours=20, exponent=1.4, current_a=120), 2)
    0.3

    References
    ----------
    peukert-label-form
    """
    hours: float = rated_hours * (capacity_ah / (current_a * rated_hours)) ** exponent
    return hours


def peukert_hours_from_one_ampere(*, one_ampere_ah: float, exponent: float, current_a: float) -> float:
    """Discharge time from the capacity at one ampere (the constant-capacity form).

    Parameters
    ----------
    one_ampere_ah : float
        Capacity at a current of 1 A; not the label, which would understate the time. [Ah]
    exponent : float
        Peukert exponent, 1 or more. [-]
    current_a : float
        Discharge current. [A]

    Returns
    -------
    float
        Time until empty. [h]

    Notes
    -----
    t = Cp / I^k.

    Examples
    --------
    >>> round(peukert_hours_from_one_ampere(one_ampere_ah=250, exponent=1.3, current_a=20), 6)
    5.088632

    References
    ----------
    peukert-one-ampere-form
    """
    hours: float = one_ampere_ah / current_a**exponent
    return hours


def days_standing(*, capacity_ah: float, depth: float, current_a: float) -> float:
    """Days that a parked battery feeds a small drain.

    Parameters
    ----------
    capacity_ah : float
        Capacity. [Ah]
    depth : float
        Share of it that may be used, 0 to 1. [-]
    current_a : float
        Drain. [A]

    Returns
    -------
    float
        Days. [d]

    Raises
    ------
    ValueError
        For a depth outside its range.

    Notes
    -----
    Self-discharge comes on top: 4 to 6 % a month for lead-acid.

    Examples
    --------
    A 45 Ah battery at 200 mA is empty after 9.4 days:

    >>> round(days_standing(capacity_ah=45, depth=1, current_a=0.2), 1)
    9.4

    References
    ----------
    arithmetic
    parasitic-drain-bulletin
    """
    if not 0 <= depth <= 1:
        raise ValueError(f"depth {depth:g} is not between 0 and 1")
    return capacity_ah * depth / current_a / HOURS_PER_DAY


def recharge_hours(*, removed_ah: float, charge_a: float, charge_efficiency: float) -> float:
    """Time to put a charge back at constant current.

    Parameters
    ----------
    removed_ah : float
        Charge to replace. [Ah]
    charge_a : float
        Charging current left for the battery. [A]
    charge_efficiency : float
        Charge stored per charge supplied, above 0 and up to 1. [-]

    Returns
    -------
    float
        Bulk time. [h]

    Raises
    ------
    ValueError
        For an efficiency outside its range.

    Notes
    -----
    Lead-acid needs 2 to 4 h of absorption more for its last 20 %.

    Examples
    --------
    >>> round(recharge_hours(removed_ah=50, charge_a=25, charge_efficiency=0.85), 2)
    2.35

    References
    ----------
    arithmetic
    electrical-encyclopaedia
    """
    if not 0 < charge_efficiency <= 1:
        raise ValueError(f"charge efficiency {charge_efficiency:g} is not above 0 and up to 1")
    return removed_ah / (charge_efficiency * charge_a)


def internal_ohm(*, cranking_a: float) -> float:
    """Internal resistance of a 12 V lead-acid battery from its cold cranking rating.

    Parameters
    ----------
    cranking_a : float
        Cold cranking amperes: 30 s at -18 degC with 7.2 V kept. [A]

    Returns
    -------
    float
        Internal resistance in the cold. [ohm]

    Notes
    -----
    R = (12.6 - 7.2) / CCA. A warm battery has less, so a breaking-capacity check by this figure
    alone is too kind.

    Examples
    --------
    >>> round(internal_ohm(cranking_a=600) * 1000, 6)
    9.0

    References
    ----------
    cranking-rating-definition
    """
    return (CRANKING_TEST_FULL_V - CRANKING_TEST_END_V) / cranking_a
