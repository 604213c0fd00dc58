"""Every figure of our own tables of shots (reference sheet, sections 3.3 to 3.5), at their own tolerances.

They were worked out apart from this package, with numpy and scipy: rigid limbs and chains of links by their equations
of motion.
"""

from __future__ import annotations

from math import sin
from typing import TYPE_CHECKING

import pytest
from scipy.interpolate import CubicSpline

from calc.mechanics.bow import Bow, static_tension, string_length
from calc.mechanics.bow.draw_force import limb_state_at
from calc.mechanics.shot import ShotString, dry_fire_peak, shot
from calc.mechanics.shot.full_draw import full_draw_state

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbState

pytestmark = pytest.mark.exact
LBF, GRAIN = 4.4482216152605, 64.79891e-6

# Worked examples A and B: rigid limbs on a hinge 0.3048 m from the middle, arm 0.6096 m.
HICKMAN = Bow(1.8288, 0.2032, "hinged")
FORCE_N = 152.297
# b, angle of the limb, R = arrow speed / tip speed, static force, arrow speed, tip speed, tension while moving
DYNAMIC = [
    (0.65, 0.5368, 2.1121, 134.45, 24.232, 11.473, 150.9),
    (0.55, 0.4616, 2.2555, 108.26, 37.774, 16.747, 154.5),
    (0.45, 0.3916, 2.4490, 84.59, 46.174, 18.854, 165.9),
    (0.35, 0.3285, 2.8016, 62.02, 52.206, 18.634, 200.1),
    (0.25, 0.2770, 3.8883, 37.69, 56.942, 14.645, 327.9),
    (0.20, 0.2595, 6.2346, 22.02, 58.922, 9.451, 524.9),
    (0.17, 0.2537, 14.199, 9.45, 59.769, 4.209, 759.5),
    (0.16, 0.2529, 30.909, 4.33, 59.916, 1.938, 868.5),
]


def test_statics_of_the_worked_example() -> None:
    found = static_tension(HICKMAN, 0.1524, 0.7112, FORCE_N)
    assert string_length(HICKMAN, 0.1524) / 2.0 == pytest.approx(0.89504, rel=1e-4)
    assert found.energy_j == pytest.approx(44.932, rel=1e-3)
    assert found.brace_n == pytest.approx(267.34, rel=1e-3)
    assert found.brace_n / FORCE_N == pytest.approx(1.7554, rel=1e-3)
    model = full_draw_state(HICKMAN, 0.1524, 0.7112, FORCE_N, string=ShotString(1e9, 1e-9), limb_mass_kg=0.1625)
    assert model.model.stiffness_nm[0][0] == pytest.approx(161.241, rel=1e-3)
    assert model.state[0] == pytest.approx(0.58525, rel=1e-3)
    assert model.model.inertia_kg_m2[0][0] / 0.6096**2 == pytest.approx(0.0216667 / 2.0, rel=1e-3)
    assert (2.0 * found.energy_j / 0.025) ** 0.5 == pytest.approx(59.955, rel=1e-3)


@pytest.mark.parametrize("row", DYNAMIC, ids=lambda row: str(row[0]))
def test_every_row_of_the_worked_example_by_hickmans_equation(row: tuple[float, ...]) -> None:
    """V^2 = 2 C (th_f^2 - th^2) / (M + m / R^2), with angles, forces and stiffness of ours put in."""
    at, angle, ratio, force, speed, tip, tension = row
    bend_nm = full_draw_state(
        HICKMAN, 0.1524, 0.7112, FORCE_N, string=ShotString(1e9, 1e-9), limb_mass_kg=0.1625
    ).model.stiffness_nm[0][0]
    step = 1e-5
    *near, last = limb_state_at(HICKMAN, 0.1524, (at - step, at, at + step, 0.7112))[1:]

    def moving(state: LimbState) -> tuple[float, float, float]:
        static = 2.0 * bend_nm * state.load / HICKMAN.limb_m * sin(state.pull_rad)
        lever = 2.0 * bend_nm * state.angles[0] / (static * 0.6096)
        kinetic = 2.0 * bend_nm * (last.angles[0] ** 2 - state.angles[0] ** 2)
        return static, lever, (kinetic / (0.025 + 0.0216667 / lever**2)) ** 0.5

    static, lever, speed_m_s = moving(near[1])
    assert near[1].angles[0] == pytest.approx(angle, abs=6e-5)
    assert static == pytest.approx(force, rel=1e-3)
    assert lever == pytest.approx(ratio, rel=1e-3)
    assert speed_m_s == pytest.approx(speed, rel=1e-3)
    assert speed_m_s / lever == pytest.approx(tip, rel=1e-3)
    push_n = 0.025 * (moving(near[0])[2] ** 2 - moving(near[2])[2] ** 2) / 2.0 / (2.0 * step)
    assert push_n / (2.0 * sin(near[1].pull_rad)) == pytest.approx(tension, rel=1e-3)


