"""The course of a shot against scipy's integrator, moment by moment, with the string slack and taut in turn."""

from __future__ import annotations

from dataclasses import replace
from math import sin, sqrt
from typing import TYPE_CHECKING, Any

import pytest
from scipy.integrate import quad, solve_ivp

from calc.mechanics.bow import (
    Bow,
    LimbShape,
    StringHold,
    braced,
    draw_curve,
    drawn,
    limb,
    rest_angles,
    static_tension,
    string_length,
)
from calc.mechanics.shot import AddedMass, ShotString, shot
from calc.mechanics.shot.full_draw import FullDrawState, full_draw_state
from calc.mechanics.shot.motion import rates_of
from calc.mechanics.shot.shooting import peak
from calc.mechanics.shot.trajectory import integrate_trajectory

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

pytestmark = pytest.mark.exact
STRING = ShotString(3e4, 0.007, (AddedMass(0.001, 0.0, 0.1),))


def full(shape: LimbShape, string: ShotString = STRING) -> FullDrawState:
    bow = Bow(1.7, 0.2, shape, handle_proud_m=0.01, string_follow_m=0.015)
    return full_draw_state(bow, 0.16, 0.70, 180.0, string=string, limb_mass_kg=0.16)


def by_scipy(ready: FullDrawState, state: list[float], arrow_kg: float, time_s: float) -> Any:  # noqa: ANN401 - scipy's own
    """Follow the motion, the string pulling only while it is stretched."""
    taut, slack = (rates_of(ready.model, arrow_kg, taut=each) for each in (True, False))

    def rates(_: float, at: NDArray[np.float64]) -> list[float]:
        here = at.tolist()
        return (taut if ready.model.string(here)[0] > 0.0 else slack)(here)

    return solve_ivp(
        rates, (0.0, time_s), state, method="DOP853", rtol=1e-9, atol=1e-10, max_step=1e-4, dense_output=True
    )


@pytest.mark.parametrize("shape", ["hinged", "tapered"])
@pytest.mark.parametrize("arrow_kg", [0.0, 0.025])
def test_every_glimpse_is_what_scipys_integrator_sees(shape: LimbShape, arrow_kg: float) -> None:
    ready, count = full(shape), 1 if shape == "hinged" else 4
    found = integrate_trajectory(ready, ready.state, arrow_kg, begin_s=0.5, time_s=0.022, leaves=False, within=1e-6)
    exact = by_scipy(ready, ready.state, arrow_kg, 0.022)
    times = [each.time_s for each in found.moments]
    assert times == sorted(times)
    assert times[-1] == pytest.approx(0.522, rel=1e-12)
    scale = max(each.tension_n for each in found.moments)
    slack = 0
    for each in found.moments:
        at = exact.sol(each.time_s - 0.5).tolist()
        stretch_m, behind_m = ready.model.string(at)
        assert each.nock_m == pytest.approx(at[count], abs=1e-5)
        assert each.behind_m == pytest.approx(behind_m, abs=1e-5)
        assert each.tension_n == pytest.approx(ready.model.spring_n_m * max(0.0, stretch_m), abs=1e-3 * scale)
        slack += each.tension_n == 0.0
    assert (slack > 4) == (arrow_kg == 0.0)
    assert found.end == pytest.approx(exact.y[:, -1].tolist(), rel=1e-4, abs=1e-2)


def test_the_arrow_leaves_when_scipy_sees_the_string_straight() -> None:
    ready = full("tapered")
    found = integrate_trajectory(ready, ready.state, 0.025, begin_s=0.0, time_s=0.2, leaves=True, within=1e-6)
    exact = by_scipy(ready, ready.state, 0.025, found.moments[-1].time_s)
    assert ready.model.string(exact.y[:, -1].tolist())[1] == pytest.approx(0.0, abs=1e-6)
    assert -found.end[-1] == pytest.approx(-exact.y[-1, -1], rel=1e-6)
    assert all(each.behind_m > 0.0 for each in found.moments[:-4])
    short = integrate_trajectory(ready, ready.state, 0.025, begin_s=0.0, time_s=0.003, leaves=True)
    assert short.moments[-1].time_s == pytest.approx(0.003, rel=1e-12)


def test_a_course_may_begin_with_a_slack_string() -> None:
    ready = full("tapered")
    state = [*ready.state[:4], ready.state[4] - 0.1, *(0.0 for _ in range(5))]
    assert ready.model.string(state)[0] < 0.0
    found = integrate_trajectory(ready, state, 0.025, begin_s=0.0, time_s=0.004, leaves=False, within=1e-6)
    exact = by_scipy(ready, state, 0.025, 0.004)
    assert found.moments[0].tension_n == 0.0
    assert found.end == pytest.approx(exact.y[:, -1].tolist(), rel=1e-4, abs=1e-2)


