"""Masses on the string at their place, strings of other strands, peaks by table, limbs nobody weighed."""

from __future__ import annotations

from math import cos, exp, log, pi
from random import Random
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from calc.data import fibre, fibres, peak_table
from calc.errors import DomainError, Problem
from calc.mechanics.bow import Bow, LimbShape
from calc.mechanics.fibre import string_stiffness
from calc.mechanics.shot import (
    AddedMass,
    ShotLoad,
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
from calc.numerics import Spread

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


SURE = {"limb": 9e-4, "arrow": 1.3e-4, "string": 3e-5, "stiffness": 150.0}


def load(**told: Spread | float) -> ShotLoad:
    """Return limbs, arrow and string that are known for sure, but for what is told."""
    every = {name: Spread.exactly(value) for name, value in SURE.items()}
    return ShotLoad(**every | {k: v if isinstance(v, Spread) else Spread.exactly(v) for k, v in told.items()})


def test_peaks_by_table() -> None:
    """The middle of each row, and what its powers make of other limbs, arrows and strings."""
    table = peak_table()
    middle = table.middle
    for shape in ("tapered", "arc", "uniform"):
        row = table.rows[shape]
        at = load(arrow=1.0, limb=middle.limb, string=middle.string, stiffness=middle.stiffness)
        assert peak_force_ratio(shape, at).value == pytest.approx(exp(row.powers[0]), rel=1e-12)
        twice = load(arrow=1.0, limb=2.0 * middle.limb, string=middle.string, stiffness=middle.stiffness)
        power = row.powers[1] * log(2.0) + row.powers[4] * log(2.0) ** 2
        assert peak_force_ratio(shape, twice).value == pytest.approx(exp(row.powers[0] + power), rel=1e-12)


def test_every_cause_widens_the_range_and_what_is_told_narrows_it() -> None:
    def width(shape: LimbShape | None, **told: Spread | float) -> float:
        found = peak_force_ratio(shape, load(**told))
        return log(found.high / found.low)

    sure = width("arc")
    assert width(None) > sure
    for name, value in SURE.items():
        assert width("arc", **{name: Spread(value / 1.5, value, value * 1.5)}) > sure, name
    guessed = {name: Spread(value / 1.5, value, value * 1.5) for name, value in SURE.items()}
    widths = [width(None, **guessed), width("arc", **guessed)]
    for name in SURE:
        guessed.pop(name)
        widths.append(width("arc", **guessed))
    assert widths == sorted(widths, reverse=True)
    assert widths[-1] == sure


def test_causes_are_added_in_quadrature_as_ratios() -> None:
    sure = peak_force_ratio("arc", load())
    one, other = Spread(6e-4, 9e-4, 13e-4), Spread(60.0, 150.0, 300.0)
    both = peak_force_ratio("arc", load(limb=one, stiffness=other))

    def up(**told: Spread) -> float:
        found = peak_force_ratio("arc", load(**told))
        return log(found.high / found.value) ** 2 - log(sure.high / sure.value) ** 2

    assert log(both.high / both.value) ** 2 - log(sure.high / sure.value) ** 2 == pytest.approx(
        up(limb=one) + up(stiffness=other), rel=1e-9
    )


def test_five_limbs_pull_five_ways_and_what_nobody_saw_is_the_widest() -> None:
    told = {shape: peak_force_ratio(shape, load()) for shape in ("tapered", "arc", "hinged", "uniform")}
    values = [each.value for each in told.values()]
    assert values == sorted(values)
    assert len(set(values)) == 4
    unseen = peak_force_ratio(None, load())
    assert unseen.value == told["arc"].value
    assert unseen.high / unseen.low > max(each.high / each.low for each in told.values())


def test_heavy_limbs_light_arrows_and_stiff_strings_pull_harder() -> None:
    for shape in (None, "arc", "tapered", "uniform"):
        usual = peak_force_ratio(shape, load()).value
        assert peak_force_ratio(shape, load(limb=1.3e-3)).value > usual
        assert peak_force_ratio(shape, load(arrow=0.9e-4)).value > usual
        assert peak_force_ratio(shape, load(stiffness=250.0)).value > usual
        assert peak_force_ratio(shape, load(limb=1.0)) == peak_force_ratio(shape, load(limb=2.0)), "beyond the last"


@pytest.mark.parametrize("shape", ["arc", "tapered", "uniform"])
def test_shots_of_bows_in_the_table_lie_in_its_range(shape: LimbShape) -> None:
    """Of 20 bows drawn at random, no more than three are beyond a range that leaves out one in ten."""
    draw, out = Random(3), 0  # noqa: S311 - a seeded sample, no secret
    for _ in range(20):
        bow, brace_m = Bow(60 * IN, draw.uniform(3.0, 9.0) * IN, shape), draw.uniform(5.8, 6.6) * IN
        force_n, draw_m = draw.uniform(15.0, 70.0) * 4.4482216152605, draw.uniform(22.5, 25.5) * IN
        limb_kg = usual_limb_mass(brace_m, draw_m, force_n).value * draw.uniform(0.7, 1.4)
        arrow_kg = draw.uniform(6.0, 12.0) * GRAIN * force_n / 4.4482216152605
        string = ShotString(force_n * draw.uniform(60.0, 500.0), arrow_kg * draw.uniform(0.1, 0.6))
        found = shot(bow, brace_m, draw_m, force_n, arrow_kg=arrow_kg, string=string, limb_mass_kg=limb_kg)
        ratio = peak_force_ratio(
            shape,
            load(
                limb=limb_kg / force_n,
                arrow=arrow_kg / force_n,
                string=string.mass_kg / force_n,
                stiffness=string.stiffness_n / force_n,
            ),
        )
        out += not ratio.low < found.peak_n / force_n < ratio.high
    assert out <= 3


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
        (lambda: peak_force_ratio("arc", load(limb=0.0)), "limb", "min"),
        (lambda: peak_force_ratio(None, load(stiffness=-1.0)), "stiffness", "min"),
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
        assert problem.limit == {"strands": 1.0}.get(field, 0.0)