def test_speeds_of_the_worked_example_on_a_string_that_hardly_stretches() -> None:
    """A string 500 times as stiff as any and nearly without mass in place of one that has neither: 0.2 % in speed."""
    string = ShotString(2e7, 1e-6)
    found = shot(HICKMAN, 0.1524, 0.7112, FORCE_N, arrow_kg=0.025, string=string, limb_mass_kg=0.1625)
    seen = [each for each in found.moments if each.time_s <= found.leaves_s]
    at = CubicSpline([0.0, *(each.time_s for each in seen)], [0.7112, *(each.nock_m for each in seen)])
    for row in DYNAMIC[:5]:
        (moment,) = (root for root in at.solve(row[0], extrapolate=False))
        assert -float(at(moment, 1)) == pytest.approx(row[4], rel=2e-3)


# EA, whether string moves evenly between its ends, speed, efficiency, peak / draw weight before and after
ELASTIC = [
    (20e3, True, 54.42, 0.833, 2.23, 4.31),
    (20e3, False, 55.07, 0.853, 2.20, 4.11),
    (30e3, True, 55.32, 0.858, 2.41, 4.53),
    (80e3, True, 55.99, 0.875, 3.17, 5.85),
    (2e6, True, 57.24, 0.912, 5.74, 9.21),
]


@pytest.mark.parametrize("row", ELASTIC)
def test_an_elastic_string_on_rigid_limbs(row: tuple[float, bool, float, float, float, float]) -> None:
    stiff, even, speed, efficiency, before, after = row
    string = ShotString(stiff, 0.0068, even=even)
    found = shot(HICKMAN, 0.1524, 0.7112, FORCE_N, arrow_kg=0.025, string=string, limb_mass_kg=0.1625, after_s=0.006)
    assert found.speed_m_s == pytest.approx(speed, rel=0.005)
    assert found.efficiency == pytest.approx(efficiency, rel=0.01)
    assert found.peak_before_n / FORCE_N == pytest.approx(before, rel=0.03)
    assert found.peak_after_n / FORCE_N == pytest.approx(after, rel=0.03)
    assert found.peak_n == max(found.peak_before_n, found.peak_after_n)


@pytest.mark.parametrize(("stiff", "bend"), [(20e3, 160.64), (30e3, 160.83), (80e3, 161.08), (2e6, 161.23)])
def test_the_hinge_is_fitted_to_the_draw_weight_on_a_string_that_stretches(stiff: float, bend: float) -> None:
    ready = full_draw_state(HICKMAN, 0.1524, 0.7112, FORCE_N, string=ShotString(stiff, 0.0068), limb_mass_kg=0.1625)
    assert ready.model.stiffness_nm[0][0] == pytest.approx(bend, abs=0.0051)


def test_a_light_stiff_string_loses_next_to_nothing() -> None:
    string = ShotString(1e6, 0.0002, even=False)
    found = shot(HICKMAN, 0.1524, 0.7112, FORCE_N, arrow_kg=0.025, string=string, limb_mass_kg=0.1625)
    assert found.speed_m_s == pytest.approx(59.65, rel=0.005)
    assert found.efficiency == pytest.approx(0.990, rel=0.01)


