"""Stretch, bedding and creep: a helix pulled by numbers, a creeping rate integrated, laws of settling."""

from __future__ import annotations

from math import cos, hypot, log, log10, pi, tan
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, optimize

from calc.data import CREEP_K, CREEP_SHARE, Fibre, fibre, fibres, practice
from calc.errors import DomainError
from calc.mechanics.fibre import (
    Load,
    creep,
    curve,
    elastic_stretch,
    fibre_strain,
    heat_limit,
    settle,
    stress_pa,
    string_stiffness,
    twist_efficiency,
    usual_settling,
)
from tests.tolerances import SOLVED

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

pytestmark = pytest.mark.exact

PLAIN = settings(derandomize=True, deadline=None, max_examples=40)
ALL = [each.id for each in fibres()]
keys = st.sampled_from(ALL)
shares = st.floats(0.02, 0.5)
times = st.floats(1.0, 1e8)
KG_M = 2e-3


def _pull(each: Fibre, share: float) -> float:
    return share * KG_M * each.tenacity_n_per_kg_m.value


def test_straight_strands_stretch_as_their_fibre() -> None:
    for each in fibres():
        pull = _pull(each, 0.2)
        assert elastic_stretch(each, KG_M, pull) == fibre_strain(each, pull / KG_M)
        assert elastic_stretch(each, KG_M, 0.0).value == 0.0


@PLAIN
@given(keys, shares, st.floats(0.1, 10.0), st.floats(0.0, 0.8))
def test_twice_the_strands_stretch_alike_at_twice_the_pull(key: str, share: float, scale: float, lay: float) -> None:
    each = fibre(key)
    one = elastic_stretch(each, KG_M, _pull(each, share), lay)
    other = elastic_stretch(each, scale * KG_M, scale * _pull(each, share), lay)
    assert other.value == pytest.approx(one.value, rel=1e-9)


@PLAIN
@given(keys, st.floats(0.0, 0.9), st.floats(1e-3, 0.5), st.floats(0.0, 0.8), st.floats(1e-3, 0.2))
def test_more_pull_and_more_lay_are_more_stretch(
    key: str, share: float, more: float, lay: float, steeper: float
) -> None:
    each = fibre(key)
    here = elastic_stretch(each, KG_M, _pull(each, share), lay).value
    assert elastic_stretch(each, KG_M, _pull(each, share + more), lay).value > here
    if share > 0.01:
        assert elastic_stretch(each, KG_M, _pull(each, share), lay + steeper).value > here


def test_a_laid_cord_against_a_helix_stretched_by_numbers() -> None:
    """Lengthen a helix at constant radius, read the strand's stretch from its length, balance the pull."""
    rng = np.random.default_rng(21)
    for _ in range(500):
        each = fibre(ALL[rng.integers(len(ALL))])
        lay, share = rng.uniform(0.05, 0.7), rng.uniform(1e-6, 2e-6)
        yarn, around = curve(each), tan(lay)

        def strand_strain(stretch: float, around: float = around) -> float:
            return hypot(1.0 + stretch, around) / hypot(1.0, around) - 1.0

        pull = share * each.tenacity_n_per_kg_m.value * cos(lay) * twist_efficiency(lay)
        wanted = yarn.strain(share * each.tenacity_n_per_kg_m.value)
        found = optimize.brentq(lambda e, w=wanted, f=strand_strain: f(e) - w, 0.0, 1.0, xtol=1e-15)
        assert elastic_stretch(each, 1.0, pull, lay).value == pytest.approx(found, rel=SOLVED)


@PLAIN
@given(keys, st.floats(0.0, 0.8))
def test_stiffness_is_pull_over_stretch_at_a_touch(key: str, lay: float) -> None:
    each = fibre(key)
    touch = _pull(each, 1e-7)
    measured = touch / elastic_stretch(each, KG_M, touch, lay).value
    assert string_stiffness(each, KG_M, lay).value == pytest.approx(measured, rel=1e-5)


@pytest.mark.parametrize("key", ALL)
def test_stiffness_in_two_systems_of_units(key: str) -> None:
    """EA from N/tex equals Young's modulus (N/tex x density) times the area that the weight makes."""
    each = fibre(key)
    modulus_pa = stress_pa(each.modulus_n_per_kg_m.value, each.density_kg_m3.value)
    area_m2 = KG_M / each.density_kg_m3.value
    assert string_stiffness(each, KG_M).value == pytest.approx(modulus_pa * area_m2, rel=1e-12)


def test_creep_worked_by_hand() -> None:
    """At the share and warmth of the table, three tenfold times after its start: three times the table's figure."""
    each = fibre("nylon")
    start = practice("creep_start").spread.value
    load = Load(_pull(each, CREEP_SHARE), 999.0 * start)
    assert creep(each, KG_M, load).value == pytest.approx(3.0 * each.creep_decade.value, rel=1e-12)


