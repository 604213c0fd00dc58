"""Forces weighed on made-up bows: what they must tell, and what they cannot."""

from __future__ import annotations

from functools import partial
from math import sqrt
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import practice
from calc.errors import DomainError
from calc.mechanics.bow import CENTRAL, SHAPES, Bow, LimbShape, string_length
from calc.mechanics.estimate import (
    ForceRead,
    FullDraw,
    Guessed,
    Known,
    Pair,
    calibrate,
    draw_weight_from,
    string_range,
    tension_range,
    weigh,
)
from calc.mechanics.shot import ShotString
from calc.mechanics.shot.full_draw import full_draw_state
from tests.calc.mechanics.bow.made_up import force, unknown

if TYPE_CHECKING:
    from calc.mechanics.estimate import Drawn, Weighing

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=25)
TAPE_M = practice("tape_reading").spread.high


def test_one_reading_settles_the_strength_and_leaves_the_bow_as_it_was() -> None:
    known = unknown(1.7)
    read = ForceRead(0.5, 130.0, 1e-9)
    found = weigh(Guessed(known), FullDraw(0.7, 0.16), [read])
    plain = draw_weight_from(known, 0.16, 0.5, 130.0, 0.7)
    slope = TAPE_M / (0.5 - 0.16)
    weight = found.figures()["weight_n"]
    assert weight.value == pytest.approx(plain.value, rel=1e-9)
    assert weight.high - weight.value == pytest.approx(
        sqrt((plain.high - plain.value) ** 2 + (weight.value * (np.exp(slope) - 1.0)) ** 2), rel=0.02
    )
    string = string_range(known, 0.16)
    told = found.figures()["string_m"]
    assert [told.low, told.value, told.high] == pytest.approx([string.low, string.value, string.high], rel=1e-12)
    assert found.misfit == 0.0


def test_a_told_weight_that_is_sure_gives_the_tensions_of_the_first_guess() -> None:
    known = unknown(1.7)
    found = weigh(Guessed(known), FullDraw(0.7, 0.16), [ForceRead(0.7, 200.0, 1e-12)]).figures()
    plain = tension_range(known, 0.16, 0.7, 200.0)
    tape = TAPE_M / (0.7 - 0.16)
    for mine, other in (("brace_n", plain.brace_n), ("draw_n", plain.draw_n), ("energy_j", plain.energy_j)):
        assert found[mine].value == pytest.approx(other.value, rel=1e-9)
        wide = sqrt((other.high - other.value) ** 2 + (other.value * tape) ** 2)
        assert found[mine].high - found[mine].value == pytest.approx(wide, rel=5e-3)


@law
@given(st.floats(1.2, 1.9), st.sampled_from([*SHAPES, None]), st.booleans(), st.floats(0.3, 0.8), st.floats(0.005, 0.1))
def test_a_further_reading_that_fits_widens_nothing(
    nock_m: float,
    shape: LimbShape | None,
    handle_told: bool,  # noqa: FBT001 - drawn by lot
    part: float,
    off: float,
) -> None:
    known = Known(Bow(nock_m, 0.2, shape or CENTRAL), shape_told=shape is not None, handle_told=handle_told)
    full = FullDraw(0.36 * nock_m, 0.15)
    at_m = 0.15 + part * (full.draw_m - 0.15)
    told = ForceRead(full.draw_m, 150.0, 0.05)
    middle = weigh(Guessed(known), full, [told])
    fits = ForceRead(at_m, force(middle.middle.form.ends()[0][0], 0.15, full.draw_m, 150.0, at_m), off)
    more = weigh(Guessed(known), full, [told, fits])
    before, after = middle.figures(), more.figures()
    for name, spread in before.items():
        assert after[name].value == pytest.approx(spread.value, rel=1e-6)
        assert after[name].high - after[name].low <= (spread.high - spread.low) * (1.0 + 1e-6), name


@law
@given(st.floats(0.1, 9.0), st.floats(1.2, 1.9), st.floats(0.9, 1.1))
def test_a_bow_twice_as_strong_differs_in_nothing_else(strong: float, nock_m: float, share: float) -> None:
    full = FullDraw(0.36 * nock_m, 0.15)

    def of(times: float) -> Weighing:
        at_m = 0.25 * nock_m
        return weigh(
            Guessed(unknown(nock_m)),
            full,
            [ForceRead(full.draw_m, 150.0 * times, 0.05), ForceRead(at_m, 80.0 * share * times, 0.02)],
        )

    one, other = of(1.0), of(strong)
    for name, spread in one.figures().items():
        times = 1.0 if name == "string_m" else strong
        there = other.figures()[name]
        ends = [there.low, there.value, there.high]
        assert ends == pytest.approx([times * spread.low, times * spread.value, times * spread.high], rel=1e-9)
    assert other.misfit == pytest.approx(one.misfit, abs=1e-9)


def test_a_short_bow_drawn_far_tells_of_its_limbs_and_a_long_one_hardly() -> None:
    left = []
    for nock_m in (1.17, 1.85):
        bow, full = Bow(nock_m, 0.12, "uniform"), FullDraw(0.51, 0.15)
        told, read = ForceRead(0.51, 110.0, 0.05), ForceRead(0.3, force(bow, 0.15, 0.51, 110.0, 0.3), 0.02)
        before, after = (
            weigh(Guessed(unknown(nock_m)), full, readings).figures()["string_m"] for readings in ([told], [told, read])
        )
        left.append((after.high - after.low) / (before.high - before.low))
    assert left[0] < 0.75
    assert left[1] > 0.9


