"""The alternator's budget: what it gives at idle and driving, what the vehicle and the additions take of it."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.energy.terms import Sum, Term
from buildspec.model import Alternator, Circuit, Resolved
from buildspec.network import isolation
from buildspec.show import percent
from buildspec.size import currents

ENGINE = ("idle", "driving")
WORDS = {"idle": "idling, hot", "driving": "driving"}
CONTROLLED_V, CONVENTIONAL_V = (12.0, 15.5), (13.5, 14.7)
"""At the start battery of a 12 V vehicle with the engine running, by kind; published service texts."""
DRAWING = ("load", "reserve", "coil", "module")


class Demand(NamedTuple):
    """What is added to the alternator while the engine runs [A]."""

    chargers: tuple[Term, ...]
    continuous: tuple[Term, ...]
    intermittent: tuple[Term, ...]

    @property
    def total_a(self) -> float:
        """Everything at once."""
        return sum(t.value for t in (*self.chargers, *self.continuous, *self.intermittent))


class Budget(NamedTuple):
    """One engine state. `remaining` is None where a figure is not known, and `missing` says which."""

    engine: str
    gives: Term | None
    own: Term | None
    demand: Demand
    remaining: Sum | None
    missing: tuple[str, ...]


def demand(build: Resolved) -> Demand:
    """Chargers at their largest input, and what hangs on the start side or is joined to it, at its worst."""
    amps = currents.design(build)
    nodes = isolation.joined_while_running(build)
    inputs = [c for c in build.circuits if c.kind == "charge-in" and c.source in nodes]
    chargers = tuple(
        Term(c.item, amps[c.key], "A", build.isolation[c.item].part.source, "spec") for c in inputs
    )
    continuous: list[Term] = []
    intermittent: list[Term] = []
    for circuit in build.circuits:
        if circuit.kind in DRAWING and amps[circuit.key] > 0 and behind(build, circuit) & nodes:
            term = Term(circuit.item, amps[circuit.key], "A", "worst of its working currents", "computed")
            (continuous if lasting(circuit) else intermittent).append(term)
    return Demand(chargers, tuple(continuous), tuple(intermittent))


def behind(build: Resolved, circuit: Circuit) -> set[str]:
    """Batteries that feed a circuit."""
    return currents.batteries_of(build, circuit.source)


def lasting(circuit: Circuit) -> bool:
    """A continuous load by its sheet; a reserve counts as one."""
    return circuit.load.continuous if circuit.load is not None else True


def budget(build: Resolved, engine: str) -> Budget | None:
    """What remains of the alternator in one engine state; None without an alternator."""
    alternator = build.vehicle.alternator
    if alternator is None:
        return None
    gives, own, added = given(alternator, engine), own_load(build, engine), demand(build)
    missing = tuple(
        words
        for term, words in (
            (gives, "its output at idle, hot"),
            (own, f"the vehicle's own load, {WORDS[engine]}"),
        )
        if term is None
    )
    if gives is None or own is None:
        return Budget(engine, gives, own, added, None, missing)
    terms = (gives, own, *added.chargers, *added.continuous, *added.intermittent)
    value = gives.value - own.value - added.total_a
    formula = "output − the vehicle's own load − chargers − added loads"
    return Budget(engine, gives, own, added, Sum(value, "A", formula, terms, "arithmetic"), ())


def given(alternator: Alternator, engine: str) -> Term | None:
    """Output in an engine state: the nameplate while driving, what is stated for idle."""
    source = alternator.source or "as written in the spec"
    if engine == "driving":
        return Term("nameplate of the alternator", alternator.rated_a, "A", source, "spec")
    if alternator.idle_a is None:
        return None
    return Term("output of the alternator at idle, hot", alternator.idle_a, "A", source, "spec")


def own_load(build: Resolved, engine: str) -> Term | None:
    amps = build.vehicle.own_a.get(engine)
    if amps is None:
        return None
    source = build.vehicle.own_source or "as written in the spec"
    return Term(f"the vehicle's own load, {WORDS[engine]}", amps, "A", source, "spec")


def allowance(build: Resolved, alternator: Alternator) -> tuple[float, str]:
    """What may be taken [A], and who says so."""
    if alternator.allowance_a is not None:
        return alternator.allowance_a, alternator.source or "as written"
    share = build.practice.alternator_share
    return alternator.rated_a * share, f"practice, {percent(share)} of the rating"


def highest_v(build: Resolved, alternator: Alternator) -> tuple[float, str]:
    """The most that an alternator charges with [V], and who says so."""
    if alternator.voltage_v is not None:
        return alternator.voltage_v, alternator.source or "as written"
    controlled = alternator.controlled
    _, top_v = CONTROLLED_V if controlled else CONVENTIONAL_V
    kind = "a controlled alternator" if controlled else "a conventional one"
    volts = top_v * build.practice.nominal_v / 12.0
    return volts, f"usual for {kind}, published service texts; none is stated"


def input_share(build: Resolved) -> Term | None:
    """Share of the chargers' input that the alternator leaves them while driving; None where not known."""
    found = budget(build, "driving")
    if found is None or found.remaining is None:
        return None
    inputs = sum(t.value for t in found.demand.chargers)
    if not inputs:
        return None
    share = min(1.0, max(0.0, (found.remaining.value + inputs) / inputs))
    return Term(
        "share of its input that the alternator leaves", share, "", "alternator budget, driving", "computed"
    )
