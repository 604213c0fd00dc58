"""Tails by friction: the sum written out a second time, and what moves it."""

from __future__ import annotations

from math import exp, hypot, log, sin, sqrt

import pytest

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.making.strands import tails

pytestmark = pytest.mark.exact


def by_hand(friction: float, squeeze: float, lay_rad: float, bundle_m: float) -> float:
    """Belt friction along the helix of two doubled bundles, whose centres run half a bundle from the axis."""
    angle = log((1.0 + squeeze) / (2.0 * squeeze)) / (friction * (1.0 - squeeze))
    return angle * (bundle_m * sqrt(2.0) / 2.0) / sin(lay_rad) ** 2


def test_the_length_needed_by_hand() -> None:
    slick = fibre("hmpe").friction
    squeeze, laid = practice("splice_squeeze").spread, practice("lay_splice").spread
    found = tails([fibre("hmpe")], "none", 0.0012, 2, 0.2).needed
    middle = by_hand(slick.value, squeeze.value, laid.value, 0.0012)
    assert found.value == pytest.approx(middle, rel=1e-12)
    moves = (
        by_hand(slick.low, squeeze.value, laid.value, 0.0012),
        by_hand(slick.value, squeeze.low, laid.value, 0.0012),
        by_hand(slick.value, squeeze.value, laid.low, 0.0012),
    )
    assert found.high == pytest.approx(middle * exp(hypot(*(log(each / middle) for each in moves))), rel=1e-9)


def test_the_slickest_of_several_is_counted_on() -> None:
    every = tails(fibres(), "beeswax", 0.0012, 2, 0.2)
    assert every == tails([fibre("hmpe")], "beeswax", 0.0012, 2, 0.2)
    assert every.needed.value == max(tails([each], "beeswax", 0.0012, 2, 0.2).needed.value for each in fibres())


@pytest.mark.parametrize("share", [0.99, 1.01])
def test_a_verdict_turns_where_the_range_says(share: float) -> None:
    needed = tails([fibre("linen")], "beeswax", 0.0012, 2, 0.0).needed
    words = ("slips", "doubtful", "likely", "sure")
    for at, end in enumerate((needed.low, needed.value, needed.high)):
        hold = tails([fibre("linen")], "beeswax", 0.0012, 2, share * end).hold
        assert hold == words[at + (share > 1.0)]


def test_a_thicker_bundle_asks_for_longer_tails_in_step() -> None:
    thin, thick = (tails([fibre("nylon")], "slick", width, 2, 0.1).needed for width in (0.001, 0.003))
    assert thick.value == pytest.approx(3.0 * thin.value, rel=1e-12)


@pytest.mark.practice
def test_two_inches_hold_as_a_rule_in_the_fibres_the_rule_grew_up_with() -> None:
    """Common practice, no published source: 2 in. So it is for linen and polyester, and not for HMPE."""
    least_m = practice("tail_least").spread.value
    for key, bundle_m in (("linen", 0.0013), ("polyester", 0.0012)):
        assert tails([fibre(key)], "beeswax", bundle_m, 2, least_m).hold == "likely"
    assert tails([fibre("hmpe")], "beeswax", 0.001, 2, least_m).hold == "doubtful"


def test_a_tail_below_nothing_is_refused() -> None:
    with pytest.raises(DomainError) as caught:
        tails([fibre("silk")], "none", 0.001, 2, -0.1)
    assert (caught.value.problem.field, caught.value.problem.code) == ("shortest_m", "min")
