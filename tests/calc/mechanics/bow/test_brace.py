"""Brace height and string: against an elastica in scipy over 200 seeded bows; handles, recurves and set."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin, sqrt
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from calc.errors import DomainError
from calc.mechanics.bow import (
    CENTRAL,
    HIGHEST,
    SHAPES,
    Bow,
    LimbShape,
    brace_after,
    brace_height,
    brace_limit,
    brace_per_length,
    draw_curve,
    limb_outline,
    limb_reach,
    over_shapes,
    static_tension,
    string_length,
)
from calc.mechanics.estimate import BowEstimate, ForceRead
from tests.calc.mechanics.estimate.made_up import told, unknown

if TYPE_CHECKING:
    from calc.numerics import Spread

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=60)
shapes = st.sampled_from(SHAPES)


def elastica(shape: LimbShape, across: float, follow: float) -> float:
    """Return how far along a limb of unit length reaches, its set a circular arc, by shooting at the tip's place."""
    free = 0.0 if follow == 0.0 else brentq(lambda p: (1.0 - cos(p)) / p - abs(follow), 1e-9, 2.0)
    bend = free if follow > 0.0 else -free

    def rates(s: float, y: np.ndarray, load: float) -> list[float]:
        stiff = 1.0 - s if shape == "tapered" else 1.0
        return [bend + load * (across - y[2]) / stiff, cos(y[0]), sin(y[0])]

    def tip(load: float) -> np.ndarray:
        found = solve_ivp(
            rates, (0.0, 1.0 - 1e-9), [0.0, 0.0, 0.0], args=(load,), rtol=1e-9, atol=1e-11, method="LSODA"
        )
        return np.asarray(found.y[:, -1])

    return float(tip(brentq(lambda load: float(tip(load)[2]) - across, -0.5, 6.0, xtol=1e-11))[1])


@pytest.mark.parametrize("seed", range(20))
def test_ten_bows_a_seed_against_an_elastica(seed: int) -> None:
    rng = np.random.default_rng(seed)
    for k in range(10):
        shape: LimbShape = "tapered" if k % 2 else "uniform"
        bow = Bow(float(rng.uniform(1.1, 1.9)), float(rng.uniform(0.0, 0.3)), shape)
        follow_m = float(rng.uniform(-0.1, 0.1)) * bow.limb_m * (k > 4)
        bow = replace(bow, string_follow_m=follow_m)
        across = float(rng.uniform(abs(bow.follow) + 0.05, 0.5))
        expected = bow.handle_length_m + 2.0 * bow.limb_m * elastica(shape, across, bow.follow)
        assert string_length(bow, across * bow.limb_m) == pytest.approx(expected, rel=3e-6)


@law
@given(shapes, st.floats(1.1, 1.9), st.floats(0.05, 0.3), st.floats(-0.03, 0.06), st.floats(0.0, 0.12))
def test_a_proud_handle_hides_as_much_brace_and_a_recurve_carries_its_string(
    shape: LimbShape, nock_m: float, brace_m: float, proud_m: float, contact_m: float
) -> None:
    plain = Bow(nock_m, 0.2, shape)
    proud = replace(plain, handle_proud_m=proud_m)
    brace_m = max(brace_m, 0.04 - proud_m)
    if brace_m + proud_m < min(brace_limit(plain), brace_limit(proud) + proud_m):
        assert string_length(proud, brace_m) == pytest.approx(string_length(plain, brace_m + proud_m), rel=1e-12)
        assert brace_height(proud, string_length(proud, brace_m)) == pytest.approx(brace_m, abs=1e-9)
    recurve, short = replace(plain, contact_m=contact_m), Bow(nock_m - 2.0 * contact_m, 0.2, shape)
    if brace_m < 0.95 * brace_limit(short):
        assert string_length(recurve, brace_m) == pytest.approx(
            string_length(short, brace_m) + 2.0 * contact_m, rel=1e-12
        )


