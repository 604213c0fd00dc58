"""Cuts, put together again to the finished length, at causes that are none of them usual."""

from __future__ import annotations

from dataclasses import replace
from math import atan, pi, sqrt, tan

import pytest

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.ends import RoundTip, loop_nocked, loop_of_length, loop_sliding
from calc.geometry.lay import radius_ratio
from calc.making.string import End
from calc.making.string.cutting import CutOrder, CutPlan, cut_plan
from calc.making.string.turns import plied

pytestmark = pytest.mark.exact
IN = 0.0254
BUNDLE_M = 0.0011
ORDER = CutOrder(
    finished_m=1.6,
    method="loops",
    bundles=2,
    strands=12,
    bundle_m=BUNDLE_M,
    upper=End(section=RoundTip(0.014), fit="sliding"),
    lower=End(section=None, fit="nocked"),
    tail_m=0.2,
    step_m=0.01,
)
AT = {
    "tape": 0.002, "tip_upper": 0.001, "tip_lower": 0.012, "bundle": 0.05, "seat": 0.4, "loop_lay": 0.33,
    "splice_lay": 0.3, "body_lay": 0.2, "bedding": 0.006, "endless_bedding": 0.004, "hitch": 0.28, "ends": 0.15,
    "bound": 0.06, "pitch": 0.05, "twist_held": 1.3,
}  # fmt: skip
THICK_M = BUNDLE_M * 1.05


def reach(raw_m: float, tip_m: float, bundles: int) -> float:
    """Return how far the throat of a loop of so much bundle stands from the nock."""
    cord_m = THICK_M * (2.0 * radius_ratio(bundles, 0.33) + 1.0)
    loop = loop_of_length(RoundTip(tip_m), cord_m, plied(raw_m, THICK_M, bundles, 0.33, 1.3).cord_m)
    return loop.throat_m - 0.6 * tip_m / 2.0


def lengths(plan: CutPlan) -> list[tuple[str, float]]:
    return [(zone.name, zone.length_m) for zone in plan.zones]


