"""Scales and ticks of the charts: what a scale must be whatever it shows, and lines cut to their field."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildspec.drawings.charts import axes, plot
from buildspec.drawings.marks import Box

PLACES = st.floats(-3000, 3000)
POSITIVE = st.floats(1e-6, 1e6)
SPANS = st.floats(1e-3, 1e6)


@st.composite
def scales(draw: st.DrawFn, log: bool) -> axes.Scale:
    start = draw(PLACES)
    end = start + draw(st.sampled_from((-1, 1))) * draw(st.floats(10, 3000))
    low = draw(POSITIVE if log else st.floats(-1e6, 1e6))
    if log:
        return axes.logarithmic(low, low * draw(st.floats(1.5, 1e8)), start=start, end=end)
    return axes.linear(low, low + draw(SPANS), start=start, end=end)


ANY = st.one_of(scales(log=True), scales(log=False))


@given(ANY)
def test_the_ends_stand_at_the_ends(scale: axes.Scale) -> None:
    assert axes.at(scale, scale.low) == pytest.approx(scale.start)
    assert axes.at(scale, scale.high) == pytest.approx(scale.end, abs=1e-6)


@given(ANY, st.floats(0, 1))
def test_what_stands_at_a_place_is_what_was_put_there(scale: axes.Scale, share: float) -> None:
    place = scale.start + share * (scale.end - scale.start)
    assert axes.at(scale, axes.value(scale, place)) == pytest.approx(place, abs=1e-3)


@given(ANY, st.floats(0.01, 0.98))
def test_more_stands_nearer_to_the_end(scale: axes.Scale, share: float) -> None:
    place = scale.start + share * (scale.end - scale.start)
    beyond = scale.start + (share + 0.01) * (scale.end - scale.start)
    assert axes.value(scale, beyond) > axes.value(scale, place)


@given(scales(log=True), st.floats(1.1, 10))
def test_equal_ratios_take_equal_lengths(scale: axes.Scale, ratio: float) -> None:
    """log(r x) − log(x) does not hang on x."""
    lengths = [axes.at(scale, v * ratio) - axes.at(scale, v) for v in (scale.low, scale.high)]
    assert lengths[0] == pytest.approx(lengths[1], rel=1e-6)


@given(scales(log=False), st.floats(0.01, 0.5))
def test_equal_steps_take_equal_lengths(scale: axes.Scale, share: float) -> None:
    by = share * (scale.high - scale.low)
    lengths = [axes.at(scale, v + by) - axes.at(scale, v) for v in (scale.low, scale.high - by)]
    assert lengths[0] == pytest.approx(lengths[1], rel=1e-4)


def test_a_decade_is_a_third_of_three() -> None:
    """1 … 1000 on 300: 10 at 100 and √10 at 50, by log10."""
    scale = axes.logarithmic(1, 1000, start=0, end=300)
    assert [axes.at(scale, v) for v in (1, math.sqrt(10), 10, 100, 1000)] == pytest.approx(
        [0, 50, 100, 200, 300]
    )


@pytest.mark.parametrize(("low", "high"), [(0.0, 10.0), (-1.0, 10.0), (10.0, 10.0), (20.0, 10.0)])
def test_a_range_that_no_logarithm_has_is_refused(low: float, high: float) -> None:
    with pytest.raises(ValueError, match="scale"):
        axes.logarithmic(low, high, start=0, end=100)


@given(st.floats(1e-3, 1e6), st.integers(2, 12))
def test_steps_are_round_and_few(span: float, count: int) -> None:
    by = axes.step(span, count)
    mantissa = by / 10 ** math.floor(math.log10(by) + 1e-9)
    assert min(abs(mantissa - m) for m in (1, 2, 2.5, 5)) < 1e-6
    assert len(axes.ticks(0.0, span, by)) <= count + 1
    assert by < 3 * span / count + 1e-9, "a smaller round step would have been enough"


@given(st.floats(-1e4, 1e4), st.floats(0.5, 1e4))
def test_ticks_are_multiples_within_the_range(low: float, span: float) -> None:
    by = axes.step(span, 8)
    found = axes.ticks(low, low + span, by)
    assert found and all(low - 1e-6 <= v <= low + span + 1e-6 for v in found)
    assert all(abs(v / by - round(v / by)) < 1e-6 for v in found)


def test_hours_are_counted_in_parts_and_multiples_of_a_day() -> None:
    assert [axes.hour_step(h, 8) for h in (8, 20, 36, 76, 190, 380, 3000)] == [1, 3, 6, 12, 24, 48, 504]


@given(st.floats(1e-4, 1e4), st.floats(1.01, 1e6))
def test_rounded_ends_hold_the_range_and_little_more(low: float, ratio: float) -> None:
    first, last = axes.rounded_out(low, low * ratio)
    assert first <= low * (1 + 1e-8) and last >= low * ratio * (1 - 1e-8)
    assert low / first <= 2.5 + 1e-6 and last / (low * ratio) <= 2.5 + 1e-6
    assert all(f"{v:.6e}"[:8] in ("1.000000", "2.000000", "5.000000") for v in (first, last))


def test_ticks_of_a_logarithmic_axis() -> None:
    assert axes.decades(0.5, 200) == (1.0, 10.0, 100.0)
    assert axes.between(0.5, 4) == pytest.approx((0.5, 0.6, 0.7, 0.8, 0.9, 2.0, 3.0, 4.0))


BOX = Box(0, 0, 100, 50)
POINTS = st.lists(st.tuples(st.floats(-300, 300), st.floats(-300, 300)), min_size=2, max_size=6)


@given(POINTS)
def test_nothing_of_a_cut_line_leaves_its_field(path: list[tuple[float, float]]) -> None:
    for piece in plot.clipped(path, BOX):
        assert len(piece) > 1
        assert all(-1e-6 <= x <= 100 + 1e-6 and -1e-6 <= y <= 50 + 1e-6 for x, y in piece)


@given(POINTS)
def test_a_line_within_its_field_stays_as_it_is(path: list[tuple[float, float]]) -> None:
    small = [((x + 300) / 6, (y + 300) / 12) for x, y in path]
    length = sum(math.dist(a, b) for a, b in itertools.pairwise(small))
    kept = sum(math.dist(a, b) for p in plot.clipped(small, BOX) for a, b in itertools.pairwise(p))
    assert kept == pytest.approx(length, abs=1e-6)


def test_a_line_is_cut_where_it_leaves() -> None:
    """y = x from (−10, −10) to (80, 80) leaves a field 50 high at (50, 50)."""
    assert plot.clipped([(-10, -10), (80, 80)], BOX) == (((0.0, 0.0), (50.0, 50.0)),)
    assert plot.clipped([(0, 60), (100, 60)], BOX) == ()


def test_an_area_is_cut_to_its_field() -> None:
    """A square of 60 around the corner of the field keeps 30 × 30 of its 3600."""
    cut = plot.region([(-30, -30), (30, -30), (30, 30), (-30, 30)], BOX)
    shoelace = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(cut, (*cut[1:], cut[0]), strict=True)) / 2
    assert abs(shoelace) == pytest.approx(900)
