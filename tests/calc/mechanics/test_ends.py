"""The short ways through the bow agree with the long ones."""

from __future__ import annotations

from math import nextafter
from typing import TYPE_CHECKING

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.mechanics.bow import SHAPES, Bow, brace_height, brace_limit, draw_curve, end_tension, string_length

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact
LAW = settings(derandomize=True, deadline=None, max_examples=200)
BOWS = st.builds(
    Bow, st.floats(0.6, 2.4), st.floats(0.0, 0.3), st.sampled_from(SHAPES), string_follow_m=st.sampled_from([0.0, 0.02])
)  # fmt: skip


@LAW
@given(BOWS, st.floats(0.05, 0.95), st.floats(0.05, 1.0))
def test_one_step_to_full_draw_ends_where_small_steps_end(bow: Bow, brace: float, draw: float) -> None:
    brace_m = brace * brace_limit(bow)
    draw_m = brace_m + 0.6 * draw * bow.nock_to_nock_m

    def ends() -> tuple[float, float]:
        points = draw_curve(bow, brace_m, draw_m, 180.0, steps=12).points
        return points[0].tension_n, points[-1].tension_n

    slow, quick = told(ends), told(lambda: end_tension(bow, brace_m, draw_m, 180.0))
    assert quick == (slow if isinstance(slow, str) else pytest.approx(slow, rel=1e-10))


def told(ends: Callable[[], tuple[float, float]]) -> tuple[float, float] | str:
    try:
        return ends()
    except DomainError as error:
        return error.problem.reason


@LAW
@given(BOWS, st.floats(0.01, 1.0))
def test_brace_height_finds_the_string_length_back(bow: Bow, brace: float) -> None:
    brace_m = brace * brace_limit(bow)
    assume(brace_m > 1.01 * bow.string_follow_m)
    string_m = string_length(bow, brace_m)
    assert string_length(bow, brace_height(bow, string_m)) == pytest.approx(string_m, rel=1e-14)


def test_a_draw_below_the_brace_height_is_refused() -> None:
    with pytest.raises(DomainError) as caught:
        end_tension(Bow(1.6, 0.2, "arc"), 0.2, 0.2, 180.0)
    assert caught.value.problem.reason == "draw_short"


@LAW
@given(st.floats(0.6, 2.4), st.floats(0.0, 0.3), st.sampled_from(SHAPES))
def test_a_string_a_hair_shorter_than_the_bow_braces_it_at_almost_nothing(
    nock_m: float, handle_length_m: float, shape: LimbShape
) -> None:
    bow = Bow(nock_m, handle_length_m, shape)
    assert 0.0 <= brace_height(bow, nextafter(string_length(bow, 1e-12), 0.0)) < 1e-6
