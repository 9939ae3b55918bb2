"""What a battery holds: usable charge, time at a current, what cold leaves of it."""

from __future__ import annotations

from buildspec.calc import battery, charge
from buildspec.energy.terms import Sum, Term
from buildspec.model import Battery

RATED_HOURS = 20.0
"""Discharge time of the capacity on a label."""
START_DEPTH = 0.4
"""With this share of its charge gone a start battery no longer cranks: service bulletin on parasitic drain."""
COLD_C = 0.0
"""Temperature of the cold figure."""


def lasting(*, capacity_ah: float, exponent: float, depth: float, current_a: float) -> float:
    """Hours until the allowed depth: Peukert from the 20 h label, never more than the label promises."""
    label = battery.peukert_hours(
        capacity_ah=capacity_ah, rated_hours=RATED_HOURS, exponent=exponent, current_a=current_a
    )
    return min(label, capacity_ah / current_a) * depth


def depth_term(item: Battery) -> Term:
    """Share of a battery that may be used, as a term."""
    if item.role == "start":
        what = "share that may be used, so that it still starts"
        return Term(what, START_DEPTH, "", "parasitic-drain-bulletin", "yes")
    known = battery.chemistry(chemistry_of(item))
    return Term("share that may be used", known.max_depth, "", known.source, known.marks["max_depth"])


def chemistry_of(item: Battery) -> str:
    assert item.part.battery is not None
    return item.part.battery.chemistry


def capacity_term(item: Battery) -> Term:
    assert item.part.battery is not None
    return Term("capacity on the label", item.part.battery.capacity_ah, "Ah", item.part.source, "spec")


def usable(item: Battery) -> Sum:
    """Charge that may be taken [Ah]."""
    terms = (capacity_term(item), depth_term(item))
    return Sum(terms[0].value * terms[1].value, "Ah", "capacity × share", terms, "arithmetic")


def hours(item: Battery, current_a: float) -> Sum:
    """Time at a mean current until the allowed depth [h]."""
    known = battery.chemistry(chemistry_of(item))
    capacity, depth = capacity_term(item), depth_term(item)
    exponent = Term("Peukert exponent", known.peukert, "", known.source, known.marks["peukert"])
    mean = Term("mean current", current_a, "A", "sum of what draws", "computed")
    rated = Term("hours of the label", RATED_HOURS, "h", "peukert-label-form", "yes")
    value = lasting(
        capacity_ah=capacity.value, exponent=exponent.value, depth=depth.value, current_a=current_a
    )
    formula = "share × the lesser of H × (C / (I × H))^k and C / I"
    return Sum(value, "h", formula, (capacity, depth, exponent, mean, rated), "peukert-label-form")


def cold_hours(item: Battery, warm: Sum) -> Sum | None:
    """The same in the cold; None where no published figure covers the chemistry."""
    share = charge.cold_share(chemistry_of(item), temp_c=COLD_C)
    if share is None:
        return None
    terms = (
        Term("time in the warm", warm.value, "h", "as above", "computed"),
        Term("capacity left at 0 °C", share, "", "solar-worksheets", "yes"),
    )
    return Sum(warm.value * share, "h", "time × share left", terms, "solar-worksheets")
