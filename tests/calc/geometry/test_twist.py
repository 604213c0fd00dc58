"""Twist of a bundle: against fibres counted in its section, and a helix drawn in space for its hand."""

from __future__ import annotations

from math import cos, pi, radians, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize.elementwise import find_root

from calc.errors import DomainError
from calc.geometry.lay import (
    Hand,
    bundle_diameter,
    bundle_of_cord,
    cord_of_bundle,
    flat_surface_angle,
    hand_of,
    lay,
    modulus_ratio,
    retraction,
    signed,
    surface_angle,
    twist_of_angle,
)
from tests.tolerances import CLOSED_FORM, SOLVED

pytestmark = pytest.mark.exact

# Own table of the reference sheet, section 3.4: angle, contraction factor, retraction %, squared cosine.
SHEET = [
    (5, 1.00191, 0.1906, 0.9924),
    (7, 1.00375, 0.3741, 0.9851),
    (10, 1.00771, 0.7654, 0.9698),
    (15, 1.01764, 1.7332, 0.9330),
    (20, 1.03209, 3.1091, 0.8830),
    (25, 1.05169, 4.9149, 0.8214),
    (30, 1.07735, 7.1797, 0.7500),
    (35, 1.11039, 9.9413, 0.6710),
    (40, 1.15270, 13.2474, 0.5868),
    (45, 1.20711, 17.1573, 0.5000),
]

ANGLES = st.floats(-1.5, 1.5)
DIAMETERS = st.floats(1e-4, 1e-2)
law = settings(derandomize=True, deadline=None, max_examples=100)


@pytest.mark.parametrize(("angle", "factor", "lost", "squared"), SHEET)
def test_retraction_and_modulus_agree_with_the_table(angle: int, factor: float, lost: float, squared: float) -> None:
    assert 100 * retraction(radians(angle)) == pytest.approx(lost, abs=5.1e-5)
    assert 1 / (1 - retraction(radians(angle))) == pytest.approx(factor, abs=5.1e-6)
    assert modulus_ratio(radians(angle)) == pytest.approx(squared, abs=5.1e-5)


def test_retraction_is_the_mean_over_all_fibres_of_the_section() -> None:
    """A fibre at the helix angle takes more of the section, so fibres count by the cosine of their angle."""
    for angle in np.random.default_rng(3).uniform(0.02, 1.4, 500):
        slope = tan(angle)
        fibres, _ = quad(lambda r, k=slope: r / np.hypot(1.0, k * r), 0.0, 1.0)
        lengths, _ = quad(lambda r: r, 0.0, 1.0)
        assert 1.0 - fibres / lengths == pytest.approx(retraction(float(angle)), rel=CLOSED_FORM)


def test_modulus_is_the_share_of_the_stretch_along_a_fibre() -> None:
    angles = np.random.default_rng(4).uniform(0.0, 1.5, 500)
    ours = [modulus_ratio(float(angle)) for angle in angles]
    np.testing.assert_allclose(ours, np.cos(angles) ** 2, rtol=CLOSED_FORM)


@law
@given(ANGLES)
def test_either_hand_takes_the_same(angle: float) -> None:
    assert retraction(-angle) == retraction(angle)
    assert modulus_ratio(-angle) == modulus_ratio(angle)


@law
@given(DIAMETERS, ANGLES)
def test_angle_and_twist_go_there_and_back(diameter_m: float, angle: float) -> None:
    twist = twist_of_angle(diameter_m, angle)
    assert surface_angle(diameter_m, twist) == pytest.approx(angle, rel=1e-12, abs=1e-15)
    assert surface_angle(diameter_m, -twist) == -surface_angle(diameter_m, twist)
    assert twist_of_angle(2 * diameter_m, angle) == pytest.approx(twist / 2, rel=1e-12)


@law
@given(st.floats(10.0, 3000.0), st.floats(0.9, 1.6), st.floats(0.4, 0.9), st.floats(1.0, 500.0))
def test_surface_angle_follows_the_twist_factor(tex: float, density: float, packing: float, twist: float) -> None:
    """Tangent = 0.0112100 sqrt(specific volume) x factor, in tex, turns/cm and cm3/g: reference sheet, 3.3."""
    wide_m = bundle_diameter(tex * 1e-6, 1000.0 * density, packing)
    factor = np.sqrt(tex) * twist / 100.0
    expected = 0.0112100 * np.sqrt(1.0 / (density * packing)) * factor
    assert tan(surface_angle(wide_m, twist)) == pytest.approx(expected, rel=1e-5)