@law
@given(shapes, st.floats(1.1, 1.9), st.floats(0.1, 0.3), st.floats(-0.05, 0.05))
def test_the_slope_is_that_of_the_string_and_its_sign_is_known(
    shape: LimbShape, nock_m: float, share: float, follow: float
) -> None:
    bow = Bow(nock_m, 0.2, shape, handle_proud_m=0.01)
    bow = replace(bow, string_follow_m=follow * bow.limb_m)
    brace_m = share * brace_limit(bow) + abs(follow) * bow.limb_m
    step = 1e-5 * bow.limb_m
    drop = string_length(bow, brace_m + step) - string_length(bow, brace_m - step)
    assert brace_per_length(bow, brace_m) == pytest.approx(2.0 * step / drop, rel=1e-4)
    assert brace_per_length(bow, brace_m) < 0.0
    assert brace_after(bow, brace_after(bow, brace_m, -0.01), 0.01) == pytest.approx(brace_m, abs=1e-9)
    assert brace_after(bow, brace_m, 0.0) == pytest.approx(brace_m, abs=1e-9)


@pytest.mark.parametrize("shape", ["tapered", "uniform"])
def test_limbs_at_the_very_places_of_their_table(shape: LimbShape) -> None:
    """Chebyshev's places of the table of bent limbs, where its formula would divide nothing by nothing."""
    for k in range(11):
        across = sqrt(HIGHEST**2 / 2.0 * (1.0 + cos((2 * k + 1) * pi / 22)))
        around = [limb_reach(shape, across * (1.0 + off)) for off in (-1e-7, 0.0, 1e-7)]
        assert around[1] == pytest.approx((around[0] + around[2]) / 2.0, abs=1e-9)


@law
@given(st.sampled_from(["arc", "hinged"]), st.floats(-0.1, 0.1))
def test_set_changes_nothing_for_arc_and_hinge(shape: LimbShape, follow: float) -> None:
    plain = Bow(1.7, 0.2, shape)
    bent = replace(plain, string_follow_m=follow * plain.limb_m)
    assert string_length(bent, 0.16) == string_length(plain, 0.16)


@pytest.mark.parametrize("shape", ["tapered", "uniform"])
def test_set_moves_other_limbs_towards_the_arc(shape: LimbShape) -> None:
    arc = string_length(Bow(1.7, 0.2, "arc"), 0.16)
    off = [
        abs(string_length(Bow(1.7, 0.2, shape, string_follow_m=follow), 0.16) - arc)
        for follow in (0.0, 0.03, 0.08, 0.12)
    ]
    assert off == sorted(off, reverse=True)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_brace_of_a_bow_with_set_goes_down_to_where_its_string_is_slack(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape, string_follow_m=0.05)
    with pytest.raises(DomainError) as caught:
        string_length(bow, 0.05)
    assert caught.value.problem.reason == "follow_high"
    assert caught.value.problem.limit == pytest.approx(0.05)
    longest = string_length(bow, 0.0501)
    assert brace_height(bow, longest) == pytest.approx(0.0501, abs=1e-7)
    with pytest.raises(DomainError) as caught:
        brace_height(bow, longest + 1e-3)
    assert caught.value.problem.reason == "string_long"


def _string(bow: BowEstimate) -> Spread:
    return bow.spread(lambda each: each.string_m(0.16))


def test_spreads_hold_every_shape_and_shrink_with_what_is_told() -> None:
    bow = Bow(1.7, 0.2, CENTRAL)
    wide, narrow = _string(told(bow, shape_told=False)), _string(told(bow))
    blind = _string(unknown(1.7))
    for shape in SHAPES:
        assert wide.low < string_length(replace(bow, shape=shape), 0.16) < wide.high
    assert narrow.high - narrow.low < wide.high - wide.low < blind.high - blind.low
    assert wide.value == narrow.value == pytest.approx(string_length(bow, 0.16), rel=1e-15)
    ends = over_shapes(lambda each: string_length(each, 0.16), bow)
    assert (ends.low, ends.value, ends.high) == (
        string_length(replace(bow, shape="tapered"), 0.16),
        string_length(bow, 0.16),
        string_length(replace(bow, shape="uniform"), 0.16),
    )


def test_a_handle_that_was_not_measured_leaves_a_short_bow_some_limb() -> None:
    """The usual handle may be 12 in: of a 12 in bow it is held to nine tenths."""
    found = unknown(0.305).spread(lambda bow: bow.limb_m)
    most = found.value - (0.305 - 0.9 * 0.305) / 2.0
    tape = 0.0016 / 2.0
    assert found.value - found.low == pytest.approx((most**2 + tape**2) ** 0.5, rel=1e-2)