@pytest.mark.pinned
@pytest.mark.parametrize(
    ("shape", "arrow_kg", "count"), [("tapered", 0.025, 120), ("tapered", 0.0, 152), ("hinged", 0.025, 64)]
)
def test_as_many_steps_as_ever(shape: LimbShape, arrow_kg: float, count: int) -> None:
    """How close the steps are is a choice between time and error; whoever makes another one should know it."""
    ready = full(shape)
    found = integrate_trajectory(ready, ready.state, arrow_kg, begin_s=0.0, time_s=0.010, leaves=False)
    assert len(found.moments) == count


def test_the_steps_are_alike_for_a_bow_twice_as_long_heavy_or_strong() -> None:
    def steps(long: float, heavy: float, strong: float) -> int:
        bow = Bow(1.7 * long, 0.2 * long, "tapered")
        string = ShotString(3e4 * strong, 0.007 * heavy)
        ready = full_draw_state(bow, 0.16 * long, 0.7 * long, 180.0 * strong, string=string, limb_mass_kg=0.16 * heavy)
        time_s = 0.010 * sqrt(heavy * long / strong)
        return len(
            integrate_trajectory(ready, ready.state, 0.025 * heavy, begin_s=0.0, time_s=time_s, leaves=False).moments
        )

    assert {steps(2.0, 1.0, 1.0), steps(1.0, 2.0, 1.0), steps(1.0, 1.0, 2.0), steps(0.5, 3.0, 1.0)} == {
        steps(1.0, 1.0, 1.0)
    }


@pytest.mark.parametrize("shape", ["hinged", "arc", "uniform"])
@pytest.mark.parametrize("stiffness_n", [8e3, 3e4, 1e9])
def test_the_drawn_bow_and_its_string_are_in_balance(shape: LimbShape, stiffness_n: float) -> None:
    """Force, couples, length and stretch, each put together again from the state that was found."""
    bow = Bow(1.7, 0.2, shape, handle_proud_m=0.01, string_follow_m=0.02)
    ready = full_draw_state(bow, 0.16, 0.70, 180.0, string=ShotString(stiffness_n, 0.007), limb_mass_kg=0.16)
    model, count = ready.model, len(ready.model.reach_m)
    stretch_m, behind_m = model.string(ready.state)
    length_m = model.slack_m + stretch_m
    assert ready.state[count] == pytest.approx(0.71)
    assert ready.state[count + 1 :] == [0.0] * (count + 1)
    assert model.spring_n_m * stretch_m == pytest.approx(ready.draw_n, rel=1e-5)
    assert 2.0 * ready.draw_n * behind_m / length_m == pytest.approx(180.0, rel=1e-9)
    assert model.spring_n_m * model.slack_m == pytest.approx(stiffness_n, rel=1e-12)
    assert model.slack_m * (1.0 + ready.brace_n / stiffness_n) == pytest.approx(
        string_length(bow, 0.16) / 2.0, rel=1e-4
    )
    assert rates_of(model, 1e12, taut=True)(ready.state)[count + 1 : -1] == pytest.approx([0.0] * count, abs=1.0)
    at_rest = braced(limb(bow.shape, 4), rest_angles(bow), 0.17 / 0.75)
    state = [*at_rest.angles, 0.17, *(0.0 for _ in range(count + 1))]
    assert model.spring_n_m * model.string(state)[0] == pytest.approx(ready.brace_n, rel=1e-6)
    gained_j = model.energy_j(ready.state, 0.0) - model.energy_j(state, 0.0)
    assert ready.energy_j == pytest.approx(gained_j, rel=1e-6)
    assert model.rest == rest_angles(bow)
    if stiffness_n == 1e9:
        stiff = static_tension(bow, 0.16, 0.70, 180.0)
        assert (ready.brace_n, ready.draw_n) == pytest.approx((stiff.brace_n, stiff.draw_n), rel=1e-4)
        assert ready.energy_j == pytest.approx(stiff.energy_j, rel=1e-4)


def test_a_string_without_evenly_moving_mass_has_a_third_at_either_end() -> None:
    even, lumped = (full("tapered", replace(STRING, even=each)).model for each in (True, False))
    for model in (even, lumped):
        near, far = 0.0, 0.1 / model.slack_m
        first, second = (quad(lambda s, power=power: s**power, near, far)[0] / far for power in (1, 2))
        assert model.at_tip_kg == pytest.approx(0.007 / 6.0 + 0.0005 * second, rel=1e-9)
        assert model.at_nock_kg == pytest.approx(0.007 / 6.0 + 0.0005 * (1.0 - 2.0 * first + second), rel=1e-9)
        assert model.shared_kg - (model is even) * 0.007 / 12.0 == pytest.approx(0.0005 * (first - second), rel=1e-9)


