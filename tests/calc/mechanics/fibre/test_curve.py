"""Load against stretch of a fibre: limits, round trips, an independent root finder and integral."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, optimize

from calc.data import fibre, fibres
from calc.errors import DomainError
from calc.mechanics.fibre import StressStrain, curve, fibre_strain
from tests.tolerances import CLOSED_FORM

pytestmark = pytest.mark.exact

PLAIN = settings(derandomize=True, deadline=None, max_examples=60)
ALL = [each.id for each in fibres()]


@st.composite
def curves(draw: st.DrawFn) -> StressStrain:
    """Any fibre there may be, with a knee or without."""
    stiffness = draw(st.floats(0.5e6, 200e6))
    break_strain = draw(st.floats(0.01, 0.3))
    strength = stiffness * break_strain * draw(st.floats(0.2, 1.8))
    knee = min(strength, stiffness * break_strain) * draw(st.sampled_from([0.0, 0.1, 0.5, 0.9]))
    return StressStrain(stiffness, strength, break_strain, knee)


@PLAIN
@given(curves())
def test_it_starts_at_the_first_stiffness_and_ends_at_the_breaking_point(yarn: StressStrain) -> None:
    little = 1e-9 * yarn.strength
    assert yarn.strain(0.0) == 0.0
    assert little / yarn.strain(little) == pytest.approx(yarn.stiffness, rel=1e-6)
    assert yarn.strain(yarn.strength) == pytest.approx(yarn.break_strain, rel=1e-9)
    assert yarn.stress(yarn.break_strain) == pytest.approx(yarn.strength, rel=1e-9)


@PLAIN
@given(curves(), st.floats(0.0, 1.0))
def test_strain_and_stress_undo_each_other(yarn: StressStrain, share: float) -> None:
    strain = share * yarn.break_strain
    assert yarn.strain(yarn.stress(strain)) == pytest.approx(strain, rel=1e-9, abs=1e-15)


@PLAIN
@given(curves(), st.floats(0.0, 2.0), st.floats(1e-3, 2.0))
def test_more_pull_is_more_stretch(yarn: StressStrain, share: float, more: float) -> None:
    assert yarn.strain((share + more) * yarn.strength) > yarn.strain(share * yarn.strength)


@PLAIN
@given(curves(), st.floats(1e-7, 1e-5))
def test_beyond_the_breaking_point_the_last_slope_goes_on(yarn: StressStrain, step: float) -> None:
    pull, at = step * yarn.strength, yarn.strain(yarn.strength)
    before = at - yarn.strain(yarn.strength - pull)
    after = yarn.strain(yarn.strength + pull) - at
    assert after == pytest.approx(before, rel=1e-3)
    assert yarn.strain(yarn.strength + 1000 * pull) - at == pytest.approx(1000 * after, rel=1e-6)


@PLAIN
@given(curves(), st.floats(0.1, 10.0), st.floats(0.05, 0.95))
def test_a_fibre_twice_as_strong_and_stiff_stretches_alike_at_twice_the_pull(
    yarn: StressStrain, scale: float, share: float
) -> None:
    other = StressStrain(scale * yarn.stiffness, scale * yarn.strength, yarn.break_strain, scale * yarn.knee)
    pull = share * yarn.strength
    assert other.strain(scale * pull) == pytest.approx(yarn.strain(pull), rel=1e-9)
    assert other.work == pytest.approx(scale * yarn.work, rel=1e-9)


def _some(count: int) -> list[StressStrain]:
    rng = np.random.default_rng(11)
    some = []
    for _ in range(count):
        stiffness, break_strain = rng.uniform(1e6, 150e6), rng.uniform(0.015, 0.25)
        strength = stiffness * break_strain * rng.uniform(0.25, 1.7)
        knee = rng.integers(2) * rng.uniform(0.05, 0.9) * min(strength, stiffness * break_strain)
        some.append(StressStrain(stiffness, strength, break_strain, knee))
    return some


def test_strain_against_an_independent_root_finder() -> None:
    """Find by bracketing the stretch at which `stress` reaches the pull."""
    rng = np.random.default_rng(12)
    for yarn in _some(500):
        pull = rng.uniform(0.01, 0.99) * yarn.strength
        found = optimize.brentq(lambda e, y=yarn, p=pull: y.stress(e) - p, 0.0, yarn.break_strain, xtol=1e-14)
        assert yarn.strain(pull) == pytest.approx(found, rel=CLOSED_FORM)


def test_work_against_quadrature() -> None:
    for yarn in _some(500):
        corner = [yarn.knee / yarn.stiffness] if yarn.knee else None
        area, _ = integrate.quad(yarn.stress, 0.0, yarn.break_strain, points=corner)
        assert yarn.work == pytest.approx(area, rel=CLOSED_FORM)


@pytest.mark.parametrize("bent", [-1e-3, -1e-5, 0.0, 1e-5, 1e-3])
def test_work_of_a_nearly_straight_curve(bent: float) -> None:
    """Series and closed form agree on both sides of where one takes over from the other."""
    yarn = StressStrain(10e6 * (1.0 + bent), 1e6, 0.1)
    area, _ = integrate.quad(yarn.stress, 0.0, 0.1)
    assert yarn.work == pytest.approx(area, rel=CLOSED_FORM)


def test_a_straight_line_has_half_the_work_of_its_box() -> None:
    assert StressStrain(10e6, 1e6, 0.1).work_factor == pytest.approx(0.5, rel=1e-9)
    assert StressStrain(10e6, 1e6, 0.1, 0.5e6).work_factor == pytest.approx(0.5, rel=1e-9)


@pytest.mark.parametrize("key", ALL)
def test_a_fibres_own_curve_is_its_table_row(key: str) -> None:
    each, yarn = fibre(key), curve(fibre(key))
    assert yarn.stiffness == each.modulus_n_per_kg_m.value
    assert yarn.strain(each.tenacity_n_per_kg_m.value) == pytest.approx(each.break_strain.value, rel=1e-12)
    assert (yarn.knee == 0.0) == (each.knee_n_per_kg_m is None)


@pytest.mark.parametrize("key", ALL)
@pytest.mark.parametrize("share", [0.0, 0.05, 0.3, 0.9, 1.5])
def test_spread_of_strain_holds_the_typical_curve_and_its_ends(key: str, share: float) -> None:
    each = fibre(key)
    pull = share * each.tenacity_n_per_kg_m.value
    found = fibre_strain(each, pull)
    assert found.value == curve(each).strain(pull)
    assert 0.0 <= found.low <= found.value <= found.high
    assert (found.low < found.high) == (share > 0.0)


def test_polyester_is_softer_beyond_its_knee() -> None:
    """One modulus would give 0.30 / 10 = 3.0 % at 0.30 N/tex; the knee makes it well above that."""
    each = fibre("polyester")
    assert each.knee_n_per_kg_m is not None
    below, above = 0.5 * each.knee_n_per_kg_m.value, 3.0 * each.knee_n_per_kg_m.value
    assert fibre_strain(each, below).value == pytest.approx(below / each.modulus_n_per_kg_m.value, rel=1e-12)
    assert fibre_strain(each, above).value > 1.3 * above / each.modulus_n_per_kg_m.value


@pytest.mark.parametrize(
    ("figures", "field", "code", "limit"),
    [
        ((0.0, 1e6, 0.1, 0.0), "stiffness", "min", 0.0),
        ((1e6, -1.0, 0.1, 0.0), "strength", "min", 0.0),
        ((1e6, 1e6, 0.0, 0.0), "break_strain", "min", 0.0),
        ((1e6, 1e6, float("nan"), 0.0), "break_strain", "number", None),
        ((10e6, 0.5e6, 0.1, -1.0), "knee", "min", 0.0),
        ((10e6, 0.5e6, 0.1, 0.6e6), "knee", "max", 0.5e6),
        ((10e6, 2e6, 0.1, 1.5e6), "knee", "max", 1e6),
    ],
)
def test_a_curve_that_cannot_be(
    figures: tuple[float, float, float, float], field: str, code: str, limit: float | None
) -> None:
    with pytest.raises(DomainError) as caught:
        StressStrain(*figures)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == (field, code, limit)


def test_pull_and_stretch_out_of_bounds() -> None:
    yarn = StressStrain(10e6, 0.8e6, 0.13, 0.1e6)
    with pytest.raises(DomainError) as pushed:
        yarn.strain(-1.0)
    with pytest.raises(DomainError) as torn:
        yarn.stress(0.14)
    with pytest.raises(DomainError) as pressed:
        yarn.stress(-0.01)
    assert (pushed.value.problem.field, pushed.value.problem.code) == ("stress", "min")
    assert (torn.value.problem.code, torn.value.problem.limit) == ("max", 0.13)
    assert (pressed.value.problem.field, pressed.value.problem.code) == ("strain", "min")
