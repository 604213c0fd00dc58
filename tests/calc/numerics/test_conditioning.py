"""What readings tell of causes, against numpy's own inverse and scipy's least squares."""

from __future__ import annotations

from operator import itemgetter
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

from calc.numerics import Spread, beside, conditioned

if TYPE_CHECKING:
    from numpy.typing import NDArray

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=60)


def made_up(
    seed: int, readings: int, causes: int
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    rng = np.random.default_rng(seed)
    return rng.normal(0.0, 1.0, (readings, causes)), rng.uniform(0.2, 40.0, readings), rng.normal(0.0, 2.0, readings)


def standard(count: int) -> dict[str, Spread]:
    return {f"{k}": Spread(-1.0, 0.0, 1.0) for k in range(count)}


@law
@given(st.integers(0, 10_000), st.integers(1, 5), st.integers(1, 6))
def test_covariance_and_centre_are_those_of_linear_algebra(seed: int, readings: int, causes: int) -> None:
    slopes, weights, wrong = made_up(seed, readings, causes)
    root = np.sqrt(weights)
    found = conditioned(standard(causes), lambda at: (root * (slopes @ np.asarray(list(at.values())) - wrong)).tolist())
    square = slopes.T @ np.diag(weights) @ slopes + np.eye(causes)
    best = np.linalg.solve(square, slopes.T @ (weights * wrong))
    assert list(found.centre.values()) == pytest.approx(best.tolist(), abs=1e-7)
    moves = np.asarray([[high[k] - low[k] for k in low] for _, low, high in found.ends]) / 2.0
    assert (moves.T @ moves).ravel().tolist() == pytest.approx(np.linalg.inv(square).ravel().tolist(), abs=1e-9)
    left = root * (slopes @ best - wrong)
    assert found.misfit**2 == pytest.approx(float(best @ best + left @ left), rel=1e-6)
    assert list(found.strayed.values()) == pytest.approx(best.tolist(), abs=1e-7)


@law
@given(st.integers(0, 10_000), st.integers(1, 4), st.integers(1, 5))
def test_a_further_reading_makes_nothing_less_sure(seed: int, readings: int, causes: int) -> None:
    slopes, weights, _ = made_up(seed, readings + 1, causes)
    root = np.sqrt(weights)

    def sure(count: int) -> NDArray[np.float64]:
        found = conditioned(
            standard(causes), lambda at: (root * (slopes @ np.asarray(list(at.values()))))[:count].tolist()
        )
        return np.asarray([found.spread(itemgetter(f"{k}")).high for k in range(causes)])

    assert np.all(sure(readings + 1) <= sure(readings) + 1e-9)
    assert np.all(sure(readings) <= 1.0 + 1e-9)


def test_readings_that_hang_on_nothing_tell_nothing() -> None:
    causes = {"a": Spread(-1.0, 0.0, 1.0), "b": Spread(1.0, 2.0, 5.0), "c": Spread.exactly(7.0)}
    found = conditioned(causes, lambda _: [0.5, -0.2])
    assert found.centre == {"a": 0.0, "b": 2.0, "c": 7.0}
    for name, each in causes.items():
        assert found.spread(itemgetter(name)) == each


def test_a_lopsided_cause_is_as_wide_as_its_side() -> None:
    """A cause that may be 1 lower or 3 higher, read at 3 higher within 3: half the way there."""
    found = conditioned({"a": Spread(-1.0, 0.0, 3.0)}, lambda at: [(at["a"] - 3.0) / 3.0])
    assert found.centre["a"] == pytest.approx(1.5, abs=1e-6)


def test_what_is_bent_is_followed_to_where_it_fits() -> None:
    """Readings that grow as a bent line, against scipy's least squares of readings and cause together."""

    def off(at: float) -> list[float]:
        return [2.0 * (0.5 * at + 0.05 * at**2 - 0.3), 3.0 * (1.5 * at - 0.05 * at**2 - 1.7)]

    found = conditioned({"a": Spread(-1.0, 0.0, 1.0)}, lambda at: off(at["a"]))

    def wrong(x: NDArray[np.float64]) -> list[float]:
        return [*off(float(x[0])), float(x[0])]

    best = optimize.least_squares(wrong, [0.0])
    assert found.centre["a"] == pytest.approx(float(best.x[0]), abs=5e-3)


def test_causes_beside_others_move_alone() -> None:
    one = conditioned({"a": Spread(-1.0, 0.0, 1.0)}, lambda at: [at["a"] - 1.0])
    both = beside(one, {"b": Spread(2.0, 3.0, 4.0)})
    total = both.spread(lambda at: at["a"] + at["b"])
    assert total.value == pytest.approx(3.5)
    assert total.high - total.value == pytest.approx((1.0 + 0.5) ** 0.5)
    assert both.misfit == one.misfit
