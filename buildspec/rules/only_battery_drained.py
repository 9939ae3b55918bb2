"""Something that runs by itself empties the only battery of the vehicle.

What
----
In a build without a house battery, what hangs on a start battery without a key, an ignition relay or a cut-off, and
is no outlet, draws at most the key-off current of the practice on average (`key_off_current`). Its usual current
times its duty and its hours a day counts, 24 h where none are written. The finding prints the hours to half.

Why
---
A fridge works while nobody is there. Without a second battery or a cut-off the engine does not start the next
morning.

Bad
---
    batteries: {start: {chemistry: flooded, capacity: 80 Ah, at: engine-bay}}
    accessories:
      fridge: {at: load-bed, fed_from: start, electrical: {model: motor, typical: 4 A, worst: 8 A, duty: 40 %}}

Good
----
    batteries: {start: {chemistry: flooded, capacity: 80 Ah, at: engine-bay}}
    accessories:
      fridge:
        at: load-bed
        fed_from: start
        electrical: {model: motor, typical: 4 A, worst: 8 A, duty: 40 %}
        cut_off: {opens_at: 12.2 V, closes_at: 13.1 V, delay: 60 s}

Sources
-------
Arithmetic: standing time is capacity times allowed depth over current.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.energy import cut_offs
from buildspec.findings import Finding
from buildspec.model import Circuit, Resolved, Sized
from buildspec.network import isolation, states
from buildspec.size import currents

SEVERITY = "error"
SOURCES = ("arithmetic",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    if isolation.side(build, "house"):
        return
    cut = {circuit.key for one in cut_offs.disconnects(sized) for circuit in cut_offs.loads(sized, one)}
    for start in isolation.side(build, "start"):
        trait = build.batteries[start].part.battery
        for circuit in by_themselves(build, start):
            amps = mean_a(build, circuit)
            if circuit.key not in cut and trait is not None and amps > build.practice.key_off_a:
                yield fault(sized, circuit, start, trait.capacity_ah, amps)


def by_themselves(build: Resolved, start: str) -> Iterator[Circuit]:
    """Loads behind a battery that nobody switches on."""
    for feed in (c for c in build.circuits if c.source == start):
        for circuit in isolation.loads_behind(build, feed):
            item = build.accessories.get(circuit.item)
            switched = (
                item is None
                or item.switch
                or item.trigger
                or item.part.category == "outlet"
                or item.part.outlet
            )
            held = states.held(build, circuit.source) != "any"
            if not (switched or held) and not any(contact.kind == "switch" for contact in circuit.contacts):
                yield circuit


def mean_a(build: Resolved, circuit: Circuit) -> float:
    """Mean current over a day [A]; all day where nobody says for how many hours."""
    assert circuit.load is not None
    hours = build.accessories[circuit.item].hours_per_day
    share = 1.0 if hours is None else min(hours, 24.0) / 24.0
    return currents.typical(circuit.load, build.practice) * circuit.quantity * circuit.load.duty * share


def fault(sized: Sized, circuit: Circuit, start: str, capacity_ah: float, amps: float) -> Finding:
    limit = sized.build.practice.key_off_a
    hours = cells.days_standing(capacity_ah=capacity_ah, depth=0.5, current_a=amps) * 24
    return Finding(
        circuit.at,
        f"`{circuit.item}` takes {show.amps(amps)} on average from `{start}`, the only battery, while parked; "
        f"{show.amps(limit)} allowed (practice, `key_off_current`); {capacity_ah:g} Ah is half gone in {hours:.0f} h",
        "`cut_off:` that opens while the engine still starts, a relay held by an ignition signal, or a house battery",
    )
