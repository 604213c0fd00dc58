"""The best limb for strings that were measured, against scipy's least squares, and readings no limb comes near."""

from __future__ import annotations

from functools import partial
from math import inf, nan
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy import optimize

from calc.errors import DomainError
from calc.mechanics.bow import HIGHEST, SHAPES, limb_reach
from calc.mechanics.estimate import fitting
from calc.mechanics.estimate.fitting import Read, best_limb

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact


def noisy(rng: np.random.Generator, shape: LimbShape, limb_m: float, count: int) -> list[Read]:
    """Return readings of a limb that are off by a few millimetres."""
    found = []
    for brace_m in rng.uniform(0.2 * limb_m, 0.4 * limb_m, count).tolist():
        over_m = 2.0 * limb_m * (1.0 - limb_reach(shape, (brace_m + 0.004) / limb_m)) + float(rng.normal(0.0, 0.003))
        found.append(Read(over_m, brace_m, float(rng.uniform(200.0, 500.0))))
    return found


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("count", [1, 2, 4])
def test_the_best_limb_is_that_of_scipys_least_squares(shape: LimbShape, count: int) -> None:
    rng = np.random.default_rng(count)
    for _ in range(12):
        reads = noisy(rng, shape, float(rng.uniform(0.5, 0.9)), count)

        def wrong(at: NDArray[np.float64], reads: list[Read] = reads) -> list[float]:
            limb_m, deep_m = at.tolist()
            off = [
                each.weight * (2.0 * limb_m * (1.0 - limb_reach(shape, (each.brace_m + deep_m) / limb_m)) - each.over_m)
                for each in reads
            ]
            return [*off, (deep_m - 0.002) / 0.01]

        found = best_limb(partial(limb_reach, shape), reads, (0.7, 0.0), (0.002, 0.01), HIGHEST)
        best = optimize.least_squares(wrong, found, xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=[0.1, 0.01])
        assert found == pytest.approx(best.x.tolist(), rel=1e-6, abs=1e-8)
        far = optimize.least_squares(wrong, [0.6, 0.01], xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=[0.1, 0.01])
        assert sum(each**2 for each in wrong(np.asarray(found))) <= 2.0 * far.cost * (1.0 + 1e-9) + 1e-20


def test_near_the_best_limb_every_step_squares_what_is_left(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the bend of the residuals six rounds would still leave the fifth digit moving."""
    reads = [Read(0.0712, 0.12, 300.0), Read(0.16, 0.20, 300.0), Read(0.235, 0.26, 300.0)]
    exact = best_limb(partial(limb_reach, "arc"), reads, (0.4, 0.0), (0.0, 0.01), HIGHEST)
    monkeypatch.setattr(fitting, "_ROUNDS", 3)
    near = best_limb(partial(limb_reach, "arc"), reads, (exact[0] * 1.01, exact[1]), (0.0, 0.01), HIGHEST)
    assert near == pytest.approx(exact, rel=1e-8)


def test_a_limb_stays_long_enough_for_what_was_measured() -> None:
    limb_m, deep_m = best_limb(partial(limb_reach, "arc"), [Read(0.9, 0.1, 300.0)], (0.7, 0.0), (0.0, 0.01), HIGHEST)
    assert (0.1 + deep_m) / limb_m == pytest.approx(HIGHEST, rel=1e-9)


@pytest.mark.parametrize(
    ("reach", "read", "deep_m"),
    [
        (partial(limb_reach, "arc"), Read(0.1, 0.05, 300.0), -0.05),
        (partial(limb_reach, "arc"), Read(0.1, inf, 300.0), 0.0),
        (partial(limb_reach, "arc"), Read(0.1, nan, 300.0), 0.0),
        (lambda _: 1.0, Read(0.1, 0.05, 0.0), 0.0),
        (lambda _: nan, Read(0.1, 0.05, 300.0), 0.0),
    ],
)
def test_what_no_limb_comes_near_is_refused(reach: Callable[[float], float], read: Read, deep_m: float) -> None:
    with pytest.raises(DomainError) as caught:
        best_limb(reach, [read], (0.7, deep_m), (deep_m, 0.01), HIGHEST)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == ("pairs", "pair", "far")


def test_one_low_reading_among_higher_ones_is_refused_below_a_sunken_handle() -> None:
    with pytest.raises(DomainError, match="far"):
        best_limb(
            partial(limb_reach, "arc"), [Read(0.1, 0.2, 300.0), Read(0.1, 0.04, 300.0)], (0.7, -0.05), (0.0, 0.01), 0.6
        )