def test_a_string_that_hardly_holds_is_still_drawn() -> None:
    """A soft string stretches a good part of its length: drawn and braced limbs fit it at both ends."""
    bow = Bow(1.7, 0.2, "tapered")
    ready = full_draw_state(bow, 0.16, 0.70, 180.0, string=ShotString(1500.0, 0.007), limb_mass_kg=0.16)
    start = braced(limb("tapered", 4), rest_angles(bow), 0.16 / 0.75)
    half = 0.1 / 0.75
    longer = (1.0 + ready.draw_n / 1500.0) / (1.0 + ready.brace_n / 1500.0)
    end = drawn(
        StringHold(limb("tapered", 4), rest_angles(bow), half, longer * (half + start.along)),
        0.70 / 0.75,
        replace(start, angles=tuple(ready.state[:4]), load=start.load * ready.draw_n / ready.brace_n),
    )
    assert end.angles == pytest.approx(tuple(ready.state[:4]), abs=1e-9)
    assert 2.0 * ready.draw_n * sin(end.pull_rad) == pytest.approx(180.0, rel=1e-9)
    assert ready.draw_n / ready.brace_n == pytest.approx(end.load / start.load, rel=1e-9)


def test_a_shot_puts_its_figures_together() -> None:
    bow = Bow(1.7, 0.2, "tapered")
    ready = full_draw_state(bow, 0.16, 0.70, 180.0, string=STRING, limb_mass_kg=0.16)
    found = shot(bow, 0.16, 0.70, 180.0, arrow_kg=0.025, string=STRING, limb_mass_kg=0.16, after_s=0.004)
    before = integrate_trajectory(ready, ready.state, 0.025, begin_s=0.0, time_s=0.2, leaves=True)
    after = integrate_trajectory(ready, before.end, 0.0, begin_s=found.leaves_s, time_s=0.004, leaves=False)
    assert found.moments == before.moments + after.moments
    assert found.leaves_s == before.moments[-1].time_s
    assert (found.brace_n, found.draw_n, found.energy_j) == (ready.brace_n, ready.draw_n, ready.energy_j)
    assert found.speed_m_s == -before.end[-1]
    assert found.efficiency == pytest.approx(0.025 * found.speed_m_s**2 / 2.0 / ready.energy_j, rel=1e-12)
    assert found.peak_before_n == peak([(0.0, ready.draw_n), *((g.time_s, g.tension_n) for g in before.moments)])
    assert found.peak_after_n == peak([(g.time_s, g.tension_n) for g in after.moments])
    assert found.peak_n == max(found.peak_before_n, found.peak_after_n)
    whole = ready.model.energy_j(ready.state, 0.025)
    drifts = [
        ready.model.energy_j(before.end, 0.025) - whole,
        ready.model.energy_j(after.end, 0.0) - ready.model.energy_j(before.end, 0.0),
    ]
    assert found.drift == pytest.approx(max(map(abs, drifts)) / whole, rel=1e-9)


def test_a_recurve_has_the_energy_of_its_own_curve_unless_it_was_measured() -> None:
    bow = Bow(1.7, 0.2, "uniform", contact_m=0.06)
    curve_j = draw_curve(bow, 0.16, 0.70, 180.0).energy_j
    found, told = (
        shot(bow, 0.16, 0.70, 180.0, arrow_kg=0.025, string=STRING, limb_mass_kg=0.16, stored_j=stored_j)
        for stored_j in (None, 20.0)
    )
    assert found.energy_j == pytest.approx(curve_j, rel=1e-9)
    assert told.energy_j == 20.0
    assert told.efficiency == found.efficiency
    for one in (found, told):
        assert one.speed_m_s == pytest.approx(sqrt(2.0 * one.efficiency * one.energy_j / 0.025), rel=1e-12)


@pytest.mark.parametrize("bend", [-2.0, -0.5])
@pytest.mark.parametrize("top", [0.9, 1.3])
def test_a_peak_between_uneven_times_is_the_parabolas(bend: float, top: float) -> None:
    times = [-0.4, 0.2, 1.0, 2.2, 2.7]
    points = [(time, 7.0 + bend * (time - top) ** 2) for time in times]
    assert peak(points) == pytest.approx(7.0, rel=1e-12)
    assert peak(points[:3]) == max(value for _, value in points[:3])
    assert peak(points[2:]) == max(value for _, value in points[2:])
