"""How near bundles come to each other, against curves in space and a search over them."""

from __future__ import annotations

from itertools import pairwise
from math import degrees, pi, radians, sqrt

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar

from calc.errors import DomainError
from calc.geometry.lay import radius_ratio
from calc.geometry.lay.approach import STEEPEST_RAD, ratio_at, sine_left, turned_rad
from tests.tolerances import CLOSED_FORM

Reals = NDArray[np.float64]

SHEET = {  # own table of the reference sheet, section 1.2, to 5 decimals: worked by another program
    3: (0.57791, 0.57964, 0.58279, 0.58781, 0.59552, 0.60729, 0.62538, 0.65304, 0.69435),
    4: (0.70846, 0.71267, 0.72013, 0.73161, 0.74830, 0.77197, 0.80505, 0.85075, 0.91324),
}


def _point(t: Reals | float, phase: float, pitch: float) -> Reals:
    """Give a place on a helix of radius 1 whose axis is z."""
    return np.stack([np.cos(t + phase), np.sin(t + phase), pitch * np.asarray(t)])


def _distance(t: Reals | float, phase: float, pitch: float) -> Reals:
    gap: Reals = np.linalg.norm(_point(t, phase, pitch).T - _point(0.0, 0.0, pitch), axis=-1)
    return gap


def _searched(bundles: int, lay_rad: float) -> float:
    """Find the radius ratio by brute force over all neighbours: a grid, then a bounded search."""
    pitch = 1.0 / np.tan(lay_rad)
    grid = np.linspace(-2.0 * pi, 2.0 * pi, 801)
    least = np.inf
    for k in range(1, bundles):
        phase = 2.0 * pi * k / bundles
        near = float(grid[int(np.argmin(_distance(grid, phase, pitch)))])
        found = minimize_scalar(
            lambda t, p=phase: float(_distance(t, p, pitch)) ** 2,
            bounds=(near - 0.02, near + 0.02),
            method="bounded",
            options={"xatol": 1e-10},
        )
        least = min(least, sqrt(float(found.fun)))
    return 1.0 / least


CASES = [
    (int(bundles), float(angle))
    for bundles, angle in zip(
        np.random.default_rng(31).integers(2, 5, 540),
        np.random.default_rng(32).uniform(0.02, STEEPEST_RAD, 540),
        strict=True,
    )
]


@pytest.mark.exact
def test_radius_is_that_of_curves_in_space() -> None:
    ours = np.array([radius_ratio(*case) for case in CASES])
    theirs = np.array([_searched(*case) for case in CASES])
    np.testing.assert_allclose(ours, theirs, rtol=CLOSED_FORM)


@pytest.mark.exact
@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_a_bundle_stays_clear_of_its_own_next_turns(bundles: int) -> None:
    t = np.linspace(pi / 2.0, 4.0 * pi, 20001)
    for lay_rad in np.linspace(0.05, STEEPEST_RAD, 60):
        apart = _distance(t, 0.0, 1.0 / float(np.tan(lay_rad)))
        inner = apart[1:-1][(apart[1:-1] < apart[:-2]) & (apart[1:-1] < apart[2:])]
        assert np.all(inner >= 1.0 / radius_ratio(bundles, float(lay_rad)))


@pytest.mark.exact
@pytest.mark.parametrize("bundles", [3, 4])
def test_radius_agrees_with_the_table(bundles: int) -> None:
    for angle, expected in zip(range(5, 50, 5), SHEET[bundles], strict=True):
        assert radius_ratio(bundles, radians(angle)) == pytest.approx(expected, abs=5.1e-6)


@pytest.mark.exact
def test_two_bundles_touch_on_the_axis_up_to_45_degrees() -> None:
    assert [radius_ratio(2, radians(angle)) for angle in range(46)] == [0.5] * 46
    assert turned_rad(2, pi / 4.0) == 0.0
    assert radius_ratio(2, radians(45.1)) > 0.5
    steep = np.nextafter(pi / 4.0, 1.0) * (1.0 + 1e-15)
    assert radius_ratio(2, float(steep)) == pytest.approx(0.5, rel=1e-12)


