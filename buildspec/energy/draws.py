"""What takes current from a battery while the vehicle stands, in the mean over a usual day."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.calc import charge
from buildspec.model import Accessory, Battery, Circuit, Resolved
from buildspec.size import currents

WITH_THE_KEY = ("ignition on", "engine on")
"""What works only then does not run while parked."""
DAY_H = 24.0


class Draw(NamedTuple):
    """What one item takes from a battery in the mean over a day."""

    item: str
    words: str
    running_a: float
    duty: float
    hours_per_day: float
    standby_a: float
    mean_a: float


def battery_behind(build: Resolved, node: str) -> str:
    """The battery that a node hangs on, through its feeders; `` where none does."""
    while node not in build.batteries:
        feeder = next((c for c in build.circuits if c.kind == "feeder" and c.target == node), None)
        if feeder is None:
            return ""
        node = feeder.source
    return node


def loads_on(build: Resolved, name: str) -> tuple[Circuit, ...]:
    """Circuits of accessories that hang on a battery, in order."""
    return tuple(
        c
        for c in build.circuits
        if c.kind == "load" and c.item in build.accessories and battery_behind(build, c.source) == name
    )


def draws_on(build: Resolved, name: str) -> tuple[Draw, ...]:
    """Everything that takes current from a battery while parked, largest first."""
    found = [draw_of(build, circuit) for circuit in loads_on(build, name)]
    found += [module_draw(build, panel) for panel in build.panels if battery_behind(build, panel) == name]
    return tuple(sorted((d for d in found if d.mean_a > 0), key=lambda d: (-d.mean_a, d.item)))


def draw_of(build: Resolved, circuit: Circuit) -> Draw:
    """Mean current of an accessory: running for its hours, on standby for the rest unless a contact cuts it."""
    item = build.accessories[circuit.item]
    load = circuit.load
    assert load is not None
    hours = 0.0 if item.works_when in WITH_THE_KEY else min(item.hours_per_day or 0.0, DAY_H)
    running = currents.typical(load, build.practice) * circuit.quantity
    standby = standby_a(build, circuit)
    taken = charge.daily_ah(current_a=running, hours=hours, duty=load.duty)
    taken += charge.daily_ah(current_a=standby, hours=DAY_H - hours, duty=1.0)
    return Draw(circuit.item, words_of(item), running, load.duty, hours, standby, taken / DAY_H)


def standby_a(build: Resolved, circuit: Circuit) -> float:
    """What an accessory draws while it is off [A]; nothing behind a contact."""
    item = build.accessories[circuit.item]
    if circuit.load is None or dead_when_off(item, circuit):
        return 0.0
    return circuit.load.standby_a * circuit.quantity


def dead_when_off(item: Accessory, circuit: Circuit) -> bool:
    """Nothing flows into it while it is off."""
    return bool(item.switch) or any(c.kind == "relay" for c in circuit.contacts)


def module_draw(build: Resolved, panel: str) -> Draw:
    part = build.panels[panel].part
    standby = part.electrical.standby_a if part.electrical else 0.0
    return Draw(panel, part.title, 0.0, 1.0, 0.0, standby, standby)


def words_of(item: Accessory) -> str:
    """Short name for people: its title up to the first comma."""
    return item.part.title.partition(",")[0]


def key_off_a(build: Resolved, item: Battery) -> float:
    """What the vehicle itself takes with the key off: from its start battery only [A]."""
    return build.vehicle.own_a.get("off", build.practice.key_off_a) if item.role == "start" else 0.0


def mean_a(build: Resolved, item: Battery) -> float:
    """Mean current of a usual day parked, the vehicle's own included [A]."""
    return sum(d.mean_a for d in draws_on(build, item.name)) + key_off_a(build, item)