def test_angle_from_turns_over_the_flat_length_is_the_root_another_search_finds() -> None:
    turned = np.random.default_rng(5).uniform(0.001, 1.99, 600)

    def over(angle: np.ndarray, x: np.ndarray) -> np.ndarray:
        return np.asarray(np.tan(angle) * (1.0 - np.tan(angle / 2.0) ** 2) - x)

    found = find_root(over, (np.full(600, 1e-9), np.full(600, pi / 2 - 1e-9)), args=(turned,)).x
    ours = [flat_surface_angle(1.0, float(x) / pi) for x in turned]
    np.testing.assert_allclose(ours, found, rtol=SOLVED)


@law
@given(DIAMETERS, st.floats(-0.99, 0.99))
def test_flat_and_twisted_counts_are_of_one_bundle(diameter_m: float, share: float) -> None:
    flat = share * 2.0 / (pi * diameter_m)
    angle = flat_surface_angle(diameter_m, flat)
    assert twist_of_angle(diameter_m, angle) * (1.0 - retraction(angle)) == pytest.approx(flat, rel=1e-9, abs=1e-12)
    assert flat_surface_angle(diameter_m, -flat) == -angle


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_a_bundle_can_be_twisted_until_no_length_is_left(side: float) -> None:
    most = 2.0 / (pi * 0.001)
    assert flat_surface_angle(0.001, side * most * (1 - 1e-9)) == pytest.approx(side * pi / 2, rel=1e-8)
    with pytest.raises(DomainError) as caught:
        flat_surface_angle(0.001, side * most)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == ("twist_per_flat_m", "model", "overtwisted")
    assert problem.limit == pytest.approx(side * most, rel=1e-12)


@law
@given(st.sampled_from([2, 3, 4]), DIAMETERS, st.floats(0.0, 0.7), st.floats(-0.9, 0.9), st.floats(0.01, 10.0))
def test_both_levels_of_twist_shorten_the_bundle(
    bundles: int, diameter_m: float, lay_rad: float, share: float, bundle_m: float
) -> None:
    shape = lay(diameter_m, bundles, lay_rad)
    own = share * 2.0 / (pi * diameter_m)
    cord_m = cord_of_bundle(bundle_m, shape, own)
    assert cord_m == pytest.approx(bundle_m * (1.0 - share**2) * cos(lay_rad), rel=1e-9)
    assert cord_of_bundle(bundle_m, shape, -own) == cord_m
    assert bundle_of_cord(cord_m, shape, own) == pytest.approx(bundle_m, rel=1e-9)
    assert cord_of_bundle(2 * bundle_m, shape, own) == pytest.approx(2 * cord_m, rel=1e-9)


@pytest.mark.parametrize(("angle", "left"), [(10, 0.992346 * 0.984808), (20, 0.968909 * 0.939693)])
def test_fibres_along_the_cord_lose_both_shares_of_the_sheet(angle: int, left: float) -> None:
    """Retraction 0.7654 % and 3.1091 %, cosines of section 2.1: own numbers of the reference sheet."""
    shape = lay(0.002, 2, radians(angle))
    own = 2.0 * tan(radians(angle) / 2.0) / (pi * 0.002)
    assert cord_of_bundle(1.0, shape, own) == pytest.approx(left, abs=2e-6)


@pytest.mark.parametrize(("turns", "hand"), [(3.0, "Z"), (-3.0, "S"), (0.0, "Z"), (-0.0, "Z")])
def test_the_sign_of_turns_is_their_hand(turns: float, hand: Hand) -> None:
    assert hand_of(turns) == hand
    assert signed(abs(turns), hand) == turns
    assert signed(-abs(turns), hand) == -turns


@pytest.mark.exact
@pytest.mark.parametrize("hand", ["S", "Z"])
def test_a_front_strand_slopes_like_the_stroke_of_its_letter(hand: Hand) -> None:
    """ISO 2. Cord upright along z, seen from the front, -y: Z rises to the right like its stroke, S to the left."""
    turns = signed(1.0, hand)
    height = np.linspace(-0.02, 0.02, 3)
    around = 2.0 * pi * turns * height - pi / 2.0
    right, towards = np.cos(around), -np.sin(around)
    assert np.all(towards > 0.9)
    slope = np.polyfit(right, height, 1)[0]
    assert (slope > 0.0) == (hand == "Z")


@pytest.mark.parametrize("hand", ["s", "z", "", "X"])
def test_there_are_two_hands(hand: Hand) -> None:
    with pytest.raises(DomainError) as caught:
        signed(1.0, hand)
    assert (caught.value.problem.field, caught.value.problem.code) == ("hand", "choice")
