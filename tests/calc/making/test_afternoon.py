"""A club's afternoon: the timetable put together by hand, and what cannot be asked of it."""

from __future__ import annotations

from itertools import pairwise

import pytest

from calc.data import practice
from calc.errors import DomainError
from calc.making.club import afternoon, timetable

pytestmark = pytest.mark.exact

HOUR_MIN = practice("settle_time").spread.value / 60.0
BEFORE = (("Mark and wax", 20), ("First loop and splice", 40), ("Counter-twist and second loop", 30),
          ("Walk the twist, turn in the body, stretch", 15))  # fmt: skip
"""Stages of an afternoon of 185 minutes that is not settled yet, and how long each takes."""
PUT, READ, SERVE = ("Put every string in its place to settle", 20), ("Read the brace heights", 20), ("Serve", 40)
WHOLE_MIN = 185.0


def minutes(strings: int, makers: int, places: int, helpers: int = 2) -> list[tuple[str, str, float, int, int]]:
    """Return what is done, where, how long [min], with how many adults busy and free."""
    slots = timetable(afternoon(strings, makers, places, WHOLE_MIN), WHOLE_MIN, helpers)
    for one, other in pairwise(slots):
        assert one.end_s == other.start_s
    assert slots[0].start_s == 0.0
    return [
        (each.words, each.place, round((each.end_s - each.start_s) / 60.0, 9), each.adults, each.spare)
        for each in slots
    ]


def test_one_string_each_with_a_place_for_each_is_told_stage_by_stage() -> None:
    told = minutes(8, 8, 8)
    safety, *work, clear = told
    assert safety == ("Safety, and what we make. Show the samples.", "all together", 15.0, 0, 3)
    assert clear == ("Cards, sweep up, count the scissors", "all together", 15.0, 0, 3)
    assert [each[0] for each in work[:4]] == [words for words, _ in BEFORE]
    assert [each[1:] for each in work[:4]] == [("bench", took, 0, 3) for _, took in BEFORE]
    put, settling, read, serve = work[4:]
    assert put == (PUT[0], "settling row", 20.0, 2, 1)
    assert settling[0] == "All strings settle at once. Makers have their break, then serve on sample cords."
    assert settling[1:] == ("settling row; bench", HOUR_MIN, 1, 2)
    assert read[0].startswith(READ[0])
    assert read[1:] == ("bracing corner", 20.0, 2, 1)
    assert serve[0].startswith(SERVE[0])
    assert serve[1:] == ("bench", 40.0, 0, 3)


@pytest.mark.parametrize("rounds", [2, 3])
def test_two_or_three_strings_each_are_told_one_by_one(rounds: int) -> None:
    told = minutes(4 * rounds, 4, 4 * rounds)
    making = told[1 : 1 + 4 * rounds]
    assert [each[0] for each in making] == [
        f"String {at} of {rounds}: {words}" for at in range(1, rounds + 1) for words, _ in BEFORE
    ]
    put, settling, *after = told[1 + 4 * rounds : -1]
    assert put[2] == 20.0 * rounds
    assert settling[0].startswith("All strings settle at once")
    assert [each[2] for each in after] == [20.0 * rounds, 40.0 * rounds]


def test_of_more_only_the_first_is_told() -> None:
    told = minutes(20, 4, 20)
    assert [each[0] for each in told[1:5]] == [f"String 1 of 5: {words}" for words, _ in BEFORE]
    rest = told[5]
    assert rest == ("The same for strings 2 to 5 of each maker", "bench", 4 * 105.0, 0, 3)
    assert told[6][0] == PUT[0]


@pytest.mark.parametrize(("places", "rounds"), [(2, 3), (3, 2)])
def test_too_few_places_settle_in_rounds_and_each_has_its_hour(places: int, rounds: int) -> None:
    told = minutes(5, 5, places)
    settling = [each for each in told if each[0].startswith("Settling")]
    assert [each[0].partition(".")[0] for each in settling] == [
        f"Settling, {at} of {rounds}" for at in range(1, rounds + 1)
    ]
    assert [each[2] for each in settling] == [HOUR_MIN] * rounds
    assert all(busy == 1 for *_, busy, _ in settling)


def test_no_more_adults_are_busy_than_are_there() -> None:
    """The one who leads alone: nobody is left for the makers, and nobody is counted twice."""
    for words, _, _, busy, spare in minutes(4, 4, 4, helpers=0):
        assert busy + spare == 1, words
    assert {busy for *_, busy, _ in minutes(4, 4, 4, helpers=0)} == {0, 1}


@pytest.mark.parametrize(
    ("asked", "field", "limit"),
    [
        ((-1, 4, 4, 60.0), "strings", 0.0),
        ((4, 0, 4, 60.0), "makers", 1.0),
        ((4, 4, 0, 60.0), "settle_places", 1.0),
        ((4, 4, 4, -0.5), "minutes", 0.0),
    ],
)
def test_what_no_afternoon_can_be_is_refused_by_name(
    asked: tuple[int, int, int, float], field: str, limit: float
) -> None:
    with pytest.raises(DomainError) as caught:
        afternoon(*asked)
    assert (caught.value.problem.field, caught.value.problem.code, caught.value.problem.limit) == (field, "min", limit)


def test_rounds_are_counted_up_and_hours_added() -> None:
    day = afternoon(9, 4, 2, 60.0)
    assert (day.made_in, day.settled_in) == (3, 5)
    settle = practice("settle_time").spread
    assert day.settling_s.value == pytest.approx(5 * settle.value)
    assert day.whole_s.low == pytest.approx(3 * 3600.0 + 5 * settle.low)
    assert afternoon(0, 1, 1, 0.0).whole_s.value == 0.0
