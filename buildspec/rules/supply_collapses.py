"""Constant-power loads ask for more than the supply can give: the voltage collapses.

What
----
In every state, with all that can be on, the network has a working point: each constant-power load gets its power.

Why
---
A device that keeps its power draws more current the lower its voltage. On a weak battery or a long thin cable
that lowers the voltage further, until nothing works. Ohm's law at the nominal current does not show it.

Bad
---
    accessories: {inverter: {at: bed, fed_from: house, wire: 2.5 mm2, fuse: {rating: 60 A},
          electrical: {model: constant-power, power: 600 W}}}

Good
----
    accessories: {inverter: {at: bed, fed_from: house, wire: 25 mm2, fuse: {rating: 80 A},
          electrical: {model: constant-power, power: 600 W}}}

Sources
-------
Maximum power transfer: a source of voltage E behind R gives at most E² / 4R. Solved by nodal analysis with
Newton's method.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import working
from buildspec.findings import Finding
from buildspec.model import Circuit, Sized
from buildspec.network import states
from buildspec.network.build import REGULATED_V

SEVERITY = "error"
SOURCES = ("arithmetic",)


def check(sized: Sized) -> Iterator[Finding]:
    if not may_collapse(sized):
        return
    reported: set[str] = set()
    for mode in states.modes(sized.build):
        found = working.collapse(sized, mode)
        if found is None:
            continue
        circuit = culprit(sized, mode, found.worst)
        if circuit.key not in reported:
            reported.add(circuit.key)
            yield Finding(
                circuit.at,
                f"`{circuit.item}` asks for {show.plain(watts(sized, circuit), 0)} W and the supply cannot give it: "
                "the voltage has no working point with everything on",
                "a larger conductor, a battery with a higher cranking rating, or less on at once",
                state=mode.name,
            )


def culprit(sized: Sized, mode: states.Mode, worst: str) -> Circuit:
    """The largest load without which the others work; else the one whose voltage fell furthest."""
    powered = [c for c in sized.build.circuits if c.load is not None and c.load.model == "constant-power"]
    for circuit in sorted(powered, key=lambda c: (-watts(sized, c), c.key)):
        if working.collapse(sized, mode, without=circuit.key) is None:
            return circuit
    return next(c for c in powered if c.key == worst)


def watts(sized: Sized, circuit: Circuit) -> float:
    assert circuit.load is not None
    return working.worst_w(circuit.load, sized.build.practice) * circuit.quantity


def may_collapse(sized: Sized) -> bool:
    """False where a working point is certain without solving for it.

    At the lowest voltage L of the practice all loads together leave V at the worst device. At a share s of L
    they draw at most 1 / s as much and leave at least E - (E - V) / s, with E the highest source: a working
    point exists as soon as that is s L or more for some s.
    """
    practice = sized.build.practice
    high, low = REGULATED_V * practice.nominal_v / 12, practice.lowest_v
    volts = [
        sized.sizings[c.key].lowest_v
        for c in sized.build.circuits
        if c.load is not None and c.load.model == "constant-power" and sized.sizings[c.key].lowest_in
    ]
    worst = min(volts, default=low)
    shares = (n / 20 for n in range(1, 21))
    return not any(high - (high - worst) / s >= s * low for s in shares)
