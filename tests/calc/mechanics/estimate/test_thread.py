"""A thread from nock to nock over the unbraced bow: set and handle in one reading."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import numpy as np
import pytest

from calc.data import practice
from calc.errors import DomainError
from calc.mechanics.bow import Bow, string_length
from calc.mechanics.estimate import BowEstimate, StringRead

pytestmark = pytest.mark.exact
TAPE_M, FOLLOW_M, PROUD_M = (practice(f"{name}_reading").spread.high for name in ("tape", "follow", "proud"))
PLAIN = BowEstimate(nock_to_nock_m=1.7, handle_length_m=0.2, shape="arc")


@pytest.mark.parametrize("gap_m", [-0.02, 0.0, 0.012])
def test_the_handle_stands_where_set_and_thread_say(gap_m: float) -> None:
    found = replace(PLAIN, string_follow_m=0.02, thread_gap_m=gap_m)
    proud = found.spread(lambda each: each.proud_m)
    assert found.bow.handle_proud_m == pytest.approx(0.02 - gap_m, abs=1e-12)
    # what nobody measured pulls the answer by its own, far wider range
    assert proud.value == pytest.approx(0.02 - gap_m, abs=0.0015)
    assert proud.high - proud.low < 2.0 * hypot(TAPE_M, FOLLOW_M)


def test_readings_go_together_as_the_mean_of_two_weighed_ones() -> None:
    """Three readings of two unknowns, each off on its own: ordinary least squares, by numpy."""
    told = replace(PLAIN, string_follow_m=0.020, handle_proud_m=0.004, thread_gap_m=0.012)
    rows = np.array([[1.0 / FOLLOW_M, 0.0], [0.0, 1.0 / PROUD_M], [1.0 / TAPE_M, -1.0 / TAPE_M]])
    best = np.linalg.lstsq(rows, np.array([0.020 / FOLLOW_M, 0.004 / PROUD_M, 0.012 / TAPE_M]), rcond=None)[0]
    half = np.sqrt(np.diag(np.linalg.inv(rows.T @ rows)))
    found = told.moves.spreads(dict)
    follow, proud = found["follow"], found["proud"]
    assert (follow.value, proud.value) == pytest.approx(tuple(best), abs=2e-6)
    assert ((follow.high - follow.low) / 2.0, (proud.high - proud.low) / 2.0) == pytest.approx(tuple(half), rel=1e-3)


def test_it_narrows_the_brace_height_more_than_a_straight_edge() -> None:
    string_m = string_length(Bow(1.7, 0.2, "arc", 0.01, 0.02), 0.16)

    def width(told: BowEstimate) -> float:
        height = told.spread(lambda each: each.brace_m(string_m))
        return height.high - height.low

    seen = replace(PLAIN, string_follow_m=0.02)
    assert width(replace(seen, thread_gap_m=0.01)) < 0.75 * width(replace(seen, handle_proud_m=0.01)) < width(seen)


def test_a_thread_alone_tells_set_less_handle_and_leaves_each_as_open_as_it_was() -> None:
    alone = replace(PLAIN, thread_gap_m=0.012)
    gap = alone.moves.spread(lambda at: at["follow"] - at["proud"])
    assert gap.value == pytest.approx(0.012, abs=TAPE_M / 4.0)
    assert gap.high - gap.low < 2.3 * TAPE_M
    assert alone.spread(lambda each: each.proud_m).high > 0.02


@pytest.mark.parametrize(("gap_m", "proud_m", "follow_m"), [(0.02, 0.0, 0.02), (-0.015, 0.015, 0.0), (0.0, 0.0, 0.0)])
def test_what_was_not_told_is_as_little_as_the_thread_allows(gap_m: float, proud_m: float, follow_m: float) -> None:
    bow = replace(PLAIN, thread_gap_m=gap_m).bow
    assert (bow.handle_proud_m, bow.string_follow_m) == (proud_m, follow_m)


def test_a_thread_that_set_and_handle_do_not_allow_is_refused() -> None:
    with pytest.raises(DomainError) as raised:
        replace(PLAIN, string_follow_m=0.0, handle_proud_m=0.0, thread_gap_m=0.08)
    problem = raised.value.problem
    assert (problem.field, problem.other, problem.reason) == ("thread_gap_m", "string_follow_m", "thread_apart")


def test_strings_that_were_on_the_bow_go_with_the_thread() -> None:
    real = Bow(1.7, 0.2, "arc", 0.015, 0.025)
    told = replace(PLAIN, string_follow_m=0.025, thread_gap_m=0.010)
    taught = told.given(StringRead(string_length(real, 0.15), 0.15))
    assert taught.misfit < 1.0
    assert taught.middle.proud_m == pytest.approx(0.015, abs=0.001)
