"""Stage 4: the smallest standard conductor and protective device that hold, with the reason kept.

Devices are chosen from the loads upwards, so that a feeder's device stands above those behind it;
conductors from the batteries downwards, so that each load knows the drop in what feeds it. Nothing
is made to fit: where no size does, the largest one stands and the rules say what is wrong.
"""

from __future__ import annotations

from buildspec import model
from buildspec.size import bonds, conductors, currents, devices, loom, order

PASSES = 3
"""A battery's negative follows its positives and takes its share of every drop: settled in three rounds."""


def size(build: model.Resolved) -> model.Sized:
    """Every circuit of a build with conductor, devices, drop and reason."""
    amps = currents.design(build)
    nodes = currents.node_totals(build, amps)
    fitted = devices.choose(build, amps)
    bundles = loom.loaded(build, amps)
    sizings: dict[str, model.Sizing] = {}
    for _ in range(PASSES):
        floors, negative = bonds.floors(build, sizings), bonds.drops(build, sizings, amps)
        sizings = lay(build, amps, fitted, bundles, floors, negative)
    return model.Sized(build, devices.with_prospective(build, sizings), nodes)


def lay(
    build: model.Resolved,
    amps: dict[str, float],
    fitted: dict[str, tuple[model.Device, ...]],
    bundles: dict[str, int],
    floors: dict[str, float],
    negative: dict[str, float],
) -> dict[str, model.Sizing]:
    """Conductors of every circuit.

    `floors`: bond key → least area [mm²]; `negative`: battery → drop in its negative [V].
    """
    sizings: dict[str, model.Sizing] = {}
    node_drop = dict(negative)
    for circuit in order.downwards(build):
        case = conductors.Case(
            build=build,
            circuit=circuit,
            design_a=amps[circuit.key],
            devices=fitted[circuit.key],
            bundles=bundles,
            upstream_v=node_drop.get(circuit.source, 0.0),
            least_mm2=floors.get(circuit.key, 0.0),
        )
        sizing = conductors.choose(case)
        sizings[circuit.key] = sizing
        if circuit.kind == "feeder":
            node_drop[circuit.target] = max(sizing.drop_v, node_drop.get(circuit.target, 0.0))
    return {circuit.key: sizings[circuit.key] for circuit in build.circuits}