@pytest.mark.parametrize("bundles", [2, 3])
def test_two_loops_come_to_the_finished_length(bundles: int) -> None:
    plan = cut_plan(replace(ORDER, bundles=bundles), AT)
    (first, tail), (_, upper), (_, body), (_, lower), (last, end) = lengths(plan)
    assert [name for name, _ in lengths(plan)] == ["tail", "loop", "body", "loop", "tail"]
    assert (first, last, tail, end) == ("tail", "tail", 0.2, 0.2)
    middle = plied(body - 0.4, THICK_M, bundles, 0.2)
    splice = plied(0.2, THICK_M * sqrt(2.0), bundles, 0.3, 1.3)
    made_m = (middle.cord_m + 2.0 * splice.cord_m) * 1.006
    made_m += reach(upper, 0.015, bundles) + reach(lower, 0.012, bundles)
    assert made_m == pytest.approx(1.602, rel=1e-9)
    assert plan.body_cord_m == pytest.approx(middle.cord_m, rel=1e-12)
    assert plan.take_up == pytest.approx(middle.take_up, rel=1e-9)
    assert plan.pieces == 12
    assert plan.marks_m[-1] == pytest.approx(sum(length for _, length in lengths(plan)))
    assert plan.cut_m == pytest.approx(plan.marks_m[-1] - (12 // bundles - 1) * plan.step_m, rel=1e-12)
    assert plan.cord_m == pytest.approx(12 * plan.cut_m, rel=1e-12)


@pytest.mark.parametrize("bundles", [2, 3])
def test_loops_are_as_long_as_their_fits_ask(bundles: int) -> None:
    """A nocked one opens by the usual angle; a sliding one passes the limb where it rests, with the usual ease."""
    zones = cut_plan(replace(ORDER, bundles=bundles), AT).zones
    cord_m = THICK_M * (2.0 * radius_ratio(bundles, 0.33) + 1.0)
    ease = practice("sliding_ease").spread.value
    thicker_m = 0.015 + practice("limb_thicker").spread.value
    sliding_m = loop_sliding(RoundTip(thicker_m), cord_m, ease).length_m
    nocked_m = loop_nocked(RoundTip(0.012), cord_m, practice("throat_opening").spread.value).length_m
    made = [plied(zones[at].length_m, THICK_M, bundles, 0.33, 1.3).cord_m for at in (1, 3)]
    assert made == pytest.approx([sliding_m, nocked_m], rel=1e-9)


@pytest.mark.parametrize("method", ["loops", "hitch"])
def test_hardly_any_body_is_a_body(method: str) -> None:
    plan = cut_plan(replace(ORDER, method=method, finished_m=0.75), AT)  # type: ignore[arg-type]
    assert 0.0 < plan.body_cord_m < 0.6


def test_one_loop_goes_on_to_the_hitch_with_the_lay_of_a_loop() -> None:
    plan = cut_plan(replace(ORDER, method="hitch"), AT)
    (_, tail), (_, upper), (_, body), (_, hitch) = lengths(plan)
    assert [name for name, _ in lengths(plan)] == ["tail", "loop", "body", "hitch"]
    assert tail == 0.2
    middle = plied(body - 0.2, THICK_M, 2, 0.33, 1.3)
    splice = plied(0.2, THICK_M * sqrt(2.0), 2, 0.3, 1.3)
    assert (middle.cord_m + splice.cord_m) * 1.006 + reach(upper, 0.015, 2) == pytest.approx(1.602, rel=1e-9)
    assert plied(hitch, THICK_M, 2, 0.33, 1.3).cord_m == pytest.approx(0.28, rel=1e-9)
    assert plan.body_cord_m == pytest.approx(middle.cord_m, rel=1e-12)


def test_an_endless_string_is_one_piece_that_goes_round() -> None:
    """Between the bound legs its two sides lie together: one bundle of root two the thickness, a turn each pitch."""
    plan = cut_plan(replace(ORDER, method="endless", strands=10), AT)
    (_, upper), (_, leg), (_, lower), (_, other) = lengths(plan)
    assert [name for name, _ in lengths(plan)] == ["loop", "body", "loop", "body"]
    assert leg == other
    half_angle = atan(pi * THICK_M * sqrt(2.0) / 0.05) / 2.0
    assert plan.take_up == pytest.approx(tan(half_angle) ** 2, rel=1e-9)
    twisted_m = (leg - 0.12) * (1.0 - plan.take_up)
    legs_m = (twisted_m + 0.12) * 1.004
    ends_m = 0.0
    for length, tip_m in ((upper, 0.015), (lower, 0.012)):
        ends_m += loop_of_length(RoundTip(tip_m), THICK_M, length).throat_m - 0.6 * tip_m / 2.0
    assert legs_m + ends_m == pytest.approx(1.602, rel=1e-9)
    assert plan.body_cord_m == pytest.approx(legs_m, rel=1e-9)
    assert (plan.pieces, plan.step_m) == (1, 0.0)
    assert plan.cut_m == pytest.approx(5 * (upper + lower + 2.0 * leg) + 0.3, rel=1e-12)


def test_no_step_is_no_stagger() -> None:
    assert cut_plan(replace(ORDER, step_m=0.0), AT).step_m == 0.0
    assert cut_plan(ORDER, AT).step_m == pytest.approx(0.01)


LEAST_M = practice("tail_least").spread.value
REFUSED = [
    ({"strands": 1}, Problem(field="strands", code="pair", other="bundles", reason="few_strands")),
    ({"strands": 11}, Problem(field="strands", code="pair", other="bundles", reason="uneven_strands")),
    (
        {"strands": 11, "method": "endless"},
        Problem(field="strands", code="pair", other="bundles", reason="odd_strands"),
    ),
    ({"tail_m": 0.9 * LEAST_M}, Problem(field="tail_m", code="min", limit=LEAST_M, reason="tail_short")),
]


@pytest.mark.parametrize(("changed", "problem"), REFUSED)
def test_what_cannot_be_cut_is_refused(changed: dict[str, object], problem: Problem) -> None:
    with pytest.raises(DomainError) as refused:
        replace(ORDER, **changed)  # type: ignore[arg-type]
    assert refused.value.problem == problem


def test_the_least_that_can_be_cut_is_cut() -> None:
    assert replace(ORDER, tail_m=LEAST_M).each == 6
    assert replace(ORDER, strands=2).each == 1
    assert replace(ORDER, method="endless", tail_m=0.0, strands=2).each == 1


@pytest.mark.parametrize(("method", "tail_m"), [("loops", 0.9), ("hitch", 1.8)])
def test_tails_that_leave_no_body_are_refused(method: str, tail_m: float) -> None:
    with pytest.raises(DomainError) as refused:
        cut_plan(replace(ORDER, method=method, tail_m=tail_m), AT)  # type: ignore[arg-type]
    assert refused.value.problem == Problem(field="tail_m", code="pair", other="finished_m", reason="tails_long")


def test_a_cord_too_thick_for_its_tip_is_refused() -> None:
    with pytest.raises(DomainError) as refused:
        cut_plan(replace(ORDER, bundle_m=0.05), AT)
    problem = refused.value.problem
    assert (problem.field, problem.code, problem.other, problem.reason) == (
        "bundle_m",
        "pair",
        "tip_lower",
        "cord_thick",
    )
