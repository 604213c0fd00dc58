"""Steps of a motion: the extrapolation written out anew, the curve inside a step, and how the next one is chosen."""

from __future__ import annotations

from math import cos, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.mechanics.steps import Leg, leg, next_leg

pytestmark = pytest.mark.exact
COUNTS = np.array([2.0, 4.0, 6.0, 8.0])


def pendulum(state: list[float]) -> list[float]:
    return [state[1], -sin(state[0])]


def swing(state: list[float]) -> list[float]:
    return [state[1], -state[0]]


def at_rest(state: list[float]) -> list[float]:
    return [0.0 for _ in state]


def midpoint(parts: int, step_s: float, start: list[float]) -> np.ndarray:
    """Return the midpoint rule of so many parts, its first one by Euler's rule."""
    h, path = step_s / parts, [np.array(start)]
    path.append(path[0] + h * np.array(pendulum(start)))
    while len(path) <= parts:
        path.append(path[-2] + 2.0 * h * np.array(pendulum(path[-1].tolist())))
    return path[-1]


def to_nothing(counts: np.ndarray, values: list[np.ndarray]) -> np.ndarray:
    """Return the polynomial in the square of the parts' length at length nothing, by Lagrange's weights."""
    lengths = 1.0 / counts**2
    weights = [np.prod([other / (other - mine) for other in lengths if other != mine]) for mine in lengths]
    return np.asarray(sum(weight * value for weight, value in zip(weights, values, strict=True)))


@pytest.mark.parametrize(("start", "step_s"), [([0.4, 0.7], 0.6), ([-1.2, 2.0], 0.3)])
def test_a_step_is_the_midpoint_rule_carried_to_parts_of_no_length(start: list[float], step_s: float) -> None:
    rows = [midpoint(int(parts), step_s, start) for parts in COUNTS]
    made, off = leg(pendulum, start, pendulum(start), step_s)
    best, before = to_nothing(COUNTS, rows), to_nothing(COUNTS[1:], rows[1:])
    assert made.end == pytest.approx(best.tolist(), rel=1e-12)
    assert off == pytest.approx((best - before).tolist(), rel=1e-6)
    assert (made.step_s, made.start, made.start_rates) == (step_s, start, pendulum(start))
    assert made.end_rates == pendulum(made.end)


def test_a_step_is_of_eighth_order() -> None:
    off = [abs(leg(swing, [1.0, 0.0], [0.0, -1.0], h)[0].end[0] - cos(h)) for h in (0.8, 0.4)]
    assert 2.0**8 < off[0] / off[1] < 2.0**10


@given(st.lists(st.floats(-3.0, 3.0), min_size=6, max_size=6), st.floats(0.1, 2.0), st.floats(0.0, 1.0))
@settings(derandomize=True, deadline=None, max_examples=40)
def test_inside_a_step_a_polynomial_of_fifth_degree_comes_out_as_it_is(
    powers: list[float], step_s: float, part: float
) -> None:
    one, other = np.polynomial.Polynomial(powers), np.polynomial.Polynomial([1.0, 2.0, -0.5, 0.3])
    start, end = (
        (
            [float(p(t)) for p in (one, other)],
            [float(p.deriv()(t)) for p in (one, other)],
            [p.deriv(2)(t) for p in (one, other)],
        )
        for t in (0.0, step_s)
    )
    made = Leg(
        step_s,
        [*start[0], *start[1]],
        [*start[1], *map(float, start[2])],
        [*end[0], *end[1]],
        [*end[1], *map(float, end[2])],
    )
    expected = [float(p(part * step_s)) for p in (one, other)]
    assert made.places(part) == pytest.approx(expected, rel=1e-9, abs=1e-9)


def test_a_step_is_taken_when_its_error_is_just_what_is_allowed() -> None:
    start = [1.0, 0.5]
    _, off = leg(swing, start, swing(start), 0.7)
    made, longer = next_leg(swing, start, swing(start), 0.7, [abs(each) for each in off])
    assert made.step_s == 0.7
    assert longer == pytest.approx(0.9 * 0.7, rel=1e-12)
    made, _ = next_leg(swing, start, swing(start), 0.7, [0.99 * abs(each) for each in off])
    assert made.step_s == pytest.approx(0.9 * 0.99 ** (1.0 / 7.0) * 0.7, rel=1e-12)


def test_the_part_that_is_worst_decides() -> None:
    start = [1.0, 0.5]
    _, off = leg(swing, start, swing(start), 0.7)
    for worst in (0, 1):
        bounds = [abs(each) * (2.0**-7 if at == worst else 1e3) for at, each in enumerate(off)]
        made, longer = next_leg(swing, start, swing(start), 0.7, bounds)
        assert made.step_s == pytest.approx(0.9 * 0.7 / 2.0, rel=1e-12)
        _, left = leg(swing, start, swing(start), made.step_s)
        error = max(abs(each) / bound for each, bound in zip(left, bounds, strict=True))
        assert error < 1.0
        assert longer == pytest.approx(made.step_s * 0.9 * error ** (-1.0 / 7.0), rel=1e-9)


def test_no_step_is_cut_to_less_than_a_fifth_or_doubled_more_than_once() -> None:
    start = [1.0, 0.0]
    _, off = leg(swing, start, swing(start), 1.8)
    made, _ = next_leg(swing, start, swing(start), 9.0, [max(map(abs, off))] * 2)
    assert made.step_s == pytest.approx(1.8, rel=1e-12)
    made, longer = next_leg(swing, start, swing(start), 0.01, [1.0, 1.0])
    assert (made.step_s, longer) == (0.01, 0.02)
    made, longer = next_leg(at_rest, start, [0.0, 0.0], 0.25, [1e-9, 1e-9])
    assert (made.step_s, made.end, longer) == (0.25, start, 0.5)