def test_ranges_answer_like_their_functions() -> None:
    bow = Bow(1.7, 0.2, CENTRAL)
    known = replace(told(bow, shape_told=False), draw_m=0.7, draw_weight_n=200.0, braced_m=0.16)
    string_m = string_length(bow, 0.16)
    tension = static_tension(bow, 0.16, 0.7, 200.0)
    found = known.drawn(brace_m=0.16).spreads(
        lambda each: {"brace": each.brace_n, "draw": each.draw_n, "energy": each.energy_j}
    )
    middles = [
        (known.spread(lambda each: each.brace_m(string_m)), 0.16),
        (known.spread(lambda each: each.slope(0.16)), brace_per_length(bow, 0.16)),
        (found["brace"], tension.brace_n),
        (found["draw"], tension.draw_n),
        (found["energy"], tension.energy_j),
    ]
    for spread, value in middles:
        assert spread.value == pytest.approx(value, rel=1e-5)
        assert spread.low < spread.value < spread.high
    for shape in ("tapered", "uniform"):
        other = static_tension(replace(bow, shape=shape), 0.16, 0.7, 200.0)
        assert found["brace"].low < other.brace_n < found["brace"].high
        assert found["energy"].low < other.energy_j < found["energy"].high


def strayed(bow: Bow, mix: float) -> float:
    return replace(told(bow).middle, mix=mix).string_m(0.16)


def test_limbs_that_stray_from_a_middle_shape_lead_to_the_ends() -> None:
    bow = Bow(1.7, 0.2, "arc")
    tapered, uniform = (string_length(replace(bow, shape=shape), 0.16) for shape in ("tapered", "uniform"))
    middle = string_length(bow, 0.16)
    for mix, expected in (
        (-1.0, tapered),
        (1.0, uniform),
        (0.0, middle),
        (-0.3, middle - 0.3 * (middle - tapered)),
        (0.5, (middle + uniform) / 2.0),
    ):
        assert strayed(bow, mix) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("shape", ["tapered", "uniform"])
def test_limbs_that_stray_from_an_end_lie_half_the_way_to_either_side(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape)
    tapered, uniform = (string_length(replace(bow, shape=each), 0.16) for each in ("tapered", "uniform"))
    for mix in (-1.0, 0.5):
        expected = string_length(bow, 0.16) + mix / 2.0 * (uniform - tapered)
        assert strayed(bow, mix) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_weighed_force_tells_the_draw_weight(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape)
    point = draw_curve(bow, 0.16, 0.7, 200.0, steps=6).points[4]
    read = ForceRead(point.draw_m, point.force_n, 1e-9)

    def weight(known: BowEstimate) -> Spread:
        return replace(known, draw_m=0.7, braced_m=0.16).given(read).spread(lambda each: each.weight_n)

    assert weight(told(bow)).value == pytest.approx(200.0, rel=1e-5)
    guess = weight(told(bow, shape_told=False))
    assert 0.98 * guess.low < 200.0 < 1.02 * guess.high


@pytest.mark.parametrize("shape", SHAPES)
def test_the_outline_starts_in_the_handle_and_ends_at_the_string(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape, handle_proud_m=0.02, contact_m=0.05, string_follow_m=0.02)
    points = limb_outline(bow, 0.15)
    assert points[0] == (0.0, 0.0)
    assert points[1] == (0.1, 0.0)
    assert points[-1][1] == pytest.approx(0.17, rel=1e-6)
    assert 2.0 * (points[-1][0] + 0.05) == pytest.approx(string_length(bow, 0.15), rel=1e-6)


@pytest.mark.parametrize(
    ("given_", "field", "reason"),
    [
        ({"contact_m": 0.75}, "contact_m", "contact_long"),
        ({"contact_m": -0.1}, "contact_m", ""),
        ({"handle_proud_m": 0.5}, "handle_proud_m", "proud_deep"),
        ({"handle_proud_m": -0.5}, "handle_proud_m", "proud_deep"),
        ({"string_follow_m": 0.3}, "string_follow_m", "follow_large"),
        ({"string_follow_m": -0.3}, "string_follow_m", "follow_large"),
        ({"string_follow_m": float("nan")}, "string_follow_m", ""),
    ],
)
def test_measures_that_leave_no_bow_are_named(given_: dict[str, float], field: str, reason: str) -> None:
    with pytest.raises(DomainError) as caught:
        Bow(1.7, 0.2, "arc", **given_)
    assert (caught.value.problem.field, caught.value.problem.reason) == (field, reason)
