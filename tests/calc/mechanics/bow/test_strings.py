"""Masses on the string at their place, strings of other strands, peaks by table, limbs nobody weighed."""

from __future__ import annotations

from math import cos, exp, hypot, log, pi
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from calc.data import fibre, fibres, peak_rows
from calc.errors import DomainError, Problem
from calc.mechanics.bow import Bow, LimbShape
from calc.mechanics.fibre import string_stiffness
from calc.mechanics.shot import (
    AddedMass,
    ShotString,
    dry_fire_peak,
    peak_force_ratio,
    shot,
    strand_string,
    try_variants,
    usual_limb_mass,
)
from calc.mechanics.shot.full_draw import full_draw_state
from calc.mechanics.shot.variants import COARSE

if TYPE_CHECKING:
    from calc.mechanics.shot import Shot

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=60)
IN, GRAIN = 0.0254, 64.79891e-6
BOW = Bow(1.7, 0.2, "tapered")
DRAWN = (0.16, 0.70, 180.0)


def loose(string: ShotString) -> Shot:
    return shot(BOW, *DRAWN, arrow_kg=0.025, string=string, limb_mass_kg=0.16)


@law
@given(st.floats(0.0, 0.8), st.floats(0.0, 0.8), st.floats(1e-4, 0.01))
def test_added_mass_moves_as_the_string_at_its_place_does(one: float, other: float, mass_kg: float) -> None:
    """At s of the half string from the nock, speed is (1 - s) x nock's + s x tip's: squares and product by scipy."""
    near, far = sorted((one, other))
    string = ShotString(3e4, 0.007, (AddedMass(mass_kg, near, far),))
    model = full_draw_state(BOW, *DRAWN, string=string, limb_mass_kg=0.16).model
    half = model.slack_m

    def share(weight: float, power: float) -> float:
        whole = 0.007 / 2.0 * quad(lambda s: (1.0 - s) ** weight * s**power, 0.0, 1.0)[0]
        if far - near < 1e-6:
            return float(whole + mass_kg / 2.0 * (1.0 - near / half) ** weight * (near / half) ** power)
        part = quad(lambda x: (1.0 - x / half) ** weight * (x / half) ** power, near, far)[0] / (far - near)
        return float(whole + mass_kg / 2.0 * part)

    assert model.at_nock_kg == pytest.approx(share(2.0, 0.0), rel=1e-6)
    assert model.at_tip_kg == pytest.approx(share(0.0, 2.0), rel=1e-6)
    assert model.shared_kg == pytest.approx(share(1.0, 1.0), rel=1e-6)


def test_mass_costs_most_at_the_nocking_point_and_least_by_the_tips() -> None:
    speeds = [loose(ShotString(3e4, 0.007, (AddedMass(0.002, at, at),))).speed_m_s for at in (0.0, 0.2, 0.4, 0.6)]
    assert speeds == sorted(speeds)
    assert speeds[-1] < loose(ShotString(3e4, 0.007)).speed_m_s * 1.0005


def test_long_tails_cost_little_and_the_same_as_much_serving_costs_more() -> None:
    """Four tails of half the strands from 1 in below each tip: 8 in of them against 2 in, 4 g/m of string."""
    end = 0.80 - 1.0 * IN

    def tails(inches: float) -> float:
        mass_kg = 4.0 * inches * IN * 0.002
        return loose(ShotString(3e4, 0.0064, (AddedMass(mass_kg, end - inches * IN, end),))).speed_m_s

    short, long = tails(2.0), tails(8.0)
    assert 0.0 < 1.0 - long / short < 0.004
    extra_kg = 4.0 * 6.0 * IN * 0.002
    served = loose(ShotString(3e4, 0.0064, (AddedMass(extra_kg, 0.0, 3.0 * IN),))).speed_m_s
    assert 1.0 - served / loose(ShotString(3e4, 0.0064)).speed_m_s > 4.0 * (1.0 - long / short)


@law
@given(st.sampled_from([each.id for each in fibres()]), st.integers(1, 60), st.floats(0.0, 0.5), st.floats(1.0, 2.0))
def test_a_string_of_strands_by_hand(name: str, strands: int, lay_rad: float, long_m: float) -> None:
    made = strand_string(fibre(name), 111e-6, strands, long_m, lay_rad=lay_rad)
    assert made.mass_kg == pytest.approx(strands * 111e-6 * long_m / cos(lay_rad), rel=1e-12)
    assert made.stiffness_n == string_stiffness(fibre(name), strands * 111e-6, lay_rad).value
    assert made.added == ()


