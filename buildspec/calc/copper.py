"""Resistance and temperature of a copper conductor."""

from __future__ import annotations

RESISTIVITY_20C_OHM_M = 17.241e-9
TEMP_COEFFICIENT_PER_K = 0.00393
MM2_PER_M2 = 1e6


def r20_ohm_per_m(*, area_mm2: float) -> float:
    """Resistance of one metre of annealed copper at 20 degC.

    Parameters
    ----------
    area_mm2 : float
        Copper cross-section, not the nominal one. [mm2]

    Returns
    -------
    float
        Resistance per length. [ohm/m]

    Notes
    -----
    R' = 17.241e-9 / A. Exact for a solid wire of 100 % conductivity; stranding adds about 2 % to an
    AWG size, and metric classes have their own limits (see `conductors`).

    Examples
    --------
    A 2.5 mm2 conductor with a stranding factor of 1.03 has 7.1 ohm/km:

    >>> round(r20_ohm_per_m(area_mm2=2.5) * 1000 * 1.03, 1)
    7.1

    References
    ----------
    iec-60028
    """
    return RESISTIVITY_20C_OHM_M * MM2_PER_M2 / area_mm2


def resistance_at(*, r20_ohm: float, temp_c: float) -> float:
    """Resistance of a copper conductor at another temperature.

    Parameters
    ----------
    r20_ohm : float
        Resistance at 20 degC. [ohm]
    temp_c : float
        Conductor temperature. [degC]

    Returns
    -------
    float
        Resistance at that temperature. [ohm]

    Notes
    -----
    R = R20 * (1 + 0.00393 * (T - 20)); linear from about -50 to 200 degC.

    Examples
    --------
    Solid 12 AWG: 5.2107 ohm/km at 20 degC, listed as 1.93 ohm per 1000 ft at 75 degC:

    >>> round(resistance_at(r20_ohm=5.2107, temp_c=75) * 0.3048, 2)
    1.93

    References
    ----------
    iec-60028
    nec-ch9-table8
    """
    return r20_ohm * (1 + TEMP_COEFFICIENT_PER_K * (temp_c - 20))


def operating_temp_c(*, current_a: float, ampacity_a: float, ambient_c: float, rated_c: float) -> float:
    """Steady temperature of a loaded conductor.

    Parameters
    ----------
    current_a : float
        Continuous current. [A]
    ampacity_a : float
        Current that brings the conductor from this ambient to its rated temperature. [A]
    ambient_c : float
        Temperature of the surroundings. [degC]
    rated_c : float
        Rated temperature of the insulation. [degC]

    Returns
    -------
    float
        Conductor temperature; above `rated_c` when overloaded. [degC]

    Notes
    -----
    T = Ta + (Tr - Ta) * (I / Iz)^2: heat made follows the square of the current, heat lost follows the
    rise. The engine-space factors of the ampacity table follow the same law.

    Examples
    --------
    Half the ampacity makes a quarter of the rise:

    >>> operating_temp_c(current_a=10, ampacity_a=20, ambient_c=25, rated_c=105)
    45.0

    References
    ----------
    heat-balance
    33cfr183-table5-note1
    """
    return ambient_c + (rated_c - ambient_c) * (current_a / ampacity_a) ** 2
