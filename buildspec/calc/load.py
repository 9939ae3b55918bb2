"""Current of a load at a given voltage."""

from __future__ import annotations


def power_current_a(*, power_w: float, volts: float) -> float:
    """Current of a constant-power load; highest at the lowest voltage.

    Parameters
    ----------
    power_w : float
        Power. [W]
    volts : float
        Voltage at the load. [V]

    Returns
    -------
    float
        Current. [A]

    Examples
    --------
    >>> power_current_a(power_w=600, volts=12)
    50.0

    References
    ----------
    fuse-selection-guide
    """
    return power_w / volts


def resistive_current_a(*, rated_w: float, rated_v: float, volts: float) -> float:
    """Current of a resistive load away from its rated voltage.

    Parameters
    ----------
    rated_w : float
        Power at the rated voltage. [W]
    rated_v : float
        Rated voltage. [V]
    volts : float
        Voltage at the load. [V]

    Returns
    -------
    float
        Current. [A]

    Notes
    -----
    I = V * P / Vr^2. A filament lamp changes less than this, a heater follows it.

    Examples
    --------
    >>> resistive_current_a(rated_w=120, rated_v=12, volts=13.2)
    11.0

    References
    ----------
    arithmetic
    """
    return volts * rated_w / rated_v**2


def converter_input_a(*, output_a: float, output_v: float, input_v: float, efficiency: float) -> float:
    """Input current of a DC-DC converter.

    Parameters
    ----------
    output_a : float
        Output current. [A]
    output_v : float
        Output voltage. [V]
    input_v : float
        Input voltage; size wire and fuse for the lowest. [V]
    efficiency : float
        Efficiency, above 0 and up to 1. [-]

    Returns
    -------
    float
        Input current. [A]

    Raises
    ------
    ValueError
        For an efficiency outside its range.

    Examples
    --------
    40 A at 14.4 V from 12 V at 90 %:

    >>> round(converter_input_a(output_a=40, output_v=14.4, input_v=12, efficiency=0.9), 1)
    53.3

    References
    ----------
    arithmetic
    """
    if not 0 < efficiency <= 1:
        raise ValueError(f"efficiency {efficiency:g} is not above 0 and up to 1")
    return output_a * output_v / (efficiency * input_v)
