"""What holds for every build: more copper never hurts, more load never helps, and the network keeps its books.

Builds come from `generated.py`; the examples are the same on every run.
"""

from __future__ import annotations

import copy
import itertools
import random
from typing import Any

import generated
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from buildspec import model, size
from buildspec.bench import answer, question, reserve
from buildspec.calc import fuses
from buildspec.network import answers, states
from buildspec.network import build as made
from buildspec.network.build import Laid
from buildspec.network.elements import Current, Network, Solution
from buildspec.network.solve import solve
from buildspec.network.superpose import Spread, extreme, pair, spread, summed
from buildspec.rules import _sizing
from buildspec.size import currents

settings.register_profile(
    "always the same",
    derandomize=True,
    deadline=None,
    database=None,
    phases=[Phase.generate],
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("always the same")

MANY, FEW = settings(max_examples=40), settings(max_examples=12)
ROUNDING = 1e-8
SEEDS = st.integers(0, 5000)
LOADS = st.floats(0.2, 120).map(lambda a: f"{a:.2f} A")
LENGTHS = st.floats(0.2, 15).map(lambda m: f"{m:.2f} m")
PLACES = st.sampled_from(question.PLACES)
BUNDLES = st.integers(2, 30).map(str)
SIZES = tuple(f"{mm2} mm2" for mm2 in (1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120))
RATINGS = sorted({fuse.rating_a for family in fuses.families() for fuse in fuses.fuses(family)})
SIZING_RULES = {
    "below-ampacity-table", "conductor-below-minimum", "excessive-voltage-drop", "fuse-not-above-those-behind",
    "fuse-not-made", "fuse-too-far-from-source", "fuse-voltage-too-low", "overloaded-fuse", "undersized-conductor",
    "unprotected-conductor", "voltage-below-cut-out",
}  # fmt: skip


def ask(**words: Any) -> answer.Answer:
    usual: dict[str, Any] = {
        "system": "12 V",
        "drop": None,
        "class": "general",
        "place": "cabin",
        "bundle": None,
        "insulation": None,
    }
    usual |= {"practice": None, "continuous": True, "return": "own", "wire": None, "fuse": None}
    return answer.answer(question.question({**usual, **words}))


def broken(found: answer.Answer) -> set[str]:
    return {fault.rule for fault in found.faults if fault.severity == "error"}


def errors(data: dict[str, Any]) -> set[str]:
    return {d.rule for d in generated.checked(data)[1] if d.severity == "error"}


# ------------------------------------------------------------------------------------ one circuit


@MANY
@given(LOADS, LENGTHS, PLACES, BUNDLES)
def test_a_thicker_conductor_never_loses_more_nor_runs_hotter(
    load: str, length: str, place: str, bundle: str
) -> None:
    found = [ask(load=load, length=length, place=place, bundle=bundle, wire=wire).sizing for wire in SIZES]
    for thin, thick in itertools.pairwise(found):
        assert thick.drop_v < thin.drop_v
        assert thick.temp_c <= thin.temp_c


@MANY
@given(LOADS, LENGTHS, st.floats(1.0, 6.0), st.sampled_from(SIZES), st.sampled_from([1, 3, 5, 10]))
def test_a_longer_run_never_passes_where_a_shorter_one_failed(
    load: str, length: str, times: float, wire: str, drop: int
) -> None:
    longer = f"{float(length.removesuffix(' m')) * times:.2f} m"
    near, far = (ask(load=load, length=metres, wire=wire, drop=f"{drop} %") for metres in (length, longer))
    assert broken(near) <= broken(far)


@MANY
@given(
    LOADS, PLACES, BUNDLES, st.sampled_from(SIZES), st.lists(st.sampled_from(RATINGS), min_size=3, max_size=3)
)
def test_a_bigger_fuse_never_mends_an_overloaded_conductor(
    load: str, place: str, bundle: str, wire: str, ratings: list[float]
) -> None:
    words = {"load": load, "length": "1 m", "place": place, "bundle": bundle, "wire": wire}
    overloaded = [
        "undersized-conductor" in broken(ask(**words, fuse=f"{rating:g} A")) for rating in sorted(ratings)
    ]
    assert overloaded == sorted(overloaded)


@MANY
@given(LOADS, LENGTHS, PLACES, st.sampled_from(("critical", "general")), st.booleans())
def test_what_the_bench_chooses_passes_or_is_the_largest(
    load: str, length: str, place: str, kind: str, lasting: bool
) -> None:
    found = ask(load=load, length=length, place=place, continuous=lasting, **{"class": kind})
    assert found.passes or found.larger is None


# ------------------------------------------------------------------------------------ whole builds


@MANY
@given(SEEDS)
def test_every_build_sized_by_the_program_passes_its_own_sizing_rules(seed: int) -> None:
    assert errors(generated.spec(seed)) & SIZING_RULES == set()


@FEW
@given(SEEDS)
def test_where_no_stock_fits_a_finding_says_so_and_the_largest_size_stands(seed: int) -> None:
    data = stretched(generated.spec(seed), times=25)
    sized, found = generated.checked(data)
    largest = sized.build.practice.sizes[-1]
    lost = {d.path[1] for d in found if d.rule == "excessive-voltage-drop"}
    over = [
        c for c in sized.build.circuits if sized.sizings[c.key].drop_v > sized.sizings[c.key].drop_limit_v
    ]
    assert lost <= {c.item for c in over}
    assert bool(lost) is bool(over)
    assert all(sized.sizings[c.key].conductor == largest for c in over if c.item in lost)


def stretched(data: dict[str, Any], *, times: float) -> dict[str, Any]:
    runs = [
        {**run, "length": f"{float(run['length'].removesuffix(' m')) * times:.1f} m"} for run in data["runs"]
    ]
    return {**data, "runs": runs}


def thinned(sized: model.Sized, dice: random.Random) -> model.Resolved:
    """The build with the devices that it has and, here and there, conductors that are too thin."""
    laid = reserve.frozen(sized)
    stock = [c for c in laid.practice.sizes if c.awg is not None]
    thin = [
        c._replace(conductor=dice.choice(stock[:4]))
        if c.kind in ("load", "reserve", "feeder") and dice.random() < 0.5
        else c
        for c in laid.circuits
    ]
    return laid._replace(circuits=tuple(thin))


def failing(build: model.Resolved) -> set[tuple[str, str]]:
    """Circuits that lose too much, that overload their conductor or their device."""
    sized = size.size(build)
    found = set()
    for circuit, sizing in _sizing.circuits(sized):
        if circuit.kind in ("load", "reserve", "feeder"):
            needed = max([sizing.design_a, *(d.rating_a for d in sizing.devices)])
            found |= {("drop", circuit.key)} if sizing.drop_v > sizing.drop_limit_v else set()
            found |= (
                {("ampacity", circuit.key)}
                if sizing.ampacity and sizing.ampacity.corrected_a < needed
                else set()
            )
            found |= (
                {("device", circuit.key)}
                if any(sizing.design_a > d.rating_a for d in sizing.devices)
                else set()
            )
    return found


@FEW
@given(SEEDS, st.floats(1.0, 4.0))
def test_longer_conductors_never_remove_a_failure(seed: int, times: float) -> None:
    near = thinned(generated.checked(generated.spec(seed))[0], random.Random(seed))
    far = near._replace(circuits=tuple(longer(c, times) for c in near.circuits))
    assert failing(near) <= failing(far)


def longer(circuit: model.Circuit, times: float) -> model.Circuit:
    feeds, returns = (
        tuple(w._replace(cut_m=w.cut_m * times) for w in wires) for wires in (circuit.feeds, circuit.returns)
    )
    return circuit._replace(feeds=feeds, returns=returns)


@FEW
@given(SEEDS)
def test_one_more_load_never_removes_a_failure(seed: int) -> None:
    dice = random.Random(seed)
    whole = thinned(generated.checked(generated.spec(seed, generated.Shape(2, 2, 12)))[0], dice)
    added = dice.choice([c.key for c in whole.circuits if c.kind == "load"])
    before = whole._replace(circuits=tuple(c for c in whole.circuits if c.key != added))
    assert failing(before) <= failing(whole)
    kinds = {rule for rule, _ in reserve.broken(before)} & {"excessive-voltage-drop", "undersized-conductor"}
    assert kinds <= {rule for rule, _ in reserve.broken(whole)}


@FEW
@given(SEEDS)
def test_one_more_operating_state_never_makes_an_answer_better(seed: int) -> None:
    sized = generated.checked(generated.spec(seed))[0]
    laid = Laid(sized.build, sized.sizings)
    every = states.modes(sized.build)
    some = tuple(random.Random(seed).sample(every, k=max(1, len(every) // 2)))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(states, "modes", lambda _: some)
        fewer = answers.ask(laid)
    for key, found in answers.ask(laid).items():
        if key in fewer:
            before = fewer[key]
            assert found.drop_v >= before.drop_v - ROUNDING and found.amps >= before.amps - ROUNDING
            assert found.lowest_v <= before.lowest_v + ROUNDING


@FEW
@given(SEEDS, st.sampled_from(["start", "panel", "block"]), st.booleans())
def test_any_added_conductor_between_start_and_house_is_found(seed: int, to: str, turned: bool) -> None:
    data = generated.spec(seed, generated.Shape(1, 1, 3))
    ends = ["start", {"start": "house", "panel": "panel-0", "block": "block-0"}[to]]
    first, second = reversed(ends) if turned else ends
    fused = {"from": first, "to": second, "fuses": {first: {}, second: {}}}
    assert "start-joined-to-house" not in errors(data)
    assert "start-joined-to-house" in errors({**data, "conductors": {"bridge": fused}})
    assert "start-joined-to-house" in errors({**data, "conductors": {"bridge": {**fused, "existing": True}}})
    assert "start-joined-to-house" in errors(
        {
            **data,
            "blocks": {
                **data["blocks"],
                "block-0": {**data["blocks"]["block-0"], "fed_from": ["start", "house"]},
            },
        }
    )


@FEW
@given(SEEDS)
def test_any_missing_protective_device_is_found(seed: int) -> None:
    data = generated.spec(seed, generated.Shape(1, 2, 8))
    sized = generated.checked(data)[0]
    spots = [(part, name) for part in ("panels", "blocks") for name in data[part]]
    spots += [("accessories", name) for name, item in data["accessories"].items() if "fed_from" in item]
    dice = random.Random(seed)
    for part, name in dice.sample(spots, k=min(3, len(spots))):
        without = copy.deepcopy(data)
        without[part][name]["fuse"] = {"none": "forgotten"}
        bare, found = generated.checked(without)
        assert ("unprotected-conductor", name) in {(d.rule, *d.path[1:2]) for d in found} or guarded(
            bare, name
        ), (part, name)
    assert sized.build.circuits


def guarded(sized: model.Sized, name: str) -> bool:
    """Does the one device upstream protect the whole of a circuit without a device of its own?"""
    circuit = next(c for c in sized.build.circuits if c.item == name and c.kind in ("load", "feeder"))
    above = [c for c in sized.build.circuits if c.kind == "feeder" and c.target == circuit.source]
    amp = sized.sizings[circuit.key].ampacity
    devices = [d for c in above for d in sized.sizings[c.key].devices]
    return len(above) == 1 and amp is not None and bool(devices) and amp.corrected_a >= devices[0].rating_a


# ------------------------------------------------------------------------------------- the network


@FEW
@given(SEEDS)
def test_currents_of_the_network_are_the_sums_along_the_tree(seed: int) -> None:
    sized = generated.checked(generated.spec(seed))[0]
    sums = currents.design(sized.build)
    found = answers.ask(Laid(sized.build, sized.sizings))
    feeders = [c for c in sized.build.circuits if c.kind == "feeder"]
    assert feeders
    for circuit in feeders:
        assert found[circuit.key].amps == pytest.approx(sums[circuit.key], rel=1e-6, abs=1e-6), circuit.key


def laid_out(seed: int) -> tuple[Laid, tuple[tuple[Network, dict[str, tuple[Current, ...]]], ...]]:
    """The networks of a generated build, one a mode, and the loads of their groups."""
    sized = generated.checked(generated.spec(seed))[0]
    laid = Laid(sized.build, sized.sizings)
    return laid, tuple(
        (made.network(laid, m), made.loads(laid, states.groups(sized.build, m)))
        for m in states.modes(sized.build)
    )


def summed_up(found: Spread, node: str, on: list[str]) -> float:
    at = ((node, 1.0),)
    return (
        summed(found.base, at) + summed(found.steady, at) + sum(summed(found.added[name], at) for name in on)
    )


@FEW
@given(SEEDS)
def test_superposition_is_the_solution_and_no_combination_is_beyond_its_extremes(seed: int) -> None:
    dice = random.Random(seed)
    for network, groups in laid_out(seed)[1]:
        found = spread(network, groups)
        for on in (list(groups), [name for name in groups if dice.random() < 0.5]):
            loads = tuple(load for name in on for load in groups[name])
            solution = solve(network._replace(currents=(*network.currents, *loads)))
            assert isinstance(solution, Solution)
            for node in dice.sample(sorted(solution.volts), k=8):
                assert solution.volts[node] == pytest.approx(summed_up(found, node, on), abs=1e-7), node
            for r in dice.sample(network.resistors, k=8):
                across, terms = solution.volts[r.a] - solution.volts[r.b], pair(r.a, r.b)
                assert (
                    extreme(found, terms, sign=-1) - 1e-7 <= across <= extreme(found, terms, sign=1) + 1e-7
                ), r.key