@pytest.mark.parametrize("lay_rad", [0.0, 0.3, 1.2])
def test_a_string_of_sixteen_strands(lay_rad: float) -> None:
    tail = (AddedMass(0.001, 0.6, 0.7),)
    made = strand_string(fibre("polyester"), 111e-6, 16, 1.6, lay_rad=lay_rad, added=tail)
    stiff_n = string_stiffness(fibre("polyester"), 16 * 111e-6, lay_rad).value
    assert (made.stiffness_n, made.added, made.even) == (stiff_n, tail, True)
    assert made.mass_kg == pytest.approx(16 * 111e-6 * 1.6 / cos(lay_rad), rel=1e-12)
    if lay_rad == 0.0:
        assert made == strand_string(fibre("polyester"), 111e-6, 16, 1.6, added=tail)


def test_a_scan_is_made_of_coarse_shots_and_a_dry_fire_is_watched_as_closely_as_asked() -> None:
    string = ShotString(3e4, 0.007)
    (tried,) = try_variants(BOW, *DRAWN, arrow_kg=0.025, strings=[string], limb_mass_kg=0.16, stored_j=50.0)
    coarse = shot(BOW, *DRAWN, arrow_kg=0.025, string=string, limb_mass_kg=0.16, stored_j=50.0, within=COARSE)
    assert (tried.speed_m_s, tried.peak_n) == (coarse.speed_m_s, coarse.peak_n)
    plain, rough = (
        dry_fire_peak(BOW, *DRAWN, string=string, limb_mass_kg=0.16, within=within) for within in (1e-4, 1e-1)
    )
    assert dry_fire_peak(BOW, *DRAWN, string=string, limb_mass_kg=0.16) == plain
    assert rough != plain


def test_a_scan_is_a_row_of_shots() -> None:
    strings = [strand_string(fibre("polyester"), 111e-6, count, 1.6) for count in (8, 16, 32)]
    tried = try_variants(BOW, *DRAWN, arrow_kg=0.025, strings=strings, limb_mass_kg=0.16)
    for one, string in zip(tried, strings, strict=True):
        exact = loose(string)
        assert one.string is string
        assert one.speed_m_s == pytest.approx(exact.speed_m_s, rel=1e-3)
        assert one.peak_n == pytest.approx(exact.peak_n, rel=1e-2)
    doubled = try_variants(BOW, *DRAWN, arrow_kg=0.025, strings=strings[:1], limb_mass_kg=0.16, stored_j=200.0)
    assert doubled[0].speed_m_s > tried[0].speed_m_s


def test_a_heavier_string_of_one_stiffness_is_slower() -> None:
    speeds = [loose(ShotString(3e4, mass)).speed_m_s for mass in (0.003, 0.006, 0.012, 0.024)]
    assert speeds == sorted(speeds, reverse=True)


@pytest.mark.parametrize("shape", ["arc", "hinged", "tapered", "uniform"])
def test_a_shot_without_an_arrow_pulls_harder_than_one_with(shape: LimbShape) -> None:
    bow, string = Bow(1.7, 0.2, shape), ShotString(3e4, 0.007)
    dry_n = dry_fire_peak(bow, *DRAWN, string=string, limb_mass_kg=0.16)
    heavy = shot(bow, *DRAWN, arrow_kg=0.040, string=string, limb_mass_kg=0.16)
    assert dry_n > heavy.peak_n


def test_peaks_by_table() -> None:
    """The middle of each row; its own spread, and half a shape and a grain of arrow either way, as ratios."""
    rows = {(row.shape, row.grains_per_pound): row.ratio for row in peak_rows() if row.limbs == "wood"}
    for shape in ("tapered", "arc", "uniform"):
        for grains in (5.0, 9.0, 15.0):
            assert peak_force_ratio(shape, grains).value == pytest.approx(rows[shape, grains].value, rel=1e-12)
    arc, soft, hard = (rows[shape, 9.0] for shape in ("arc", "tapered", "uniform"))
    told = peak_force_ratio("arc", 9.0)
    assert told.high / told.value == pytest.approx(
        exp(hypot(log(arc.high / arc.value), 0.5 * log(hard.value / arc.value))), rel=1e-12
    )
    assert told.low / told.value == pytest.approx(
        exp(-hypot(log(arc.value / arc.low), 0.5 * log(arc.value / soft.value))), rel=1e-12
    )
    usual = peak_force_ratio("arc")
    assert usual.value == told.value
    assert usual.low < told.low < told.high < usual.high
    between = 0.75 * arc.value + 0.25 * rows["arc", 11.0].value
    assert peak_force_ratio("arc", 9.5).value == pytest.approx(between, rel=1e-12)


