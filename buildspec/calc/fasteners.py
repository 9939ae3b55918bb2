"""Bolts and rivet nuts: proof load, tightening torque, what a sheet lets through, when a rivet nut turns."""

from __future__ import annotations

import math

from buildspec import tabledata

K_FACTOR = {"dry": 0.2, "oiled": 0.15}
"""Torque = K × diameter × tension. 0.2 gives the published rows; 0.15 oiled is recalled."""
PRELOAD_SHARE = 0.75
"""Of the proof load."""
ALONG_SHARE = 0.6
"""Strength of a bolt along the joint against that along its axis; recalled, 0.5 for class 10.9 is below it."""
WORKING_SHARE = 0.25
"""Of a proof load or of a sheet's strength that a joint may be asked to carry; common practice, no source."""
SHEAR_MPA = {"steel": 165.0, "aluminium": 110.0}
"""Shear strength of soft sheet; recalled."""
HEAD_TIMES = 1.6
"""Width of a bolt's head against its thread; recalled."""
ENGAGEMENT_TIMES = {"steel": 1.0, "aluminium": 2.0}
"""Least thread engagement in diameters; common practice, no source."""


def diameter_m(thread: str) -> float:
    """Nominal diameter of a metric thread.

    Parameters
    ----------
    thread : name such as `M8` [name]

    Returns
    -------
    diameter [m]

    References
    ----------
    arithmetic

    Examples
    --------
    >>> diameter_m("M8")
    0.008
    """
    return float(thread.removeprefix("M")) / 1000


def figure(record: str, item: str, thread: str) -> tuple[float, float, str, str] | None:
    """Least value, largest value, source key and mark of a row of the torque table.

    Parameters
    ----------
    record : kind of row [name]
    item : what it is for [name]
    thread : metric thread, or `` [name]

    Returns
    -------
    least, largest, source, mark; None without a row [unit of the row]

    References
    ----------
    iso-898-1-copies

    Examples
    --------
    >>> figure("stress_area", "ISO metric coarse", "M8")[:2]
    (36.6, 36.6)
    """
    for row in tabledata.rows("torque"):
        if (row["record"], row["item"], row["thread"]) == (record, item, thread):
            return float(row["least"]), float(row["most"]), row["source"], row["verified"]
    return None


def proof_load_n(*, thread: str, grade: str) -> float | None:
    """Proof load of a bolt: stress area × proof stress.

    Parameters
    ----------
    thread : M5, M6, M8, M10 or M12 [name]
    grade : property class, such as `8.8` [name]

    Returns
    -------
    proof load; None for a thread or class outside the table [N]

    References
    ----------
    iso-898-1-copies

    Examples
    --------
    >>> round(proof_load_n(thread="M8", grade="8.8"))
    21228
    """
    area, stress = figure("stress_area", "ISO metric coarse", thread), figure("proof_stress", grade, "")
    return None if area is None or stress is None else area[0] * stress[0]


def tightening_torque_nm(*, thread: str, grade: str, lubrication: str = "dry") -> float | None:
    """Torque that brings a bolt to 75 % of its proof load: K × diameter × tension.

    Parameters
    ----------
    thread : M5, M6, M8, M10 or M12 [name]
    grade : property class [name]
    lubrication : `dry` or `oiled` [name]

    Returns
    -------
    torque; None for a thread or class outside the table [N m]

    References
    ----------
    torque-k-factor

    Examples
    --------
    >>> round(tightening_torque_nm(thread="M8", grade="8.8"), 2)
    25.47
    """
    proof = proof_load_n(thread=thread, grade=grade)
    return None if proof is None else K_FACTOR[lubrication] * diameter_m(thread) * PRELOAD_SHARE * proof


def tension_n(*, torque_nm: float, thread: str, lubrication: str = "dry") -> float:
    """Tension that a torque puts into a bolt.

    Parameters
    ----------
    torque_nm : tightening torque [N m]
    thread : metric thread [name]
    lubrication : `dry` or `oiled` [name]

    Returns
    -------
    tension [N]

    References
    ----------
    torque-k-factor

    Examples
    --------
    >>> round(tension_n(torque_nm=25.47, thread="M8"))
    15919
    """
    return torque_nm / (K_FACTOR[lubrication] * diameter_m(thread))


def pull_through_n(*, bearing_m: float, sheet_m: float, metal: str) -> float:
    """Force that punches what bears on a sheet through it, at the most; real thin sheet dishes earlier.

    Circumference × thickness × shear strength. A square plate bears on more; its side is taken as a diameter.

    Parameters
    ----------
    bearing_m : diameter of head or washer, side of a plate [m]
    sheet_m : thickness [m]
    metal : `steel` or `aluminium` [name]

    Returns
    -------
    upper bound [N]

    References
    ----------
    recalled

    Examples
    --------
    >>> round(pull_through_n(bearing_m=0.012, sheet_m=0.001, metal="steel"))
    6220
    """
    return math.pi * bearing_m * sheet_m * SHEAR_MPA[metal] * 1e6


def hole_bearing_n(*, thread: str, sheet_m: float, metal: str) -> float:
    """Force along a sheet at which a bolt tears its hole long: diameter × thickness × twice the shear strength.

    Parameters
    ----------
    thread : metric thread [name]
    sheet_m : thickness [m]
    metal : `steel` or `aluminium` [name]

    Returns
    -------
    force [N]

    References
    ----------
    recalled

    Examples
    --------
    >>> round(hole_bearing_n(thread="M8", sheet_m=0.0015, metal="steel"))
    3960
    """
    return diameter_m(thread) * sheet_m * 2 * SHEAR_MPA[metal] * 1e6


def spin_out_nm(*, thread: str, body: str) -> float | None:
    """Torque at which a steel rivet nut turns in 0.76 mm steel, as tested by a maker.

    Parameters
    ----------
    thread : M4 to M10 [name]
    body : `round` or `hexagon` [name]

    Returns
    -------
    torque; None for another thread [N m]

    References
    ----------
    rivet-nut-sheet

    Examples
    --------
    >>> spin_out_nm(thread="M6", body="round"), spin_out_nm(thread="M6", body="hexagon")
    (4.4, 12.6)
    """
    found = figure("rivet_nut_spin_out", f"steel {body} body in 0.76 mm steel", thread)
    return None if found is None else found[0]


def rivet_nut_torque_nm(thread: str) -> float | None:
    """Torque that a maker suggests for a class 8.8 screw in a steel rivet nut.

    Parameters
    ----------
    thread : M4 to M12 [name]

    Returns
    -------
    torque; None for another thread [N m]

    References
    ----------
    rivet-nut-sheet

    Examples
    --------
    >>> rivet_nut_torque_nm("M8")
    21.0
    """
    found = figure("rivet_nut_assembly_torque", "class 8.8 screw into steel blind rivet nut", thread)
    return None if found is None else found[0]


def rivet_nut_push_out_n(*, thread: str, body: str) -> float | None:
    """Least force that pushes a steel rivet nut out of its panel, by a vehicle maker's standard.

    Parameters
    ----------
    thread : M4 to M10 [name]
    body : `round` or `hexagon` [name]

    Returns
    -------
    force; None for another thread [N]

    References
    ----------
    rivet-nut-standard

    Examples
    --------
    >>> rivet_nut_push_out_n(thread="M6", body="round")
    1800.0
    """
    found = figure("rivet_nut_min", f"steel blind rivet nut, {body} body, push-out", thread)
    return None if found is None else found[0] * 1000
