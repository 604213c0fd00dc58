"""Steps of a motion: their stages by a general library, the curve inside a step, and how the next one is chosen."""

from __future__ import annotations

from math import cos, exp, log, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import DOP853

from calc.numerics import NoStepError, Step, next_step, step

pytestmark = pytest.mark.exact


def pendulum(state: list[float]) -> list[float]:
    return [state[1], -sin(state[0])]


def swing(state: list[float]) -> list[float]:
    return [state[1], -state[0]]


def at_rest(state: list[float]) -> list[float]:
    return [0.0 for _ in state]


def plain(start: list[float], step_s: float) -> tuple[list[float], list[float]]:
    """Return one step and its error by scipy's own table of stages."""
    table = DOP853.A[:12, :12]
    seen = [np.array(pendulum(start))]
    for row in table[1:]:
        at = np.array(start) + step_s * sum(weight * each for weight, each in zip(row, seen, strict=False))
        seen.append(np.array(pendulum(at.tolist())))
    end = np.array(start) + step_s * sum(weight * each for weight, each in zip(DOP853.B, seen, strict=True))
    five, three = (sum(w * each for w, each in zip(row, seen, strict=False)) for row in (DOP853.E5, DOP853.E3))
    return end.tolist(), (step_s * five**2 / np.sqrt(five**2 + 0.01 * three**2)).tolist()


@pytest.mark.parametrize(("start", "step_s"), [([0.4, 0.7], 0.6), ([-1.2, 2.0], 0.3)])
def test_a_step_is_that_of_a_general_librarys_table(start: list[float], step_s: float) -> None:
    made, off = step(pendulum, start, pendulum(start), step_s)
    end, error = plain(start, step_s)
    assert made.end == pytest.approx(end, rel=1e-14)
    assert off == pytest.approx(error, rel=1e-6, abs=1e-18)
    assert (made.step_s, made.start, made.start_rates) == (step_s, start, pendulum(start))
    assert made.end_rates == pendulum(made.end)


def test_a_step_is_the_first_of_a_general_librarys_solver() -> None:
    solver = DOP853(
        lambda _, y: np.array(pendulum(y.tolist())), 0.0, np.array([0.4, 0.7]), 9.0, first_step=0.3, rtol=1.0
    )
    solver.step()
    assert step(pendulum, [0.4, 0.7], pendulum([0.4, 0.7]), 0.3)[0].end == pytest.approx(solver.y.tolist(), rel=1e-14)


def test_a_step_is_of_eighth_order() -> None:
    """Nine powers of the step in one step, and an error that is never judged too small."""
    off = [abs(step(swing, [1.0, 0.0], [0.0, -1.0], h)[0].end[0] - cos(h)) for h in (1.6, 0.8)]
    assert 2.0**8 < off[0] / off[1] < 2.0**11
    for h in (1.6, 0.8):
        made, judged = step(swing, [1.0, 0.0], [0.0, -1.0], h)
        assert abs(made.end[0] - cos(h)) < abs(judged[0])


def test_a_rest_stays_one() -> None:
    made, off = step(at_rest, [1.0, 2.0], [0.0, 0.0], 0.5)
    assert (made.end, off) == ([1.0, 2.0], [0.0, 0.0])


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
    made = Step(
        step_s,
        [*start[0], *start[1]],
        [*start[1], *map(float, start[2])],
        [*end[0], *end[1]],
        [*end[1], *map(float, end[2])],
    )
    expected = [float(p(part * step_s)) for p in (one, other)]
    assert made.positions(part) == pytest.approx(expected, rel=1e-9, abs=1e-9)


def test_a_step_is_taken_when_its_error_is_just_what_is_allowed() -> None:
    start = [1.0, 0.5]
    _, off = step(swing, start, swing(start), 0.7)
    made, longer = next_step(swing, start, swing(start), 0.7, [abs(each) for each in off])
    assert made.step_s == 0.7
    assert longer == pytest.approx(0.8 * 0.7, rel=1e-12)
    made, _ = next_step(swing, start, swing(start), 0.7, [0.99 * abs(each) for each in off])
    assert made.step_s == pytest.approx(0.8 * 0.99 ** (1.0 / 8.0) * 0.7, rel=1e-12)


def test_the_part_that_is_worst_decides() -> None:
    start = [1.0, 0.5]
    _, off = step(swing, start, swing(start), 0.7)
    for worst in (0, 1):
        bounds = [abs(each) * (2.0**-8 if at == worst else 1e3) for at, each in enumerate(off)]
        made, longer = next_step(swing, start, swing(start), 0.7, bounds)
        assert made.step_s == pytest.approx(0.8 * 0.7 / 2.0, rel=1e-12)
        _, left = step(swing, start, swing(start), made.step_s)
        error = max(abs(each) / bound for each, bound in zip(left, bounds, strict=True))
        assert error < 1.0
        assert longer == pytest.approx(made.step_s * min(1.3, 0.8 * error ** (-1.0 / 8.0)), rel=1e-9)


def test_no_step_is_cut_to_less_than_a_fifth_or_grows_by_more_than_a_third() -> None:
    start = [1.0, 0.0]
    _, off = step(swing, start, swing(start), 1.8)
    made, _ = next_step(swing, start, swing(start), 9.0, [max(map(abs, off))] * 2)
    assert made.step_s == pytest.approx(1.8, rel=1e-12)
    made, longer = next_step(swing, start, swing(start), 0.01, [1.0, 1.0])
    assert made.step_s == 0.01
    assert longer == pytest.approx(0.013)
    made, longer = next_step(at_rest, start, [0.0, 0.0], 0.25, [1e-9, 1e-9])
    assert (made.step_s, made.end) == (0.25, start)
    assert longer == pytest.approx(0.325)


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_a_motion_that_is_no_number_has_no_step(bad: float) -> None:
    with pytest.raises(NoStepError, match=r"^next_step: no step down to "):
        next_step(lambda s: [s[1], bad], [1.0, 0.0], [0.0, bad], 0.1, [1e-6, 1e-6])
    with pytest.raises(NoStepError):
        next_step(lambda s: [s[1], sin(s[0] * bad)], [1.0, 0.0], [0.0, -1.0], 0.1, [1e-6, 1e-6])


def test_a_step_that_leaves_what_numbers_hold_is_cut_until_it_does_not() -> None:
    def wild(state: list[float]) -> list[float]:
        return [exp(state[0])]

    made, _ = next_step(wild, [1.0], [exp(1.0)], 50.0, [1e-9])
    assert 0.0 < made.step_s < 0.36
    assert made.end[0] == pytest.approx(-log(exp(-1.0) - made.step_s), rel=1e-8)
