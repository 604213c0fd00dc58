"""An unknown cord: each finding rules out what it must, and a cord made from the table is found again."""

from __future__ import annotations

from dataclasses import replace
from math import nextafter, pi
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import constants

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.geometry.lay import bundle_diameter
from calc.mechanics.fibre import Findings, Match, fill, judge, rolled, strand_strength, weighed
from calc.mechanics.fibre.unknown_cord import WATER_KG_M3

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.fibre import Against

pytestmark = pytest.mark.exact

PLAIN = settings(derandomize=True, deadline=None, max_examples=60)
ALL = [each.id for each in fibres()]
LIGHT = {"hmpe", "polypropylene", "polypropylene-monofilament"}


def _match(found: Findings, key: str) -> Match:
    return next(each for each in judge(found).matches if each.fibre.id == key)


def _fits(found: Findings) -> set[str]:
    return {each.fibre.id for each in judge(found).matches if not each.against}


@PLAIN
@given(st.floats(1e-5, 1.0), st.floats(0.1, 1000.0))
def test_a_weighed_length_is_grams_per_kilometre(mass: float, length: float) -> None:
    grams, kilometres = mass / constants.gram, length / 1000.0
    assert weighed(mass, length) / 1e-6 == pytest.approx(grams / kilometres, rel=1e-12)


def test_nothing_but_weight_fits_every_fibre() -> None:
    verdict = judge(Findings(linear_density_kg_m=2e-3))
    assert {each.fibre.id for each in verdict.matches} == set(ALL)
    assert all(not each.against for each in verdict.matches)
    assert verdict.trust == "many"


def test_floating_parts_light_fibres_from_heavy() -> None:
    assert _fits(Findings(linear_density_kg_m=2e-3, floats=True)) == LIGHT
    assert _fits(Findings(linear_density_kg_m=2e-3, floats=False)) == set(ALL) - LIGHT
    assert _match(Findings(linear_density_kg_m=2e-3, floats=True), "nylon").against == ("floats",)
    assert _match(Findings(linear_density_kg_m=2e-3, floats=False), "hmpe").against == ("sinks",)
    assert pytest.approx(WATER_KG_M3, abs=1.0) == 998.2


@PLAIN
@given(st.sampled_from(ALL), st.floats(1e-4, 1e-2), st.floats(0.36, 0.79))
def test_a_cord_made_of_a_fibre_is_found_again(key: str, kg_m: float, packing: float) -> None:
    """Thickness, floating, a weight it carries and a rating, all worked from the table, never rule out the fibre."""
    each = fibre(key)
    thick = bundle_diameter(kg_m, each.density_kg_m3.value, packing)
    real = strand_strength(each, kg_m).value * practice("cord_keeps").spread.value
    found = Findings(
        linear_density_kg_m=kg_m,
        floats=each.density_kg_m3.value < WATER_KG_M3,
        thickness_m=thick,
        held_n=0.9 * real,
        rated_n=real,
        rating="breaking",
    )
    assert key in _fits(found)


@PLAIN
@given(st.sampled_from(ALL), st.floats(1e-4, 1e-2), st.floats(0.05, 1.0))
def test_fill_turns_bundle_diameter_round(key: str, kg_m: float, packing: float) -> None:
    dense = fibre(key).density_kg_m3.value
    assert fill(dense, kg_m, bundle_diameter(kg_m, dense, packing)) == pytest.approx(packing, rel=1e-9)


def test_thickness_rules_out_what_is_too_solid_or_too_airy() -> None:
    kg_m = 2e-3
    usual = practice("cord_fill").spread
    dense = fibre("polyester").density_kg_m3.value
    solid = Findings(linear_density_kg_m=kg_m, thickness_m=bundle_diameter(kg_m, dense, usual.high) * 0.99)
    airy = Findings(linear_density_kg_m=kg_m, thickness_m=bundle_diameter(kg_m, dense, usual.low) * 1.01)
    assert _match(solid, "polyester").against == ("too_solid",)
    assert _match(airy, "polyester").against == ("too_airy",)


def test_a_weight_carried_rules_out_the_weak_and_lifts_the_low() -> None:
    kg_m = 1e-3
    held = 1200.0
    found = Findings(linear_density_kg_m=kg_m, held_n=held)
    assert "held_more" in _match(found, "cotton").against
    assert {"hmpe", "lcp", "aramid"} <= _fits(found)
    strength = judge(found).strength_n
    assert strength is not None
    assert strength.low == held


def test_a_label_rules_no_fibre_out() -> None:
    kg_m = 1e-3
    proud = Findings(linear_density_kg_m=kg_m, rated_n=2000.0, rating="breaking")
    meek = Findings(linear_density_kg_m=kg_m, rated_n=50.0, rating="breaking")
    assert (_match(proud, "polyester").against, _match(proud, "polyester").claim) == ((), "rated_more")
    assert (_match(meek, "hmpe").against, _match(meek, "hmpe").claim) == ((), "rated_less")
    assert _fits(proud) == _fits(meek) == set(ALL)
    bare, lower, higher = (
        judge(each).strength_n for each in (Findings(linear_density_kg_m=kg_m), meek, replace(proud, rated_n=1e5))
    )
    assert lower is not None
    assert bare is not None
    assert higher == bare
    assert lower.value == min(50.0, bare.value)
    assert lower.high < bare.high
    assert judge(Findings(linear_density_kg_m=kg_m, rated_n=1e5, rating="breaking")).trust == "label"


