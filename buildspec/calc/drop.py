"""Voltage drop along a conductor, and the cross-section that keeps it to a limit."""

from __future__ import annotations

INCH_POUND_K = 10.75
METRIC_RESISTIVITY_OHM_MM2_PER_M = 0.0164


def drop_v(*, current_a: float, ohm_per_m: float, loop_m: float) -> float:
    """Voltage lost in a conductor.

    Parameters
    ----------
    current_a : float
        Current. [A]
    ohm_per_m : float
        Resistance per length at the operating temperature. [ohm/m]
    loop_m : float
        Length of conductor that the current passes, out and back. [m]

    Returns
    -------
    float
        Voltage drop. [V]

    Examples
    --------
    20 A through 107 ft of 6 AWG at 0.00044 ohm/ft loses 0.942 V:

    >>> round(drop_v(current_a=20, ohm_per_m=0.00044 / 0.3048, loop_m=107 * 0.3048), 3)
    0.942

    References
    ----------
    faa-ac-43-13-1b-drop
    """
    return current_a * ohm_per_m * loop_m


def circular_mils_for(*, current_a: float, loop_ft: float, drop_v: float, k: float = INCH_POUND_K) -> float:
    """Copper cross-section for a voltage drop, in inch-pound form.

    Parameters
    ----------
    current_a : float
        Current. [A]
    loop_ft : float
        Length out and back. [ft]
    drop_v : float
        Allowed voltage drop. [V]
    k : float
        Resistivity; the default is copper at 29 degC. [ohm cmil/ft]

    Returns
    -------
    float
        Least cross-section. [cmil]

    Examples
    --------
    A bilge pump of 10 A, 11 ft of positive and 10 ft of negative wire, 3 % of 12 V:

    >>> round(circular_mils_for(current_a=10, loop_ft=21, drop_v=0.36))
    6271

    References
    ----------
    marine-cmil-rule
    """
    return k * current_a * loop_ft / drop_v


def area_for_mm2(
    *,
    current_a: float,
    loop_m: float,
    drop_v: float,
    resistivity_ohm_mm2_per_m: float = METRIC_RESISTIVITY_OHM_MM2_PER_M,
) -> float:
    """Copper cross-section for a voltage drop, in metric form.

    Parameters
    ----------
    current_a : float
        Current. [A]
    loop_m : float
        Length out and back. [m]
    drop_v : float
        Allowed voltage drop. [V]
    resistivity_ohm_mm2_per_m : float
        Resistivity of copper; the default is the small-craft rule's, lower than 0.01724 at 20 degC. [ohm mm2/m]

    Returns
    -------
    float
        Least cross-section. [mm2]

    Examples
    --------
    A lamp of 2.1 A, 18 m away, 5 % of 12 V, with 56 m/(ohm mm2):

    >>> round(area_for_mm2(current_a=2.1, loop_m=36, drop_v=0.6, resistivity_ohm_mm2_per_m=1 / 56), 2)
    2.25

    References
    ----------
    iso-10133-formula
    mast-lamp-example
    """
    return resistivity_ohm_mm2_per_m * current_a * loop_m / drop_v
