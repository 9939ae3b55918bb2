"""How long the build may stand parked: what runs, how long a battery lasts, how long a drive refills it.

Every result is a `Sum`: a value with its formula and its terms, each with its source, so that a document
can print the whole of it. Currents in A, charge in Ah, times in h or d.
"""

from __future__ import annotations

from typing import NamedTuple

from buildspec.builtin_sources import SOURCES
from buildspec.calc import battery
from buildspec.model import Accessory, Battery, Circuit, Resolved
from buildspec.show import plain
from buildspec.size import currents

RATED_HOURS = 20.0
"""Discharge time of the capacity on a label."""
START_DEPTH = 0.5
"""Share of a start battery that may be gone with the engine still starting; common practice, no source."""
EVENING, MORNING = 18, 8
"""A night is parked from one to the other; common practice, no source."""
NIGHT_H = 24 - EVENING + MORNING
LAST_FIFTH_H = (2, 4)
"""Lead-acid takes this much longer for its last fifth (battery texts, see `calc.battery.recharge_hours`)."""
WITH_THE_KEY = ("ignition on", "engine on")
"""What works only then does not run while parked."""
LEAD_ACID = ("flooded", "agm", "gel")


class Term(NamedTuple):
    """A figure that goes into a sum. `verified` as in the tables: `yes`, `computed`, `memory`, `spec`."""

    what: str
    value: float
    unit: str
    source: str
    verified: str


class Sum(NamedTuple):
    """A result, spelled out."""

    value: float
    unit: str
    formula: str
    terms: tuple[Term, ...]
    source: str

    @property
    def from_memory(self) -> tuple[str, ...]:
        """What in it rests on a recalled default."""
        return tuple(term.what for term in self.terms if term.verified == "memory")


class Draw(NamedTuple):
    """What one item takes from a battery in the mean over a day."""

    item: str
    words: str
    running_a: float
    duty: float
    hours_per_day: float
    standby_a: float
    mean_a: float


class Parked(NamedTuple):
    """A battery that feeds things while the vehicle stands."""

    battery: str
    draws: tuple[Draw, ...]
    usable: Sum
    hours: Sum
    """With everything that a usual day asks for [h]."""
    alone: tuple[tuple[str, Sum], ...]
    """(accessory, hours) of each one that runs round the clock, with nothing but standby beside it."""
    nights: int
    refill: Sum | None
    refill_note: str
    """Why there is no refill time, or what it leaves out."""


class Standing(NamedTuple):
    """The start battery with everything off."""

    battery: str
    draws: tuple[Draw, ...]
    days: Sum


class Energy(NamedTuple):
    """The parked scenario of a build."""

    parked: tuple[Parked, ...]
    standing: tuple[Standing, ...]


def energy(build: Resolved) -> Energy:
    """The parked scenario: accessories with `hours_per_day`, and standby draws, battery by battery."""
    parked = [parked_on(build, item) for item in build.batteries.values()]
    standing = [standing_on(build, item) for item in build.batteries.values() if item.role == "start"]
    return Energy(tuple(p for p in parked if p is not None), tuple(standing))


# ------------------------------------------------------------------------------------- what draws


def battery_behind(build: Resolved, node: str) -> str:
    """The battery that a node hangs on, through its feeders; `` where none does."""
    while node not in build.batteries:
        feeder = next((c for c in build.circuits if c.kind == "feeder" and c.target == node), None)
        if feeder is None:
            return ""
        node = feeder.source
    return node


def draws_on(build: Resolved, name: str) -> tuple[Draw, ...]:
    """Everything that takes current from a battery while parked, largest first."""
    loads = [c for c in build.circuits if c.kind == "load" and battery_behind(build, c.source) == name]
    found = [draw_of(build, circuit) for circuit in loads if circuit.item in build.accessories]
    found += [module_draw(build, panel) for panel in build.panels if battery_behind(build, panel) == name]
    return tuple(sorted((d for d in found if d.mean_a > 0), key=lambda d: (-d.mean_a, d.item)))


def draw_of(build: Resolved, circuit: Circuit) -> Draw:
    """Mean current of an accessory: running for its hours, on standby for the rest unless a contact cuts it."""
    item = build.accessories[circuit.item]
    load = circuit.load
    assert load is not None
    hours = 0.0 if item.works_when in WITH_THE_KEY else min(item.hours_per_day or 0.0, 24.0)
    running = currents.typical(load, build.practice) * circuit.quantity
    standby = 0.0 if cut_off(item, circuit) else load.standby_a * circuit.quantity
    mean = running * load.duty * hours / 24 + standby * (24 - hours) / 24
    return Draw(circuit.item, words_of(item), running, load.duty, hours, standby, mean)


def cut_off(item: Accessory, circuit: Circuit) -> bool:
    """Nothing flows into it while it is off."""
    return bool(item.switch) or any(c.kind == "relay" for c in circuit.contacts)


def module_draw(build: Resolved, panel: str) -> Draw:
    part = build.panels[panel].part
    standby = part.electrical.standby_a if part.electrical else 0.0
    return Draw(panel, part.title, 0.0, 1.0, 0.0, standby, standby)


def words_of(item: Accessory) -> str:
    """Short name for people: its title up to the first comma."""
    return item.part.title.partition(",")[0]


