"""Whole builds against ngspice and scipy: the examples and generated ones, in every mode, everything on."""

from __future__ import annotations

import functools
import pathlib

import generated
import numpy
import pytest
import scipy.linalg

from buildspec import pipeline
from buildspec.model import Circuit
from buildspec.network import build as made
from buildspec.network import states
from buildspec.network.build import Laid
from buildspec.network.elements import BODY, Current, Network, Power, Resistor, Solution, Source
from buildspec.network.solve import solve
from network import spice

EXAMPLES = {
    path.stem: path
    for path in sorted((pathlib.Path(__file__).parents[2] / "examples").glob("*/*.build.yaml"))
}
NAMES = [*EXAMPLES, *(f"generated {seed}" for seed in range(10))]


@functools.cache
def laid(name: str) -> Laid:
    if name in EXAMPLES:
        sized = pipeline.check_file(EXAMPLES[name]).build
        assert sized is not None
    else:
        sized = generated.checked(generated.spec(int(name.split()[1])))[0]
    return Laid(sized.build, sized.sizings)


def everything_on(of: Laid, mode: states.Mode) -> Network:
    """The network of a mode with every group on, its loads as constant currents."""
    network = made.network(of, mode)
    groups = made.loads(of, states.groups(of.build, mode))
    return network._replace(
        currents=(*network.currents, *(load for loads in groups.values() for load in loads))
    )


def by_power(of: Laid, network: Network) -> Network:
    """The same with every constant-power load as what it is."""
    circuits = {c.key: c for c in of.build.circuits}
    powers = [
        Power(c.key, c.a, c.b, watts * share)
        for c in network.currents
        for circuit, share in [whose(circuits, c)]
        if (watts := power_w(circuit, c))
    ]
    keys = {p.key for p in powers}
    return network._replace(
        currents=tuple(c for c in network.currents if c.key not in keys), powers=tuple(powers)
    )


def whose(circuits: dict[str, Circuit], drawn: Current) -> tuple[Circuit | None, float]:
    """The circuit of a load, and how much of it: one item of several on branches, or all of it."""
    name, _, number = drawn.key.rpartition(" ")
    circuit = circuits.get(name) if number.isdigit() else None
    return (circuits.get(drawn.key), 1.0) if circuit is None else (circuit, 1 / circuit.quantity)


def power_w(circuit: Circuit | None, drawn: Current) -> float:
    """Power of a constant-power load [W], 0 for any other."""
    load = circuit.load if circuit is not None else None
    if (
        circuit is None
        or load is None
        or load.model != "constant-power"
        or load.power_w is None
        or not drawn.amps
    ):
        return 0.0
    return load.power_w * circuit.quantity


def agrees(network: Network) -> None:
    mine = solve(network)
    assert isinstance(mine, Solution)
    volts, amps = spice.operating_point(network)
    for node, value in volts.items():
        assert mine.volts[node] == pytest.approx(value, rel=1e-3, abs=1e-6), node
    for source, value in zip(network.sources, amps, strict=True):
        assert mine.amps[source.key] == pytest.approx(value, rel=1e-3, abs=1e-5), source.key
    for r in network.resistors:
        across = volts.get(r.a, 0.0) - volts.get(r.b, 0.0)
        assert mine.amps[r.key] == pytest.approx(across / r.ohm, rel=1e-3, abs=1e-5), r.key


@pytest.mark.parametrize("name", NAMES)
def test_every_mode_agrees_with_ngspice(name: str) -> None:
    of = laid(name)
    for mode in states.modes(of.build):
        agrees(everything_on(of, mode))


@pytest.mark.parametrize("name", NAMES)
def test_constant_power_loads_agree_with_ngspice(name: str) -> None:
    of = laid(name)
    powered = [by_power(of, everything_on(of, mode)) for mode in states.modes(of.build)]
    for network in powered:
        if network.powers:
            agrees(network)


def test_there_are_builds_with_constant_power_loads() -> None:
    with_power = [
        name
        for name in NAMES
        if by_power(laid(name), everything_on(laid(name), states.modes(laid(name).build)[0])).powers
    ]
    assert len(with_power) >= 5


@pytest.mark.parametrize("name", NAMES)
def test_every_mode_agrees_with_scipy(name: str) -> None:
    of = laid(name)
    for mode in states.modes(of.build):
        network = everything_on(of, mode)
        mine = solve(network)
        assert isinstance(mine, Solution)
        for node, value in by_scipy(network).items():
            assert mine.volts[node] == pytest.approx(value, rel=1e-6, abs=1e-6), node


def by_scipy(network: Network) -> dict[str, float]:
    """Node voltages by a dense solution of the nodal equations."""
    names = sorted({n for group in network for e in group for n in (e.a, e.b)} - {BODY})
    index = {name: i for i, name in enumerate(names)}
    matrix, right = numpy.zeros((len(names),) * 2), numpy.zeros(len(names))
    matrix[numpy.diag_indices(len(names))] += 1e-12
    wired: list[Resistor | Source] = [*network.resistors, *network.sources]
    for element in wired:
        for one, other in ((element.a, element.b), (element.b, element.a)):
            if one != BODY:
                matrix[index[one], index[one]] += 1 / element.ohm
                if other != BODY:
                    matrix[index[one], index[other]] -= 1 / element.ohm
    injected = [(s.a, s.b, s.volts / s.ohm) for s in network.sources] + [
        (c.a, c.b, -c.amps) for c in network.currents
    ]
    for into, out_of, amps in injected:
        if into != BODY:
            right[index[into]] += amps
        if out_of != BODY:
            right[index[out_of]] -= amps
    found = scipy.linalg.solve(matrix, right)
    return {name: float(found[i]) for name, i in index.items()}
