"""Spreads of what nobody measured, cause by cause, worked out by hand; the least tension and the ends of a draw."""

from __future__ import annotations

from dataclasses import replace
from math import asin, cos, hypot, pi, sin
from typing import Literal

import numpy as np
import pytest

from calc.data import practice
from calc.mechanics.bow import (
    SHAPES,
    Bow,
    LimbShape,
    StringHold,
    brace_height,
    brace_limit,
    brace_per_length,
    draw_curve,
    drawn,
    end_tension,
    limb,
    limb_outline,
    limb_reach,
    over_shapes,
    rest_angles,
    static_tension,
    string_length,
)
from calc.mechanics.bow.draw_force import limb_state_at
from calc.mechanics.bow.limb_model import HINGE_ARM, arc_bend
from calc.mechanics.estimate import BowEstimate
from calc.mechanics.estimate.state import leanings
from calc.numerics import NoRootError, Spread, find_roots
from tests.calc.mechanics.estimate.made_up import told

pytestmark = pytest.mark.exact


def lopsided(bow: Bow, monkeypatch: pytest.MonkeyPatch, **causes: Spread) -> BowEstimate:
    """Return a bow whose causes are set by hand."""
    found = told(bow)
    sure = {"tape": 0.0, "handle": bow.handle_length_m, "limb": 0.0, "proud": 0.0, "follow": 0.0}
    every = {name: causes.get(name, Spread.exactly(value)) for name, value in sure.items()}
    monkeypatch.setattr(BowEstimate, "causes", every)
    return found


def test_a_lopsided_tape_and_handle_move_their_own_measure_their_own_way(monkeypatch: pytest.MonkeyPatch) -> None:
    bow = Bow(1.7013, 0.2, "arc")
    moved = lopsided(bow, monkeypatch, tape=Spread(-0.001, 0.0, 0.003), handle=Spread(0.15, 0.2, 0.22))
    nock, handle = moved.spread(lambda each: each.nock_to_nock_m), moved.spread(lambda each: each.handle_length_m)
    assert (nock.low, nock.value, nock.high) == pytest.approx((1.7003, 1.7013, 1.7043), rel=1e-12)
    assert (handle.low, handle.value, handle.high) == pytest.approx((0.15, 0.2, 0.22), rel=1e-12)
    limb_m = moved.spread(lambda each: each.limb_m)
    assert limb_m.value - limb_m.low == pytest.approx(hypot(0.0005, 0.01), rel=1e-9)
    assert limb_m.high - limb_m.value == pytest.approx(hypot(0.0015, 0.025), rel=1e-9)


def test_a_handle_stays_between_nothing_and_nine_tenths_of_the_bow(monkeypatch: pytest.MonkeyPatch) -> None:
    wide = lopsided(Bow(1.0017, 0.2, "arc"), monkeypatch, handle=Spread(-0.3, 0.2, 5.2)).spread(
        lambda each: each.handle_length_m
    )
    assert (wide.low, wide.high) == pytest.approx((0.0, 0.9 * 1.0017), abs=1e-12)


