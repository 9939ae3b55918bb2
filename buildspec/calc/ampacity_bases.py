"""The named tables of ampacity that a practice or profile may choose; they disagree, so each is named in every sum."""

from __future__ import annotations

import functools
from typing import NamedTuple

from buildspec.calc import ampacity, gauge
from buildspec.tabledata import rows

BOAT = "boat"
TITLES = {
    BOAT: "33 CFR 183.425 Table 5",
    "body-builder": "truck body-builder guide, cross-linked insulation",
    "harness-80": "harness wire table, 150 °C wire at 80 °C around it",
    "harness-100": "harness wire table, 150 °C wire at 100 °C around it",
    "thin-wall": "thin-wall cable, trade ratings",
}
"""Key of a basis → how it is named in print."""
HOT_ALREADY = ("harness-80", "harness-100")
"""Tables made for a hot surrounding: the engine-space factor would count it twice."""


class Rated(NamedTuple):
    """What a table gives a conductor: its row, the current, and whether the engine-space factor applies."""

    row: str
    current_a: float
    engine_factor: bool
    table: str


@functools.cache
def _rows(basis: str) -> tuple[tuple[float, str, float], ...]:
    mine = (row for row in rows("ampacity_bases") if row["basis"] == basis)
    return tuple(sorted((float(r["area_mm2"]), r["name"], float(r["current_a"])) for r in mine))


@functools.cache
def rated(*, basis: str, area_mm2: float, insulation_c: int) -> Rated | None:
    """Current of the largest row that a cross-section fills.

    Parameters
    ----------
    basis : str
        A key of `TITLES`. [-]
    area_mm2 : float
        Cross-section. [mm2]
    insulation_c : int
        Temperature class; it chooses the column of the boat table and has no part in the others. [degC]

    Returns
    -------
    Rated or None
        None below the smallest row: cannot check. [A]

    Notes
    -----
    A shortfall of 0.5 % counts as rounding. No row is carried over upwards.

    Examples
    --------
    >>> rated(basis="body-builder", area_mm2=0.5176, insulation_c=105).current_a
    14.0
    >>> rated(basis="boat", area_mm2=2.5, insulation_c=105).row
    '14 AWG'

    References
    ----------
    33cfr183-table5
    truck-body-builder-guide
    harness-wire-table
    thin-wall-trade-sheet
    """
    if basis == BOAT:
        awg = ampacity.awg_row_for(area_mm2)
        if awg is None:
            return None
        current = ampacity.base_a(awg=awg, insulation_c=insulation_c)
        return Rated(gauge.awg_name(awg), current, True, f"{TITLES[BOAT]}, {insulation_c} °C")
    filled = [row for row in _rows(basis) if row[0] * (1 - ampacity.AREA_TOLERANCE) <= area_mm2]
    if not filled:
        return None
    _, name, current = filled[-1]
    return Rated(name, current, basis not in HOT_ALREADY, TITLES[basis])
