"""The circle round a bundle: against exact positions, a searched packing, and what must hold for any wires."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from buildspec.calc import bundle

diameter = st.floats(min_value=1.0, max_value=20.0)
wires = st.lists(diameter, min_size=1, max_size=40)


def ring(count, *, radius=None, middle=False):
    """Centres of circles of diameter 1 that touch their neighbours on a ring."""
    r = 0.5 / math.sin(math.pi / count) if radius is None else radius
    turns = [2 * math.pi * n / count for n in range(count)]
    return [*((r * math.cos(a), r * math.sin(a)) for a in turns), *([(0.0, 0.0)] if middle else [])]


LAID = {
    2: ring(2),
    3: ring(3),
    4: ring(4),
    5: ring(5),
    6: ring(5, radius=1.0, middle=True),
    7: ring(6, middle=True),
}
"""Count → centres of the best packing: 2 to 5 on a ring, 6 and 7 round one in the middle."""


@pytest.mark.parametrize("count", LAID)
def test_equal_wires_laid_out_by_hand(count):
    centres = LAID[count]
    assert len(centres) == count
    assert all(math.dist(a, b) >= 1 - 1e-9 for a, b in itertools.combinations(centres, 2))
    assert bundle.bundle([1.0] * count).diameter_mm == pytest.approx(
        2 * max(math.hypot(*c) for c in centres) + 1
    )


@given(diameter, diameter)
def test_two_wires_lie_side_by_side(one, other):
    assert bundle.bundle([one, other]).diameter_mm == pytest.approx(one + other)


def packed_mm(diameters, *, starts, seed):
    """The smallest circle that a search finds: a packing that exists, so never below the true one."""
    radii, best = np.array(diameters) / 2, math.inf
    draw = np.random.default_rng(seed)
    pairs = list(itertools.combinations(range(len(radii)), 2))

    def room(v):
        x, y = v[: len(radii)], v[len(radii) : -1]
        apart = [math.hypot(x[i] - x[j], y[i] - y[j]) - radii[i] - radii[j] for i, j in pairs]
        return np.array([*apart, *(v[-1] - np.hypot(x, y) - radii)])

    for _ in range(starts):
        guess = np.append(draw.normal(scale=2 * radii.max(), size=2 * len(radii)), 4 * radii.sum())
        found = minimize(lambda v: v[-1], guess, constraints=[{"type": "ineq", "fun": room}], method="SLSQP")
        if found.success and room(found.x).min() > -1e-6:
            best = min(best, 2 * float(found.x[-1]))
    return best


@pytest.mark.parametrize("seed", range(8))
def test_three_wires_against_a_searched_packing(seed):
    diameters = list(np.random.default_rng(seed).uniform(1.0, 4.0, size=3))
    assert bundle.bundle(diameters).diameter_mm == pytest.approx(
        packed_mm(diameters, starts=8, seed=seed), rel=1e-4
    )


@pytest.mark.parametrize("seed", range(12))
def test_up_to_eight_unequal_wires_are_at_most_3_percent_above_the_estimate(seed):
    draw = np.random.default_rng(seed)
    diameters = list(draw.uniform(1.0, draw.choice([1.5, 3.0, 6.0]), size=int(draw.integers(4, 9))))
    assert bundle.bundle(diameters).diameter_mm >= 0.97 * packed_mm(diameters, starts=6, seed=seed)


@given(wires)
def test_no_bundle_is_smaller_than_its_two_largest_or_its_own_area(diameters):
    found = bundle.bundle(diameters).diameter_mm
    assert found >= sum(sorted(diameters)[-2:]) * (1 - 1e-12)
    assert found**2 >= sum(d * d for d in diameters) * (1 - 1e-12)


@given(st.integers(min_value=2, max_value=200))
def test_equal_wires_are_never_denser_than_a_hexagonal_heap(count):
    """π/(2√3), the density of the hexagonal lattice."""
    assert count / bundle.bundle([1.0] * count).diameter_mm ** 2 <= math.pi / (2 * math.sqrt(3))


@given(wires, diameter)
def test_one_more_wire_never_makes_it_thinner(diameters, more):
    found = bundle.bundle([*diameters, more]).diameter_mm
    assert found >= bundle.bundle(diameters).diameter_mm * (1 - 1e-12)


@given(wires, st.floats(min_value=1.0, max_value=2.0))
def test_a_thicker_wire_never_makes_it_thinner(diameters, times):
    thicker = [diameters[0] * times, *diameters[1:]]
    assert bundle.bundle(thicker).diameter_mm >= bundle.bundle(diameters).diameter_mm * (1 - 1e-12)


@given(wires, st.floats(min_value=0.1, max_value=10.0), st.randoms())
def test_scale_and_order_do_not_matter(diameters, scale, random):
    shuffled = [d * scale for d in diameters]
    random.shuffle(shuffled)
    assert bundle.bundle(shuffled).diameter_mm == pytest.approx(scale * bundle.bundle(diameters).diameter_mm)


@given(wires)
def test_what_fills_a_conduit_to_its_share_goes_in(diameters):
    inside = bundle.conduit_inside_mm(diameters)
    share = {1: 0.53, 2: 0.31}.get(len(diameters), 0.40)
    assert sum(d * d for d in diameters) / inside**2 == pytest.approx(share)
    if len(diameters) == 1 or max(diameters) < 0.5 * math.sqrt(sum(d * d for d in diameters)):
        assert bundle.bundle(diameters).diameter_mm <= inside


@given(st.floats(min_value=0.5, max_value=60.0))
def test_the_smallest_tube_that_is_large_enough(inside_mm):
    for kind in ("split loom, inch", "corrugated conduit, metric"):
        found = bundle.sleeve_for(kind, inside_mm=inside_mm)
        sizes = [s.inside_mm for s in bundle.sleeves(kind)]
        assert sizes == sorted(set(sizes))
        if found is None:
            assert max(sizes) < inside_mm
        else:
            assert next(s for s in sizes if s >= inside_mm) == found.inside_mm


@given(st.floats(min_value=10.0, max_value=120.0))
def test_a_battery_cable_is_thicker_than_its_copper(area_mm2):
    solid = math.sqrt(4 * area_mm2 / math.pi)
    assert solid + 2 * 1.0 < bundle.cable_diameter_mm(area_mm2) < 1.2 * solid + 2 * 2.5
