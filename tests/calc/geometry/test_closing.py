"""A cord that closes up under load: the same turns on a smaller radius."""

from __future__ import annotations

from itertools import pairwise
from math import inf, nan, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc.data import practice
from calc.errors import DomainError
from calc.geometry.lay import closed, closing_up, jam, lay, pressed, radius_ratio
from tests.tolerances import SOLVED

pytestmark = pytest.mark.exact

law = settings(derandomize=True, deadline=None, max_examples=100)


def test_two_bundles_worked_by_hand() -> None:
    """A lay of 3-4-5 pressed to half its thickness: the sine falls from 0.6 to 0.3."""
    made = closed(lay(0.002, 2, np.arcsin(0.6)), 0.5)
    assert made.ratio == pytest.approx(sqrt(1.0 - 0.3**2), rel=1e-12)
    assert made.diameter_m == pytest.approx(0.001, rel=1e-12)


def test_the_closed_lay_is_the_root_another_search_finds() -> None:
    rng = np.random.default_rng(61)
    for _ in range(500):
        bundles = int(rng.integers(2, 5))
        shape = lay(10.0 ** rng.uniform(-4.0, -2.0), bundles, float(rng.uniform(0.05, 0.99)) * jam(bundles).lay_rad)
        squeeze = float(rng.uniform(0.3, 0.999))
        around = 2.0 * np.pi * shape.diameter_m * squeeze * shape.turns_per_strand_m
        found = brentq(lambda a, n=bundles, k=around: np.sin(a) - k * radius_ratio(n, a), 1e-9, shape.lay_rad)
        assert closed(shape, squeeze).lay_rad == pytest.approx(found, rel=SOLVED)


@law
@given(st.sampled_from([2, 3, 4]), st.floats(0.02, 1.0), st.floats(0.05, 1.0), st.floats(0.05, 1.0))
def test_flatter_bundles_make_a_longer_cord_of_the_same_turns(
    bundles: int, share: float, one: float, other: float
) -> None:
    shape = lay(0.002, bundles, share * jam(bundles).lay_rad)
    flat, round_ = (closed(shape, each) for each in sorted((one, other)))
    assert flat.ratio >= round_.ratio >= shape.ratio * (1.0 - 1e-12)
    assert flat.turns_per_strand_m == pytest.approx(shape.turns_per_strand_m, rel=1e-9)
    assert flat.bundles == bundles


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_a_cord_that_is_not_pressed_stays(bundles: int) -> None:
    for shape in (lay(0.002, bundles, 0.0), lay(0.002, bundles, jam(bundles).lay_rad)):
        assert closed(shape, 1.0) == shape
    assert closed(lay(0.002, bundles, 0.0), 0.5).ratio == 1.0


def test_the_thickness_left_is_that_of_a_pressed_bundle() -> None:
    squeeze = practice("bundle_squeeze").spread
    thick = pressed(0.002, squeeze).thickness_m
    shape = lay(0.002, 2, 0.3)
    assert closed(shape, squeeze.value).diameter_m == pytest.approx(thick.value, rel=1e-12)
    assert closed(shape, squeeze.low).diameter_m == pytest.approx(thick.low, rel=1e-12)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_growth_runs_from_round_bundles_to_the_flattest(bundles: int) -> None:
    shape, squeeze = lay(0.0015, bundles, 0.3), practice("bundle_squeeze").spread
    grown = closing_up(shape)
    for end, pressed_to in ((grown.low, squeeze.high), (grown.value, squeeze.value), (grown.high, squeeze.low)):
        assert end == pytest.approx(closed(shape, pressed_to).ratio / shape.ratio - 1.0, rel=1e-9, abs=1e-15)
    assert all(before < after for before, after in pairwise((grown.low, grown.value, grown.high)))


@pytest.mark.practice
def test_closing_up_is_a_part_of_the_trades_bedding_in() -> None:
    """A fresh cord is said to grow by 1 %; at the lays of a body the geometry, unaware of it, gives less."""
    bedding = practice("bedding").spread
    loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
    middle, most = (closing_up(lay(0.0015, 2, each)) for each in ((loosest + tightest) / 2.0, tightest))
    assert middle.value == pytest.approx(0.003, abs=5e-4)
    assert most.value == pytest.approx(0.008, abs=5e-4)
    assert most.value < bedding.value
    assert most.high < bedding.high


@pytest.mark.parametrize(
    ("bad", "code", "limit"), [(0.0099, "min", 0.01), (1.001, "max", 1.0), (nan, "number", None), (inf, "number", None)]
)
def test_out_of_bounds(bad: float, code: str, limit: float | None) -> None:
    with pytest.raises(DomainError) as caught:
        closed(lay(0.002, 2, 0.3), bad)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("squeeze", code, limit)
    assert closed(lay(0.002, 2, 0.3), 0.01).diameter_m == pytest.approx(2e-5, rel=1e-12)
