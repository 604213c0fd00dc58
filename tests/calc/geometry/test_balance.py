"""What plying does to the bundles' twist: against frames carried along curves, energies and sums that must stay."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar

from calc.geometry.lay import (
    balanced_twist,
    counter_twist,
    finger_turns,
    jam,
    lay,
    radius_ratio,
    residual_twist,
    surface_angle,
    torque_free_band,
    torque_free_ratio,
    transferred,
)
from calc.numerics import Spread
from tests.tolerances import SOLVED

pytestmark = pytest.mark.exact

Reals = NDArray[np.float64]

# Own tables of the reference sheet, sections 2.2 and 2.3.
PARALLEL = [(10, 2.0002), (15, 2.0012), (20, 2.0039), (25, 2.0097), (30, 2.0207), (35, 2.0399)]
PARALLEL_LOW_TWIST_RADIUS_3 = [(10, 2.1573), (15, 2.1614), (20, 2.1685), (25, 2.1804), (30, 2.1994), (35, 2.2288)]
AT_REST = [
    (10, 0.9839, 0.9542, 0.9263),
    (15, 0.9609, 0.8966, 0.8403),
    (20, 0.9232, 0.8152, 0.7298),
    (25, 0.8635, 0.7092, 0.6018),
    (30, 0.7698, 0.5774, 0.4619),
    (35, 0.6222, 0.4175, 0.3142),
]

TURNS = st.floats(-200.0, 200.0)
LAYS = st.floats(0.0, 0.8)
law = settings(derandomize=True, deadline=None, max_examples=100)


def _carried(lay_rad: Reals, steps: int) -> Reals:
    """Carry a frame once round a helix without turning it; give the turns it has lost against the axis.

    Double reflection (Wang and others, ACM Trans. Graph. 27 (2008) 2), for many helices at once.
    """
    t = np.linspace(0.0, 2.0 * pi, steps + 1)
    rise = 1.0 / np.tan(lay_rad)
    length = np.hypot(1.0, rise)
    place = [np.stack([np.full_like(rise, np.cos(x)), np.full_like(rise, np.sin(x)), rise * x], axis=1) for x in t]
    along = [np.stack([-np.sin(x) / length, np.cos(x) / length, rise / length], axis=1) for x in t]
    frame = -np.stack([np.ones_like(rise), 0.0 * rise, 0.0 * rise], axis=1)
    turned = np.zeros_like(rise)
    before = np.zeros_like(rise)
    for k in range(steps):
        step = place[k + 1] - place[k]
        size = np.sum(step * step, axis=1, keepdims=True)
        frame_1 = frame - 2.0 / size * np.sum(step * frame, axis=1, keepdims=True) * step
        along_1 = along[k] - 2.0 / size * np.sum(step * along[k], axis=1, keepdims=True) * step
        other = along[k + 1] - along_1
        size = np.sum(other * other, axis=1, keepdims=True)
        frame = frame_1 - 2.0 / size * np.sum(other * frame_1, axis=1, keepdims=True) * other
        inward = -np.stack([np.full_like(rise, np.cos(t[k + 1])), np.full_like(rise, np.sin(t[k + 1])), 0 * rise], 1)
        across = np.cross(along[k + 1], inward)
        angle = np.arctan2(np.sum(frame * across, axis=1), np.sum(frame * inward, axis=1))
        turned += np.mod(before - angle + pi, 2.0 * pi) - pi
        before = angle
    result: Reals = turned / (2.0 * pi)
    return result


def test_a_turn_of_lay_takes_the_twist_of_a_frame_carried_along() -> None:
    angles = np.random.default_rng(11).uniform(0.05, 0.9, 500)
    ours = [residual_twist(0.0, -1.0, float(angle)) for angle in angles]
    np.testing.assert_allclose(ours, _carried(angles, 1500), rtol=SOLVED)


@pytest.mark.parametrize(("angle", "share"), [(10, 0.984808), (20, 0.939693), (30, 0.866025)])
def test_a_turn_of_lay_takes_the_cosine(angle: int, share: float) -> None:
    assert residual_twist(0.0, 1.0, radians(angle)) == pytest.approx(-share, abs=5.1e-7)


@law
@given(TURNS, TURNS, LAYS)
def test_counter_twist_and_what_is_left_go_there_and_back(turns: float, left: float, lay_rad: float) -> None:
    assert residual_twist(counter_twist(turns, lay_rad, left), turns, lay_rad) == pytest.approx(left, abs=1e-11)
    assert residual_twist(left, turns, lay_rad) == pytest.approx(-residual_twist(-left, -turns, lay_rad), abs=1e-12)


@law
@given(TURNS, TURNS, TURNS, LAYS)
def test_turns_one_after_the_other_add_up(counter: float, first: float, then: float, lay_rad: float) -> None:
    step = residual_twist(residual_twist(counter, first, lay_rad), then, lay_rad)
    assert residual_twist(counter, first + then, lay_rad) == pytest.approx(step, abs=1e-11)


@law
@given(st.floats(0.1, 200.0), LAYS, st.floats(-2.0, 4.0))
def test_both_ways_of_book_keeping_leave_the_same(turns: float, lay_rad: float, fingers: float) -> None:
    """Carried round without turning, a bundle keeps turns x (fingers + 1 - cos(lay)): reference sheet, 2.1."""
    put_in = turns * (fingers + 1.0)
    assert finger_turns(put_in / turns) == pytest.approx(fingers, abs=1e-12)
    assert residual_twist(put_in, turns, lay_rad) == pytest.approx(turns * (fingers + 1.0 - cos(lay_rad)), abs=1e-10)


@pytest.mark.parametrize(("angle", "share"), PARALLEL)
def test_parallel_fibres_of_two_bundles_agree_with_the_table(angle: int, share: float) -> None:
    assert balanced_twist(2, radians(angle)) == pytest.approx(share, abs=5.1e-5)
    assert finger_turns(balanced_twist(2, radians(angle))) == pytest.approx(share - 1, abs=5.1e-5)


@pytest.mark.parametrize(("angle", "share"), PARALLEL_LOW_TWIST_RADIUS_3)
def test_parallel_fibres_of_three_bundles_agree_with_the_table_but_for_the_radius(angle: int, share: float) -> None:
    """The sheet keeps the radius of a straight lay; the true one is a little larger."""
    swollen = 2.0 * (radius_ratio(3, radians(angle)) - 1.0 / np.sqrt(3.0)) / cos(radians(angle))
    assert balanced_twist(3, radians(angle)) - swollen == pytest.approx(share, abs=5.1e-5)
    assert 0.0 < swollen < 0.13


@law
@given(st.sampled_from([2, 3, 4]), st.floats(0.01, 0.7), st.floats(1e-4, 1e-2))
def test_balanced_bundles_keep_their_surface_at_the_lay(bundles: int, lay_rad: float, diameter_m: float) -> None:
    shape = lay(diameter_m, bundles, lay_rad)
    turns = shape.turns_per_strand_m
    left = residual_twist(turns * balanced_twist(bundles, lay_rad), turns, lay_rad)
    assert surface_angle(diameter_m, left) == pytest.approx(lay_rad, rel=1e-9)


@pytest.mark.parametrize("row", AT_REST)
def test_the_torque_free_ply_agrees_with_the_table(row: tuple[float, ...]) -> None:
    for stiffness, expected in zip((0.5, 1.0, 1.5), row[1:], strict=True):
        assert torque_free_ratio(radians(row[0]), stiffness) == pytest.approx(expected, abs=5.1e-5)


def test_the_torque_free_ply_has_the_least_energy() -> None:
    rng = np.random.default_rng(12)
    for angle, stiffness in zip(rng.uniform(0.05, 0.7, 500), rng.uniform(0.3, 2.0, 500), strict=True):
        put_in = sin(angle) / torque_free_ratio(float(angle), float(stiffness))

        def energy(beta: float, bend: float = float(stiffness), twist: float = put_in) -> float:
            return bend * sin(beta) ** 4 / 2.0 + (twist - sin(beta) * cos(beta)) ** 2 / 2.0

        span = (0.5 * float(angle), min(1.5 * float(angle), 0.78))
        found = minimize_scalar(energy, bounds=span, method="bounded", options={"xatol": 1e-12})
        step = 1e-5
        slope = (energy(float(angle) + step) - energy(float(angle) - step)) / (2.0 * step)
        assert found.x == pytest.approx(angle, rel=1e-3)
        assert slope == pytest.approx(0.0, abs=1e-9)


def test_a_nearly_straight_pair_gives_back_every_turn() -> None:
    assert torque_free_ratio(1e-6, 1.0) == pytest.approx(1.0, abs=1e-11)


@law
@given(st.floats(0.01, 0.78), st.floats(0.1, 3.0), st.floats(0.1, 3.0), st.floats(0.1, 3.0))
def test_a_band_holds_all_its_stiffnesses(lay_rad: float, one: float, other: float, third: float) -> None:
    low, middle, high = sorted((one, other, third))
    band = torque_free_band(lay_rad, Spread(low, middle, high))
    assert (band.high, band.value, band.low) == tuple(torque_free_ratio(lay_rad, each) for each in (low, middle, high))


@law
@given(st.floats(0.0, 50.0), st.floats(0.0, 100.0), st.floats(0.0, 3.0))
def test_a_transfer_keeps_the_sum_of_turns(splice: float, body: float, counter: float) -> None:
    moved = transferred(splice, counter, body)
    assert moved.body_turns + splice == 0.0
    assert moved.body_turns + moved.to_turn == pytest.approx(body, abs=1e-12)


@law
@given(st.floats(0.1, 50.0), st.floats(0.1, 100.0), st.floats(0.05, 0.6), st.floats(0.05, 0.6))
def test_a_transfer_leaves_each_zone_its_own_counter_twist(
    splice: float, body: float, splice_rad: float, body_rad: float
) -> None:
    """Link of a bundle with itself, sum over both zones: what is rolled and turned moves it, nothing else."""
    for_splice, for_body = splice * balanced_twist(2, splice_rad), body * balanced_twist(2, body_rad)
    moved = transferred(splice, balanced_twist(2, splice_rad), body)
    body_link = -(for_splice + for_body) + moved.own_lost + moved.to_turn
    own_after = body_link - body * (1.0 - cos(body_rad))
    assert -own_after == pytest.approx(residual_twist(for_body, body, body_rad), abs=1e-10)


def test_balance_and_rest_are_defined_up_to_their_limits() -> None:
    assert balanced_twist(2, 0.0) == 2.0
    limit = jam(4).lay_rad
    assert balanced_twist(4, limit) == pytest.approx(2 * jam(4).radius_ratio / cos(limit) + cos(limit), rel=1e-12)
    assert tan(limit) > 1.0
