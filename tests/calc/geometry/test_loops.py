"""Loops against a taut thread: the hull of the tip, half a cord larger, and the two ends at the throat."""

from __future__ import annotations

from dataclasses import astuple
from math import acos, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.spatial import ConvexHull

from calc.errors import DomainError
from calc.geometry.ends import (
    EllipseTip,
    FlatTip,
    RoundTip,
    Section,
    coil,
    loop_nocked,
    loop_of_length,
    loop_of_throat,
    loop_sliding,
    perimeter,
    served_loop,
    shortest_loop,
    widest_opening,
)
from tests.tolerances import SOLVED

pytestmark = pytest.mark.exact

Reals = NDArray[np.float64]
CORDS = st.floats(2e-4, 1e-2)
law = settings(derandomize=True, deadline=None, max_examples=100)


def _outline(section: Section, off_m: float, count: int) -> Reals:
    """Give places on the line that runs `off_m` outside a section."""
    around = np.linspace(0.0, 2.0 * pi, count, endpoint=False)
    normal = np.stack([np.cos(around), np.sin(around)], axis=1)
    half = np.array([section.width_m, section.depth_m]) / 2.0
    if isinstance(section, EllipseTip):
        reach = np.hypot(half[0] * normal[:, 0], half[1] * normal[:, 1])
        return np.asarray(half**2 * normal / reach[:, None] + off_m * normal)
    inner = half - section.corner_m
    return np.asarray(np.sign(normal) * inner + (section.corner_m + off_m) * normal)


def _taut(section: Section, cord_m: float, throat_m: float, count: int = 3001) -> float:
    """Give the length of a thread drawn tight round the tip from one side of the throat to the other."""
    ends = np.array([[-cord_m / 2.0, throat_m], [cord_m / 2.0, throat_m]])
    line = _outline(section, cord_m / 2.0, count)
    between = (np.abs(line[:, 0]) < cord_m / 2.0) & (line[:, 1] > 0.0)
    hull = ConvexHull(np.concatenate([line[~between], ends]))
    return float(hull.area) - cord_m


def _some(rng: np.random.Generator) -> tuple[Section, float]:
    wide, deep = (float(size) for size in 10.0 ** rng.uniform(-2.3, -1.3, 2))
    kinds: list[Section] = [
        RoundTip(wide),
        FlatTip(wide, deep, float(rng.uniform(0.0, 0.5)) * min(wide, deep)),
        EllipseTip(wide, deep),
    ]
    return kinds[int(rng.integers(3))], float(10.0 ** rng.uniform(-3.3, -2.3))


def test_a_loop_is_a_taut_thread() -> None:
    rng = np.random.default_rng(41)
    for _ in range(500):
        section, cord_m = _some(rng)
        throat_m = shortest_loop(section, cord_m).throat_m * float(rng.uniform(1.001, 4.0))
        made = loop_of_throat(section, cord_m, throat_m)
        assert made.length_m == pytest.approx(_taut(section, cord_m, throat_m), rel=SOLVED)


@st.composite
def tips(draw: st.DrawFn) -> Section:
    """Draw a section of any kind."""
    wide, deep = draw(st.floats(5e-3, 0.05)), draw(st.floats(5e-3, 0.05))
    kinds: list[Section] = [RoundTip(wide), EllipseTip(wide, deep)]
    kinds.append(FlatTip(wide, deep, draw(st.floats(0.0, 0.5)) * min(wide, deep)))
    return draw(st.sampled_from(kinds))


@law
@given(tips(), CORDS, st.floats(1.0, 50.0))
def test_throat_length_and_opening_tell_the_same_loop(section: Section, cord_m: float, share: float) -> None:
    throat_m = share * shortest_loop(section, cord_m).throat_m
    made = loop_of_throat(section, cord_m, throat_m)
    assert made.throat_m == pytest.approx(throat_m, rel=1e-9)
    by_length = loop_of_length(section, cord_m, made.length_m)
    assert by_length.length_m == pytest.approx(made.length_m, rel=1e-12)
    assert by_length.throat_m == pytest.approx(made.throat_m, rel=1e-6)
    if share > 1.0 + 1e-6:  # at the shortest loop the opening falls with the square root of the length: nothing to tell
        assert by_length.opening_rad == pytest.approx(made.opening_rad, rel=1e-6)
    nocked = loop_nocked(section, cord_m, min(made.opening_rad, widest_opening(section, cord_m)))
    assert nocked.throat_m == pytest.approx(made.throat_m, rel=1e-9)


