"""Ampacity of a copper conductor by 33 CFR 183.425 Table 5, with its two correction factors.

The table is law for some boats and good practice elsewhere. Its bundle factors bind only at 50 V and
more; below, using them is good practice.
"""

from __future__ import annotations

import functools

from buildspec.calc import gauge
from buildspec.tabledata import rows

INSULATIONS_C = (60, 75, 80, 90, 105, 125, 200)
AREA_TOLERANCE = 0.005


class OutsideTable(ValueError):
    """A value that the table does not cover; the message says what it covers."""


@functools.cache
def _table() -> dict[tuple[int, float], float]:
    return {
        (int(row["awg"]), float(row["insulation_c"])): float(row["ampacity_a"])
        for row in rows("ampacity_33cfr183")
    }


@functools.cache
def _sizes() -> tuple[int, ...]:
    return tuple(sorted({awg for awg, _ in _table()}, reverse=True))


@functools.cache
def _engine_rows() -> dict[float, dict[str, str]]:
    return {float(row["from"]): row for row in rows("ampacity_33cfr183_factors") if row["kind"] == "engine"}


def _check_insulation(insulation_c: float) -> None:
    if insulation_c in INSULATIONS_C:
        return
    covered = ", ".join(str(c) for c in INSULATIONS_C)
    lower = [c for c in INSULATIONS_C if c < insulation_c]
    fits = f"; the {lower[-1]} C column is the next below" if lower else ""
    raise OutsideTable(
        f"insulation {insulation_c:g} C is not in 33 CFR 183.425 Table 5, which covers {covered} C{fits}"
    )


def base_a(*, awg: int, insulation_c: float) -> float:
    """Ampacity outside engine spaces, at 30 degC, with at most two loaded conductors.

    Parameters
    ----------
    awg : int
        Gauge number of a table row: 18 to 4/0 AWG (-3). [AWG]
    insulation_c : float
        Rated temperature: 60, 75, 80, 90, 105, 125 or 200. [degC]

    Returns
    -------
    float
        Ampacity. [A]

    Raises
    ------
    OutsideTable
        For a size or an insulation without a row or column.

    Examples
    --------
    >>> base_a(awg=14, insulation_c=105)
    35.0

    References
    ----------
    33cfr183-table5
    """
    _check_insulation(insulation_c)
    if awg not in _sizes():
        covered = ", ".join(gauge.awg_name(n) for n in _sizes())
        raise OutsideTable(f"{gauge.awg_name(awg)} is not in 33 CFR 183.425 Table 5, which covers {covered}")
    return _table()[awg, insulation_c]


def engine_factor(*, insulation_c: float) -> float:
    """Factor for a conductor inside an engine space (50 degC instead of 30 degC).

    Parameters
    ----------
    insulation_c : float
        Rated temperature: 60, 75, 80, 90, 105, 125 or 200. [degC]

    Returns
    -------
    float
        Factor on the base ampacity. [-]

    Raises
    ------
    OutsideTable
        For an insulation without a column.

    Notes
    -----
    Close to sqrt((Tr - 50) / (Tr - 30)), except at 200 degC, where the note gives 1.00 against 0.94.
    See `engine_factor_mark` for how far each figure was verified.

    Examples
    --------
    >>> base_a(awg=14, insulation_c=105) * engine_factor(insulation_c=105)
    29.75

    References
    ----------
    33cfr183-table5-note1
    """
    _check_insulation(insulation_c)
    return float(_engine_rows()[insulation_c]["factor"])


def engine_factor_mark(*, insulation_c: float) -> str:
    """How the engine-space factor was verified.

    Parameters
    ----------
    insulation_c : float
        Rated temperature: 60, 75, 80, 90, 105, 125 or 200. [degC]

    Returns
    -------
    str
        `yes` (read in a published copy) or `memory` (recalled). [-]

    Raises
    ------
    OutsideTable
        For an insulation without a column.

    References
    ----------
    33cfr183-table5-note1
    """
    _check_insulation(insulation_c)
    return _engine_rows()[insulation_c]["verified"]


def bundle_factor(*, loaded: int) -> float:
    """Factor for loaded conductors that share a bundle.

    Parameters
    ----------
    loaded : int
        Conductors carrying current in the bundle, this one included. [1]

    Returns
    -------
    float
        Factor on the base ampacity; 1 for one or two conductors. [-]

    Raises
    ------
    OutsideTable
        Below one conductor.

    Examples
    --------
    14 AWG, 105 C, in an engine space with four to six conductors carries 17.85 A:

    >>> round(35 * engine_factor(insulation_c=105) * bundle_factor(loaded=5), 2)
    17.85

    References
    ----------
    33cfr183-table5-note2
    """
    if loaded < 1:
        raise OutsideTable(f"{loaded} loaded conductors: the bundle factors start at 1")
    steps = [row for row in rows("ampacity_33cfr183_factors") if row["kind"] == "bundle"]
    reached = [float(row["factor"]) for row in steps if int(row["from"]) <= loaded]
    return min(reached, default=1.0)


def awg_row_for(area_mm2: float) -> int | None:
    """Largest row of the table that a cross-section fills.

    Parameters
    ----------
    area_mm2 : float
        Cross-section. [mm2]

    Returns
    -------
    int or None
        Gauge number; None below 18 AWG, where the table ends. [AWG]

    Notes
    -----
    A shortfall of 0.5 % counts as rounding, so that 2.08 mm2 is 14 AWG.

    Examples
    --------
    >>> awg_row_for(2.08), awg_row_for(2.5), awg_row_for(6.0), awg_row_for(0.75)
    (14, 14, 10, None)

    References
    ----------
    astm-b258
    33cfr183-table5
    """
    filled = [n for n in _sizes() if gauge.awg_area_mm2(n) * (1 - AREA_TOLERANCE) <= area_mm2]
    return filled[-1] if filled else None
