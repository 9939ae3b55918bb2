"""The answer to a bench question, from the engine that sizes whole builds: one battery, one run, one load."""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from typing import Any, NamedTuple

from buildspec import layers, model, resolve, size
from buildspec.bench.question import Question, own_conductors
from buildspec.figures import Decision
from buildspec.findings import Severity
from buildspec.size import conductors, currents, devices, loom
from buildspec.size.conductors import Case, Limit

RULES = (
    "below_ampacity_table", "conductor_below_minimum", "excessive_voltage_drop", "fuse_not_made",
    "fuse_voltage_too_low", "holder_overloaded", "overloaded_fuse", "undersized_conductor",
    "voltage_drop_close_to_limit",
)  # fmt: skip
"""The rules that one circuit on a bench can break; the others need the vehicle around it."""
LOAD, OTHERS = "load", "others"


UNREASONED = model.Reason("", 0.0, "", "")


class Fault(NamedTuple):
    """A rule that does not hold, in the words of the rule."""

    rule: str
    severity: Severity
    message: str
    help: str


class Tried(NamedTuple):
    """Another conductor for the same circuit."""

    conductor: model.Conductor
    limits: tuple[Limit, ...]
    drop_v: float


class Answer(NamedTuple):
    """One circuit sized or checked, with what its neighbours in stock would give."""

    build: model.Resolved
    circuit: model.Circuit
    sizing: model.Sizing
    limits: tuple[Limit, ...]
    share: float
    """Of its rating that the load may use of the protective device."""
    smaller: Tried | None
    larger: Tried | None
    faults: tuple[Fault, ...]

    @property
    def passes(self) -> bool:
        return all(fault.severity != "error" for fault in self.faults)


def answer(asked: Question) -> Answer:
    """Sized by the engine of a whole build; what is written is checked and not chosen."""
    build = resolved(asked)
    amps = currents.design(build)
    bench = size.Bench(build, amps, devices.choose(build, amps), loom.loaded(build, amps))
    sizings = size.proposed(bench)
    sizing, circuit = sizings[LOAD], build.circuits[0]
    stretch = loom.hottest(build, circuit, bench.bundles, amps[LOAD])
    case = Case(build, circuit, amps[LOAD], sizing.devices, stretch, 0.0, 0.0)
    below, above = neighbours(build, sizing.conductor)
    return Answer(
        build=build,
        circuit=circuit,
        sizing=sizing,
        limits=tuple(conductors.limits(case, sizing.conductor)),
        share=devices.share(build, circuit, circuit.protections[0]),
        smaller=tried(case, below),
        larger=tried(case, above),
        faults=tuple(faults(model.Sized(build, sizings, {}))),
    )


def free(asked: Question) -> Question:
    """The same question with wire and fuse to be chosen."""
    stock = {"conductors": "awg"} if in_gauges(asked) else {}
    return asked._replace(wire=None, fuse=None, practice={**asked.practice, **stock})


def in_gauges(asked: Question) -> bool:
    """A gauge that is written asks for stock in gauges, unless the shop's practice has a stock."""
    return asked.wire is not None and asked.wire.system == "awg" and not asked.practice


def resolved(asked: Question) -> model.Resolved:
    """A build of one circuit whose conductors are exactly as long as asked."""
    build, found = resolve.resolve(spec(asked), as_asked(asked), {})
    assert build is not None, found
    shop = build.practice._replace(
        battery_families=build.practice.fuse_families, sources=sources(asked, build.practice)
    )
    load = next(c for c in build.circuits if c.key == LOAD)
    metres = asked.length.value
    cut = load._replace(
        feeds=(load.feeds[-1]._replace(cut_m=metres),),
        returns=tuple(w._replace(cut_m=metres) for w in load.returns),
    )
    return build._replace(practice=shop, circuits=(cut, *company(cut, asked)))


def company(load: model.Circuit, asked: Question) -> tuple[model.Circuit, ...]:
    """Another circuit whose conductors fill the loom up to the number that is asked."""
    others = (asked.bundle or 0) - own_conductors(asked.back)
    if others <= 0:
        return ()
    wires = tuple(load.feeds[0]._replace(key=f"{OTHERS}/{n}") for n in range(others))
    at = ("accessories", OTHERS)
    return (
        load._replace(
            key=OTHERS, item=OTHERS, target=OTHERS, feeds=wires, returns=(), body_return=True, at=at
        ),
    )


def spec(asked: Question) -> dict[str, Any]:
    """The spec that the question amounts to."""
    accessory: dict[str, Any] = {
        "at": "far-end",
        "fed_from": "source",
        "return": "minus" if asked.back == "own" else "body",
        "electrical": {
            "model": "constant-current", "worst": asked.load.text, "continuous": asked.continuous,
            "drop": asked.drop_class,
        },
    }  # fmt: skip
    accessory |= {"wire": asked.wire.text} if asked.wire else {}
    accessory |= {"fuse": {"rating": asked.fuse.text}} if asked.fuse else {}
    return {
        "buildspec": 1,
        "job": {"number": "-", "title": "-", "revision": "A", "date": "2000-01-01", "owner": {"name": "-"}},
        "vehicle": {"description": "bench", "system": asked.system.text},
        "places": {name: {"environment": asked.place} for name in ("near-end", "far-end")},
        "runs": [{"between": ["near-end", "far-end"], "length": asked.length.text}],
        "grounds": {"stud": {"at": "near-end"}, "minus": {"at": "near-end", "post_of": "source"}},
        "batteries": {"source": {"chemistry": "flooded", "capacity": "100 Ah", "at": "near-end", "role": "house"}},
        "accessories": {LOAD: accessory},
    }  # fmt: skip


def as_asked(asked: Question) -> Decision:
    """The figures of the question: what is asked for stands, laxer or not, and the answer says so."""
    return layers.of_practice(practice(asked))._replace(faults=())


def practice(asked: Question) -> dict[str, Any]:
    """The shop's practice with what the question overrides."""
    raw = {**asked.practice, **({"conductors": "awg"} if in_gauges(asked) else {})}
    if asked.drop is not None:
        raw["drop_limit"] = {**raw.get("drop_limit", {}), asked.drop_class: asked.drop.text}
    if asked.insulation_c is not None:
        raw["insulation"] = asked.insulation_c
    return raw


def sources(asked: Question, shop: model.Practice) -> dict[str, str]:
    asked_for = {"drop_limit": asked.drop is not None, "insulation": asked.insulation_c is not None}
    return {**shop.sources, **{key: "as asked" for key, given in asked_for.items() if given}}


def neighbours(
    build: model.Resolved, chosen: model.Conductor
) -> tuple[model.Conductor | None, model.Conductor | None]:
    """The next smaller and the next larger size in stock."""
    sizes = build.practice.sizes
    below = [c for c in sizes if c.area_mm2 < chosen.area_mm2 * 0.995]
    above = [c for c in sizes if c.area_mm2 > chosen.area_mm2 * 1.005]
    return below[-1] if below else None, above[0] if above else None


def tried(case: Case, conductor: model.Conductor | None) -> Tried | None:
    if conductor is None:
        return None
    drop_v = conductors.sizing(case, conductor, UNREASONED).drop_v
    return Tried(conductor, tuple(conductors.limits(case, conductor)), drop_v)


def faults(sized: model.Sized) -> Iterator[Fault]:
    for name in RULES:
        rule = importlib.import_module(f"buildspec.rules.{name}")
        for finding in rule.check(sized):
            if OTHERS in finding.at:
                continue
            yield Fault(name.replace("_", "-"), rule.SEVERITY, finding.message, finding.help)
