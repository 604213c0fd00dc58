"""Lays against arc lengths, searches for the angle, and the laws they must keep."""

from __future__ import annotations

from itertools import pairwise
from math import cos, degrees, inf, pi, radians, sin, sqrt, tan
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import quad
from scipy.optimize.elementwise import find_root

from calc.errors import DomainError
from calc.geometry.lay import Lay, jam, jam_turns, lay, lay_of_cord_turns, lay_of_turns, radius_ratio, take_up_curve
from tests.tolerances import CLOSED_FORM, SOLVED

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.exact

Reals = NDArray[np.float64]

# Own table of the reference sheet, section 1.1, two bundles: diameter mm, turns per m; helix angle, take-up %
# and strand for 1500 mm of cord with turns counted over the cord; angle and take-up with turns over the strand.
SHEET = [
    (2.0, 20, 7.162, 0.780, 1511.80, 7.219, 0.793),
    (2.0, 50, 17.441, 4.597, 1572.28, 18.310, 5.063),
    (2.0, 80, 26.687, 10.652, 1678.84, 30.176, 13.551),
    (1.5, 60, 15.788, 3.772, 1558.81, 16.424, 4.080),
    (1.5, 100, 25.232, 9.541, 1658.21, 28.115, 11.799),
]

BUNDLES = st.sampled_from([2, 3, 4])
DIAMETERS = st.floats(1e-4, 1e-2)
SHARES = st.floats(0.0, 0.9999)
law = settings(derandomize=True, deadline=None, max_examples=100)


@pytest.mark.parametrize("row", SHEET)
def test_two_bundles_agree_with_the_table(row: tuple[float, ...]) -> None:
    diameter, turns, angle, take_up, strand, angle_2, take_up_2 = row
    over_cord = lay_of_cord_turns(diameter / 1000, 2, turns, 1.0)
    assert degrees(over_cord.lay_rad) == pytest.approx(angle, abs=5.1e-4)
    assert 100 * over_cord.take_up == pytest.approx(take_up, abs=5.1e-4)
    assert 1500 / over_cord.ratio == pytest.approx(strand, abs=5.1e-3)
    over_strand = lay_of_turns(diameter / 1000, 2, turns, 1.0)
    assert degrees(over_strand.lay_rad) == pytest.approx(angle_2, abs=5.1e-4)
    assert 100 * over_strand.take_up == pytest.approx(take_up_2, abs=5.1e-4)


@pytest.mark.parametrize(
    ("bundles", "angle", "pitch"),
    [
        *((2, 20, 4.316), (2, 25, 3.369), (2, 30, 2.721), (2, 35, 2.243), (2, 45, pi / 2)),
        *((3, 20, 4.664), (3, 25, 3.662), (3, 30, 2.984), (3, 35, 2.493), (4, 20, 5.127), (4, 30, 3.302)),
    ],
)
def test_pitch_in_cord_diameters_agrees_with_the_table(bundles: int, angle: float, pitch: float) -> None:
    made = lay(0.002, bundles, radians(angle))
    assert made.pitch_m / made.cord_diameter_m == pytest.approx(pitch, abs=5.1e-4)


@pytest.mark.parametrize(
    ("bundles", "angle", "wide"), [(3, 20, 2.17563), (4, 20, 2.46321), (3, 40, 2.30607), (4, 40, 2.70150), (2, 40, 2.0)]
)
def test_cord_diameter_agrees_with_the_table(bundles: int, angle: float, wide: float) -> None:
    assert lay(1.0, bundles, radians(angle)).cord_diameter_m == pytest.approx(wide, abs=1.1e-5)


RNG = np.random.default_rng(7)
COUNTS = RNG.integers(2, 5, 600)
SHARE = RNG.uniform(0.01, 0.999, 600)
WIDE = 10.0 ** RNG.uniform(-4, -2, 600)
LONG = 10.0 ** RNG.uniform(-1, 1, 600)


def test_a_turn_takes_the_arc_length_of_the_helix() -> None:
    for bundles, share, wide in zip(COUNTS, SHARE, WIDE, strict=True):
        made = lay(float(wide), int(bundles), float(share) * jam(int(bundles)).lay_rad)
        rise = made.pitch_m / (2.0 * pi)
        arc, _ = quad(
            lambda t, r=made.radius_m, h=rise: sqrt((r * sin(t)) ** 2 + (r * cos(t)) ** 2 + h * h), 0.0, 2.0 * pi
        )
        assert arc == pytest.approx(1.0 / made.turns_per_strand_m, rel=CLOSED_FORM)
        assert made.pitch_m / arc == pytest.approx(1.0 - made.take_up, rel=CLOSED_FORM)