# The same bow with limbs that bend, tapered; a third of its string's mass at either end, as the sheet's links had it
FLEXIBLE = Bow(1.8288, 0.2032, "tapered")


def test_a_static_coefficient_recalled_from_a_thesis() -> None:
    """0.407 is recalled from Kooi's straight-limbed bow; the sheet's own elastica gives 0.4074."""
    found = static_tension(FLEXIBLE, 0.1524, 0.7112, FORCE_N)
    assert found.energy_j / (FORCE_N * 0.7112) == pytest.approx(0.4074, rel=0.005)
    assert found.brace_n / FORCE_N == pytest.approx(1.656, rel=0.005)
    assert found.draw_n / FORCE_N == pytest.approx(1.187, rel=0.005)


@pytest.mark.parametrize(("stiff", "speed", "peak"), [(20e3, 53.2, 3.5), (30e3, 53.5, 3.5), (80e3, 53.8, 3.4)])
def test_a_chain_of_links_with_a_lumped_string(stiff: float, speed: float, peak: float) -> None:
    string = ShotString(stiff, 0.0068, even=False)
    found = shot(FLEXIBLE, 0.1524, 0.7112, FORCE_N, arrow_kg=0.025, string=string, limb_mass_kg=0.1625)
    assert found.speed_m_s == pytest.approx(speed, rel=0.02)
    assert found.peak_n / FORCE_N == pytest.approx(peak, rel=0.08)


# grains per pound, speed, efficiency, peak / draw weight: links, EA 20 kN
ARROWS = [
    (3, 74.9, 0.43, 4.6),
    (5, 67.1, 0.57, 4.6),
    (7, 61.5, 0.67, 4.4),
    (9, 57.2, 0.74, 3.9),
    (11.3, 53.2, 0.81, 3.5),
    (15, 48.1, 0.88, 3.2),
]


@pytest.mark.parametrize(("grains", "speed", "efficiency", "peak"), ARROWS)
def test_lighter_and_heavier_arrows(grains: float, speed: float, efficiency: float, peak: float) -> None:
    arrow_kg = grains * GRAIN * FORCE_N / LBF
    string = ShotString(20e3, 0.0068, even=False)
    found = shot(FLEXIBLE, 0.1524, 0.7112, FORCE_N, arrow_kg=arrow_kg, string=string, limb_mass_kg=0.1625)
    assert found.speed_m_s == pytest.approx(speed, rel=0.02)
    assert found.efficiency == pytest.approx(efficiency, rel=0.04)
    assert found.peak_n / FORCE_N == pytest.approx(peak, rel=0.08)


def test_a_dry_fire_pulls_hardest() -> None:
    peaks = [
        dry_fire_peak(FLEXIBLE, 0.1524, 0.7112, FORCE_N, string=ShotString(stiff, 0.0068), limb_mass_kg=0.1625)
        for stiff in (20e3, 80e3)
    ]
    assert peaks[0] / FORCE_N == pytest.approx(4.6, rel=0.08)
    assert peaks[1] > 6.2 * FORCE_N


def test_the_efficiency_recalled_from_a_thesis_is_not_met_at_the_recalled_limb_mass() -> None:
    """Kooi's 0.765 is recalled with limbs of 0.1625 kg each, where we find 0.81; 0.200 kg would give it.

    The heavier limb was found by looking for it, so this is a sensitivity and no agreement.
    """
    found = [
        shot(FLEXIBLE, 0.1524, 0.7112, FORCE_N, arrow_kg=0.025, string=ShotString(30e3, 0.0068), limb_mass_kg=limb_kg)
        for limb_kg in (0.1625, 0.1837, 0.200, 0.25, 0.30)
    ]
    expected = (0.813, 0.787, 0.765, 0.710, 0.664)
    assert [each.efficiency for each in found] == pytest.approx(expected, abs=0.015)
    assert found[0].efficiency - 0.765 > 0.03