def test_forces_read_at_another_brace_height_are_those_of_the_same_limbs() -> None:
    """The limbs' stiffness by a stiff string in the shot's own statics: a second way to the same force."""
    bow = Bow(1.7, 0.2, "tapered")

    def stiff_nm(brace_m: float, draw_m: float) -> float:
        ready = full_draw_state(bow, brace_m, draw_m, 1.0, string=ShotString(1e12, 1e-3), limb_mass_kg=0.1)
        return ready.model.stiffness_nm[0][0]

    read = ForceRead(0.5, 100.0, 0.01, 0.12)
    found = weigh(Guessed(Known(bow, shape_told=True)), FullDraw(0.7, 0.17), [read])
    assert found.middle.weight_n == pytest.approx(100.0 * stiff_nm(0.12, 0.5) / stiff_nm(0.17, 0.7), rel=1e-8)
    assert found.middle.brace_m == 0.17


def test_a_bow_braced_by_a_string_stands_as_high_as_it_makes_it() -> None:
    known = Known(Bow(1.7, 0.2, "arc"))
    string_m = string_length(known.bow, 0.16)
    found = weigh(Guessed(known), FullDraw(0.7, string_m=string_m), [ForceRead(0.7, 100.0, 0.05)])
    assert found.middle.brace_m == pytest.approx(0.16, abs=1e-9)
    heights = found.spreads(lambda each: {"brace": each.brace_m})["brace"]
    assert heights.high - heights.low > 0.01


def _string(each: Drawn, brace_m: float) -> dict[str, float]:
    return {"string": each.form.string_m(brace_m)}


@pytest.mark.parametrize("shape", ["tapered", "uniform"])
def test_a_second_string_comes_out_right_with_a_string_and_forces(shape: LimbShape) -> None:
    """A short bow, limbs guessed: a string, a told weight and a weighed force; each adds and none widens."""
    real = Bow(1.2, 0.12, shape)
    known = unknown(1.2)
    pairs = [Pair(string_length(real, 0.14), 0.14)]
    told, read = ForceRead(0.5, 120.0, 0.05, 0.14), ForceRead(0.32, force(real, 0.14, 0.5, 120.0, 0.32), 0.02, 0.14)
    calibrated = calibrate(known, pairs)
    both = weigh(calibrated, FullDraw(0.5, 0.16), [told, read])
    for brace_m in (0.12, 0.16, 0.18):
        string_m = string_length(real, brace_m)
        by_strings = calibrated.string_length(brace_m)
        by_both = both.spreads(partial(_string, brace_m=brace_m))["string"]
        assert by_both.low < string_m < by_both.high
        assert by_both.high - by_both.low <= by_strings.high - by_strings.low
        assert by_strings.low < string_m < by_strings.high
    limbs = both.spreads(lambda each: {"limb": each.form.limb_m})["limb"]
    before = calibrated.spreads(lambda form: {"limb": form.limb_m})["limb"]
    assert limbs.high - limbs.low < 0.9 * (before.high - before.low)


def test_readings_that_do_not_go_together_stray_far() -> None:
    known = Known(Bow(1.7, 0.2, "arc"), shape_told=True)
    told, full = ForceRead(0.7, 200.0, 0.05), FullDraw(0.7, 0.16)
    fits = weigh(Guessed(known), full, [told, ForceRead(0.5, 127.0, 0.02)])
    off = weigh(Guessed(known), full, [told, ForceRead(0.5, 180.0, 0.02)])
    assert fits.misfit < 0.5
    assert off.misfit > 5.0


@pytest.mark.parametrize(
    ("full", "readings", "field", "code", "reason"),
    [
        (FullDraw(0.7, 0.16), [], "readings", "missing", ""),
        (FullDraw(0.7), [ForceRead(0.7, 100.0, 0.05)], "brace_m", "missing", ""),
        (FullDraw(0.15, 0.16), [ForceRead(0.5, 100.0, 0.05)], "draw_m", "pair", "draw_short"),
        (FullDraw(0.7, 0.16), [ForceRead(0.16, 100.0, 0.05)], "draw_m", "pair", "draw_short"),
        (FullDraw(0.7, 0.16), [ForceRead(0.35, 100.0, 0.05, 0.4)], "draw_m", "pair", "draw_short"),
        (FullDraw(1.5, 0.16), [ForceRead(0.5, 100.0, 0.05)], "draw_m", "pair", "draw_long"),
        (FullDraw(0.7, 0.9), [ForceRead(0.7, 100.0, 0.05)], "brace_m", "max", ""),
    ],
)
def test_what_cannot_be_weighed_is_named(
    full: FullDraw, readings: list[ForceRead], field: str, code: str, reason: str
) -> None:
    with pytest.raises(DomainError) as caught:
        weigh(Guessed(unknown(1.7)), full, readings)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == (field, code, reason)


@pytest.mark.parametrize("at", range(4))
@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_a_reading_is_a_number_above_nothing(at: int, bad: float) -> None:
    values = [0.5, 100.0, 0.05, 0.16]
    values[at] = bad
    with pytest.raises(DomainError) as caught:
        ForceRead(*values)
    assert caught.value.problem.field == ("weighed_m", "weighed_n", "off", "brace_m")[at]


def test_forces_far_from_any_such_bow_are_refused() -> None:
    """A draw weight nine times what the weighed force asks for: no bend of the limbs makes up for that."""
    bows = Guessed(Known(Bow(1.68, 0.2, CENTRAL)))
    told, read = ForceRead(0.66, 880.0, 0.05), ForceRead(0.38, 93.0, 0.02)
    with pytest.raises(DomainError) as raised:
        weigh(bows, FullDraw(0.66, 0.165), [told, read])
    assert (raised.value.problem.field, raised.value.problem.reason) == ("readings", "forces_apart")
