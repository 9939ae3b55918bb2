"""Putting the charge back: by driving, on shore, by the sun."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.calc import battery
from buildspec.calc.charge import LEAD_ACID
from buildspec.energy import alternator, capacity
from buildspec.energy.draws import DAY_H
from buildspec.energy.terms import Sum, Term
from buildspec.model import Battery, Resolved, Supply
from buildspec.show import plain

LAST_FIFTH_H = (2, 4)
"""Lead-acid takes this much longer for its last fifth (battery texts, see `calc.battery.recharge_hours`)."""
NO_CHARGER = "No charger of known output fills this battery"
NOTHING_LEFT = "The charger gives no more than what runs takes"
NO_YIELD = "not counted: what the sun brings in a day is not stated"


class Outside(NamedTuple):
    """What an outside source does for a battery: hours to refill it, or how much longer it lasts."""

    supply: str
    refill: Sum | None
    lasts: Sum | None
    note: str


def refilling(build: Resolved, item: Battery, mean_a: float) -> tuple[Sum | None, str]:
    """Driving time that puts the usable charge back, at what the chargers have left beside the loads."""
    chargers = [i for i in build.isolation.values() if i.type == "dc-dc" and i.ends[1] == item.name]
    output = sum(c.part.charger.output_a for c in chargers if c.part.charger)
    if not output:
        return None, NO_CHARGER
    given = Term("output of the charger", output, "A", chargers[0].part.source, "spec")
    return back(item, (given, *filter(None, (alternator.input_share(build),))), mean_a)


def back(item: Battery, given: tuple[Term, ...], mean_a: float) -> tuple[Sum | None, str]:
    """Time to put the usable charge back. `given`: an output [A], and a share of it if one is known."""
    output = given[0].value * (given[1].value if len(given) > 1 else 1.0)
    accepted = acceptance(item)
    into = min(output - mean_a, accepted.value)
    if into <= 0:
        return None, NOTHING_LEFT
    known, charge = battery.chemistry(capacity.chemistry_of(item)), capacity.usable(item)
    terms = (
        Term("charge to put back", charge.value, "Ah", "usable capacity", "computed"),
        *given,
        Term("taken by what runs meanwhile", mean_a, "A", "sum of what draws", "computed"),
        accepted,
        Term("left for the battery", into, "A", "arithmetic", "computed"),
        Term("share stored", known.charge_efficiency, "", known.source, known.marks["charge_efficiency"]),
    )
    value = battery.recharge_hours(
        removed_ah=charge.value, charge_a=into, charge_efficiency=known.charge_efficiency
    )
    low, high = LAST_FIFTH_H
    note = f"the last fifth takes {low} to {high} h more" if known.name in LEAD_ACID else ""
    return Sum(value, "h", "charge / (share stored × left for the battery)", terms, "arithmetic"), note


def acceptance(item: Battery) -> Term:
    """What a battery accepts [A]: its maker's limit, else the usual rate of its chemistry."""
    trait = item.part.battery
    assert trait is not None
    if trait.max_charge_a is not None:
        return Term("accepted by the battery", trait.max_charge_a, "A", item.part.source, "spec")
    known = battery.chemistry(trait.chemistry)
    rate = known.max_charge_c * trait.capacity_ah
    return Term("accepted, by its chemistry", rate, "A", known.source, known.marks["max_charge_c"])


def outside(build: Resolved, item: Battery, mean_a: float) -> tuple[Outside, ...]:
    """Shore and solar chargers of a battery."""
    return tuple(
        on_shore(supply, item, mean_a) if supply.type == "shore" else by_sun(supply, item, mean_a)
        for supply in build.supplies.values()
        if supply.to == item.name and supply.part.charger is not None
    )


def on_shore(supply: Supply, item: Battery, mean_a: float) -> Outside:
    assert supply.part.charger is not None
    given = Term("output of the charger", supply.part.charger.output_a, "A", supply.part.source, "spec")
    refill, note = back(item, (given,), mean_a)
    return Outside(supply.name, refill, None, note)


def by_sun(supply: Supply, item: Battery, mean_a: float) -> Outside:
    """How long the battery lasts with what the sun brings on a usual day, where that is stated."""
    if supply.per_day_ah is None:
        return Outside(supply.name, None, None, NO_YIELD)
    per_day, used = supply.per_day_ah, mean_a * DAY_H
    terms = (
        Term("brought in a day", per_day, "Ah", supply.part.source, "spec"),
        Term("used in a day", used, "Ah", "sum of what draws", "computed"),
    )
    if per_day >= used:
        note = f"{plain(per_day, 1)} Ah brought in a day, {plain(used, 1)} Ah used: a usual day does not empty it"
        return Outside(supply.name, None, None, note)
    net = (used - per_day) / DAY_H
    lasts = capacity.hours(item, net)
    formula = f"({lasts.formula}), I = (used − brought) / 24 h"
    return Outside(supply.name, None, lasts._replace(formula=formula, terms=(*terms, *lasts.terms)), "")
