"""Bundles and cords of unknown make: areas added up, and closed forms of packed circles."""

from __future__ import annotations

from itertools import pairwise
from math import pi, sin, sqrt
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.geometry.lay import (
    CLOSEST_PACKING,
    LOOSE_PACKING,
    bulk_density,
    bundle_diameter,
    envelope_ratio,
    linear_density,
    packing_of,
    pressed,
    radius_ratio,
    rolled_diameter,
    waxed_diameter,
    wound_diameter,
)
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.exact

# Own table of the reference sheet, section 3.3: tex, density g/cm3, packing, diameter mm.
SHEET = [
    (111.1, 1.38, 0.75, 0.3697),
    (111.1, 1.38, 1.00, 0.3202),
    (94, 1.14, 0.75, 0.3741),
    (176, 0.97, 0.75, 0.5550),
    (176, 0.97, 0.9069, 0.5047),
    (100, 0.91, 0.75, 0.4319),
    (100, 1.50, 0.60, 0.3761),
    (1000, 1.38, 0.75, 1.1091),
]

WEIGHTS = st.floats(1e-6, 1e-2)
DENSITIES = st.floats(800.0, 1600.0)
PACKINGS = st.floats(0.2, 1.0)
law = settings(derandomize=True, deadline=None, max_examples=100)


@pytest.mark.parametrize(("tex", "density", "packing", "wide"), SHEET)
def test_diameters_agree_with_the_table(tex: float, density: float, packing: float, wide: float) -> None:
    assert 1000 * bundle_diameter(tex * 1e-6, 1000 * density, packing) == pytest.approx(wide, abs=5.1e-5)


@law
@given(WEIGHTS, DENSITIES, PACKINGS)
def test_a_bundle_weighs_what_it_was_given(weight: float, density: float, packing: float) -> None:
    wide_m = bundle_diameter(weight, density, packing)
    assert pi * wide_m**2 / 4.0 * packing * density == pytest.approx(weight, rel=1e-12)
    assert bundle_diameter(4.0 * weight, density, packing) == pytest.approx(2.0 * wide_m, rel=1e-12)
    assert packing_of(weight, density, wide_m) == pytest.approx(packing, rel=1e-12)
    assert bulk_density(weight, wide_m) == pytest.approx(density * packing, rel=1e-12)


@law
@given(WEIGHTS, DENSITIES, PACKINGS, st.floats(0.0, 2.0), st.floats(900.0, 1000.0))
def test_wax_fills_gaps_before_it_adds_girth(
    weight: float, density: float, packing: float, share: float, wax: float
) -> None:
    dry_m = bundle_diameter(weight, density, packing)
    area = pi * waxed_diameter(weight, density, packing, share, wax) ** 2 / 4.0
    stuff = weight / density + share * weight / wax
    assert area == pytest.approx(max(pi * dry_m**2 / 4.0, stuff), rel=1e-12)


@law
@given(st.floats(1e-4, 1e-2), st.floats(0.3, 1.0), st.floats(0.3, 1.0), st.floats(0.3, 1.0))
def test_a_pressed_bundle_keeps_its_section(diameter_m: float, one: float, other: float, third: float) -> None:
    low, middle, high = sorted((one, other, third))
    flat = pressed(diameter_m, Spread(low, middle, high))
    assert flat.thickness_m.low == pytest.approx(low * diameter_m, rel=1e-12)
    assert flat.thickness_m.low * flat.width_m.high == pytest.approx(diameter_m**2, rel=1e-12)
    assert flat.thickness_m.value * flat.width_m.value == pytest.approx(diameter_m**2, rel=1e-12)
    assert flat.thickness_m.high * flat.width_m.low == pytest.approx(diameter_m**2, rel=1e-12)


