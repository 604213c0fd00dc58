"""Strength needed, by hand and next to the rules of the trade; cautions at their limits."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.mechanics.fibre import (
    AgainstRule,
    against_rules,
    assembly_efficiency,
    grains_per_pound,
    reasons_for_care,
    strand_strength,
    strands_needed,
    string_need,
)
from calc.numerics import Spread

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=60)
LBF, GRAIN = 4.4482216152605, 64.79891e-6
ONE = Spread.exactly(1.0)


def rows(draw_n: float, peak: float, efficiency: float, margin: float) -> dict[str, AgainstRule]:
    need = string_need(draw_n, Spread.exactly(peak * draw_n), Spread.exactly(efficiency), Spread.exactly(margin))
    return {row.figure: row for row in against_rules(draw_n, need)}


def test_need_by_hand() -> None:
    need = string_need(100.0, Spread(300.0, 400.0, 450.0), Spread(0.5, 0.8, 0.9), Spread(1.0, 1.5, 2.0))
    assert need.made_n.value == 600.0
    assert need.sum_n.value == pytest.approx(750.0)
    assert (need.made_multiple.value, need.sum_multiple.value) == pytest.approx((6.0, 7.5))
    assert need.made_n.high == pytest.approx(600 + ((450 * 1.5 - 600) ** 2 + (400 * 2 - 600) ** 2) ** 0.5)
    assert need.sum_n.high > 600.0 / 0.5


@pytest.mark.practice
def test_sums_of_six_times_are_four_times_in_the_made_string_when_a_third_is_lost() -> None:
    """4 x made and 6 x nominal are one rule at 0.67; Ford's broken strings kept 0.66."""
    found = rows(200.0, 4.0, 0.67, 1.0)
    assert found["times the draw weight"].stands == "alike"
    assert found["threads a pound"].stands == "alike"
    assert found["threads a pound"].asks.high == pytest.approx(6.0 * 200.0)
    assert found["twisted or natural"].asks.value == 5.5 * 200.0
    assert found["twisted or natural"].stands == "alike"
    assert found["twisted or natural"].ours.value == pytest.approx(4.0 / 0.67 * 200.0)


@pytest.mark.practice
def test_a_working_margin_on_the_peak_asks_for_more_than_the_trade_does() -> None:
    found = rows(200.0, 3.9, 0.66, 1.5)
    assert [each.stands for each in found.values()] == ["less"] * 3
    assert [each.reason for each in found.values()] == ["made", "nominal", "nominal"]


def test_a_soft_shot_needs_less_than_the_rules_ask() -> None:
    assert [each.stands for each in rows(200.0, 1.5, 0.9, 1.0).values()] == ["more"] * 3


def test_strand_counts_part_at_45_pounds() -> None:
    polyester = strand_strength(fibre("polyester"), 111e-6)
    for pounds, words, low, high in ((44.9, "youth bows", 12, 14), (45.0, "above 45 lbf", 15, 17)):
        draw_n = pounds * LBF
        need = string_need(draw_n, Spread.exactly(4 * draw_n), assembly_efficiency(0.2))
        row = against_rules(draw_n, need, polyester)[-1]
        assert (row.figure, row.asks.low, row.asks.high, row.unit, row.reason) == (words, low, high, "1", "count")
        assert row.ours.value == pytest.approx(need.sum_n.value / polyester.value)
    assert all(row.unit == "N" for row in against_rules(200.0, need))


@law
@given(st.floats(10.0, 400.0), st.floats(1.0, 8.0), st.floats(0.3, 1.0), st.floats(10.0, 200.0), st.integers(1, 4))
def test_strands_hold_what_is_needed_and_one_less_bundle_does_not(
    draw_n: float, peak: float, efficiency: float, strand_n: float, bundles: int
) -> None:
    need = string_need(draw_n, Spread.exactly(peak * draw_n), Spread.exactly(efficiency), ONE)
    count = strands_needed(need, Spread(strand_n / 2, strand_n, 2 * strand_n), bundles)
    assert count % bundles == 0
    assert count * strand_n >= need.sum_n.value * (1 - 1e-12)
    assert (count - bundles) * strand_n < need.sum_n.value
    double = string_need(2 * draw_n, Spread.exactly(2 * peak * draw_n), Spread.exactly(efficiency), ONE)
    assert double.sum_multiple.value == pytest.approx(need.sum_multiple.value)


@pytest.mark.parametrize(("bundles", "strands"), [(1, 19), (2, 20), (3, 21), (4, 20)])
def test_strands_by_hand(bundles: int, strands: int) -> None:
    """2400 N over strands of 130 N is 18.46 of them; over strands of 120 N it is 20 and not one bundle more."""
    need = string_need(200.0, Spread.exactly(800.0), Spread.exactly(0.5), Spread.exactly(1.5))
    assert strands_needed(need, Spread(90.0, 130.0, 140.0), bundles) == strands
    assert strands_needed(need, Spread.exactly(120.0), 2) == 20


