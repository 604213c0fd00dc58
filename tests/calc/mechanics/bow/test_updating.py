"""What readings tell of causes, against numpy's own inverse and scipy's least squares."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

from calc.numerics import update

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=60)


def made_up(
    seed: int, readings: int, causes: int
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    rng = np.random.default_rng(seed)
    return rng.normal(0.0, 1.0, (readings, causes)), rng.uniform(0.2, 40.0, readings), rng.normal(0.0, 2.0, readings)


@law
@given(st.integers(0, 10_000), st.integers(1, 5), st.integers(1, 6))
def test_covariance_and_centre_are_those_of_linear_algebra(seed: int, readings: int, causes: int) -> None:
    """Level and causes as one set of unknowns, the level with no knowledge beforehand."""
    slopes, weights, wrong = made_up(seed, readings, causes)
    found = update(lambda at: (wrong - slopes @ np.asarray(at)).tolist(), slopes.tolist(), weights.tolist())
    whole = np.hstack([slopes, np.ones((readings, 1))])
    square = whole.T @ np.diag(weights) @ whole + np.diag([1.0] * causes + [0.0])
    assert found.at == pytest.approx(np.linalg.solve(square, whole.T @ (weights * wrong))[:causes].tolist(), abs=1e-8)
    root = np.asarray(found.moves).T
    assert (root @ root.T).ravel().tolist() == pytest.approx(
        np.linalg.inv(square)[:causes, :causes].ravel().tolist(), abs=1e-9
    )


@law
@given(st.integers(0, 10_000), st.integers(1, 4), st.integers(1, 5))
def test_a_further_reading_makes_nothing_less_sure(seed: int, readings: int, causes: int) -> None:
    slopes, weights, _ = made_up(seed, readings + 1, causes)

    def sure(count: int) -> NDArray[np.float64]:
        found = update(lambda _: [0.0] * count, slopes[:count].tolist(), weights[:count].tolist())
        return np.asarray([sum(move[k] ** 2 for move in found.moves) for k in range(causes)])

    assert np.all(sure(readings + 1) <= sure(readings) + 1e-12)
    assert np.all(sure(readings) <= 1.0 + 1e-12)


def test_one_reading_and_readings_that_hang_on_nothing_tell_nothing() -> None:
    for slopes in ([[2.0, -1.0]], [[0.0, 0.0], [0.0, 0.0]], [[2.0, 3.0], [2.0, 3.0]]):
        found = update(lambda at: [5.0 + at[0]] * len(slopes), slopes, [3.0] * len(slopes))  # noqa: B023 - called at once
        assert found.at == (0.0, 0.0)
        assert found.moves == ((1.0, 0.0), (0.0, 1.0))


def test_what_is_bent_is_followed_to_where_it_fits() -> None:
    """Readings that grow as a bent line: the pull of readings and causes balances there, by the slopes told."""
    weights = [4.0, 9.0]

    def off(at: Sequence[float]) -> list[float]:
        return [0.3 - (0.5 * at[0] + 0.05 * at[0] ** 2), 1.7 - (1.5 * at[0] - 0.05 * at[0] ** 2)]

    found = update(off, [[0.5], [1.5]], weights).at[0]

    def pull(at: float) -> float:
        one, other = off([at])
        mean = (4.0 * one + 9.0 * other) / 13.0
        return 4.0 * (0.5 - 15.5 / 13.0) * (one - mean) + 9.0 * (1.5 - 15.5 / 13.0) * (other - mean) - at

    assert found == pytest.approx(float(optimize.brentq(pull, -3.0, 3.0)), abs=1e-4)

    def wrong(x: NDArray[np.float64]) -> list[float]:
        one, other = off([float(x[0])])
        return [2.0 * (one - float(x[1])), 3.0 * (other - float(x[1])), float(x[0])]

    best = optimize.least_squares(wrong, [0.0, 0.0])
    assert found == pytest.approx(float(best.x[0]), abs=0.1)