@pytest.mark.exact
def test_straight_bundles_lie_as_packed_circles() -> None:
    assert radius_ratio(3, 0.0) == pytest.approx(1.0 / sqrt(3.0), rel=1e-15)
    assert radius_ratio(4, 0.0) == pytest.approx(sqrt(0.5), rel=1e-15)
    assert turned_rad(3, 0.0) == 0.0


@pytest.mark.exact
@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_radius_grows_with_the_lay_and_starts_flat(bundles: int) -> None:
    ratios = [radius_ratio(bundles, angle) for angle in np.linspace(0.0, STEEPEST_RAD, 200)]
    assert all(after >= before for before, after in pairwise(ratios))
    assert radius_ratio(bundles, 1e-6) == pytest.approx(ratios[0], rel=1e-11)


@pytest.mark.exact
@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_turned_angle_is_where_the_slope_is_nought(bundles: int) -> None:
    for lay_rad in np.linspace(0.05, STEEPEST_RAD, 100):
        t = turned_rad(bundles, float(lay_rad))
        assert 0.0 <= t < 2.0 * pi / bundles
        pull = np.tan(lay_rad) ** 2 * np.sin(2.0 * pi / bundles - t)
        assert t == pytest.approx(pull, rel=1e-12, abs=1e-15) or (bundles == 2 and lay_rad <= pi / 4.0)
        assert ratio_at(bundles, t) == radius_ratio(bundles, float(lay_rad))


@pytest.mark.exact
def test_what_is_left_of_the_phase_keeps_its_digits_on_the_axis() -> None:
    assert sine_left(2, 1e-12) == 1e-12
    assert sine_left(3, 0.0) == pytest.approx(sqrt(0.75), rel=1e-15)


def _fullest(bundles: int) -> float:
    """Find the slope, pitch / circumference, at which touching strands fill their round envelope best."""

    def empty(slope: float) -> float:
        thick = 0.5 / radius_ratio(bundles, np.arctan(1.0 / slope))
        return float(-bundles * np.hypot(1.0, slope) * thick**2 / (slope * (1.0 + thick) ** 2))

    found = minimize_scalar(empty, bounds=(0.6, 1.2), method="bounded", options={"xatol": 1e-9})
    return float(found.x)


@pytest.mark.published
def test_closest_packing_of_two_strands_has_the_printed_pitch() -> None:
    """The summary of arXiv:1104.0489 prints 4.80 for pitch / strand radius."""
    slope = _fullest(2)
    assert 2.0 * pi * slope * 2.0 * radius_ratio(2, np.arctan(1.0 / slope)) == pytest.approx(4.80, abs=5e-3)


@pytest.mark.recalled
def test_closest_packing_of_three_strands_is_at_the_printed_angle() -> None:
    """Bohr and Olsen, Theor. Chem. Acc. (2011), print 43.3 degrees; from memory."""
    assert degrees(np.arctan(_fullest(3))) == pytest.approx(43.3, abs=0.05)


@pytest.mark.exact
@pytest.mark.parametrize("bundles", [1, 5, 0, -2])
def test_other_counts_are_refused(bundles: int) -> None:
    with pytest.raises(DomainError) as caught:
        turned_rad(bundles, 0.3)
    assert (caught.value.problem.field, caught.value.problem.code) == ("bundles", "choice")


@pytest.mark.exact
def test_steeper_lays_are_refused() -> None:
    with pytest.raises(DomainError) as caught:
        radius_ratio(2, STEEPEST_RAD * 1.0001)
    assert (caught.value.problem.field, caught.value.problem.code) == ("lay_rad", "max")
    assert degrees(caught.value.problem.limit or 0.0) == pytest.approx(60.0)
