"""What was measured on bow, cord and earlier strings narrows the plan, as much as it was told that it would."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.geometry.ends import RoundTip
from calc.geometry.lay import lay
from calc.making.string import End, MadeBefore, Order, Plan, Trial, body_lay, plan_string
from calc.making.string.figures import alike
from calc.mechanics.estimate import BowEstimate, CordEstimate, HandEstimate, StringRead
from calc.mechanics.fibre import elastic_stretch
from calc.units import INCH, POUND_FORCE

if TYPE_CHECKING:
    from collections.abc import Callable

TIP = End(section=RoundTip(0.5 * INCH), fit="nocked")
USUAL = Order(
    bow=BowEstimate(
        nock_to_nock_m=66 * INCH,
        handle_length_m=8 * INCH,
        shape="arc",
        draw_m=26 * INCH,
        draw_weight_n=40 * POUND_FORCE,
        braced_m=6.5 * INCH,
    ),
    brace_m=6.5 * INCH,
    upper=TIP,
    lower=TIP,
    cord=CordEstimate(fibre=fibre("polyester"), laid=False, yarn_kg_m=167e-6),
    strands=14,
    bundles=2,
    tail_m=8 * INCH,
)
BARE = replace(
    USUAL,
    bow=replace(USUAL.bow, shape=None, handle_length_m=None),
    upper=replace(TIP, section=None),
    lower=replace(TIP, section=None),
)
TAPE_M = practice("tape_reading").spread.high


def width(plan: Plan) -> float:
    spread = plan.figures["brace_height"]
    return spread.high - spread.low


def measured(order: Order, key: str) -> Order:
    """Return an order in which one thing was measured, and came out as was likely."""
    plan = plan_string(order)
    at, bow = plan.moves.centre, order.bow
    section = RoundTip(at["tip"])
    ways: dict[str, Callable[[], Order]] = {
        "limb": lambda: replace(order, bow=replace(bow, shape="arc")),
        "handle": lambda: replace(order, bow=replace(bow, handle_length_m=at["handle"])),
        "tips": lambda: replace(order, upper=replace(TIP, section=section), lower=replace(TIP, section=section)),
        "thread": lambda: replace(order, bow=replace(bow, thread_gap_m=0.0, string_follow_m=0.0)),
        "lays": lambda: replace(order, hand=hand_of(plan)),
        "trial": lambda: replace(order, trial=trial_of(plan)),
        "string": lambda: replace(order, bow=bow.given(StringRead(plan.lengths.string_m, order.brace_m))),
        "earlier": lambda: replace(order, earlier=(earlier_of(plan),)),
    }
    return ways[key]()


def hand_of(plan: Plan) -> HandEstimate:
    loop, splice = (
        lay(plan.lengths.lays.bundle_m * thicker, 2, plan.moves.centre[name]).pitch_m
        for name, thicker in (("loop_lay", 1.0), ("splice_lay", 2.0**0.5))
    )
    return HandEstimate(loop_pitch_m=loop, splice_pitch_m=splice)


def trial_of(plan: Plan) -> Trial:
    at, brace_n = plan.moves.centre, plan.pull.brace_n.value
    after_m = 0.6 * (1.0 + at["bedding"]) * (1.0 + at["creep"])
    stretched = elastic_stretch(plan.order.fibre, 14 * 167e-6, brace_n, body_lay()).value
    return Trial(before_m=0.6, after_m=after_m, load_n=brace_n, loaded_m=after_m * (1.0 + stretched))


def earlier_of(plan: Plan) -> MadeBefore:
    made = plan.lengths
    return MadeBefore(body_raw_m=made.body_raw_m, turns=made.middle.turns, brace_m=plan.order.brace_m)


@pytest.mark.exact
@pytest.mark.parametrize("order", [USUAL, BARE], ids=["usual", "bare"])
def test_each_reading_narrows_the_range_by_what_was_told(order: Order) -> None:
    """Told by slopes, found by planning again with the reading in it; both are rough where spreads are lopsided."""
    plan = plan_string(order)
    told = {each.key: each for each in plan.next_readings}
    assert "earlier" in told
    assert "trial" in told
    for key, each in told.items():
        if key == "nail":  # a sheet of its own
            continue
        then = plan_string(measured(order, key))
        assert 1.0 - width(then) / width(plan) == pytest.approx(each.narrower, abs=0.1), key
        assert each.high_m - each.low_m == pytest.approx((1.0 - each.narrower) * width(plan), rel=1e-6)
        assert key not in {other.key for other in then.next_readings}


@pytest.mark.exact
def test_what_is_not_known_is_asked_for_least_effort_first() -> None:
    keys = [each.key for each in plan_string(BARE).next_readings]
    order = ["limb", "handle", "tips", "thread", "lays", "trial", "string", "nail", "earlier"]
    assert keys == [each for each in order if each in keys]
    assert {"trial", "nail", "earlier"} <= set(keys)
    known = {each.key for each in plan_string(USUAL).next_readings}
    assert not {"limb", "handle", "tips"} & known


@pytest.mark.exact
def test_an_earlier_string_that_did_as_planned_changes_no_cut_and_most_of_the_range() -> None:
    plan = plan_string(USUAL)
    then = plan_string(measured(USUAL, "earlier"))
    assert then.figures["cut_length"].value == pytest.approx(plan.figures["cut_length"].value, abs=1e-4)
    assert width(then) < 0.35 * width(plan)
    assert then.unread is not None
    assert then.unread.figures["brace_height"] == plan.figures["brace_height"]
    assert then.room.chance < 0.01 < plan.room.chance


@pytest.mark.exact
def test_two_earlier_strings_leave_what_least_squares_leave() -> None:
    """Both did as planned. What is their own cancels by the root of two; what bow, cord and hand share does not."""
    none, one, two = (
        plan_string(replace(USUAL, earlier=(earlier_of(plan_string(USUAL)),) * count)) for count in range(3)
    )
    squares = [width(each) ** 2 for each in (none, one, two)]
    assert squares[0] > squares[1] > squares[2]
    own = 2.0 * alike(USUAL).high * USUAL.bow.middle.slope(USUAL.brace_m)
    shared = squares[0] - own**2
    for count, found in enumerate(squares[1:], start=1):
        read = own**2 / count + (2.0 * TAPE_M) ** 2 / count
        assert found == pytest.approx(own**2 + shared * read / (shared + read), rel=0.2)


@pytest.mark.exact
@pytest.mark.parametrize("off_m", [-0.02, 0.01, 0.025])
def test_the_next_string_is_cut_by_what_the_last_one_missed(off_m: float) -> None:
    """Higher by so much: the next body is longer by about that over the slope of brace height by string length."""
    first = plan_string(USUAL)
    told = measured(USUAL, "earlier")
    (earlier,) = told.earlier
    then = plan_string(replace(told, earlier=(replace(earlier, brace_m=USUAL.brace_m + off_m),)))
    longer_m = then.lengths.body_raw_m - first.lengths.body_raw_m
    slope = USUAL.bow.middle.slope(USUAL.brace_m + off_m / 2.0)
    assert longer_m == pytest.approx(-off_m / slope, rel=0.2)
    assert then.moves.misfit < 2.0


@pytest.mark.exact
def test_a_trial_piece_leaves_what_least_squares_leave() -> None:
    """Bedding and creep were read together: the posterior of two normal causes of which the sum was read."""
    trial = Trial(before_m=0.6, after_m=0.6 * 1.006)
    before, after = (plan_string(each).moves for each in (USUAL, replace(USUAL, trial=trial)))
    spreads = [before.spread(lambda at, name=name: at[name]) for name in ("bedding", "creep")]  # type: ignore[misc]
    sides = np.array([each.value - each.low for each in spreads])  # the reading lies below
    middle = np.array([each.value for each in spreads])
    unsure = TAPE_M * 2.0**0.5 / 0.6
    gain = sides**2 / (unsure**2 + (sides**2).sum())
    expected = middle + gain * (0.006 - middle.sum())
    found = [after.centre[name] for name in ("bedding", "creep")]
    assert found == pytest.approx(expected.tolist(), abs=2e-4)


@pytest.mark.exact
def test_readings_that_no_string_goes_with_are_refused() -> None:
    with pytest.raises(DomainError) as refused:
        plan_string(replace(USUAL, trial=Trial(before_m=0.6, after_m=0.6 * 1.09)))
    assert (refused.value.problem.field, refused.value.problem.reason) == ("trial_after_m", "readings_apart")
    for wrong in ({"after_m": 0.55}, {"after_m": 0.7}, {"after_m": 0.603, "load_n": 300.0, "loaded_m": 0.7}):
        with pytest.raises(DomainError) as refused:
            Trial(before_m=0.6, **wrong)
        assert refused.value.problem.reason == "trial_apart"


@pytest.mark.exact
def test_turns_too_short_for_the_bundles_are_refused() -> None:
    with pytest.raises(DomainError) as refused:
        plan_string(replace(USUAL, hand=HandEstimate(loop_pitch_m=0.002)))
    assert refused.value.problem.field == "loop_pitch_m"
    least_m = refused.value.problem.limit
    assert least_m is not None
    plan_string(replace(USUAL, hand=HandEstimate(loop_pitch_m=least_m * 1.001)))


@pytest.mark.exact
def test_set_lowers_the_braced_pull_and_the_string_stretches_less() -> None:
    """A bow with 2 in of set pulls less when braced, so its string comes out shorter and braces higher."""
    straight, follows = (
        plan_string(replace(USUAL, bow=replace(USUAL.bow, string_follow_m=each))) for each in (0.0, 2 * INCH)
    )
    assert follows.pull.brace_n.value < 0.95 * straight.pull.brace_n.value
    assert follows.moves.centre["strain"] < straight.moves.centre["strain"]