def _ratio(bundles: NDArray[np.int64], lay_rad: Reals) -> Reals:
    """Give radius ratios by Newton's rule on the slope of the distance, from a start below every root."""
    phase, slant = 2.0 * pi / bundles, np.tan(lay_rad) ** 2
    two = (bundles == 2) & (slant > 1.0)
    t = np.where(two, np.sqrt(6.0 * np.maximum(0.0, slant - 1.0) / slant), 0.0)
    for _ in range(60):
        t = np.where(
            (bundles == 2) & ~two, 0.0, t - (t - slant * np.sin(phase - t)) / (1.0 + slant * np.cos(phase - t))
        )
    with np.errstate(divide="ignore", invalid="ignore"):
        squared = 2.0 * (1.0 - np.cos(phase - t)) + np.where(t > 0.0, t * t / slant, 0.0)
    result: Reals = 1.0 / np.sqrt(squared)
    return result


def test_the_lay_of_a_count_is_the_root_another_search_finds() -> None:
    turns = np.array(
        [s * jam_turns(float(d), int(n), float(x)) for n, s, d, x in zip(COUNTS, SHARE, WIDE, LONG, strict=True)]
    )
    top = np.array([jam(int(n)).lay_rad for n in COUNTS])

    def over(angle: Reals, n: NDArray[np.int64], k: Reals, d: Reals, x: Reals) -> Reals:
        result: Reals = np.sin(angle) - 2.0 * pi * k * d * _ratio(n, angle) / x
        return result

    found = find_root(over, (np.full(600, 1e-9), top), args=(COUNTS, turns, WIDE, LONG)).x
    ours = [
        lay_of_turns(float(d), int(n), float(k), float(x)).lay_rad
        for n, k, d, x in zip(COUNTS, turns, WIDE, LONG, strict=True)
    ]
    np.testing.assert_allclose(ours, found, rtol=SOLVED)


def test_the_lay_of_turns_over_the_cord_is_the_root_another_search_finds() -> None:
    most = np.array([jam(int(n)).cord_turns_times_diameter for n in COUNTS])
    turns = SHARE * most * LONG / WIDE
    top = np.array([jam(int(n)).lay_rad for n in COUNTS])

    def over(angle: Reals, n: NDArray[np.int64], k: Reals, d: Reals, x: Reals) -> Reals:
        result: Reals = np.tan(angle) - 2.0 * pi * k * d * _ratio(n, angle) / x
        return result

    found = find_root(over, (np.full(600, 1e-9), top), args=(COUNTS, turns, WIDE, LONG)).x
    ours = [
        lay_of_cord_turns(float(d), int(n), float(k), float(x)).lay_rad
        for n, k, d, x in zip(COUNTS, turns, WIDE, LONG, strict=True)
    ]
    np.testing.assert_allclose(ours, found, rtol=SOLVED)


@law
@given(BUNDLES, DIAMETERS, SHARES)
def test_the_parts_of_a_lay_agree(bundles: int, diameter_m: float, share: float) -> None:
    made = lay(diameter_m, bundles, share * jam(bundles).lay_rad)
    assert (made.bundles, made.diameter_m) == (bundles, diameter_m)
    assert made.radius_m == pytest.approx(diameter_m * radius_ratio(bundles, made.lay_rad), rel=1e-12)
    assert made.cord_diameter_m == pytest.approx(2 * made.radius_m + diameter_m, rel=1e-12)
    assert made.turns_per_m * 2 * pi * made.radius_m == pytest.approx(tan(made.lay_rad), rel=1e-12)
    assert made.turns_per_strand_m * 2 * pi * made.radius_m == pytest.approx(sin(made.lay_rad), rel=1e-12)
    assert made.ratio == pytest.approx(1 - made.take_up, rel=1e-12)


@law
@given(BUNDLES, DIAMETERS, SHARES, st.floats(0.01, 100.0))
def test_all_lengths_times_a_number_leave_the_angle(bundles: int, diameter_m: float, share: float, k: float) -> None:
    turns = share * jam_turns(diameter_m, bundles, 1.0)
    small = lay_of_turns(diameter_m, bundles, turns, 1.0)
    large = lay_of_turns(k * diameter_m, bundles, turns, k)
    assert large.lay_rad == pytest.approx(small.lay_rad, rel=1e-7)
    assert large.cord_diameter_m == pytest.approx(k * small.cord_diameter_m, rel=1e-9)
    assert large.turns_per_m * k == pytest.approx(small.turns_per_m, rel=1e-7)


@law
@given(BUNDLES, DIAMETERS, SHARES, st.integers(2, 9))
def test_halves_make_a_whole(bundles: int, diameter_m: float, share: float, parts: int) -> None:
    turns = share * jam_turns(diameter_m, bundles, 1.0)
    whole = lay_of_turns(diameter_m, bundles, turns, 1.0)
    part = lay_of_turns(diameter_m, bundles, turns / parts, 1.0 / parts)
    assert part.lay_rad == pytest.approx(whole.lay_rad, rel=1e-7)