@law
@given(tips(), CORDS, st.floats(0.05, 20.0), st.floats(0.3, 1.5))
def test_all_lengths_times_a_number_leave_the_opening(section: Section, cord_m: float, k: float, share: float) -> None:
    if isinstance(section, RoundTip):
        larger: Section = RoundTip(k * section.width_m)
    elif isinstance(section, EllipseTip):
        larger = EllipseTip(k * section.width_m, k * section.depth_m)
    else:
        larger = FlatTip(k * section.width_m, k * section.depth_m, k * section.corner_m)
    opening = share / 1.6 * widest_opening(section, cord_m)
    one, other = loop_nocked(section, cord_m, opening), loop_nocked(larger, k * cord_m, opening)
    assert other.length_m == pytest.approx(k * one.length_m, rel=1e-9)
    assert other.throat_m == pytest.approx(k * one.throat_m, rel=1e-9)
    assert other.leg_m == pytest.approx(k * one.leg_m, rel=1e-6, abs=1e-12)


@law
@given(tips(), CORDS, st.floats(0.02, 0.98), st.floats(0.02, 0.98))
def test_a_wider_loop_is_shorter_and_nearer(section: Section, cord_m: float, one: float, other: float) -> None:
    less, more = (share * widest_opening(section, cord_m) for share in sorted((one, other)))
    narrow, wide = loop_nocked(section, cord_m, less), loop_nocked(section, cord_m, more)
    assert narrow.length_m >= wide.length_m * (1.0 - 1e-12)
    assert narrow.throat_m >= wide.throat_m * (1.0 - 1e-12)
    assert narrow.leg_m >= wide.leg_m - 1e-12
    assert wide.length_m >= shortest_loop(section, cord_m).length_m * (1.0 - 1e-12)


@law
@given(st.floats(5e-3, 0.05), CORDS)
def test_the_shortest_loop_round_a_pin_is_two_circles_that_touch(pin_m: float, cord_m: float) -> None:
    made = shortest_loop(RoundTip(pin_m), cord_m)
    off_m = (pin_m + cord_m) / 2.0
    assert made.leg_m == pytest.approx(0.0, abs=1e-9)
    assert made.throat_m == pytest.approx(sqrt(off_m**2 - cord_m**2 / 4.0), rel=1e-12)
    assert made.opening_rad == pytest.approx(2.0 * acos(cord_m / 2.0 / off_m), rel=1e-12)
    assert made.length_m == pytest.approx(off_m * (pi + made.opening_rad), rel=1e-9)


@law
@given(st.floats(5e-3, 0.05), st.floats(5e-3, 0.05), st.floats(2e-4, 2e-3), st.floats(0.0, 0.3))
def test_the_legs_of_the_shortest_loop_lie_along_a_wide_belly(
    wide_m: float, deep_m: float, cord_m: float, share: float
) -> None:
    corner_m = share * min(wide_m, deep_m)
    if wide_m / 2.0 - corner_m < cord_m / 2.0:
        return
    made = shortest_loop(FlatTip(wide_m, deep_m, corner_m), cord_m)
    assert made.opening_rad == pi
    assert made.throat_m == pytest.approx((deep_m + cord_m) / 2.0, rel=1e-12)
    assert made.leg_m == pytest.approx(wide_m / 2.0 - corner_m - cord_m / 2.0, abs=1e-12)
    round_m = perimeter(FlatTip(wide_m, deep_m, corner_m)) + pi * cord_m
    assert made.length_m == pytest.approx(round_m - cord_m, rel=1e-9)


@law
@given(st.floats(5e-3, 0.05), st.floats(5e-3, 0.05), CORDS)
def test_the_shortest_loop_round_an_ellipse_ends_half_a_cord_off_the_middle(
    wide_m: float, deep_m: float, cord_m: float
) -> None:
    made = shortest_loop(EllipseTip(wide_m, deep_m), cord_m)
    assert made.leg_m == pytest.approx(0.0, abs=1e-9)
    assert made.length_m == pytest.approx(_taut(EllipseTip(wide_m, deep_m), cord_m, made.throat_m), rel=1e-5)


