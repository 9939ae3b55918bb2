"""American wire gauge geometry; 1/0 to 4/0 are the numbers 0, -1, -2 and -3."""

from __future__ import annotations

import math

SMALLEST, LARGEST = 40, -3
MM2_PER_CIRCULAR_MIL = math.pi / 4 * 0.0254**2


def awg_area_mm2(n: int) -> float:
    """Cross-section of a solid wire of one gauge.

    Parameters
    ----------
    n : int
        Gauge number, 40 down to -3 (4/0). [AWG]

    Returns
    -------
    float
        Cross-section. [mm2]

    Raises
    ------
    ValueError
        Outside 40 AWG to 4/0 AWG.

    Notes
    -----
    d = 0.127 mm * 92^((36 - n) / 39). Wire sold by an SAE gauge number may be up to 12 % smaller.

    Examples
    --------
    >>> round(awg_area_mm2(14), 2), round(awg_area_mm2(-3), 1)
    (2.08, 107.2)

    References
    ----------
    astm-b258
    """
    if not LARGEST <= n <= SMALLEST:
        raise ValueError(f"no gauge {n}: 40 AWG to 4/0 AWG (-3) are covered")
    diameter_mm: float = 0.127 * 92 ** ((36 - n) / 39)
    return math.pi / 4 * diameter_mm**2


def awg_name(n: int) -> str:
    """Trade name of a gauge.

    Parameters
    ----------
    n : int
        Gauge number. [AWG]

    Returns
    -------
    str
        Such as `14 AWG` or `2/0 AWG`. [-]

    Examples
    --------
    >>> awg_name(14), awg_name(0), awg_name(-3)
    ('14 AWG', '1/0 AWG', '4/0 AWG')

    References
    ----------
    astm-b258
    """
    return f"{n} AWG" if n > 0 else f"{1 - n}/0 AWG"


def circular_mils(*, area_mm2: float) -> float:
    """Cross-section in circular mils, the area of a circle of one thousandth of an inch.

    Parameters
    ----------
    area_mm2 : float
        Cross-section. [mm2]

    Returns
    -------
    float
        Cross-section. [cmil]

    Examples
    --------
    4/0 AWG has 211 600 circular mils:

    >>> round(circular_mils(area_mm2=awg_area_mm2(-3)))
    211600

    References
    ----------
    astm-b258
    nec-ch9-table8
    """
    return area_mm2 / MM2_PER_CIRCULAR_MIL