@law
@given(BUNDLES, DIAMETERS, st.floats(1e-6, 0.999), st.floats(0.01, 100.0))
def test_turns_and_lay_go_there_and_back(bundles: int, diameter_m: float, share: float, strand_m: float) -> None:
    turns = share * jam_turns(diameter_m, bundles, strand_m)
    made = lay_of_turns(diameter_m, bundles, turns, strand_m)
    assert made.turns_per_strand_m * strand_m == pytest.approx(turns, rel=1e-12)
    cord_m = strand_m * made.ratio
    again = lay_of_cord_turns(diameter_m, bundles, turns, cord_m)
    assert (again.bundles, again.diameter_m) == (made.bundles, made.diameter_m) == (bundles, diameter_m)
    assert again.turns_per_m * cord_m == pytest.approx(turns, rel=1e-12)
    assert again.lay_rad == pytest.approx(made.lay_rad, rel=1e-9)
    direct = lay(diameter_m, bundles, made.lay_rad)
    assert tuple(direct) == pytest.approx(tuple(made), rel=1e-9)


@law
@given(BUNDLES, DIAMETERS, SHARES, SHARES)
def test_more_turns_lay_steeper_and_take_more(bundles: int, diameter_m: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    most = jam_turns(diameter_m, bundles, 1.0)
    first, second = (lay_of_turns(diameter_m, bundles, share * most, 1.0) for share in (less, more))
    assert first.lay_rad <= second.lay_rad
    assert first.take_up <= second.take_up
    assert first.cord_diameter_m <= second.cord_diameter_m


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_no_turns_are_a_straight_cord(bundles: int) -> None:
    for made in (lay(0.002, bundles, 0.0), lay_of_turns(0.002, bundles, 0.0, 1.0)):
        assert (made.lay_rad, made.take_up, made.turns_per_m, made.pitch_m) == (0.0, 0.0, 0.0, inf)
    assert lay_of_cord_turns(0.002, bundles, 0.0, 1.0).lay_rad == 0.0
    assert lay(0.002, bundles, 1e-7).take_up == pytest.approx(5e-15, rel=1e-9)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_jam_itself_is_still_a_lay(bundles: int) -> None:
    most = jam_turns(0.002, bundles, 1.0)
    for made in (lay_of_turns(0.002, bundles, most, 1.0), lay(0.002, bundles, jam(bundles).lay_rad)):
        assert made.lay_rad == pytest.approx(jam(bundles).lay_rad, rel=1e-12)
        assert made.turns_per_strand_m == pytest.approx(most, rel=1e-12)
    most = jam(bundles).cord_turns_times_diameter / 0.002
    assert lay_of_cord_turns(0.002, bundles, most, 1.0).lay_rad == pytest.approx(jam(bundles).lay_rad, rel=1e-12)


@pytest.mark.parametrize("past", [2e-16, 1e-15, 1e-12, 1e-9, 1e-6, 1e-3])
def test_two_bundles_go_smoothly_past_45_degrees(past: float) -> None:
    by_strand = lay_of_turns(1.0, 2, sqrt(2.0) * (1.0 + past) / (2.0 * pi), 1.0)
    by_cord = lay_of_cord_turns(1.0, 2, 2.0 * (1.0 + past) / (2.0 * pi), 1.0)
    assert by_strand.lay_rad - pi / 4.0 == pytest.approx(past, rel=2e-2, abs=5e-16)
    assert by_cord.lay_rad - pi / 4.0 == pytest.approx(past / 2.0, rel=2e-2, abs=5e-16)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_past_the_jam_is_refused_with_the_most_that_fits(bundles: int) -> None:
    limit = jam(bundles)
    most, most_cord = limit.turns_times_diameter * 500, limit.cord_turns_times_diameter * 500
    over = 1 + 1e-9
    asked: list[tuple[Callable[[], Lay], str, float]] = [
        (lambda: lay(0.002, bundles, limit.lay_rad * over), "lay_rad", limit.lay_rad),
        (lambda: lay_of_turns(0.002, bundles, most * over, 1.0), "turns", most),
        (lambda: lay_of_cord_turns(0.002, bundles, most_cord * over, 1.0), "turns", most_cord),
    ]
    for ask, field, expected in asked:
        with pytest.raises(DomainError) as caught:
            ask()
        problem = caught.value.problem
        assert (problem.field, problem.code, problem.reason) == (field, "model", "jam")
        assert problem.limit == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_curve_runs_from_straight_to_the_jam(bundles: int) -> None:
    curve = take_up_curve(0.002, bundles, 40)
    assert len(curve) == 40
    assert curve[0] == (0.0, 0.0)
    assert curve[-1].turns_per_m == pytest.approx(jam(bundles).cord_turns_times_diameter / 0.002, rel=1e-12)
    assert curve[-1].take_up == pytest.approx(jam(bundles).take_up, rel=1e-12)
    for low, high in pairwise(curve):
        assert low.turns_per_m < high.turns_per_m
        assert low.take_up < high.take_up
    for turns, take_up in curve[1:-1]:
        assert lay_of_cord_turns(0.002, bundles, turns, 1.0).take_up == pytest.approx(take_up, rel=1e-9)
    assert [point.take_up for point in take_up_curve(0.01, bundles, 2)] == [0.0, pytest.approx(jam(bundles).take_up)]


@pytest.mark.parametrize(("points", "code"), [(1, "min"), (10_001, "max")])
def test_a_curve_has_a_sensible_count_of_points(points: int, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        take_up_curve(0.002, 2, points)
    assert (caught.value.problem.field, caught.value.problem.code) == ("points", code)
