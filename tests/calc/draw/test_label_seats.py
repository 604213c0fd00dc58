"""Seats of words along a line: the rules kept, and no way to share the lanes is better than the one taken."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.draw.labels import Seat, place_labels
from calc.draw.labels import seats as room

pytestmark = pytest.mark.exact
LOW, HIGH, GAP = 4.5, 355.5, 6.0
SEATS = st.lists(st.tuples(st.floats(0.0, 360.0), st.floats(5.0, 120.0)), min_size=1, max_size=5)
LAW = settings(derandomize=True, deadline=None, max_examples=150)


def seats_of(pairs: list[tuple[float, float]]) -> list[Seat]:
    return [Seat(wanted, width) for wanted, width in sorted(pairs)]


@LAW
@given(SEATS)
def test_words_keep_apart_and_within(pairs: list[tuple[float, float]]) -> None:
    seats = seats_of(pairs)
    try:
        found = place_labels(seats, LOW, HIGH, GAP)
    except ValueError:
        assume(False)  # noqa: FBT003 - hypothesis has it so
    for seat, place in zip(seats, found, strict=True):
        assert place.middle - seat.width / 2.0 >= LOW - 1e-6
        assert place.middle + seat.width / 2.0 <= HIGH + 1e-6
    for (one, here), (other, there) in combinations(zip(seats, found, strict=True), 2):
        if here.lane == there.lane:
            assert there.middle - here.middle >= (one.width + other.width) / 2.0 + GAP - 1e-6


@LAW
@given(SEATS)
def test_no_other_lanes_cost_less(pairs: list[tuple[float, float]]) -> None:
    """Every way to share three lanes, one after another, none left out."""
    seats = seats_of(pairs)

    def cost(middles: list[float], lanes: tuple[int, ...]) -> float:
        moved = max(abs(x - each.wanted) for x, each in zip(middles, seats, strict=True))
        return max(0.0, moved - 22.0) + 8.0 * sum(lanes)

    tried = ((room._solve(seats, lanes, (LOW, HIGH), GAP), lanes) for lanes in product(range(3), repeat=len(seats)))  # noqa: SLF001 - the rule for lanes that are given
    costs = [cost(middles, lanes) for middles, lanes in tried if middles is not None]
    if not costs:
        with pytest.raises(ValueError, match="expected less"):
            place_labels(seats, LOW, HIGH, GAP)
        return
    found = place_labels(seats, LOW, HIGH, GAP)
    assert cost([each.middle for each in found], tuple(each.lane for each in found)) <= min(costs) + 1e-6
