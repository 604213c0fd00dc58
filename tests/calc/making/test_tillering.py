"""A bow in the making: the marks of the tree against the figures, and what cannot be asked of a tree."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from calc.errors import DomainError
from calc.making.tuning import Tillering
from calc.mechanics.bow import drawn_on_long, limb_state_near
from calc.mechanics.estimate import BowEstimate

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact

INCH = 0.0254
BOW = BowEstimate(nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc", draw_m=26 * INCH,
                  string_follow_m=0.0, handle_proud_m=0.0)  # fmt: skip
TREE = Tillering(bow=BOW, weight_n=178.0, brace_m=6.5 * INCH, first_m=3.5 * INCH, longer_m=4 * INCH)


@pytest.mark.parametrize("shape", ["arc", None])
def test_the_tree_reads_at_full_draw_what_the_figures_say(shape: LimbShape | None) -> None:
    """Whatever limbs do, or lie between two shapes where nobody looked; and the weight wanted on the last string."""
    tree = replace(TREE, bow=replace(BOW, shape=shape))
    found = tree.found()
    ((long_n, first_n, last_n),) = tree.reads((tree.full_m,))
    assert last_n == pytest.approx(tree.weight_n)
    if shape:
        assert long_n == pytest.approx(found["long_reads"].value, rel=1e-6)
        assert first_n == pytest.approx(found["first_reads"].value, rel=1e-6)
        ((at_change, _, _),) = tree.reads((found["change"].value,))
        assert at_change == pytest.approx(found["change_reads"].value, rel=1e-3)
    assert long_n < first_n < last_n


def test_bend_is_told_from_the_limbs_at_rest_whatever_set_they_have() -> None:
    """Tips of a bow that follows the string have moved from where they rested, on either string."""
    tree = replace(TREE, bow=replace(BOW, string_follow_m=0.05))
    bow, long_m = tree.bow.bow, tree.found()["long"].value
    start, last = limb_state_near(bow, tree.brace_m, (tree.full_m,))
    rest, long = drawn_on_long(bow, long_m, (0.0, tree.full_m), start.angles[-1])
    assert rest.across > 0.01
    bend = (long.across - rest.across) / (last.across - rest.across)
    assert tree.found()["long_bend"].value == pytest.approx(bend, rel=1e-3)


def test_a_first_bracing_below_the_tips_at_rest_is_refused_by_name() -> None:
    """Set of 4 in and a handle half an inch proud: at 3 1/2 in the string would hang slack."""
    with pytest.raises(DomainError) as caught:
        replace(TREE, bow=replace(BOW, string_follow_m=4.0 * INCH, handle_proud_m=0.5 * INCH), first_m=3.4 * INCH)
    assert caught.value.problem.field == "first_m"
    assert caught.value.problem.limit == pytest.approx(3.5 * INCH)


def test_a_bow_twice_as_strong_reads_twice_as_much() -> None:
    one, two = TREE.found(), replace(TREE, weight_n=2.0 * TREE.weight_n).found()
    for key in ("long_reads", "first_reads", "change_reads", "long_hides"):
        assert two[key].value == pytest.approx(2.0 * one[key].value), key
    for key in ("long", "first", "string", "long_bend", "change"):
        assert two[key].value == pytest.approx(one[key].value), key


@pytest.mark.parametrize(
    ("changed", "field", "code", "reason"),
    [
        ({"weight_n": 0.0}, "weight_n", "min", ""),
        ({"longer_m": -0.001}, "longer_m", "min", ""),
        ({"first_m": 6.5 * INCH}, "first_m", "pair", "first_high"),
        ({"first_m": 7.0 * INCH}, "first_m", "pair", "first_high"),
        ({"first_m": -0.01}, "first_m", "min", ""),
    ],
)
def test_what_no_tree_can_be_told_is_refused_by_name(
    changed: dict[str, float], field: str, code: str, reason: str
) -> None:
    with pytest.raises(DomainError) as caught:
        replace(TREE, **changed)  # type: ignore[arg-type]
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == (field, code, reason)
    assert problem.other == ("brace_m" if reason else "")


def test_a_string_as_long_as_the_bow_and_a_weight_of_next_to_nothing_are_taken() -> None:
    assert replace(TREE, longer_m=0.0, weight_n=0.5).found()["long"].value == pytest.approx(66 * INCH)


def test_a_string_so_long_that_it_bends_nothing_is_refused_by_name() -> None:
    with pytest.raises(DomainError) as caught:
        replace(TREE, longer_m=0.6).found()
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.other, problem.reason) == (
        "longer_m", "pair", "nock_to_nock_m", "long_slack",
    )  # fmt: skip