def test_the_rules_of_the_trade_are_named() -> None:
    need = string_need(0.5, Spread.exactly(2.0), ONE)
    found = against_rules(0.5, need, strand_strength(fibre("polyester"), 111e-6))
    names = ["draw_weight_multiple", "draw_weight_multiple", "thread_per_pound", "polyester_strands"]
    assert [row.rule.id for row in found] == names
    assert [row.rule.id for row in against_rules(0.5, need)] == names[:3]


def test_a_range_that_only_touches_ours_is_like_it() -> None:
    found = against_rules(100.0, string_need(100.0, ONE, ONE, ONE))[0]
    for peak, stands in ((found.asks.low, "alike"), (found.asks.high, "alike"), (found.asks.low * 0.999, "more")):
        need = string_need(100.0, Spread.exactly(peak), ONE, ONE)
        assert against_rules(100.0, need)[0].stands == stands
    need = string_need(100.0, Spread.exactly(found.asks.high * 1.001), ONE, ONE)
    assert against_rules(100.0, need)[0].stands == "less"


@pytest.mark.parametrize(("grains", "keys"), [(5.0, ["arrow_light"]), (8.0, [])])
def test_an_arrow_of_just_the_limit_is_heavy_enough_for_it(grains: float, keys: list[str]) -> None:
    assert grains_per_pound(grains * GRAIN, LBF) == grains
    assert [each.key for each in reasons_for_care(None, arrow_kg=grains * GRAIN, draw_weight_n=LBF)] == keys


def test_grains_per_pound() -> None:
    assert grains_per_pound(350 * GRAIN, 70 * LBF) == pytest.approx(5.0, rel=1e-12)


@pytest.mark.parametrize(("grains", "key"), [(4.999, "arrow_dry"), (5.001, "arrow_light"), (7.999, "arrow_light")])
def test_a_light_arrow_is_a_reason(grains: float, key: str) -> None:
    found = reasons_for_care(None, arrow_kg=grains * 40 * GRAIN, draw_weight_n=40 * LBF)
    assert [each.key for each in found] == [key]
    assert found[0].value == pytest.approx(grains)
    assert found[0].limit == (5 if key == "arrow_dry" else 8)


def test_what_needs_no_caution_gets_none() -> None:
    assert reasons_for_care(None) == ()
    assert reasons_for_care(fibre("polyester"), arrow_kg=8.001 * 40 * GRAIN, draw_weight_n=40 * LBF) == ()
    assert reasons_for_care(fibre("hmpe"), made_for_it=True) == ()


def test_the_fibres_that_hardly_stretch() -> None:
    stiff = {each.id for each in fibres() if reasons_for_care(each)}
    assert stiff == {"hmpe", "lcp", "aramid", "aramid-high-modulus"}
    limit = practice("low_stretch").spread.value
    (found,) = reasons_for_care(fibre("hmpe"))
    assert (found.key, found.value, found.limit) == ("low_stretch", fibre("hmpe").modulus_n_per_kg_m.value, limit)
    assert found.value > limit


@pytest.mark.parametrize(
    ("call", "field", "code"),
    [
        (lambda: string_need(0.0, ONE, ONE), "draw_weight_n", "min"),
        (lambda: string_need(1.0, Spread(0.0, 1.0, 1.0), ONE), "peak_n", "min"),
        (lambda: string_need(1.0, ONE, Spread(0.0, 1.0, 1.0)), "efficiency", "min"),
        (lambda: string_need(1.0, ONE, ONE, Spread(0.0, 1.0, 1.0)), "margin", "min"),
        (lambda: strands_needed(string_need(1.0, ONE, ONE), ONE, 0), "bundles", "min"),
        (lambda: strands_needed(string_need(1.0, ONE, ONE), Spread.exactly(0.0), 2), "strand_n", "min"),
        (lambda: against_rules(float("nan"), string_need(1.0, ONE, ONE)), "draw_weight_n", "number"),
        (lambda: against_rules(0.0, string_need(1.0, ONE, ONE)), "draw_weight_n", "min"),
        (lambda: reasons_for_care(None, arrow_kg=0.02), "draw_weight_n", "min"),
        (lambda: grains_per_pound(0.0, 1.0), "arrow_kg", "min"),
    ],
)
def test_what_cannot_be_judged_is_named(call: object, field: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        call()  # type: ignore[operator]
    problem = caught.value.problem
    assert (problem.field, problem.code) == (field, code)
    assert problem.limit == (None if code == "number" else 1.0 if field == "bundles" else 0.0)