@pytest.mark.parametrize(("low", "high", "code"), [(0.005, 0.9, "min"), (0.5, 1.01, "max")])
def test_a_bundle_is_not_pressed_to_nothing_nor_swollen(low: float, high: float, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        pressed(0.001, Spread(low, 0.7, high))
    assert (caught.value.problem.field, caught.value.problem.code) == ("squeeze", code)


CLOSED_FORMS = {
    1: 1.0,
    2: 2.0,
    3: 1.0 + 2.0 / sqrt(3.0),
    4: 1.0 + sqrt(2.0),
    5: 1.0 + sqrt(2.0 * (1.0 + 1.0 / sqrt(5.0))),
    6: 3.0,
    7: 3.0,
    8: 1.0 + 1.0 / sin(pi / 7.0),
    9: 1.0 + sqrt(2.0 * (2.0 + sqrt(2.0))),
    11: 1.0 + 1.0 / sin(pi / 9.0),
    13: 2.0 + sqrt(5.0),
    15: 1.0 + sqrt(6.0 + 2.0 / sqrt(5.0) + 4.0 * sqrt(1.0 + 2.0 / sqrt(5.0))),
    18: 1.0 + sqrt(2.0) + sqrt(6.0),
    19: 1.0 + sqrt(2.0) + sqrt(6.0),
}


@pytest.mark.parametrize(("count", "form"), CLOSED_FORMS.items())
def test_envelopes_have_their_closed_forms(count: int, form: float) -> None:
    assert envelope_ratio(count) == pytest.approx(form, rel=1e-14)


def test_an_envelope_never_shrinks_and_twice_stays() -> None:
    ratios = [envelope_ratio(count) for count in range(1, 38)]
    assert all(low <= high for low, high in pairwise(ratios))
    assert [count for count in range(1, 37) if ratios[count] == ratios[count - 1]] == [6, 18]


def test_two_three_and_four_strands_are_a_straight_lay() -> None:
    for count in (2, 3, 4):
        assert envelope_ratio(count) == pytest.approx(2.0 * radius_ratio(count, 0.0) + 1.0, rel=1e-13)


def test_many_strands_fill_a_stated_share() -> None:
    for count in (38, 100, 400):
        assert count / envelope_ratio(count) ** 2 == pytest.approx(LOOSE_PACKING, rel=1e-12)
    filled = [count / envelope_ratio(count) ** 2 for count in range(31, 38)]
    assert min(filled) - 0.03 < LOOSE_PACKING < max(filled) + 0.01
    assert envelope_ratio(38) > envelope_ratio(37)


def test_circles_fill_rows_at_most_so_far() -> None:
    assert pytest.approx(0.9069, abs=5e-5) == CLOSEST_PACKING
    assert pytest.approx(pi / (2.0 * sqrt(3.0)), rel=1e-15) == CLOSEST_PACKING


@law
@given(st.integers(1, 400), st.floats(1e-4, 1e-2))
def test_rolled_strands_lie_between_solid_and_loose(count: int, diameter_m: float) -> None:
    rolled = rolled_diameter(count, diameter_m)
    assert rolled.low == pytest.approx(sqrt(count) * diameter_m, rel=1e-12)
    assert rolled.high == pytest.approx(envelope_ratio(count) * diameter_m, rel=1e-12)
    most = min(rolled.high, sqrt(count / CLOSEST_PACKING) * diameter_m)
    assert rolled.value == pytest.approx(most, rel=1e-12)


def test_the_worked_yarns_of_the_sheet() -> None:
    """Eight polyester yarns of 111.1 tex: 1.2218 mm in their envelope, 1.0457 mm as one round; own working."""
    yarn_m = bundle_diameter(111.1e-6, 1380.0, 0.75)
    assert 1000 * envelope_ratio(8) * yarn_m == pytest.approx(1.2218, abs=5.1e-5)
    assert 1000 * rolled_diameter(8, yarn_m).low == pytest.approx(1.0457, abs=5.1e-5)


@pytest.mark.parametrize("ask", [envelope_ratio, lambda count: rolled_diameter(count, 0.001)])
def test_there_is_at_least_one_strand(ask: Callable[[int], object]) -> None:
    with pytest.raises(DomainError) as caught:
        ask(0)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("strands", "min", 1)


@law
@given(st.floats(1e-4, 1e-2), st.integers(1, 100))
def test_wraps_side_by_side_tell_the_diameter(diameter_m: float, wraps: int) -> None:
    assert wound_diameter(wraps * diameter_m, wraps) == pytest.approx(diameter_m, rel=1e-12)


def test_there_is_at_least_one_wrap() -> None:
    assert wound_diameter(0.002, 1) == 0.002
    with pytest.raises(DomainError) as caught:
        wound_diameter(0.01, 0)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("wraps", "min", 1)


@law
@given(st.floats(1e-6, 1.0), st.floats(0.1, 1000.0))
def test_a_weighed_length_tells_the_weight_per_length(mass_kg: float, length_m: float) -> None:
    assert linear_density(mass_kg, length_m) * length_m == pytest.approx(mass_kg, rel=1e-12)
