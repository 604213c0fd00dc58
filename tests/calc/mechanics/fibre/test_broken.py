"""One strand broken on a scale, held against what is told of it by hand."""

from __future__ import annotations

from math import hypot, log

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.mechanics.estimate import CordEstimate
from calc.mechanics.fibre import broke_early, broken_strength
from calc.numerics import Spread

pytestmark = pytest.mark.exact
KNOWN = Spread(100.0, 200.0, 400.0)
GRIP = practice("grip_kept").spread
UNSURE = hypot(1.645 * practice("strand_scatter").spread.value, practice("weight_reading").spread.high)


def test_a_break_and_what_was_known_are_weighed_by_how_unsure_they_are() -> None:
    """Known to a factor of two either way, a break to 13 % at its low end: nearly all the weight is the break's."""
    told = broken_strength(KNOWN, 200.0)
    grip = log(GRIP.value / GRIP.low)
    left = 1.0 / (1.0 / log(2.0) ** 2 + 1.0 / (UNSURE**2 + grip**2)) ** 0.5
    assert log(told.high / told.value) == pytest.approx(left, rel=0.15)
    assert told.value == pytest.approx(200.0 / GRIP.value, rel=0.03)
    assert told.low > 180.0


def test_no_one_break_makes_a_strand_surer_than_strands_are_alike() -> None:
    told = broken_strength(Spread(199.0, 200.0, 201.0), 190.0)
    assert told.low >= 198.0
    assert told.high <= 201.1
    wide = broken_strength(Spread(20.0, 200.0, 2000.0), 190.0)
    assert log(wide.value / wide.low) == pytest.approx(hypot(UNSURE, log(1.0 / GRIP.value)), rel=0.1)


def test_one_that_broke_at_far_less_lowers_the_answer_to_it_and_one_that_held_far_more_is_refused() -> None:
    """Half is what a knot keeps; the weaker is the safer, the stronger is a unit or another fibre."""
    assert broken_strength(KNOWN, 30.0).value == pytest.approx(30.0)
    assert broke_early(KNOWN, 30.0)
    assert not broke_early(KNOWN, 150.0)
    with pytest.raises(DomainError) as refused:
        broken_strength(KNOWN, 2000.0)
    assert (refused.value.problem.field, refused.value.problem.reason) == ("broken_n", "broke_strong")


def test_a_cord_tells_what_broke_it() -> None:
    plain = CordEstimate(fibre=fibre("polyester"), laid=True, yarn_kg_m=2e-3)
    known = plain.found()["strength"]
    told = CordEstimate(fibre=fibre("polyester"), laid=True, yarn_kg_m=2e-3, broken_n=known.value).found()["strength"]
    assert known.low < told.low < told.value < told.high < known.high
    assert not plain.broke_early
    assert CordEstimate(fibre=fibre("polyester"), laid=True, yarn_kg_m=2e-3, broken_n=known.low / 9.0).broke_early
