"""Fault current that a protective device must be able to break."""

from __future__ import annotations

from buildspec.tabledata import rows


def required_breaking_a(*, cranking_a: float, main: bool) -> float | None:
    """Least interrupting capacity near a lead-acid bank of 12 or 24 V.

    Parameters
    ----------
    cranking_a : float
        Cold cranking amperes of the connected bank. [A]
    main : bool
        True for the main device, False for a branch device. [-]

    Returns
    -------
    float or None
        Interrupting capacity; None above 2200 CCA, where the table ends and the battery maker's
        short-circuit rating decides. [A]

    Notes
    -----
    The newer edition ends the table at 500 Ah too; the caller checks that.

    Examples
    --------
    >>> required_breaking_a(cranking_a=760, main=True), required_breaking_a(cranking_a=760, main=False)
    (3000.0, 1500.0)

    References
    ----------
    abyc-e11-table-va
    abyc-e11-large-banks
    """
    column = "main_a" if main else "branch_a"
    for row in rows("interrupting"):
        if cranking_a <= float(row["up_to_cranking_a"]):
            return float(row[column])
    return None


def prospective_a(*, open_circuit_v: float, source_ohm: float, loop_ohm: float) -> float:
    """Current of a dead short at the end of a loop.

    Parameters
    ----------
    open_circuit_v : float
        Open-circuit voltage of the source. [V]
    source_ohm : float
        Internal resistance of the source. [ohm]
    loop_ohm : float
        Resistance of the loop outside the source. [ohm]

    Returns
    -------
    float
        Prospective current. [A]

    Notes
    -----
    Steady value; inductance only lowers the first milliseconds.

    Examples
    --------
    Four cells of 0.75 milliohm and three links of 0.25 milliohm at 14 V:

    >>> round(prospective_a(open_circuit_v=14, source_ohm=4 * 0.75e-3, loop_ohm=3 * 0.25e-3))
    3733

    References
    ----------
    arithmetic
    """
    return open_circuit_v / (source_ohm + loop_ohm)
