"""Forces weighed on made-up bows: what they must tell, and what they cannot."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt
from operator import methodcaller
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import practice
from calc.errors import DomainError
from calc.mechanics.bow import SHAPES, Bow, LimbShape, static_tension, string_length
from calc.mechanics.estimate import BowEstimate, ForceRead
from calc.mechanics.shot import ShotString
from calc.mechanics.shot.full_draw import full_draw_state
from tests.calc.mechanics.estimate.made_up import figures, force, read, told, unknown

if TYPE_CHECKING:
    from calc.mechanics.estimate import BowState
    from calc.numerics import Spread

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=25)
TAPE_M = practice("tape_reading").spread.high


def width(spread: Spread) -> float:
    return spread.high - spread.low


def test_one_force_settles_the_strength_and_leaves_the_bow_as_it_was() -> None:
    known = replace(unknown(1.7), draw_m=0.7, braced_m=0.16)
    found = known.given(ForceRead(0.5, 130.0, 1e-9))

    def weight(each: BowState) -> float:
        return float(sum(share * force(bow, 0.16, 0.5, 130.0, 0.7) for bow, share in each.ends()))

    plain = known.spread(weight)
    slope = TAPE_M / (0.5 - 0.16)
    now = found.spread(lambda each: each.weight_n)
    assert now.value == pytest.approx(plain.value, rel=1e-3)
    assert now.high - now.value == pytest.approx(
        sqrt((plain.high - plain.value) ** 2 + (now.value * (np.exp(slope) - 1.0)) ** 2), rel=0.04
    )
    before, after = (figures(each, 0.16)["string"] for each in (replace(known, draw_weight_n=200.0), found))
    assert [after.low, after.value, after.high] == pytest.approx([before.low, before.value, before.high], abs=3e-5)
    assert found.misfit < 0.02


def test_a_draw_weight_that_was_told_is_as_sure_as_such_figures_are() -> None:
    known = replace(unknown(1.7), draw_m=0.7, draw_weight_n=200.0, braced_m=0.16)
    weight = known.spread(lambda each: each.weight_n)
    off = sqrt(practice("weight_told").spread.high ** 2 + (TAPE_M / (0.7 - 0.16)) ** 2)
    assert (weight.low, weight.value, weight.high) == pytest.approx((200.0 * np.exp(-off), 200.0, 200.0 * np.exp(off)))
    at = figures(known, 0.16)
    assert width(at["weight"]) == pytest.approx(width(weight), rel=1e-9)
    tension = static_tension(told(Bow(1.7, 0.2032, "arc")).middle.bow(), 0.16, 0.7, 200.0)
    assert (at["brace"].value, at["draw"].value, at["energy"].value) == pytest.approx(
        (tension.brace_n, tension.draw_n, tension.energy_j), rel=1e-5
    )


@law
@given(st.floats(1.2, 1.9), st.sampled_from([*SHAPES, None]), st.booleans(), st.floats(0.3, 0.8), st.floats(0.005, 0.1))
def test_a_further_reading_that_fits_widens_nothing(
    nock_m: float,
    shape: LimbShape | None,
    handle_told: bool,  # noqa: FBT001 - drawn by lot
    part: float,
    off: float,
) -> None:
    known = BowEstimate(
        nock_to_nock_m=nock_m,
        handle_length_m=0.2 if handle_told else None,
        shape=shape,
        draw_m=0.36 * nock_m,
        draw_weight_n=150.0,
        braced_m=0.15,
    )
    draw_m = 0.36 * nock_m
    at_m = 0.15 + part * (draw_m - 0.15)
    more = known.given(ForceRead(at_m, force(known.middle.bow(), 0.15, draw_m, 150.0, at_m), off))
    after = figures(more, 0.15)
    for name, spread in figures(known, 0.15).items():
        assert after[name].value == pytest.approx(spread.value, rel=1e-4)
        assert width(after[name]) <= width(spread) * (1.0 + 2e-3), name


@law
@given(st.floats(0.1, 9.0), st.floats(1.2, 1.9), st.floats(0.9, 1.1))
def test_a_bow_twice_as_strong_differs_in_nothing_else(strong: float, nock_m: float, share: float) -> None:
    def of(times: float) -> BowEstimate:
        known = replace(unknown(nock_m), draw_m=0.36 * nock_m, draw_weight_n=150.0 * times, braced_m=0.15)
        return known.given(ForceRead(0.25 * nock_m, 80.0 * share * times, 0.02))

    one, other = of(1.0), of(strong)
    there = figures(other, 0.15)
    for name, spread in figures(one, 0.15).items():
        times = 1.0 if name == "string" else strong
        ends = [there[name].low, there[name].value, there[name].high]
        assert ends == pytest.approx([times * spread.low, times * spread.value, times * spread.high], rel=1e-9)
    assert other.misfit == pytest.approx(one.misfit, abs=1e-9)


def test_a_short_bow_drawn_far_tells_of_its_limbs_and_a_long_one_hardly() -> None:
    left = []
    for nock_m in (1.17, 1.85):
        bow = Bow(nock_m, 0.12, "uniform")
        straight = replace(unknown(nock_m), handle_proud_m=0.0, string_follow_m=0.0)
        known = replace(straight, draw_m=0.51, draw_weight_n=110.0, braced_m=0.15)
        more = known.given(ForceRead(0.3, force(bow, 0.15, 0.51, 110.0, 0.3), 0.02))
        left.append(width(figures(more, 0.15)["string"]) / width(figures(known, 0.15)["string"]))
    assert left[0] < 0.8, "of where its brace height is read from a force tells nothing"
    assert left[1] > 0.9


def test_forces_read_at_another_brace_height_are_those_of_the_same_limbs() -> None:
    """The limbs' stiffness by a stiff string in the shot's own statics: a second way to the same force."""
    bow = Bow(1.7, 0.2, "tapered")

    def stiff_nm(brace_m: float, draw_m: float) -> float:
        ready = full_draw_state(bow, brace_m, draw_m, 1.0, string=ShotString(1e12, 1e-3), limb_mass_kg=0.1)
        return ready.model.stiffness_nm[0][0]

    known = replace(told(bow), draw_m=0.7, braced_m=0.17).given(ForceRead(0.5, 100.0, 0.01, 0.12))
    expected = 100.0 * stiff_nm(0.12, 0.5) / stiff_nm(0.17, 0.7)
    assert known.middle.weight_n == pytest.approx(expected, rel=1e-4)
    drawn = known.drawn(brace_m=0.17).centre
    assert (drawn.brace_m, drawn.weight_n) == (0.17, known.middle.weight_n)
    other = known.drawn(brace_m=0.12).centre
    assert other.weight_n == pytest.approx(expected * stiff_nm(0.17, 0.7) / stiff_nm(0.12, 0.7), rel=1e-4)


def test_a_bow_braced_by_a_string_stands_as_high_as_it_makes_it() -> None:
    known = BowEstimate(nock_to_nock_m=1.7, handle_length_m=0.2, draw_m=0.7, draw_weight_n=100.0)
    heights = known.drawn(string_m=string_length(Bow(1.7, 0.2, "arc"), 0.16)).spread(lambda each: each.brace_m)
    assert heights.value == pytest.approx(0.16, abs=1e-9)
    assert width(heights) > 0.01


@pytest.mark.parametrize("shape", ["tapered", "uniform"])
def test_a_second_string_comes_out_right_with_a_string_and_forces(shape: LimbShape) -> None:
    """A short bow, limbs guessed: a string, a told weight and a weighed force; each adds and none widens."""
    real = Bow(1.2, 0.12, shape)
    straight = replace(unknown(1.2), handle_proud_m=0.0, string_follow_m=0.0)
    known = replace(straight, draw_m=0.5, draw_weight_n=120.0)
    by_strings = known.given(read(real, 0.14))
    both = by_strings.given(ForceRead(0.32, force(real, 0.14, 0.5, 120.0, 0.32), 0.02))
    for brace_m in (0.12, 0.16, 0.18):
        string_m = string_length(real, brace_m)
        before, after = (each.spread(methodcaller("string_m", brace_m)) for each in (by_strings, both))
        assert after.low < string_m < after.high
        assert before.low < string_m < before.high
        assert width(after) <= 1.03 * width(before)
    limbs = [each.spread(lambda state: state.limb_m) for each in (by_strings, both)]
    assert width(limbs[1]) < 0.98 * width(limbs[0])


def test_readings_that_do_not_go_together_stray_far() -> None:
    known = replace(told(Bow(1.7, 0.2, "arc")), draw_m=0.7, draw_weight_n=200.0, braced_m=0.16)
    fits, off = (known.given(ForceRead(0.5, force_n, 0.02)) for force_n in (127.0, 180.0))
    assert fits.misfit < 0.5
    assert off.misfit > 5.0
    assert off.apart


@pytest.mark.parametrize(
    ("draw_m", "brace_m", "read", "field", "code", "reason"),
    [
        (0.15, 0.16, ForceRead(0.5, 100.0, 0.05), "draw_m", "pair", "draw_short"),
        (0.7, 0.16, ForceRead(0.16, 100.0, 0.05), "at_m", "pair", "draw_short"),
        (0.7, 0.16, ForceRead(0.35, 100.0, 0.05, 0.4), "at_m", "pair", "draw_short"),
        (1.5, 0.16, ForceRead(0.5, 100.0, 0.05), "draw_m", "pair", "draw_long"),
        (0.7, 0.16, ForceRead(1.5, 100.0, 0.05), "at_m", "pair", "draw_long"),
        (0.95, 0.9, ForceRead(1.0, 100.0, 0.05), "brace_m", "max", ""),
        (None, 0.16, ForceRead(0.5, 100.0, 0.05), "draw_m", "missing", ""),
    ],
)
def test_what_cannot_be_weighed_is_named(  # noqa: PLR0917 - a row of the table
    draw_m: float | None, brace_m: float, read: ForceRead, field: str, code: str, reason: str
) -> None:
    with pytest.raises(DomainError) as caught:
        replace(unknown(1.7), draw_m=draw_m, braced_m=brace_m).given(read)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == (field, code, reason)


def test_a_bow_is_drawn_from_a_brace_height_or_a_string() -> None:
    known = unknown(1.7)
    for bow, field in ((known, "draw_m"), (replace(known, draw_m=0.7), "brace_m")):
        with pytest.raises(DomainError) as caught:
            bow.drawn()
        assert (caught.value.problem.field, caught.value.problem.code) == (field, "missing")


@pytest.mark.parametrize("at", range(4))
@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_a_reading_is_a_number_above_nothing(at: int, bad: float) -> None:
    values = [0.5, 100.0, 0.05, 0.16]
    values[at] = bad
    with pytest.raises(DomainError) as caught:
        ForceRead(*values)
    assert caught.value.problem.field == ("at_m", "weighed_n", "off", "brace_m")[at]


def test_forces_far_from_any_such_bow_are_refused() -> None:
    """A draw weight nine times what the weighed force asks for: no bend of the limbs makes up for that."""
    known = BowEstimate(nock_to_nock_m=1.68, handle_length_m=0.2, draw_m=0.66, draw_weight_n=880.0, braced_m=0.165)
    with pytest.raises(DomainError) as raised:
        known.given(ForceRead(0.38, 93.0, 0.02))
    assert (raised.value.problem.field, raised.value.problem.reason) == ("readings", "forces_apart")