def test_nothing_fits_a_floating_cord_stronger_than_any_fibre() -> None:
    verdict = judge(Findings(linear_density_kg_m=1e-3, floats=True, held_n=1e5))
    assert (verdict.trust, verdict.strength_n) == ("none", None)
    assert all(each.against for each in verdict.matches)


def test_one_fit_is_consistent_and_stands_first() -> None:
    """A floating cord that carried what only one floating fibre bears."""
    verdict = judge(Findings(linear_density_kg_m=1e-3, floats=True, held_n=1000.0))
    assert verdict.trust == "consistent"
    assert verdict.matches[0].fibre.id == "hmpe"
    assert verdict.strength_n is not None
    assert verdict.strength_n.high == pytest.approx(verdict.matches[0].strength_n.high, rel=1e-12)


def test_strength_over_all_fits_is_that_of_the_weakest() -> None:
    verdict = judge(Findings(linear_density_kg_m=2e-3, floats=True))
    fits = [each.strength_n for each in verdict.matches if not each.against]
    assert verdict.strength_n is not None
    assert verdict.strength_n.low == min(each.low for each in fits)
    assert verdict.strength_n.value == min(each.value for each in fits)
    assert verdict.strength_n.high == max(each.high for each in fits)


def test_more_findings_never_add_a_fit() -> None:
    rng = np.random.default_rng(8)
    for _ in range(100):
        kg_m = 10 ** rng.uniform(-4, -2)
        bare = Findings(linear_density_kg_m=kg_m)
        floats = bool(rng.integers(2))
        more = Findings(linear_density_kg_m=kg_m, floats=floats)
        most = Findings(linear_density_kg_m=kg_m, floats=floats, thickness_m=10 ** rng.uniform(-3.5, -2), held_n=200.0)
        assert _fits(most) <= _fits(more) <= _fits(bare)


def test_a_cord_may_hold_just_what_the_fibre_bears_and_no_more() -> None:
    most = _match(Findings(linear_density_kg_m=1e-3, held_n=0.0), "cotton").strength_n.high
    assert _match(Findings(linear_density_kg_m=1e-3, held_n=most), "cotton").against == ()
    assert _match(Findings(linear_density_kg_m=1e-3, held_n=nextafter(most, 1e9)), "cotton").against == ("held_more",)


def test_a_thread_of_next_to_no_weight_holds_next_to_nothing() -> None:
    strength = judge(Findings(linear_density_kg_m=1e-7)).strength_n
    assert strength is not None
    assert strength.high < 1.0
    carried = judge(Findings(linear_density_kg_m=1e-7, held_n=0.01)).strength_n
    assert carried is not None
    assert carried.low == 0.01


def test_a_roll_up() -> None:
    assert rolled(0.002, 1) == 0.002
    assert rolled(0.025, 10) == pytest.approx(0.0025, rel=1e-12)
    assert fill(1000.0, 1e-3, rolled(0.02, 10)) == pytest.approx(1e-6 / (pi * 1e-6), rel=1e-12)


@pytest.mark.parametrize(
    ("call", "field", "code"),
    [
        (lambda: weighed(0.0, 1.0), "mass_kg", "min"),
        (lambda: weighed(1.0, 0.0), "length_m", "min"),
        (lambda: rolled(0.0, 1), "width_m", "min"),
        (lambda: rolled(1.0, 0), "turns", "min"),
        (lambda: fill(0.0, 1.0, 1.0), "density_kg_m3", "min"),
        (lambda: fill(1.0, 0.0, 1.0), "linear_density_kg_m", "min"),
        (lambda: fill(1.0, 1.0, 0.0), "thickness_m", "min"),
        (lambda: Findings(linear_density_kg_m=0.0), "linear_density_kg_m", "min"),
        (lambda: Findings(linear_density_kg_m=1.0, thickness_m=0.0), "thickness_m", "min"),
        (lambda: Findings(linear_density_kg_m=1.0, rated_n=0.0), "rated_n", "min"),
        (lambda: Findings(linear_density_kg_m=1.0, held_n=-1.0), "held_n", "min"),
        (lambda: Findings(linear_density_kg_m=float("nan")), "linear_density_kg_m", "number"),
    ],
)
def test_out_of_bounds(call: Callable[[], object], field: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        call()
    assert (caught.value.problem.field, caught.value.problem.code) == (field, code)


def test_every_reason_is_told_by_some_cord() -> None:
    reasons: set[Against] = set()
    for floats in (True, False):
        for thick in (0.0005, 0.005):
            for rated in (10.0, 1e5):
                found = Findings(
                    linear_density_kg_m=1e-3,
                    floats=floats,
                    thickness_m=thick,
                    held_n=3e3,
                    rated_n=rated,
                    rating="breaking",
                )
                reasons |= {reason for each in judge(found).matches for reason in each.against}
    assert reasons == {"floats", "sinks", "too_airy", "too_solid", "held_more"}