@pytest.mark.parametrize(("shape", "up", "down"), [("arc", 0.4, 0.2), ("hinged", 0.4, 0.2), ("uniform", 0.2, 0.1)])
def test_limbs_stray_by_the_share_they_are_told(
    shape: LimbShape, up: float, down: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    bow = Bow(1.7019, 0.2, shape)
    at = {each: string_length(replace(bow, shape=each), 0.16) for each in SHAPES}
    found = lopsided(bow, monkeypatch, limb=Spread(-0.2, 0.0, 0.4)).spread(lambda each: each.string_m(0.16))
    if shape == "uniform":
        high, low = up * (at["uniform"] - at["tapered"]), down * (at["uniform"] - at["tapered"])
    else:
        high, low = up * (at["uniform"] - at[shape]), down * (at[shape] - at["tapered"])
    assert found.high - found.value == pytest.approx(high, rel=1e-9)
    assert found.value - found.low == pytest.approx(low, rel=1e-9)


def test_several_answers_come_together_as_each_alone() -> None:
    known = BowEstimate(nock_to_nock_m=1.7, shape="tapered")
    both = known.spreads(lambda bow: {"string": bow.string_m(0.16), "limb": bow.limb_m})
    assert both == {
        "string": known.spread(lambda bow: bow.string_m(0.16)),
        "limb": known.spread(lambda bow: bow.limb_m),
    }


def test_causes_are_those_of_the_constants() -> None:
    blind, sure = BowEstimate(nock_to_nock_m=1.7), BowEstimate(nock_to_nock_m=1.7, handle_length_m=0.2, shape="arc")
    assert blind.causes == {
        "limb": practice("limb_unknown").spread,
        "tape": practice("tape_reading").spread,
        "handle": practice("handle_usual").spread,
        "proud": practice("proud_unknown").spread.scaled((1.7 - practice("handle_usual").spread.value) / 2.0),
        "follow": practice("follow_unknown").spread.scaled((1.7 - practice("handle_usual").spread.value) / 2.0),
    }
    straight = {name: practice(f"{name}_unknown").spread.scaled(0.75) for name in ("proud", "follow")}
    told = {"limb": practice("limb_told").spread, "handle": Spread.exactly(0.2)}
    assert sure.causes == blind.causes | told | straight
    laid = replace(sure, handle_proud_m=0.01, string_follow_m=-0.02)
    assert laid.causes == sure.causes | {
        "proud": practice("proud_reading").spread.shifted(0.01),
        "follow": practice("follow_reading").spread.shifted(-0.02),
    }


def test_leanings() -> None:
    assert leanings("arc", 0.5) == leanings("hinged", 0.5) == (("uniform", 0.5),)
    assert leanings("arc", -0.5) == (("tapered", 0.5),)
    for shape in ("tapered", "uniform"):
        assert leanings(shape, 0.5) == (("uniform", 0.25), ("tapered", -0.25))
    for mix in (-0.7, 0.0, 0.7):
        ends = replace(BowEstimate(nock_to_nock_m=1.7).middle, mix=mix).ends()
        assert sum(share for _, share in ends) == pytest.approx(1.0)
        assert {bow.limb_m for bow, _ in ends} == {(1.7 - 0.2032) / 2.0}


def test_over_shapes_takes_the_bows_own_for_the_value() -> None:
    sizes = dict(zip(SHAPES, (3.0, 1.0, 4.0, 2.0), strict=True))
    for shape in SHAPES:
        found = over_shapes(lambda bow: sizes[bow.shape], Bow(1.7, 0.2, shape))
        assert found == Spread(1.0, sizes[shape], 4.0)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_least_tension_is_the_bottom_of_a_parabola(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape)
    points = draw_curve(bow, 0.16, 0.7, 200.0, steps=8).points
    k = min(range(9), key=lambda i: points[i].tension_n)
    bend, slope, level = np.polyfit(
        [each.draw_m - points[k].draw_m for each in points[k - 1 : k + 2]],
        [each.tension_n for each in points[k - 1 : k + 2]],
        2,
    )
    found = static_tension(bow, 0.16, 0.7, 200.0)
    assert found.least_at_m == pytest.approx(points[k].draw_m - slope / (2.0 * bend), abs=1e-9)
    assert found.least_n == pytest.approx(level - slope**2 / (4.0 * bend), rel=1e-9)


@pytest.mark.parametrize(("draw_m", "follow_m", "at"), [(0.35, 0.0, -1), (0.35, 0.15, 0)])
def test_the_least_tension_may_be_at_an_end(draw_m: float, follow_m: float, at: int) -> None:
    bow = Bow(1.7, 0.2, "arc", string_follow_m=follow_m)
    end = draw_curve(bow, 0.16, draw_m, 200.0, steps=8).points[at]
    found = static_tension(bow, 0.16, draw_m, 200.0)
    assert (found.least_at_m, found.least_n) == (end.draw_m, end.tension_n)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_ends_of_a_draw_without_what_lies_between(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape, 0.01, 0.02, 0.03)
    whole = static_tension(bow, 0.16, 0.7, 200.0)
    assert end_tension(bow, 0.16, 0.7, 200.0) == pytest.approx((whole.brace_n, whole.draw_n), rel=1e-9)
    assert whole.draw_n == pytest.approx(100.0 / sin(whole.angle_rad), rel=1e-12)
    assert end_tension(bow, 0.16, 0.161, 0.5)[1] > 0.0


def test_a_draw_too_long_for_one_step_is_made_of_small_ones() -> None:
    bow, draws = Bow(1.7, 0.2, "uniform"), (0.15, 1.479)
    small = draw_curve(bow, *draws, 200.0, steps=8).points
    assert end_tension(bow, *draws, 200.0) == pytest.approx((small[0].tension_n, small[-1].tension_n), rel=1e-12)


def test_a_curve_has_as_many_steps_as_asked_for() -> None:
    bow = Bow(1.7, 0.2, "arc")
    assert len(draw_curve(bow, 0.16, 0.7, 200.0).points) == 25
    assert [each.draw_m for each in draw_curve(bow, 0.16, 0.7, 200.0, steps=3).points] == pytest.approx(
        [0.16, 0.34, 0.52, 0.7]
    )


def test_limbs_at_rest() -> None:
    """Set turns a hinge by its arm's share, other limbs evenly along them, as the tip stands off."""
    assert rest_angles(Bow(1.7, 0.2, "hinged", string_follow_m=0.075)) == pytest.approx((asin(0.1 / HINGE_ARM),))
    for follow in (-0.1, 0.0, 0.1):
        found = rest_angles(Bow(1.7, 0.2, "uniform", string_follow_m=0.75 * follow))
        whole = arc_bend(abs(follow)) * (1.0 if follow >= 0.0 else -1.0)
        assert found == pytest.approx([whole * place for place in limb("uniform", 4).positions])
    held = limb_state_at(Bow(1.7, 0.2, "tapered", string_follow_m=0.05), 0.16, (0.5,))
    assert len(held) == 2


def test_a_hinged_limb_is_drawn_with_its_joint() -> None:
    bow = Bow(1.8, 0.2, "hinged", handle_proud_m=0.02)
    across = (0.15 + 0.02) / 0.8
    joint = 0.1 + 0.25 * 0.8
    expected = [
        (0.0, 0.0),
        (0.1, 0.0),
        (joint, 0.0),
        (joint + 0.6 * cos(asin(across / 0.75)), 0.17),
    ]
    assert np.allclose(limb_outline(bow, 0.15), expected, rtol=1e-12, atol=1e-12)


def test_an_arc_is_drawn_as_one() -> None:
    bow = Bow(1.7, 0.2, "arc", string_follow_m=0.03)
    bend_rad = arc_bend(0.16 / 0.75)
    radius_m = 0.75 / bend_rad
    points = limb_outline(bow, 0.16)
    assert len(points) == 26
    for k, (along_m, across_m) in enumerate(points[1:]):
        turn_rad = bend_rad * k / 24.0
        assert along_m == pytest.approx(0.1 + radius_m * sin(turn_rad), abs=1e-9)
        assert across_m == pytest.approx(radius_m * (1.0 - cos(turn_rad)), abs=1e-9)


@pytest.mark.parametrize("shape", ["tapered", "uniform"])
def test_a_bent_limb_is_drawn_through_its_own_angles(shape: LimbShape) -> None:
    """Simpson's rule on the polynomial of the angles, done again by numpy's fit and a fine sum."""
    bow = Bow(1.7, 0.2, shape)
    points = limb_outline(bow, 0.16)
    turns = np.diff(np.array(points[1:]), axis=0)
    slopes = np.arctan2(turns[:, 1], turns[:, 0])
    assert np.all(np.diff(slopes) > 0.0)
    assert np.hypot(turns[:, 0], turns[:, 1]) == pytest.approx([0.75 / 24.0] * 24, rel=2e-4)
    assert slopes[0] < pi / 180.0 * 3.0


def test_a_limb_that_hardly_bends_shortens_as_its_series() -> None:
    """Shorter by a sixth of the bend squared, the bend being twice what the tip stands off."""
    for across in (1e-5, 2e-4, 4.9e-4, 5.1e-4):
        assert 1.0 - limb_reach("arc", across) == pytest.approx((2.0 * across) ** 2 / 6.0, rel=1e-5)
        assert arc_bend(across) == pytest.approx(2.0 * across, rel=1e-6)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_proud_handle_with_set_and_contact_goes_there_and_back(shape: LimbShape) -> None:
    for proud_m, follow_m in ((0.02, 0.0), (-0.02, 0.0), (0.01, 0.03), (0.05, -0.03)):
        bow = Bow(1.7, 0.2, shape, proud_m, follow_m, 0.04)
        assert brace_limit(bow) == pytest.approx(0.6 * 0.71 - proud_m, rel=1e-12)
        for brace_m in (0.06, 0.15, 0.3):
            string_m = string_length(bow, brace_m)
            assert brace_height(bow, string_m) == pytest.approx(brace_m, abs=1e-9)
            slope = (string_length(bow, brace_m + 1e-5) - string_length(bow, brace_m - 1e-5)) / 2e-5
            assert brace_per_length(bow, brace_m) == pytest.approx(1.0 / slope, rel=1e-5)


def test_what_cannot_be_solved_says_why() -> None:
    held = limb_state_at(Bow(1.2, 0.2, "arc"), 0.15, ())[0]
    strung = StringHold(limb("arc", 4), (0.0,) * 4, 0.2, 0.2 + held.along)
    with pytest.raises(NoRootError, match=r"^drawn: past what a bow can do$|^find_roots: still moving by "):
        drawn(strung, 5.0, held)
    with pytest.raises(NoRootError, match=r"^find_roots: no slope$"):
        find_roots(lambda _: ([1.0], [[0.0]]), [3.0])
    with pytest.raises(NoRootError, match=r"^find_roots: still moving by [0-9.]+$"):
        find_roots(lambda x: ([x[0] ** 2 + 1.0], [[2.0 * x[0]]]), [3.0])
    assert find_roots(lambda x: ([x[0] - 9.0], [[1.0]]), [0.0]) == [9.0]


@pytest.mark.parametrize(
    ("shape", "stiff", "heavy"), [("tapered", 1 / 2, 1 / 60), ("uniform", 1.0, 1 / 20), ("arc", 2 / 3, 3 / 140)]
)
@pytest.mark.parametrize("angles", [4, 6])
def test_limbs_hold_and_weigh_what_the_integrals_say(
    shape: LimbShape, stiff: float, heavy: float, angles: Literal[4, 6]
) -> None:
    """Bent evenly to a radian at the tip: the integral of stiffness, and that of mass x place^4 / 4, by hand."""
    found = limb(shape, angles)
    assert found.base + sum(found.reach) == pytest.approx(1.0, rel=1e-9)
    assert sum(weight * place for weight, place in zip(found.reach, found.positions, strict=True)) == pytest.approx(0.5)
    for table, whole in ((found.stiffness, stiff), (found.inertia, heavy)):
        total = sum(
            each * one * other
            for one, row in zip(found.positions, table, strict=True)
            for each, other in zip(row, found.positions, strict=True)
        )
        assert total == pytest.approx(whole, rel=1e-7)
