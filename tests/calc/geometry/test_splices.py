"""Splices: ends counted one by one, turns added along the tail, grip added up along the helix."""

from __future__ import annotations

from math import pi, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from calc.data import practice
from calc.errors import DomainError
from calc.geometry.ends import holding_angle, holding_length, holding_ratio, splice, stagger, wrap_angle
from calc.geometry.lay import lay, radius_ratio
from calc.numerics import Spread
from tests.tolerances import CLOSED_FORM, SOLVED

pytestmark = pytest.mark.exact

law = settings(derandomize=True, deadline=None, max_examples=100)


@law
@given(st.integers(2, 40), st.floats(0.06, 0.3), st.floats(0.01, 0.05), st.floats(1e-3, 0.02))
def test_ends_step_evenly_between_longest_and_shortest(strands: int, tail: float, least: float, wanted: float) -> None:
    step_m = stagger(strands, tail, least, wanted)
    assert step_m == pytest.approx(min(wanted, (tail - least) / (strands - 1)), rel=1e-12)
    assert tail - (strands - 1) * step_m >= least - 1e-12


def test_a_single_strand_has_no_step() -> None:
    assert stagger(1, 0.2, 0.05, 0.01) == 0.0
    assert stagger(5, 0.05, 0.05, 0.01) == 0.0


@pytest.mark.parametrize("ask", [lambda: stagger(0, 0.2, 0.05, 0.01), lambda: splice(lay(0.001, 2, 0.3), 0, 0.2, 0.01)])
def test_there_is_at_least_one_strand(ask: object) -> None:
    assert callable(ask)
    with pytest.raises(DomainError) as caught:
        ask()
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("strands", "min", 1)


def test_a_tail_is_no_shorter_than_the_least() -> None:
    with pytest.raises(DomainError) as caught:
        stagger(5, 0.049, 0.05, 0.01)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("tail_m", "min", 0.05)


def _turns(bundles: int, diameter_m: float, lay_rad: float, tails: list[float]) -> float:
    """Add turns along the tail: at each place the bundle has the section of the strands still there."""

    def rate(at: float) -> float:
        wide_m = diameter_m * np.sqrt(1.0 + sum(tail > at for tail in tails) / len(tails))
        return float(sin(lay_rad) / (2.0 * pi * radius_ratio(bundles, lay_rad) * wide_m))

    return sum(quad(rate, low, high)[0] for low, high in zip([0.0, *tails], tails, strict=False) if high > low)


def test_turns_of_a_splice_are_those_added_along_its_tail() -> None:
    rng = np.random.default_rng(51)
    for _ in range(500):
        bundles, strands = int(rng.integers(2, 5)), int(rng.integers(1, 9))
        diameter, lay_rad, tail = (
            float(rng.uniform(5e-4, 3e-3)),
            float(rng.uniform(0.05, 0.7)),
            float(rng.uniform(0.05, 0.3)),
        )
        step = float(rng.uniform(0.0, 0.9)) * tail / max(1, strands - 1)
        made = splice(lay(diameter, bundles, lay_rad), strands, tail, step)
        tails = sorted(tail - k * step for k in range(strands))
        assert made.turns == pytest.approx(_turns(bundles, diameter, lay_rad, tails), rel=CLOSED_FORM)


@law
@given(st.sampled_from([2, 3, 4]), st.integers(1, 30), st.floats(0.05, 0.3), st.floats(0.0, 0.95), st.floats(0.0, 0.6))
def test_a_splice_thins_out_end_by_end(bundles: int, strands: int, tail: float, share: float, lay_rad: float) -> None:
    bare = lay(0.0015, bundles, lay_rad)
    step = share * tail / max(1, strands - 1)
    made = splice(bare, strands, tail, step)
    assert (made.tail_m, made.step_m) == (tail, step)
    assert made.shortest_m == pytest.approx(tail - (strands - 1) * step, rel=1e-12)
    assert len(made.ends_m) == strands
    assert made.ends_m[0] == pytest.approx(made.shortest_m * bare.ratio, rel=1e-9)
    assert made.cord_m == pytest.approx(tail * bare.ratio, rel=1e-9)
    assert np.diff(made.ends_m) == pytest.approx(np.full(strands - 1, step * bare.ratio), abs=1e-9)
    assert made.doubled.diameter_m == pytest.approx(0.0015 * np.sqrt(2.0), rel=1e-12)
    assert [each.tails for each in made.stations] == sorted((each.tails for each in made.stations), reverse=True)
    assert made.stations[0].from_m == 0.0
    assert made.stations[-1].to_m == made.cord_m
    for before, after in zip(made.stations, made.stations[1:], strict=False):
        assert before.to_m == after.from_m
        assert before.shape.cord_diameter_m > after.shape.cord_diameter_m
    for each in made.stations:
        assert each.to_m > each.from_m
        assert each.shape.lay_rad == lay_rad
        assert each.shape.diameter_m == pytest.approx(0.0015 * np.sqrt(1.0 + each.tails / strands), rel=1e-12)


