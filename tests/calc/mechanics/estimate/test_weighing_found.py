"""Forces weighed on made-up bows: bows found again, and the fit done by scipy."""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy import optimize

from calc.data import practice
from calc.mechanics.bow import Bow, LimbShape, static_tension, string_length
from calc.mechanics.estimate import BowEstimate, ForceRead
from tests.calc.mechanics.estimate.made_up import cases, figures, force, unknown

if TYPE_CHECKING:
    from numpy.typing import NDArray


pytestmark = pytest.mark.exact
TAPE_M = practice("tape_reading").spread.high


@pytest.mark.parametrize("case", cases(24), ids=lambda case: f"{case[0].shape}-{case[0].nock_to_nock_m:.2f}")
def test_a_made_up_bow_is_found_again_within_its_spread(case: tuple[Bow, float, float, float, float]) -> None:
    """Shape and handle were guessed; weight, tension, energy and the string for its brace height must come out.

    By a fiftieth of the range to spare: hinged limbs lie a little beside those between tapered and uniform.
    """
    bow, brace_m, draw_m, weight_n, at_m = case
    known = replace(unknown(bow.nock_to_nock_m), draw_m=draw_m, draw_weight_n=weight_n, braced_m=brace_m)
    read = ForceRead(at_m, force(bow, brace_m, draw_m, weight_n, at_m), 0.02)
    real = static_tension(bow, brace_m, draw_m, weight_n)
    truth = {
        "weight": weight_n,
        "brace": real.brace_n,
        "draw": real.draw_n,
        "energy": real.energy_j,
        "string": string_length(bow, brace_m),
    }
    before, after = (figures(each, brace_m) for each in (known, known.given(read)))
    for name, value in truth.items():
        edge = 0.02 * (after[name].high - after[name].low)
        assert after[name].low - edge < value < after[name].high + edge, name
        slack = 1.0 + 1e-3 if name == "string" else 1.0  # of a long bow's string a force hardly tells
        assert after[name].high - after[name].low < slack * (before[name].high - before[name].low), name
    far = ForceRead(draw_m, weight_n, 1e-3)
    sharp = replace(known, draw_weight_n=None).given(far, replace(read, off=1e-3))
    assert figures(sharp, brace_m)["weight"].value == pytest.approx(weight_n, rel=3e-3)


def ratios(at: NDArray[np.float64], known: BowEstimate, brace_m: float, draw_m: float, at_m: float) -> float:
    """Return the logarithm of force / draw weight for causes in units of how unsure they are."""
    usual = known.causes
    tape, handle, limb, proud_m, follow_m = (
        usual[name].value
        + by * ((usual[name].high - usual[name].value) if by > 0.0 else (usual[name].value - usual[name].low))
        for name, by in zip(("tape", "handle", "limb", "proud", "follow"), at.tolist(), strict=True)
    )
    nock_m = known.nock_to_nock_m + tape

    def of(shape: LimbShape) -> float:
        bow = Bow(nock_m, handle, shape, proud_m, follow_m)
        return force(bow, brace_m, draw_m, 1.0, at_m)

    middle = of("arc")
    return log(middle + abs(limb) * (of("uniform" if limb > 0.0 else "tapered") - middle))


@pytest.mark.parametrize("seed", range(6))
def test_the_bow_that_fits_best_is_that_of_scipys_least_squares(seed: int) -> None:
    """Within a tenth of how sure it is: the sums take the ratio's slope once, scipy follows it."""
    rng = np.random.default_rng(seed)
    known = unknown(float(rng.uniform(1.15, 1.6)))
    brace_m, draw_m = 0.15, 0.4 * known.nock_to_nock_m
    at_m = brace_m + 0.5 * (draw_m - brace_m)
    share = float(rng.normal(0.0, 0.04))
    read_n = 100.0 * np.exp(ratios(np.zeros(5), known, brace_m, draw_m, at_m) + share)
    readings = [ForceRead(draw_m, 100.0, 0.05), ForceRead(at_m, float(read_n), 0.02)]
    sure = [sqrt(each.off**2 + (TAPE_M / (each.draw_m - brace_m)) ** 2) for each in readings]

    def wrong(x: NDArray[np.float64]) -> list[float]:
        ratio = ratios(x[:5], known, brace_m, draw_m, at_m)
        return [(log(100.0) - x[5]) / sure[0], (log(float(read_n)) - x[5] - ratio) / sure[1], *x[:5].tolist()]

    best = optimize.least_squares(wrong, [0.01] * 5 + [log(100.0)], diff_step=[1e-3] * 6)
    found = replace(known, draw_m=draw_m, draw_weight_n=100.0, braced_m=brace_m).given(readings[1])
    spread = found.spread(lambda each: each.weight_n)
    assert spread.value == pytest.approx(float(np.exp(best.x[5])), rel=3e-3)
    assert found.misfit == pytest.approx(sqrt(2.0 * best.cost), abs=0.1)
    pairs = [(wrong(best.x + step), wrong(best.x - step)) for step in np.eye(6)]
    jac = np.array([np.subtract(*pair) / 2.0 for pair in pairs]).T  # over the whole of lopsided spreads
    covariance = np.linalg.inv(jac.T @ jac)
    assert (spread.high - spread.low) / 2.0 / spread.value == pytest.approx(sqrt(covariance[5, 5]), rel=0.05)