@law
@given(tips(), CORDS, st.floats(0.0, 0.5))
def test_a_sliding_loop_has_its_ease(section: Section, cord_m: float, ease: float) -> None:
    made = loop_sliding(section, cord_m, ease)
    spare_m = made.length_m - shortest_loop(section, cord_m).length_m
    assert spare_m == pytest.approx(ease * perimeter(section), abs=1e-12)
    assert made.leg_m >= 0.0


def test_a_length_or_throat_of_the_shortest_loop_is_the_shortest_loop() -> None:
    for section in (RoundTip(0.0127), FlatTip(0.02, 0.01, 0.002), EllipseTip(0.02, 0.01)):
        shortest = shortest_loop(section, 0.003)
        for share in (1.0, 1.0 - 1e-13):
            by_length = loop_of_length(section, 0.003, share * shortest.length_m)
            by_throat = loop_of_throat(section, 0.003, share * shortest.throat_m)
            assert astuple(by_length) == pytest.approx(astuple(shortest), rel=1e-6, abs=1e-9)
            assert astuple(by_throat) == pytest.approx(astuple(shortest), rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("section", [RoundTip(0.0127), FlatTip(0.02, 0.01, 0.002), EllipseTip(0.02, 0.01)])
def test_a_loop_that_does_not_go_round_is_refused_with_the_shortest(section: Section) -> None:
    shortest = shortest_loop(section, 0.003)
    with pytest.raises(DomainError) as caught:
        loop_of_length(section, 0.003, 0.9999 * shortest.length_m)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("length_m", "min", shortest.length_m)
    with pytest.raises(DomainError) as caught:
        loop_of_throat(section, 0.003, 0.9999 * shortest.throat_m)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("throat_m", "min", shortest.throat_m)
    with pytest.raises(DomainError) as caught:
        loop_nocked(section, 0.003, 1.0001 * widest_opening(section, 0.003))
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("opening_rad", "max", widest_opening(section, 0.003))


@pytest.mark.parametrize(("ease", "code"), [(-0.01, "min"), (1.1e6, "max")])
def test_ease_is_a_share(ease: float, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        loop_sliding(RoundTip(0.01), 0.003, ease)
    assert (caught.value.problem.field, caught.value.problem.code) == ("ease", code)


@law
@given(st.floats(5e-4, 5e-3), st.floats(1e-4, 5e-4), st.floats(1e-3, 0.3))
def test_turns_of_a_coil_touch(core_m: float, thread_m: float, length_m: float) -> None:
    made = coil(core_m, thread_m, length_m)
    pitch_m, around_m = length_m / made.turns, pi * (core_m + thread_m)
    assert pitch_m * around_m / np.hypot(pitch_m, around_m) == pytest.approx(thread_m, rel=1e-9)
    assert made.thread_m == pytest.approx(made.turns * np.hypot(pitch_m, around_m), rel=1e-9)
    assert made.diameter_m == core_m + 2.0 * thread_m


@law
@given(st.floats(1e-3, 3e-3), st.floats(1e-4, 9e-4), st.floats(0.3, 1.5), st.floats(0.02, 0.1))
def test_a_served_loop_is_a_loop_of_the_served_strands(
    bundle_m: float, thread_m: float, opening: float, bound_m: float
) -> None:
    tip = RoundTip(0.0127)
    made = served_loop(tip, bundle_m, thread_m, opening, bound_m)
    assert made.loop == loop_nocked(tip, bundle_m + 2.0 * thread_m, opening)
    assert made.single == coil(bundle_m, thread_m, made.loop.length_m)
    assert made.bound == coil(bundle_m * sqrt(2.0), thread_m, bound_m)


def test_a_serving_thread_is_no_thicker_than_what_it_serves() -> None:
    assert served_loop(RoundTip(0.0127), 0.001, 0.001, 1.0, 0.05).single.diameter_m == pytest.approx(0.003)
    with pytest.raises(DomainError) as caught:
        served_loop(RoundTip(0.0127), 0.001, 0.0011, 1.0, 0.05)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.other) == ("thread_m", "pair", "bundle_m")
