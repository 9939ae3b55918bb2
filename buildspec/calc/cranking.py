"""Starter current, estimated from the rating of the battery that the vehicle's maker chose for it."""

from __future__ import annotations

CRANKING_SHARE = 0.5
"""A load tester takes half of the cold cranking rating for 15 s, as an engine in the cold does."""
HOLD_S = 10.0
"""Longest single turn of the starter that a link must carry."""
ATTEMPT_S = 15.0
"""One attempt to start, where the link says nothing: the time of the load test."""


def expected_a(*, cold_cranking_a: float) -> float:
    """Starter current that a link or a helping battery must give.

    Parameters
    ----------
    cold_cranking_a : float
        Cold cranking rating of the start battery. [A]

    Returns
    -------
    float
        Expected current while the starter turns. [A]

    Notes
    -----
    The measured current of the engine, where somebody has it, is better than this estimate.

    Examples
    --------
    >>> expected_a(cold_cranking_a=760)
    380.0

    References
    ----------
    half-rating-load-test
    """
    return cold_cranking_a * CRANKING_SHARE
