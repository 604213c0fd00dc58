"""A free body turned at its ends: against closed forms, and back again."""

from __future__ import annotations

from math import asin, cos, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.geometry.lay import jam
from calc.making.string import Body, body_of, plied, turned_to_lay
from calc.making.string.turns import Plied, turned_to_count
from tests.tolerances import SOLVED

exact = pytest.mark.exact


def body(**changed: float) -> Body:
    given_ = {"cord_m": 1.2, "turns": 60.0, "bundle_m": 0.00115, "lay_rad": 0.0, "spring": 1.0} | changed
    return body_of(
        cord_m=given_["cord_m"],
        bundles=int(given_.get("bundles", 2)),
        bundle_m=given_["bundle_m"],
        over_m=None,
        turns=given_["turns"],
        lay_rad=given_["lay_rad"],
        spring=given_["spring"],
    )


@exact
@pytest.mark.parametrize("bundles", [2, 3])
@pytest.mark.parametrize("turns", [20.0, 60.0, 110.0])
def test_a_body_keeps_its_bundles(bundles: int, turns: float) -> None:
    """Lay and own twist at another count, in closed form from what was laid flat."""
    made = body(bundles=bundles, turns=turns)
    for there in (made.at_turns(0.8 * turns), made.at_turns(1.3 * turns), made.at_lay(0.3)):
        twisted = there.cord_m / cos(there.lay_rad)
        left = abs(made.made.counter - there.turns * cos(there.lay_rad)) / twisted
        kept = 2.0 * cos(_surface(pi * made.bundle_m * left)) / (1.0 + cos(_surface(pi * made.bundle_m * left)))
        assert twisted == pytest.approx(made.raw_m * kept, rel=1e-9)
        if bundles == 2:
            assert sin(there.lay_rad) == pytest.approx(pi * made.bundle_m * there.turns / twisted, rel=1e-9)


def _surface(slope: float) -> float:
    return asin(slope / sqrt(1.0 + slope * slope))


@exact
@settings(derandomize=True, deadline=None, max_examples=100)
@given(
    bundles=st.sampled_from([2, 3]),
    turns=st.floats(5.0, 140.0),
    diameter=st.floats(0.0005, 0.0025),
    share=st.floats(0.0, 1.0),
)
def test_a_body_turned_to_a_length_has_that_length(bundles: int, turns: float, diameter: float, share: float) -> None:
    most = jam(bundles).cord_turns_times_diameter * 1.2 / diameter
    assume(turns < most)
    made = body(bundles=bundles, turns=turns, bundle_m=diameter)
    ends = made.ends
    wanted = ends.jam.cord_m + share * (ends.slack.cord_m - ends.jam.cord_m)
    there = made.of_cord(wanted)
    assert there.cord_m == pytest.approx(wanted, abs=1e-9)
    if there.turns < 0.95 * ends.jam.turns:
        assert made.cord_of_turns(there.turns) == pytest.approx(wanted, abs=1e-8)
    assert made.of_cord(ends.slack.cord_m + 1.0) == ends.slack
    assert made.of_cord(0.0) == ends.jam
    assert made.taken_per_turn > 0.0


@exact
def test_by_lay_and_by_count_a_turned_bundle_is_the_same() -> None:
    """The closed form of one way against the search of the other."""
    rng = np.random.default_rng(5)
    for _ in range(500):
        drawn = rng.uniform((0.2, 5e-4, 0.05, 0.0), (2.0, 4e-3, 0.5, 0.7))
        raw_m, bundle_m, first_rad, then_rad = (float(each) for each in drawn)
        bundles = int(rng.integers(2, 5))
        start = plied(raw_m, bundle_m, bundles, first_rad)
        by_lay = turned_to_lay(start, bundle_m, bundles, then_rad)
        by_count = turned_to_count(start, bundle_m, bundles, by_lay.turns)
        assert by_count.cord_m == pytest.approx(by_lay.cord_m, rel=SOLVED)


@exact
def test_bundles_that_would_give_up_all_their_length_are_refused() -> None:
    start = Plied(raw_m=1.0, cord_m=0.9, turns=10.0, counter=2000.0, take_up=0.1)
    with pytest.raises(DomainError) as caught:
        turned_to_lay(start, 0.002, 2, 0.3)
    assert caught.value.problem.reason == "overtwisted"
