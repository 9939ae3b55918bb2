"""The solver against ngspice, against scipy, and against sums that anybody can follow."""

from __future__ import annotations

import random

import numpy
import pytest
import scipy.linalg

from buildspec.network.elements import BODY, Collapse, Current, Network, Power, Resistor, Solution, Source
from buildspec.network.solve import solve
from network import spice


def random_network(seed: int, *, nodes: int = 14, power: bool = True) -> Network:
    """A vehicle-like network: two batteries, a tree of conductors with a few loops, loads at the leaves."""
    dice = random.Random(seed)
    names = [f"p{i}" for i in range(nodes)]
    resistors = [
        Resistor(f"w{i}", names[dice.randrange(i)], names[i], dice.uniform(0.001, 0.08))
        for i in range(1, nodes)
    ]
    resistors += [
        Resistor(f"x{i}", *dice.sample(names, 2), dice.uniform(0.005, 0.1)) for i in range(dice.randrange(4))
    ]
    sources = (Source("start", "p0", BODY, dice.uniform(11.8, 14.4), dice.uniform(0.004, 0.02)),
               Source("house", names[nodes // 2], BODY, dice.uniform(11.8, 14.4), dice.uniform(0.004, 0.02)))  # fmt: skip
    leaves = dice.sample(names[1:], 6)
    currents = tuple(Current(f"c{i}", n, BODY, dice.uniform(0.2, 8)) for i, n in enumerate(leaves[:3]))
    powers = (
        tuple(Power(f"p{i}", n, BODY, dice.uniform(5, 60)) for i, n in enumerate(leaves[3:])) if power else ()
    )
    return Network(tuple(resistors), sources, currents, powers)


@pytest.mark.parametrize("seed", range(40))
def test_agrees_with_ngspice(seed: int) -> None:
    network = random_network(seed)
    mine = solve(network)
    assert isinstance(mine, Solution)
    volts, amps = spice.operating_point(network)
    for node, value in volts.items():
        assert mine.volts[node] == pytest.approx(value, rel=1e-3), node
    for source, value in zip(network.sources, amps, strict=True):
        assert mine.amps[source.key] == pytest.approx(value, rel=1e-3, abs=1e-6), source.key


@pytest.mark.parametrize("seed", range(20))
def test_linear_networks_agree_with_scipy(seed: int) -> None:
    network = random_network(seed, power=False)
    names = sorted({n for group in network for e in group for n in (e.a, e.b)} - {BODY})
    index = {name: i for i, name in enumerate(names)}
    matrix, right = numpy.zeros((len(names),) * 2), numpy.zeros(len(names))
    for element in (*network.resistors, *network.sources):
        for one, other in ((element.a, element.b), (element.b, element.a)):
            if one != BODY:
                matrix[index[one], index[one]] += 1 / element.ohm
                if other != BODY:
                    matrix[index[one], index[other]] -= 1 / element.ohm
    for source in network.sources:
        right[index[source.a]] += source.volts / source.ohm
    for load in network.currents:
        right[index[load.a]] -= load.amps
    expected = scipy.linalg.solve(matrix, right)
    mine = solve(network)
    assert isinstance(mine, Solution)
    for name, i in index.items():
        assert mine.volts[name] == pytest.approx(expected[i], rel=1e-8)


def test_a_divider_by_hand() -> None:
    # 12 V behind 0.1 ohm, 1.9 ohm of cable, 4 ohm of heater: 2 A, 8 V at the heater.
    made = solve(
        Network(
            (Resistor("w", "g", "e", 1.9), Resistor("e", "e", BODY, 4.0)),
            (Source("b", "g", BODY, 12.0, 0.1),),
            (),
            (),
        )
    )
    assert isinstance(made, Solution)
    assert made.volts["e"] == pytest.approx(8.0)
    assert made.amps["w"] == pytest.approx(2.0)


def test_constant_power_by_hand() -> None:
    # V² − 12 V + P R = 0 with P = 20 W, R = 1 ohm: V = 6 + sqrt(36 − 20) = 10 V.
    made = solve(Network((), (Source("b", "n", BODY, 12.0, 1.0),), (), (Power("p", "n", BODY, 20.0),)))
    assert isinstance(made, Solution)
    assert made.volts["n"] == pytest.approx(10.0, abs=1e-6)
    assert made.amps["p"] == pytest.approx(2.0, abs=1e-6)


def test_a_load_that_collapses_the_supply_is_said_so() -> None:
    # The most that 12 V behind 1 ohm can give is 36 W (maximum power transfer, V²/4R).
    just = solve(Network((), (Source("b", "n", BODY, 12.0, 1.0),), (), (Power("p", "n", BODY, 35.9),)))
    over = solve(Network((), (Source("b", "n", BODY, 12.0, 1.0),), (), (Power("p", "n", BODY, 36.1),)))
    assert isinstance(just, Solution)
    assert isinstance(over, Collapse) and over.worst == "p"


def test_currents_balance_at_every_node() -> None:
    network = random_network(99)
    made = solve(network)
    assert isinstance(made, Solution)
    balance: dict[str, float] = {}
    for group in network:
        for element in group:
            balance[element.a] = balance.get(element.a, 0.0) - made.amps[element.key]
            balance[element.b] = balance.get(element.b, 0.0) + made.amps[element.key]
    assert max(abs(v) for node, v in balance.items() if node != BODY) < 1e-6


def test_a_conductor_without_resistance_is_refused() -> None:
    with pytest.raises(ValueError, match="w has no resistance"):
        solve(Network((Resistor("w", "g", BODY, 0.0),), (Source("b", "g", BODY, 12.0, 0.1),), (), ()))


def test_what_hangs_in_the_air_on_thick_copper_has_no_voltage_and_moves_nothing() -> None:
    """Half a leak beside 1e7 siemens is below the last digit of a float: the rounded matrix is singular."""
    air = tuple(Resistor(f"w{i}", f"n{i}", f"n{i + 1}", 1e-7) for i in range(3))
    load = Current("load", "plus", BODY, 2.0)
    found = solve(Network(air, (Source("start", "plus", BODY, 12.0, 0.01),), (load,), ()))
    assert isinstance(found, Solution)
    assert [found.volts[f"n{i}"] for i in range(4)] == [0.0] * 4
    assert found.volts["plus"] == pytest.approx(12.0 - 2.0 * 0.01)