@PLAIN
@given(keys, shares, times, st.floats(1.01, 1.9), st.floats(1.0, 30.0))
def test_creep_grows_with_pull_time_and_warmth(key: str, share: float, time: float, more: float, warmer: float) -> None:
    each = fibre(key)
    here = creep(each, KG_M, Load(_pull(each, share), time)).value
    assert creep(each, KG_M, Load(_pull(each, more * share), time)).value > here
    assert creep(each, KG_M, Load(_pull(each, share), more * time)).value > here
    assert creep(each, KG_M, Load(_pull(each, share), time, CREEP_K + warmer)).value >= here


def test_creep_grows_by_the_power_and_the_factor_of_the_table() -> None:
    each = fibre("hmpe")
    here = creep(each, KG_M, Load(_pull(each, 0.1), 1e4)).value
    doubled = creep(each, KG_M, Load(_pull(each, 0.2), 1e4)).value
    warmer = creep(each, KG_M, Load(_pull(each, 0.1), 1e4, CREEP_K + 10.0)).value
    assert doubled / here == pytest.approx(2.0**each.creep_power.value, rel=1e-9)
    assert warmer / here == pytest.approx(each.creep_warmth.value, rel=1e-9)


def test_no_time_no_creep() -> None:
    assert creep(fibre("silk"), KG_M, Load(10.0, 0.0)).high == 0.0


def _hardening(per_decade: float, start: float) -> Callable[[float, NDArray[np.float64]], list[float]]:
    """Return the rate of creep by the strain it has reached."""
    return lambda _, strain: [per_decade / log(10.0) / start * 10.0 ** (-float(strain[0]) / per_decade)]


def test_creep_against_its_rate_integrated() -> None:
    """Strain hardening as a rate: it falls tenfold with each decade of strain. From the settled strain onwards."""
    rng = np.random.default_rng(4)
    start = practice("creep_start").spread.value
    for _ in range(500):
        each = fibre(ALL[rng.integers(len(ALL))])
        first = Load(_pull(each, rng.uniform(0.02, 0.3)), 10 ** rng.uniform(2, 5))
        work = Load(_pull(each, rng.uniform(0.05, 0.3)), 10 ** rng.uniform(3, 7))
        done = settle(each, KG_M, first, work)
        per_decade = creep(each, KG_M, Load(work.tension_n, 9.0 * start)).value

        path = integrate.solve_ivp(
            _hardening(per_decade, start),
            (0.0, work.time_s),
            [done.creep_taken.value],
            rtol=1e-10,
            atol=1e-15,
            method="LSODA",
        )
        grown = float(path.y[0][-1]) - done.creep_taken.value
        assert done.creep_left.value == pytest.approx(grown, rel=SOLVED, abs=1e-9)


@PLAIN
@given(keys, shares, times, times)
def test_at_one_pull_settling_and_life_are_one_creep(key: str, share: float, first: float, then: float) -> None:
    each = fibre(key)
    pull = _pull(each, share)
    done = settle(each, KG_M, Load(pull, first), Load(pull, then))
    whole = creep(each, KG_M, Load(pull, first + then)).value
    assert done.creep_taken.value + done.creep_left.value == pytest.approx(whole, rel=1e-9)


@PLAIN
@given(keys, shares, shares, times, times)
def test_the_bedding_is_taken_or_left(key: str, hung: float, worked: float, first: float, then: float) -> None:
    each = fibre(key)
    done = settle(each, KG_M, Load(_pull(each, hung), first), Load(_pull(each, worked), then))
    whole = practice("bedding").spread.value
    assert done.bedding_taken.value + done.bedding_left.value == pytest.approx(whole, rel=1e-9)
    assert done.taken.value == pytest.approx(done.bedding_taken.value + done.creep_taken.value, rel=1e-9)
    assert done.left.value == pytest.approx(done.bedding_left.value + done.creep_left.value, rel=1e-9)


@PLAIN
@given(keys, shares, times, st.floats(1.1, 1.9))
def test_a_heavier_weight_or_a_longer_night_leaves_less(key: str, share: float, time: float, more: float) -> None:
    each = fibre(key)
    work = Load(_pull(each, 0.1), 1e6)
    here = settle(each, KG_M, Load(_pull(each, share), time), work)
    heavier = settle(each, KG_M, Load(_pull(each, more * share), time), work)
    longer = settle(each, KG_M, Load(_pull(each, share), more * time), work)
    assert heavier.left.value < here.left.value
    assert longer.left.value < here.left.value
    assert heavier.taken.value > here.taken.value


def test_the_usual_settling_takes_the_usual_share_of_the_bedding() -> None:
    usual = usual_settling()
    done = settle(fibre("polyester"), KG_M, usual, Load(usual.tension_n, 1e6))
    share = done.bedding_taken.value / practice("bedding").spread.value
    assert share == pytest.approx(practice("bedding_share").spread.value, rel=1e-12)


