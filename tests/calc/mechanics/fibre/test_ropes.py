"""Ratings and ratios: what a label means, and fibres compared two ways."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.geometry.lay import bundle_diameter
from calc.mechanics.fibre import Basis, rated_strength, rope, rope_ratio, strand_strength, strength_ratio, working_load

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.exact

PLAIN = settings(derandomize=True, deadline=None, max_examples=60)
keys = st.sampled_from([each.id for each in fibres()])
bases: st.SearchStrategy[Basis] = st.sampled_from(["weight", "thickness"])


@PLAIN
@given(keys, keys, bases)
def test_a_ratio_turned_round_is_its_inverse(one: str, other: str, basis: Basis) -> None:
    there = strength_ratio(fibre(one), fibre(other), basis).value
    back = strength_ratio(fibre(other), fibre(one), basis).value
    assert there * back == pytest.approx(1.0, rel=1e-12)


@PLAIN
@given(keys, keys)
def test_thickness_is_weight_times_density(one: str, other: str) -> None:
    """Strands as thick as each other, made by their weight through the bundle's geometry, hold that ratio."""
    thick = 1e-3
    held = []
    for key in (one, other):
        each = fibre(key)
        unit = bundle_diameter(1e-3, each.density_kg_m3.value, 0.7)
        held.append(strand_strength(each, 1e-3 * (thick / unit) ** 2).value)
    ratio = strength_ratio(fibre(one), fibre(other), "thickness").value
    assert ratio == pytest.approx(held[0] / held[1], rel=1e-9)


def test_spread_of_a_ratio_widens_with_density_only_by_thickness() -> None:
    pair = fibre("hmpe"), fibre("polyester")
    weight, thickness = strength_ratio(*pair, "weight"), strength_ratio(*pair, "thickness")
    assert (thickness.high / thickness.value) > (weight.high / weight.value)
    assert weight.value == pytest.approx(2.9 / 0.8, rel=1e-12)


def test_rope_ratios_by_weight_follow_from_force_over_weight() -> None:
    for size_m in (0.006, 0.008, 0.010):
        one, other = rope("polypropylene", size_m), rope("polyester", size_m)
        by_weight = (one.strength_n / one.linear_density_kg_m) / (other.strength_n / other.linear_density_kg_m)
        assert rope_ratio("polypropylene", "polyester", size_m, "weight") == pytest.approx(by_weight, rel=1e-12)
        by_size = one.strength_n / other.strength_n
        assert rope_ratio("polypropylene", "polyester", size_m, "thickness") == pytest.approx(by_size, rel=1e-12)


def test_a_rope_of_the_table_is_weaker_than_its_yarn() -> None:
    """A least strength, laid twice, of ordinary yarn: never above the yarn, never below a tenth of it."""
    for key in ("nylon", "polyester", "polypropylene"):
        each = rope(key, 0.006)
        yarn = strand_strength(fibre(key), each.linear_density_kg_m)
        assert 0.1 * yarn.value < each.strength_n < yarn.low


def test_what_a_label_means() -> None:
    breaking, working = (practice(name).spread for name in ("rated_break", "design_factor"))
    assert rated_strength(100.0, "breaking") == breaking.scaled(100.0)
    assert rated_strength(100.0, "working") == working.scaled(100.0)
    unknown = rated_strength(100.0, "unknown")
    assert (unknown.low, unknown.value) == (breaking.low * 100.0, breaking.value * 100.0)
    assert unknown.high == working.high * 100.0


@PLAIN
@given(st.floats(1.0, 1e5), st.floats(5.0, 12.0))
def test_a_working_load_times_its_factor_is_the_strength(strength: float, factor: float) -> None:
    assert working_load(strength, factor) * factor == pytest.approx(strength, rel=1e-12)
    label = rated_strength(working_load(strength, factor), "working")
    assert label.low * (1 - 1e-9) <= strength <= label.high * (1 + 1e-9)


@pytest.mark.parametrize(
    ("call", "field", "code", "limit"),
    [
        (lambda: working_load(-1.0, 5.0), "strength_n", "min", 0.0),
        (lambda: working_load(1.0, 0.5), "design_factor", "min", 1.0),
        (lambda: rated_strength(0.0, "breaking"), "rated_n", "min", 0.0),
        (lambda: rated_strength(float("nan"), "working"), "rated_n", "number", None),
    ],
)
def test_out_of_bounds(call: Callable[[], object], field: str, code: str, limit: float | None) -> None:
    with pytest.raises(DomainError) as caught:
        call()
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == (field, code, limit)


def test_no_load_at_all_and_the_least_factor_are_answered() -> None:
    assert working_load(0.0, 1.0) == 0.0
