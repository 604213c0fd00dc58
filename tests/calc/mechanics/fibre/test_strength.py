"""Strength of strands and of a made string: each factor against an independent working of it."""

from __future__ import annotations

from math import atan, cos, hypot, log, pi, prod, radians, sqrt, tan
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.geometry.lay import retraction
from calc.mechanics.fibre import (
    assembly,
    assembly_efficiency,
    breaking_force,
    expected_worst,
    lay_efficiency,
    loop_efficiency,
    measured_efficiency,
    sharing_efficiency,
    strand_strength,
    twist_efficiency,
    wet_strength,
)
from calc.mechanics.fibre.sharing import MOST_STRANDS
from calc.numerics import Spread
from tests.tolerances import CLOSED_FORM

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.exact

PLAIN = settings(derandomize=True, deadline=None, max_examples=60)
ALL = [each.id for each in fibres()]
angles = st.floats(0.0, radians(60))


def test_strand_strength_is_tenacity_times_weight() -> None:
    for each in fibres():
        one = strand_strength(each, 200e-6)
        known = each.spread("thread") or each.tenacity_n_per_kg_m
        assert one.value == pytest.approx(known.value * 200e-6, rel=1e-12)
        assert (one.low, one.high) == pytest.approx((known.low * 200e-6, known.high * 200e-6), rel=1e-12)


@pytest.mark.parametrize("key", ALL)
def test_wet_strength_is_the_wet_share(key: str) -> None:
    each = fibre(key)
    dry, wet = strand_strength(each, 1e-3), wet_strength(each, 1e-3)
    assert wet.value == pytest.approx(dry.value * each.wet_ratio.value, rel=1e-12)
    apart = hypot(log(dry.value / dry.low), log(each.wet_ratio.value / each.wet_ratio.low))
    assert log(wet.value / wet.low) == pytest.approx(apart, rel=1e-9, abs=1e-12)


def _by_section(surface_rad: float) -> float:
    """Sum fibres over the section of a twisted bundle, rings of equal twist, by quadrature.

    A fibre at radius r lies at atan(r tan a), is stretched by cos^2, pulls along the bundle by cos, and stands
    in the section with 1 / cos of its own area.
    """
    steep = tan(surface_rad)

    def along(r: float) -> float:
        return cos(atan(r * steep))

    pull, _ = integrate.quad(lambda r: along(r) ** 4 * 2.0 * r, 0.0, 1.0)
    fibres_there, _ = integrate.quad(lambda r: along(r) * 2.0 * r, 0.0, 1.0)
    return pull / fibres_there


def test_twist_efficiency_against_a_sum_over_the_section() -> None:
    rng = np.random.default_rng(3)
    for _ in range(500):
        surface = rng.uniform(0.0, radians(70))
        assert twist_efficiency(surface) == pytest.approx(_by_section(surface), rel=CLOSED_FORM)


@PLAIN
@given(angles)
def test_twist_efficiency_by_weight_is_the_square_of_the_cosine(surface: float) -> None:
    kept = twist_efficiency(surface)
    assert kept * (1.0 - retraction(surface)) == pytest.approx(cos(surface) ** 2, rel=1e-12)
    assert kept == pytest.approx(cos(surface) * (1.0 + cos(surface)) / 2.0, rel=1e-9)


@PLAIN
@given(angles, st.floats(1e-4, 0.2))
def test_more_lay_holds_less(lay: float, more: float) -> None:
    less, much = lay_efficiency(lay + more), lay_efficiency(lay)
    assert less.low < much.low
    assert less.value < much.value
    assert less.high < much.high


@PLAIN
@given(angles)
def test_the_lay_costs_at_least_the_cosine(lay: float) -> None:
    kept = lay_efficiency(lay)
    assert kept.high == pytest.approx(cos(lay), rel=1e-12)
    assert kept.value == pytest.approx(cos(lay) * twist_efficiency(lay), rel=1e-9)
    assert kept.low == pytest.approx(cos(lay) * twist_efficiency(atan(1.5 * tan(lay))), rel=1e-9)