def test_the_usual_settling_takes_place_where_it_is_told() -> None:
    assert usual_settling().temperature_k == CREEP_K
    assert usual_settling(303.15).temperature_k == 303.15


def test_two_usual_settlings_leave_the_rest_of_the_rest() -> None:
    """Twice the pull for the usual time counts as two settlings: 0.2 of 0.2 is left."""
    usual = usual_settling()
    done = settle(fibre("linen"), KG_M, usual, Load(usual.tension_n / 2.0, 1e6))
    left = done.bedding_left.value / practice("bedding").spread.value
    assert left == pytest.approx((1.0 - practice("bedding_share").spread.value) ** 2, rel=1e-9)


def test_a_weight_far_above_the_work_leaves_no_creep() -> None:
    """Ten to a great negative power stays a number."""
    each = fibre("hmpe")
    done = settle(each, KG_M, Load(_pull(each, 0.9), 1e6), Load(_pull(each, 1e-3), 1e6))
    assert 0.0 <= done.creep_left.value < 1e-12
    assert done.elastic == elastic_stretch(each, KG_M, _pull(each, 1e-3))


def test_stretch_given_back_each_time_is_carried_through_the_lay() -> None:
    each = fibre("polyester")
    usual = usual_settling()
    done = settle(each, KG_M, usual, usual, 0.3)
    assert done.elastic == elastic_stretch(each, KG_M, usual.tension_n, 0.3)


def test_a_decade_is_a_tenfold_time() -> None:
    each, start = fibre("cotton"), practice("creep_start").spread.value
    one = creep(each, KG_M, Load(_pull(each, CREEP_SHARE), 1e5)).value
    assert one == pytest.approx(each.creep_decade.value * log10(1.0 + 1e5 / start), rel=1e-12)


def test_heat_limits_of_two_fibres() -> None:
    melts, chars = heat_limit(fibre("polypropylene")), heat_limit(fibre("linen"))
    assert chars.melting_k is None
    assert chars.softening_k == fibre("linen").softening_k
    assert melts.melting_k is not None
    assert melts.melting_k.value == pytest.approx(165.0 + 273.15)
    assert melts.over_wax_k.low == pytest.approx(140.0 - 66.0)
    assert melts.over_wax_k.value == pytest.approx(145.0 - 63.5)
    assert melts.over_wax_k.high == pytest.approx(155.0 - 61.0)
    assert melts.rope_rule_k == pytest.approx((180.0 - 32.0) * 5.0 / 9.0 + 273.15, abs=0.05)


def _settled(first: Load, work: Load) -> Callable[[], object]:
    return lambda: settle(fibre("polyester"), 1e-3, first, work)


@pytest.mark.parametrize(
    ("call", "field", "code", "limit"),
    [
        (lambda: Load(0.0, 1.0), "tension_n", "min", 0.0),
        (lambda: Load(1.0, -1.0), "time_s", "min", 0.0),
        (lambda: Load(1.0, 1.0, 0.0), "temperature_k", "min", 0.0),
        (lambda: Load(float("inf"), 1.0), "tension_n", "number", None),
        (lambda: creep(fibre("silk"), 0.0, Load(1.0, 1.0)), "linear_density_kg_m", "min", 0.0),
        (_settled(Load(801.0, 1.0), Load(1.0, 1.0)), "tension_n", "max", 800.0),
        (_settled(Load(1.0, 1.0), Load(801.0, 1.0)), "tension_n", "max", 800.0),
        (_settled(Load(1.0, 1.0, 503.15), Load(1.0, 1.0)), "temperature_k", "model", 503.15),
        (lambda: elastic_stretch(fibre("silk"), 0.0, 1.0), "linear_density_kg_m", "min", 0.0),
        (lambda: elastic_stretch(fibre("silk"), 1.0, -1.0), "tension_n", "min", 0.0),
        (lambda: elastic_stretch(fibre("silk"), 1.0, 1.0, pi / 2.0), "surface_rad", "max", pi / 2.0),
        (lambda: stress_pa(1.0, 0.0), "density_kg_m3", "min", 0.0),
        (lambda: stress_pa(float("nan"), 1.0), "n_per_kg_m", "number", None),
        (lambda: string_stiffness(fibre("silk"), 0.0), "linear_density_kg_m", "min", 0.0),
    ],
)
def test_out_of_bounds(call: Callable[[], object], field: str, code: str, limit: float | None) -> None:
    with pytest.raises(DomainError) as caught:
        call()
    problem = caught.value.problem
    assert (problem.field, problem.code) == (field, code)
    assert problem.limit == (None if limit is None else pytest.approx(limit))


def test_too_hot_names_the_fibre_and_the_reason() -> None:
    with pytest.raises(DomainError) as caught:
        creep(fibre("hmpe"), 1e-3, Load(1.0, 1.0, 350.0))
    problem = caught.value.problem
    assert (problem.other, problem.reason) == ("fibre", "melts")
