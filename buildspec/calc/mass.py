"""Masses: axle loads from the lever, what may still be loaded, when a label falls due, mass of a conductor."""

from __future__ import annotations

LB_KG = 0.45359237
"""International pound, exact."""
COPPER_KG_PER_M3 = 8890.0
INSULATION_FACTOR = 1.3
"""Insulated conductor against its bare copper. Common practice, no source: thin-wall wire of 1 mm² and battery
cable of 70 mm² lie between 1.15 and 1.35."""
LABEL_SHARE = 0.015
LABEL_LB = 100.0
LABEL_GROSS_LB = 10000.0


def axle_change_kg(*, mass_kg: float, station_m: float, wheelbase_m: float) -> tuple[float, float]:
    """What a mass adds to the front and to the rear axle.

    Rear = m x / L, front = m − rear. Behind the rear axle the front is unloaded; ahead of the front axle
    the rear is.

    Parameters
    ----------
    mass_kg : added mass, negative where something is taken out [kg]
    station_m : distance behind the front axle, negative ahead of it [m]
    wheelbase_m : distance between the axles [m]

    Returns
    -------
    front and rear change [kg]

    References
    ----------
    body-builder-weights

    Examples
    --------
    >>> [round(v, 2) for v in axle_change_kg(mass_kg=60, station_m=-0.85, wheelbase_m=3.2)]
    [75.94, -15.94]
    """
    rear = mass_kg * station_m / wheelbase_m
    return mass_kg - rear, rear


def label_threshold_kg(*, gross_kg: float) -> float:
    """Added mass above which the load label must be corrected before the first sale.

    The lesser of 1.5 % of the gross rating and 100 lb; for gross ratings up to 10 000 lb.

    Parameters
    ----------
    gross_kg : gross vehicle mass rating [kg]

    Returns
    -------
    largest added mass without a new label [kg]

    References
    ----------
    49cfr571-110-s10

    Examples
    --------
    >>> round(label_threshold_kg(gross_kg=6000 * LB_KG) / LB_KG, 6)
    90.0
    """
    return min(LABEL_SHARE * gross_kg, LABEL_LB * LB_KG)


def is_label_law(*, gross_kg: float) -> bool:
    """Is the vehicle light enough for the labelling rule: a gross rating up to 10 000 lb?

    Parameters
    ----------
    gross_kg : gross vehicle mass rating [kg]

    Returns
    -------
    true where the rule holds [1]

    References
    ----------
    49cfr571-110-s10

    Examples
    --------
    >>> is_label_law(gross_kg=10000 * LB_KG), is_label_law(gross_kg=10001 * LB_KG)
    (True, False)
    """
    return gross_kg <= LABEL_GROSS_LB * LB_KG + 1e-6


def cargo_left_kg(*, capacity_kg: float, people_kg: float, cargo_kg: float, added_kg: float) -> float:
    """What may still be loaded; negative where the vehicle is over.

    Parameters
    ----------
    capacity_kg : people and cargo that the label allows, or gross rating less kerb mass [kg]
    people_kg : mass of the people [kg]
    cargo_kg : cargo already counted on [kg]
    added_kg : mass fitted, less what was taken out [kg]

    Returns
    -------
    mass left [kg]

    References
    ----------
    49cfr575-6

    Examples
    --------
    >>> cargo_left_kg(capacity_kg=640, people_kg=340, cargo_kg=0, added_kg=0)
    300
    """
    return capacity_kg - people_kg - cargo_kg - added_kg


def conductor_kg(*, area_mm2: float, length_m: float) -> float:
    """Mass of an insulated copper conductor: area × length × density × factor for the insulation.

    Parameters
    ----------
    area_mm2 : copper area [mm2]
    length_m : length [m]

    Returns
    -------
    mass with insulation [kg]

    References
    ----------
    iec-60028

    Examples
    --------
    >>> round(conductor_kg(area_mm2=70, length_m=1) / INSULATION_FACTOR, 4)
    0.6223
    """
    return area_mm2 * 1e-6 * length_m * COPPER_KG_PER_M3 * INSULATION_FACTOR
