"""Stage 4: the smallest standard conductor and protective device that hold, with the reason kept.

Devices are chosen from the loads upwards, so that a feeder's device stands above those behind it;
conductors from the batteries downwards, so that each load knows the drop in what feeds it. That first
laying out is then put to the network in every operating state, and laid again with what the network
says, until nothing moves. Nothing is made to fit: where no size does, the largest one stands and the rules
say what is wrong.
"""

from __future__ import annotations

from typing import NamedTuple

from buildspec import branches, model
from buildspec.network import answers, faults
from buildspec.network.answers import Answer
from buildspec.network.build import Laid
from buildspec.size import bonds, conductors, currents, devices, loom, order

PASSES = 3
"""A battery's negative follows its positives and takes its share of every drop: settled in three rounds."""
ROUNDS = 8
"""Conductors only grow from round to round, so the layout settles; most builds need two."""


class Bench(NamedTuple):
    """What stays the same while conductors are tried."""

    build: model.Resolved
    amps: dict[str, float]
    fitted: dict[str, tuple[model.Device, ...]]
    bundles: dict[str, int]


def size(build: model.Resolved) -> model.Sized:
    """Every circuit of a build with conductor, devices, drop and reason."""
    amps = currents.design(build)
    bench = Bench(build, amps, devices.choose(build, amps), loom.loaded(build, amps))
    sizings, found = confirmed(bench, proposed(bench))
    shown = {key: with_answer(sizing, found.get(key)) for key, sizing in sizings.items()}
    shorts = faults.of(Laid(build, shown))
    whole = devices.with_prospective(build, shown, shorts)
    return model.Sized(build, whole, currents.node_totals(build, amps), shorts)


def proposed(bench: Bench) -> dict[str, model.Sizing]:
    """A first layout from sums along the tree of feeders."""
    sizings: dict[str, model.Sizing] = {}
    for _ in range(PASSES):
        negative = bonds.drops(bench.build, sizings, bench.amps)
        sizings = lay(bench, bonds.floors(bench.build, sizings), negative, {}, {})
    return sizings


def confirmed(
    bench: Bench, sizings: dict[str, model.Sizing]
) -> tuple[dict[str, model.Sizing], dict[str, Answer]]:
    """The layout that the network confirms in every state, and what it answers for it."""
    found = answers.ask(Laid(bench.build, sizings))
    for _ in range(ROUNDS):
        shared = shared_drops(bench.build, sizings, found)
        grown = {key: sizing.conductor.area_mm2 for key, sizing in sizings.items()}
        again = lay(bench, bonds.floors(bench.build, sizings), {}, shared, grown)
        same = all(again[key].conductor == sizing.conductor for key, sizing in sizings.items())
        sizings = again
        if same:
            break
        found = answers.ask(Laid(bench.build, sizings))
    return sizings, found


def shared_drops(
    build: model.Resolved, sizings: dict[str, model.Sizing], found: dict[str, Answer]
) -> dict[str, float]:
    """The part of each circuit's drop that others share with it [V]: feeders, studs, the battery's negative."""
    behind = {c.source: sizings[c.key].own_drop_v for c in build.circuits if c.kind == "branch"}
    return {
        key: max(0.0, answer.drop_v - sizings[key].own_drop_v - behind.get(key, 0.0))
        for key, answer in found.items()
        if answer.drop_v > 0
    }


def with_answer(sizing: model.Sizing, answer: Answer | None) -> model.Sizing:
    if answer is None:
        return sizing
    return sizing._replace(state=answer.drop_in, lowest_v=answer.lowest_v, lowest_in=answer.lowest_in)


def lay(
    bench: Bench,
    floors: dict[str, float],
    negative: dict[str, float],
    shared: dict[str, float],
    grown: dict[str, float],
) -> dict[str, model.Sizing]:
    """Conductors of every circuit.

    `floors`: bond key → least area [mm²]; `negative`: battery → drop in its negative [V]; `shared`: circuit
    key → drop in front of it as the network has it [V]; `grown`: circuit key → area that it has already [mm²].
    """
    sizings: dict[str, model.Sizing] = {}
    node_drop = dict(negative)
    for circuit in (c for c in order.downwards(bench.build) if c.kind != "branch"):
        front_v = shared.get(circuit.key, node_drop.get(circuit.source, 0.0))
        case = case_of(bench, circuit, front_v)._replace(
            least_mm2=floors.get(circuit.key, 0.0), grown_mm2=grown.get(circuit.key, 0.0)
        )
        branch = branches.of(bench.build, circuit)
        if branch is None:
            sizings[circuit.key] = conductors.choose(case)
        else:
            sizings |= with_branches(case, behind_trunk(bench, case, branch, grown.get(branch.key, 0.0)))
        if circuit.kind == "feeder":
            drop_v = sizings[circuit.key].drop_v
            node_drop[circuit.target] = max(drop_v, node_drop.get(circuit.target, 0.0))
    return {circuit.key: sizings[circuit.key] for circuit in bench.build.circuits}


def case_of(bench: Bench, circuit: model.Circuit, upstream_v: float) -> conductors.Case:
    return conductors.Case(
        build=bench.build,
        circuit=circuit,
        design_a=bench.amps[circuit.key],
        devices=bench.fitted[circuit.key],
        guard=devices.upstream(bench.build, bench.fitted, circuit),
        stretch=loom.hottest(bench.build, circuit, bench.bundles, bench.amps[circuit.key]),
        upstream_v=upstream_v,
        least_mm2=0.0,
    )


def behind_trunk(
    bench: Bench, trunk: conductors.Case, branch: model.Circuit, grown_mm2: float
) -> conductors.Case:
    """Branches before their trunk is laid: of what is left they may lose what they would in the trunk's own size.

    So one size for both holds wherever one does, and each is then the smallest for its part.
    """
    case = case_of(bench, branch, trunk.upstream_v)._replace(grown_mm2=grown_mm2)
    if trunk.circuit.conductor is not None:
        return case._replace(upstream_v=trunk.upstream_v + conductors.choose(trunk).own_drop_v)
    joints_v = trunk.design_a * conductors.fixed_ohm(bench.build, trunk.circuit)
    ahead, own = (one.design_a * branches.loop_m(one.circuit) for one in (trunk, case))
    share = own / (ahead + own) if own else 1.0
    return case._replace(upstream_v=trunk.upstream_v + joints_v, branch_share=share)


def with_branches(trunk: conductors.Case, branch: conductors.Case) -> dict[str, model.Sizing]:
    """Branches, then the trunk with what they lose; both print the drop at the worst item."""
    links = conductors.choose(branch)
    whole = conductors.choose(trunk._replace(upstream_v=trunk.upstream_v + links.own_drop_v))
    return {
        trunk.circuit.key: whole,
        branch.circuit.key: links._replace(drop_v=whole.drop_v, volts_at_load=whole.volts_at_load),
    }