def test_straight_strands_lose_nothing_to_the_lay() -> None:
    assert lay_efficiency(0.0) == Spread(1.0, 1.0, 1.0)


def _worst_by_integral(count: int) -> float:
    """Mean of the largest of `count` normal draws, by its integral."""

    def weighted(x: float) -> float:
        return float(x * count * stats.norm.pdf(x) * stats.norm.cdf(x) ** (count - 1))

    value, _ = integrate.quad(weighted, -9.0, 9.0, limit=200)
    return float(value)


@pytest.mark.parametrize("count", [2, 3, 5, 8, 12, 18, 30, 60, 120, 400, 10_000])
def test_expected_worst_against_its_integral(count: int) -> None:
    assert expected_worst(count) == pytest.approx(_worst_by_integral(count), rel=1e-7)


def test_one_strand_shares_with_nobody() -> None:
    assert expected_worst(1) == pytest.approx(0.0, abs=1e-12)
    assert sharing_efficiency(fibre("linen"), 1).value == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize(("key", "strands"), [("linen", 18), ("polyester", 16), ("hmpe", 24), ("hemp", 60)])
def test_sharing_against_strings_broken_by_chance(key: str, strands: int) -> None:
    """Draw strings of uneven strands and stretch each until the first strand breaks."""
    each = fibre(key)
    length, strength = practice("length_scatter").spread.value, practice("strand_scatter").spread.value
    rng = np.random.default_rng(5)
    breaks = each.break_strain.value
    slack = rng.normal(0.0, length, (20_000, strands))
    limits = slack + breaks * rng.normal(1.0, strength, (20_000, strands))
    held = (limits.min(axis=1) - slack.mean(axis=1)) / breaks
    assert sharing_efficiency(each, strands).value == pytest.approx(float(held.mean()), abs=0.01)


@PLAIN
@given(st.sampled_from(ALL), st.integers(2, 1000), st.integers(1, 1000))
def test_more_strands_share_worse(key: str, strands: int, more: int) -> None:
    few, many = sharing_efficiency(fibre(key), strands), sharing_efficiency(fibre(key), strands + more)
    assert many.value < few.value < 1.0
    assert many.low > 0.0


def test_a_fibre_that_stretches_shares_better() -> None:
    kept = {key: sharing_efficiency(fibre(key), 18).value for key in ("polyester", "hmpe", "linen", "hemp")}
    assert kept["polyester"] > kept["hmpe"] > kept["linen"] > kept["hemp"]


def test_a_loop_worked_by_hand() -> None:
    """Legs 60 degrees apart carry 1/sqrt(3) each; a pin four cords thick keeps three quarters."""
    made = loop_efficiency(0.012, 0.003, radians(60))
    assert made.value == pytest.approx(sqrt(3.0) * 0.75, rel=1e-12)
    loss = practice("bend_loss").spread
    assert made.low == pytest.approx(sqrt(3.0) * (1.0 - loss.high / 2.0), rel=1e-12)
    assert made.high == pytest.approx(sqrt(3.0) * (1.0 - loss.low / 2.0), rel=1e-12)


@PLAIN
@given(st.floats(1.0, 30.0), st.floats(0.0, 3.0), st.floats(1e-4, 1e-2), st.floats(0.1, 10.0))
def test_a_loop_knows_only_proportions(ratio: float, throat: float, cord: float, scale: float) -> None:
    here = loop_efficiency(ratio * cord * (1 + 1e-12), cord, throat)
    there = loop_efficiency(ratio * cord * (1 + 1e-12) * scale, cord * scale, throat)
    assert (there.low, there.value, there.high) == pytest.approx((here.low, here.value, here.high), rel=1e-9)
    assert 0.0 < here.low < here.value < here.high < 2.0


def test_only_a_loop_weaker_than_the_string_counts() -> None:
    usual = assembly(fibre("linen"), 18, 0.3)
    assert usual.loop == Spread.exactly(1.0)
    assert assembly(fibre("linen"), 18, 0.3, loop_efficiency(0.012, 0.003, 0.0)).efficiency == usual.efficiency
    wide = loop_efficiency(0.006, 0.003, radians(120))
    pinched = assembly(fibre("linen"), 18, 0.3, wide)
    assert pinched.loop == wide
    assert pinched.efficiency.value == pytest.approx(usual.efficiency.value * wide.value, rel=1e-12)
    assert pinched.efficiency.low < usual.efficiency.low
    part = assembly(fibre("linen"), 18, 0.3, Spread(0.8, 0.9, 1.2)).loop
    assert part == Spread(0.8, 0.9, 1.0)