# ---------------------------------------------------------------------------------- how long it lasts


def lasting(*, capacity_ah: float, exponent: float, depth: float, current_a: float) -> float:
    """Hours until the allowed depth: Peukert from the 20 h label, never more than the label promises."""
    label = battery.peukert_hours(
        capacity_ah=capacity_ah, rated_hours=RATED_HOURS, exponent=exponent, current_a=current_a
    )
    return min(label, capacity_ah / current_a) * depth


def depth_term(item: Battery) -> Term:
    """Share of a battery that may be used, as a term."""
    if item.role == "start":
        return Term(
            "share that may be used, so that it still starts",
            START_DEPTH,
            "",
            "common practice, no source",
            "memory",
        )
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


def nights(parked_h: float) -> int:
    """Whole nights from an evening, with no drive between them."""
    return 0 if parked_h < NIGHT_H else 1 + int((parked_h - NIGHT_H) // 24)


def parked_on(build: Resolved, item: Battery) -> Parked | None:
    """The parked scenario of one battery; None when nothing on it runs while parked."""
    draws = draws_on(build, item.name)
    if item.part.battery is None or not any(d.hours_per_day > 0 for d in draws):
        return None
    mean = sum(d.mean_a for d in draws) + own_draw(build, item)
    whole = hours(item, mean)
    refill, note = refilling(build, item, mean)
    return Parked(
        item.name, draws, usable(item), whole, alone(build, item, draws), nights(whole.value), refill, note
    )


def own_draw(build: Resolved, item: Battery) -> float:
    """What the vehicle itself takes with the key off: from its start battery only [A]."""
    return build.practice.key_off_a if item.role == "start" else 0.0


def alone(build: Resolved, item: Battery, draws: tuple[Draw, ...]) -> tuple[tuple[str, Sum], ...]:
    """Hours with one round-the-clock accessory and the others on standby."""
    found = []
    for draw in (d for d in draws if d.hours_per_day >= 24):
        rest = sum(d.standby_a for d in draws if d is not draw) + own_draw(build, item)
        found.append((draw.item, hours(item, draw.mean_a + rest)))
    return tuple(found)


# --------------------------------------------------------------------------------------- refilling


def refilling(build: Resolved, item: Battery, mean_a: float) -> tuple[Sum | None, str]:
    """Driving time that puts the usable charge back, at what the chargers have left beside the loads."""
    chargers = [i for i in build.isolation.values() if i.type == "dc-dc" and i.ends[1] == item.name]
    output = sum(c.part.charger.output_a for c in chargers if c.part.charger)
    if not output:
        return None, "No charger of known output fills this battery"
    assert item.part.battery is not None
    accepted = item.part.battery.max_charge_a
    into = output - mean_a if accepted is None else min(output - mean_a, accepted)
    if into <= 0:
        return None, "The charger gives no more than what runs takes"
    known, charge = battery.chemistry(chemistry_of(item)), usable(item)
    terms = (
        Term("charge to put back", charge.value, "Ah", "usable capacity", "computed"),
        Term("output of the charger", output, "A", chargers[0].part.source, "spec"),
        Term("taken by what runs meanwhile", mean_a, "A", "sum of what draws", "computed"),
        Term("left for the battery, or what it accepts", into, "A", "arithmetic", "computed"),
        Term("share stored", known.charge_efficiency, "", known.source, known.marks["charge_efficiency"]),
    )
    value = battery.recharge_hours(
        removed_ah=charge.value, charge_a=into, charge_efficiency=known.charge_efficiency
    )
    note = (
        f"the last fifth takes {LAST_FIFTH_H[0]} to {LAST_FIFTH_H[1]} h more"
        if known.name in LEAD_ACID
        else ""
    )
    return Sum(value, "h", "charge / (share stored × current into the battery)", terms, "arithmetic"), note


# ---------------------------------------------------------------------------------------- standing


def standing_on(build: Resolved, item: Battery) -> Standing:
    """Days until a start battery with everything off can no longer crank."""
    draws = tuple(d for d in draws_on(build, item.name) if d.standby_a > 0)
    added = sum(d.standby_a for d in draws)
    capacity, depth = capacity_term(item), depth_term(item)
    own = build.practice.key_off_a
    terms = (
        capacity,
        depth,
        key_off_term(build),
        Term("standby of what was added", added, "A", "sum of what draws", "computed"),
    )
    value = battery.days_standing(capacity_ah=capacity.value, depth=depth.value, current_a=own + added)
    return Standing(
        item.name, draws, Sum(value, "d", "capacity × share / (draws × 24 h)", terms, "arithmetic")
    )


def key_off_term(build: Resolved) -> Term:
    """What the vehicle itself draws, as the practice has it; the built-in figure is a default to override."""
    source = build.practice.sources.get("key_off_current", "")
    mark = "memory" if source == SOURCES["key_off_current"] else "spec"
    return Term("drawn by the vehicle itself with the key off", build.practice.key_off_a, "A", source, mark)


def spelled(result: Sum) -> str:
    """A sum in one line: `24.2 h = formula; capacity 75 Ah, share 0.5, …`."""
    terms = ", ".join(f"{t.what} {plain(t.value, 3)} {t.unit}".rstrip() for t in result.terms)
    return f"{plain(result.value, 1)} {result.unit} = {result.formula}; {terms}"
