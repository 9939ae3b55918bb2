"""What a conductor withstands in a short circuit too brief to lose heat."""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from buildspec.calc import gauge

COPPER_MELTS_C = 1083.0

Metal = Literal["copper", "aluminium", "steel"]


class _Constants(NamedTuple):
    heat_capacity_j_per_k_mm3: float
    beta_c: float
    resistivity_20c_ohm_mm: float


_METALS: dict[Metal, _Constants] = {
    "copper": _Constants(3.45e-3, 234.5, 17.241e-6),
    "aluminium": _Constants(2.5e-3, 228.0, 28.264e-6),
    "steel": _Constants(3.8e-3, 202.0, 138e-6),
}

_FAILS_C = ((105.0, 160.0), (150.0, 250.0), (math.inf, 350.0))
"""Insulation rated up to → temperature in a short that it survives: thermoplastic, cross-linked, silicone."""


def k_factor(*, initial_c: float, final_c: float, metal: Metal = "copper") -> float:
    """Adiabatic constant of a conductor with its insulation.

    Parameters
    ----------
    initial_c : float
        Temperature when the fault starts. [degC]
    final_c : float
        Highest temperature that the insulation survives. [degC]
    metal : str
        `copper`, `aluminium` or `steel`. [-]

    Returns
    -------
    float
        k in I^2 t = k^2 S^2. [A s^0.5/mm2]

    Raises
    ------
    ValueError
        When the final temperature does not exceed the initial one.

    Notes
    -----
    k = sqrt(Qc (b + 20) / rho20 * ln((b + Tf) / (b + Ti))); valid to about 5 s.

    Examples
    --------
    Thermoplastic at 70 C, limit 160 C; thermosetting at 90 C, limit 250 C:

    >>> round(k_factor(initial_c=70, final_c=160)), round(k_factor(initial_c=90, final_c=250))
    (115, 143)

    References
    ----------
    iec-60364-5-54
    """
    if final_c <= initial_c:
        raise ValueError(f"final temperature {final_c:g} C must exceed the initial {initial_c:g} C")
    q, beta, rho = _METALS[metal]
    return math.sqrt(q * (beta + 20) / rho * math.log((beta + final_c) / (beta + initial_c)))


def insulation_k(*, insulation_c: float) -> float:
    """Adiabatic constant of a copper conductor by the rated temperature of its insulation.

    Parameters
    ----------
    insulation_c : float
        Rated temperature of the insulation. [degC]

    Returns
    -------
    float
        k in I^2 t = k^2 S^2. [A s^0.5/mm2]

    Notes
    -----
    The short starts with the conductor at its rated temperature, the hottest that it may be: it errs to the
    safe side, since most conductors carry less than their ampacity. It ends where the insulation fails:
    160 degC for thermoplastic (rated to 105 degC), 250 degC for cross-linked (to 150 degC), 350 degC for
    silicone. The end temperatures are those of the standard; the start at 105 degC is not in it.

    Examples
    --------
    Vehicle wire of 105 degC, then building cable of 70 degC:

    >>> round(insulation_k(insulation_c=105), 1), round(insulation_k(insulation_c=70))
    (87.4, 115)

    References
    ----------
    iec-60364-5-54
    """
    final_c = next(final for most, final in _FAILS_C if insulation_c <= most)
    return k_factor(initial_c=insulation_c, final_c=final_c)


def let_through_limit_a2s(*, k: float, area_mm2: float) -> float:
    """Energy that a protective device may let through into a conductor.

    Parameters
    ----------
    k : float
        Adiabatic constant. [A s^0.5/mm2]
    area_mm2 : float
        Cross-section. [mm2]

    Returns
    -------
    float
        k^2 S^2, to compare with the device's I^2 t. [A2 s]

    Examples
    --------
    >>> round(let_through_limit_a2s(k=115, area_mm2=2.5))
    82656

    References
    ----------
    iec-60364-5-54
    """
    return (k * area_mm2) ** 2


def onderdonk_a(*, area_mm2: float, time_s: float, ambient_c: float, melt_c: float = COPPER_MELTS_C) -> float:
    """Current that melts a bare copper conductor in a given time.

    Parameters
    ----------
    area_mm2 : float
        Cross-section. [mm2]
    time_s : float
        Duration of the current. [s]
    ambient_c : float
        Temperature at the start. [degC]
    melt_c : float
        Melting point of copper. [degC]

    Returns
    -------
    float
        Fusing current. [A]

    Notes
    -----
    I = A sqrt(log10((Tm - Ta) / (234 + Ta) + 1) / (33 t)), A in circular mils; valid to about 5 s.
    Insulation fails far below it: use `k_factor` for protection.

    Examples
    --------
    2581 circular mils (16 AWG), 5 s from 25 degC:

    >>> round(onderdonk_a(area_mm2=1.3078, time_s=5, ambient_c=25), 1)
    168.9

    References
    ----------
    onderdonk
    """
    rise = math.log10((melt_c - ambient_c) / (234 + ambient_c) + 1)
    return gauge.circular_mils(area_mm2=area_mm2) * math.sqrt(rise / (33 * time_s))