def test_ends_without_a_step_come_out_together() -> None:
    made = splice(lay(0.0015, 2, 0.3), 7, 0.1, 0.0)
    assert [each.tails for each in made.stations] == [7]
    assert len(set(made.ends_m)) == 1


@pytest.mark.parametrize("over", [1.0, 1.5])
def test_a_step_that_leaves_no_tail_is_refused_with_the_longest(over: float) -> None:
    with pytest.raises(DomainError) as caught:
        splice(lay(0.0015, 2, 0.3), 5, 0.1, over * 0.025)
    problem = caught.value.problem
    assert (problem.field, problem.code) == ("step_m", "max")
    assert problem.limit == pytest.approx(0.025, rel=1e-12)


def test_the_wrap_is_the_turning_of_the_tangent() -> None:
    for angle, bundles in zip(np.linspace(0.05, 0.75, 20), [2, 3, 4, 2] * 5, strict=True):
        shape = lay(0.002, bundles, float(angle))
        t = np.linspace(0.0, 2.0 * pi, 100001)
        tangent = np.stack([-np.sin(t) * np.sin(angle), np.cos(t) * np.sin(angle), np.full_like(t, np.cos(angle))], 1)
        turned = float(np.sum(np.linalg.norm(np.diff(tangent, axis=0), axis=1)))
        assert wrap_angle(1.0 / shape.turns_per_strand_m, shape) == pytest.approx(turned, rel=SOLVED)
        assert wrap_angle(0.0, shape) == 0.0


def test_the_holding_angle_is_the_grip_added_up() -> None:
    rng = np.random.default_rng(52)
    for friction, squeeze in zip(rng.uniform(0.03, 0.6, 500), rng.uniform(0.02, 1.0, 500), strict=True):
        needed, _ = quad(lambda u, w=squeeze: 1.0 / (u + w * (1.0 - u)), 0.0, 0.5)
        assert holding_angle(float(friction), float(squeeze)) == pytest.approx(needed / friction, rel=CLOSED_FORM)


def test_all_the_press_on_the_tail_lets_it_go_evenly() -> None:
    assert holding_angle(0.25, 1.0) == 2.0
    assert holding_angle(0.25, 1.0 - 1e-9) == pytest.approx(2.0, rel=1e-6)


@law
@given(st.floats(0.03, 0.2), st.floats(1.0, 2.0), st.floats(1.0, 2.0), st.floats(0.1, 0.7), st.floats(0.01, 0.3))
def test_the_length_that_holds_runs_from_best_to_worst(
    low: float, more: float, most: float, lay_rad: float, tail: float
) -> None:
    friction = Spread(low, low * more, low * more * most)
    squeeze = practice("splice_squeeze").spread
    shape = lay(0.0021, 2, lay_rad)
    need = holding_length(shape, friction)
    for length_m, mu, press in (
        (need.low, friction.high, squeeze.high),
        (need.value, friction.value, squeeze.value),
        (need.high, friction.low, squeeze.low),
    ):
        assert wrap_angle(length_m, shape) == pytest.approx(holding_angle(mu, press), rel=1e-12)
    times = holding_ratio(tail, shape, friction)
    assert times.low * need.high == pytest.approx(tail, rel=1e-12)
    assert times.value * need.value == pytest.approx(tail, rel=1e-12)
    assert times.high * need.low == pytest.approx(tail, rel=1e-12)


def test_a_thicker_cord_needs_a_longer_tail_and_a_steeper_lay_a_shorter_one() -> None:
    friction = Spread(0.1, 0.2, 0.3)
    base = holding_length(lay(0.002, 2, radians(20)), friction).value
    assert holding_length(lay(0.004, 2, radians(20)), friction).value == pytest.approx(2.0 * base, rel=1e-12)
    assert holding_length(lay(0.002, 2, radians(30)), friction).value < base


def test_straight_tails_do_not_hold() -> None:
    with pytest.raises(DomainError) as caught:
        holding_length(lay(0.002, 2, 0.0), Spread(0.1, 0.2, 0.3))
    assert (caught.value.problem.field, caught.value.problem.code) == ("lay_rad", "min")