def test_five_limbs_pull_five_ways_and_what_nobody_saw_is_the_widest() -> None:
    told = {shape: peak_force_ratio(shape) for shape in ("tapered", "arc", "hinged", "uniform")}
    values = [each.value for each in told.values()]
    assert values == sorted(values)
    assert len(set(values)) == 4
    unseen = peak_force_ratio()
    assert unseen.value == told["arc"].value
    assert unseen.high / unseen.low > max(each.high / each.low for each in told.values())
    assert (unseen.low, unseen.high) != (told["arc"].low, told["arc"].high)


def test_an_arrow_is_taken_for_a_usual_one_and_not_for_the_lightest() -> None:
    """8 to 10 grains a pound: shots with 5 or 15 grains are for those who say so."""
    for shape in (None, "arc", "tapered", "uniform"):
        usual, light = peak_force_ratio(shape), peak_force_ratio(shape, 5.0)
        assert light.value > usual.value
        assert usual.high < light.high


def test_a_shot_of_the_middle_of_the_table_is_near_its_middle() -> None:
    force_n, grains = 40.0 * 4.4482216152605, 9.0
    bow, brace_m, draw_m = Bow(60 * IN, 6 * IN, "arc"), 6.5 * IN, 24 * IN
    limb_kg = usual_limb_mass(brace_m, draw_m, force_n).value
    arrow_kg = 40.0 * grains * GRAIN
    found = shot(bow, brace_m, draw_m, force_n, arrow_kg=arrow_kg, string=ShotString(4e4, 0.009), limb_mass_kg=limb_kg)
    ratio = peak_force_ratio("arc", grains)
    assert ratio.low < found.peak_n / force_n < ratio.high


def test_limbs_weigh_as_what_they_store() -> None:
    one = usual_limb_mass(0.16, 0.7, 180.0)
    assert one.low < one.value < one.high
    assert usual_limb_mass(0.16, 0.7, 360.0).value == pytest.approx(2.0 * one.value)
    assert usual_limb_mass(0.32, 1.4, 180.0).value == pytest.approx(2.0 * one.value)
    assert usual_limb_mass(0.06, 0.6, 180.0).value == pytest.approx(one.value)
    assert usual_limb_mass(0.0, 0.54, 180.0).value == pytest.approx(one.value)
    with pytest.raises(DomainError) as caught:
        usual_limb_mass(0.2, 0.2, 100.0)
    assert caught.value.problem == Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short")


@pytest.mark.parametrize(
    ("call", "field", "code"),
    [
        (lambda: peak_force_ratio("arc", 4.9), "grains", "min"),
        (lambda: peak_force_ratio(grains=15.1), "grains", "max"),
        (lambda: peak_force_ratio(grains=float("nan")), "grains", "number"),
        (lambda: usual_limb_mass(0.2, 0.2, 100.0), "draw_m", "pair"),
        (lambda: usual_limb_mass(-0.1, 0.2, 100.0), "brace_m", "min"),
        (lambda: usual_limb_mass(0.1, 0.2, 0.0), "draw_force_n", "min"),
        (lambda: usual_limb_mass(0.1, 0.0, 1.0), "draw_m", "min"),
        (lambda: strand_string(fibre("linen"), 1e-4, 0, 1.6), "strands", "min"),
        (lambda: strand_string(fibre("linen"), 1e-4, 8, 0.0), "string_m", "min"),
        (lambda: strand_string(fibre("linen"), 1e-4, 8, 1.6, lay_rad=-0.1), "lay_rad", "min"),
        (lambda: strand_string(fibre("linen"), 1e-4, 8, 1.6, lay_rad=1.6), "lay_rad", "max"),
        (lambda: strand_string(fibre("linen"), 1e-4, 8, 1.6, lay_rad=pi / 2.0), "lay_rad", "max"),
    ],
)
def test_what_no_string_or_limb_is_gets_named(call: object, field: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        call()  # type: ignore[operator]
    problem = caught.value.problem
    assert (problem.field, problem.code) == (field, code)
    if code == "min":
        assert problem.limit == {"grains": 5.0, "strands": 1.0}.get(field, 0.0)