def test_assembly_is_the_product_of_its_factors() -> None:
    made = assembly(fibre("linen"), 18, 0.3)
    product = made.lay.value * made.sharing.value * made.ends.value
    assert made.efficiency.value == pytest.approx(product, rel=1e-12)
    assert made.sharing == sharing_efficiency(fibre("linen"), 18)
    down = [log(part.value / part.low) for part in (made.lay, made.sharing, made.ends)]
    assert log(made.efficiency.value / made.efficiency.low) == pytest.approx(hypot(*down), rel=1e-9)


def test_without_a_fibre_the_trades_sharing_stands() -> None:
    usual = practice("sharing").spread
    assert assembly_efficiency(0.2) == assembly_efficiency(0.2, usual)
    assert assembly_efficiency(0.2, Spread.exactly(1.0)).value > assembly_efficiency(0.2).value
    made, parts = assembly_efficiency(0.2), (lay_efficiency(0.2), usual, practice("ends").spread)
    assert made.value == pytest.approx(prod(part.value for part in parts), rel=1e-12)
    for end in ("low", "high"):
        moves = (log(getattr(part, end) / part.value) for part in parts)
        assert abs(log(getattr(made, end) / made.value)) == pytest.approx(hypot(*moves), rel=1e-9)


def test_measured_efficiency_follows_from_the_printed_means() -> None:
    """168.4 lb from 17.7 strands of 14.4 lb."""
    assert measured_efficiency().value == pytest.approx(168.4 / (17.7 * 14.4), abs=0.005)


def test_breaking_force_is_sum_times_efficiency() -> None:
    made = assembly_efficiency(0.25)
    whole = breaking_force(fibre("polyester"), 16 * 167e-6, made)
    strand = strand_strength(fibre("polyester"), 167e-6)
    assert whole.value == pytest.approx(16 * strand.value * made.value, rel=1e-12)
    assert whole.low < whole.value < whole.high


@pytest.mark.parametrize(
    ("call", "field", "code", "limit"),
    [
        (lambda: strand_strength(fibre("silk"), 0.0), "linear_density_kg_m", "min", 0.0),
        (lambda: wet_strength(fibre("silk"), float("nan")), "linear_density_kg_m", "number", None),
        (lambda: lay_efficiency(-0.1), "lay_rad", "min", 0.0),
        (lambda: lay_efficiency(1.6), "lay_rad", "max", 1.5),
        (lambda: twist_efficiency(pi / 2.0), "surface_rad", "max", pi / 2.0),
        (lambda: twist_efficiency(-0.1), "surface_rad", "min", 0.0),
        (lambda: expected_worst(0), "count", "min", 1.0),
        (lambda: sharing_efficiency(fibre("silk"), MOST_STRANDS + 1), "count", "max", MOST_STRANDS),
        (lambda: loop_efficiency(0.002, 0.003, 1.0), "tip_m", "min", 0.003),
        (lambda: loop_efficiency(0.01, 0.0, 1.0), "cord_m", "min", 0.0),
        (lambda: loop_efficiency(0.01, 0.003, -1.0), "throat_rad", "min", 0.0),
        (lambda: loop_efficiency(0.01, 0.003, pi), "throat_rad", "max", pi),
    ],
)
def test_out_of_bounds(call: Callable[[], object], field: str, code: str, limit: float | None) -> None:
    with pytest.raises(DomainError) as caught:
        call()
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == (field, code, limit)


def test_ends_of_the_domains_are_answered() -> None:
    assert twist_efficiency(0.0) == 1.0
    assert lay_efficiency(1.5).low > 0.0
    assert loop_efficiency(0.003, 0.003, radians(120)).value == pytest.approx(0.5, rel=1e-12)
