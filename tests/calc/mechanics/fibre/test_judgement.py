"""Cautions about fibres and arrows, at their limits."""

from __future__ import annotations

import pytest

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.mechanics.fibre import (
    grains_per_pound,
    reasons_for_care,
)

pytestmark = pytest.mark.exact
LBF, GRAIN = 4.4482216152605, 64.79891e-6


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
        (lambda: reasons_for_care(None, arrow_kg=0.02), "draw_weight_n", "min"),
        (lambda: grains_per_pound(0.0, 1.0), "arrow_kg", "min"),
    ],
)
def test_what_cannot_be_judged_is_named(call: object, field: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        call()  # type: ignore[operator]
    problem = caught.value.problem
    assert (problem.field, problem.code) == (field, code)
    assert problem.limit == 0.0
