"""Shots: against chains of links in scipy over the whole domain, energy, steps, scaling, masses on the string."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.mechanics.bow import SHAPES, Bow, LimbShape, static_tension
from calc.mechanics.shot import AddedMass, ShotString, shot
from calc.mechanics.shot.full_draw import FullDrawState, full_draw_state
from calc.mechanics.shot.motion import rates_of
from calc.mechanics.shot.motion_four import rates_of_four
from calc.mechanics.shot.shooting import peak
from calc.mechanics.shot.trajectory import integrate_trajectory
from tests.calc.mechanics.shot.chain import Chain, every_case

if TYPE_CHECKING:
    from calc.mechanics.shot import Shot
    from tests.calc.mechanics.shot.chain import Case

pytestmark = pytest.mark.exact
ROOT = Path(__file__).resolve().parents[4]
law = settings(derandomize=True, deadline=None, max_examples=15)
TABLE = tomllib.loads(Path(__file__).with_name("shots.toml").read_text(encoding="utf-8"))["shots"]
CASES = every_case()
BOW, SHORT, STRING = Bow(1.7, 0.2, "tapered"), Bow(1.2, 0.2, "tapered"), ShotString(3e4, 0.007)


def of(case: Case, **more: float) -> Shot:
    return shot(
        Bow(case.nock_to_nock_m, case.handle_length_m, case.shape),
        case.brace_m,
        case.draw_m,
        case.force_n,
        arrow_kg=case.arrow_kg,
        string=ShotString(case.stiffness_n, case.string_kg),
        limb_mass_kg=case.limb_kg,
        **more,
    )


def usual(bow: Bow = BOW, string: ShotString = STRING, arrow_kg: float = 0.025, **more: float) -> Shot:
    return shot(bow, 0.16, 0.70, 180.0, arrow_kg=arrow_kg, string=string, limb_mass_kg=0.16, **more)


def full(bow: Bow = BOW, string: ShotString = STRING) -> FullDrawState:
    return full_draw_state(bow, 0.16, 0.70, 180.0, string=string, limb_mass_kg=0.16)


def test_no_public_name_is_a_modules_too() -> None:
    """One of both would hide the other, whichever was imported last."""
    for door in (ROOT / "calc").rglob("__init__.py"):
        names = set(getattr(import_module(".".join(door.parent.relative_to(ROOT).parts)), "__all__", ()))
        assert not names & {path.stem for path in door.parent.glob("*.py")}, door.parent.name


def test_there_are_two_hundred_cases() -> None:
    assert len(CASES) == len(TABLE) == 200


@pytest.mark.parametrize("part", range(8))
def test_speed_within_one_and_peaks_within_eight_per_cent_of_the_chains(part: int) -> None:
    """Worst of the 200: 0.5 % of speed, 7.8 % of a peak; half of all peaks are within 1 %."""
    for case, (speed_m_s, before_n, after_n) in zip(CASES[part::8], TABLE[part::8], strict=True):
        found = of(case)
        assert found.speed_m_s == pytest.approx(speed_m_s, rel=0.01), case
        assert found.peak_before_n == pytest.approx(before_n, rel=0.08), case
        assert found.peak_after_n == pytest.approx(after_n, rel=0.08), case
        assert found.peak_n == pytest.approx(max(before_n, after_n), rel=0.08), case


@pytest.mark.parametrize("at", [0, 31, 40, 63, 100, 155])
def test_the_chains_are_what_their_table_says(at: int) -> None:
    found = Chain(CASES[at]).loose()
    assert [found.speed_m_s, found.before_n, found.after_n] == pytest.approx(TABLE[at], rel=2e-3)
    assert found.energy_j == pytest.approx(of(CASES[at]).energy_j, rel=2e-3)
    assert found.brace_n == pytest.approx(of(CASES[at]).brace_n, rel=5e-3)
    assert found.draw_n == pytest.approx(of(CASES[at]).draw_n, rel=5e-3)


def test_chains_of_more_links_come_to_rest() -> None:
    speeds = [Chain(CASES[70], links).loose().speed_m_s for links in (6, 12, 24)]
    assert abs(speeds[2] - speeds[1]) < 0.5 * abs(speeds[1] - speeds[0])
    assert abs(speeds[2] / speeds[1] - 1.0) < 0.01


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("arrow_kg", [0.0, 0.025])
def test_energy_is_kept_to_a_millionth_over_20_milliseconds(shape: LimbShape, arrow_kg: float) -> None:
    ready = full(Bow(1.7, 0.2, shape))
    start = ready.model.energy_j(ready.state, arrow_kg)
    end = integrate_trajectory(ready, ready.state, arrow_kg, begin_s=0.0, time_s=0.020, leaves=False).end
    assert ready.model.energy_j(end, arrow_kg) == pytest.approx(start, rel=1e-6)


def test_the_drift_told_is_that_of_the_whole_shot() -> None:
    assert max(of(case).drift for case in CASES[::9]) < 2e-6
    assert 1e-8 < usual(within=1e-2).drift < 1e-3


@pytest.mark.parametrize("at", range(0, 200, 20))
def test_steps_of_half_the_size_change_next_to_nothing(at: int) -> None:
    """The error grows about as the eighth power of the step: 1/256 of the error allowed halves it."""
    coarse, fine = of(CASES[at]), of(CASES[at], within=1e-4 / 256.0)
    assert len(fine.moments) > 1.5 * len(coarse.moments)
    assert coarse.speed_m_s == pytest.approx(fine.speed_m_s, rel=1e-4)
    assert coarse.peak_n == pytest.approx(fine.peak_n, rel=2e-3)


@law
@given(st.floats(0.3, 3.0), st.floats(0.3, 3.0), st.floats(0.3, 3.0), st.sampled_from(SHAPES))
def test_shots_scale_with_length_mass_and_force(long: float, heavy: float, strong: float, shape: LimbShape) -> None:
    one = usual(Bow(1.7, 0.2, shape), replace(STRING, added=(AddedMass(0.002, 0.1, 0.3),)))
    other = shot(
        Bow(1.7 * long, 0.2 * long, shape),
        0.16 * long,
        0.70 * long,
        180.0 * strong,
        arrow_kg=0.025 * heavy,
        string=ShotString(3e4 * strong, 0.007 * heavy, (AddedMass(0.002 * heavy, 0.1 * long, 0.3 * long),)),
        limb_mass_kg=0.16 * heavy,
    )
    assert other.speed_m_s == pytest.approx(one.speed_m_s * (strong * long / heavy) ** 0.5, rel=1e-4)
    assert other.energy_j == pytest.approx(one.energy_j * strong * long, rel=1e-9)
    assert other.efficiency == pytest.approx(one.efficiency, rel=1e-4)
    assert other.peak_n == pytest.approx(one.peak_n * strong, rel=5e-3)
    assert other.leaves_s == pytest.approx(one.leaves_s * (heavy * long / strong) ** 0.5, rel=1e-4)


@law
@given(st.sampled_from(SHAPES), st.floats(0.010, 0.060), st.floats(15e3, 100e3), st.floats(0.004, 0.016))
def test_no_arrow_carries_more_than_was_stored(
    shape: LimbShape, arrow_kg: float, stiff: float, string_kg: float
) -> None:
    found = usual(Bow(1.7, 0.2, shape), ShotString(stiff, string_kg), arrow_kg)
    assert 0.2 < found.efficiency < 1.0
    assert found.efficiency * found.energy_j == pytest.approx(arrow_kg * found.speed_m_s**2 / 2.0, rel=1e-9)


@pytest.mark.parametrize("shape", ["arc", "tapered", "uniform"])
@pytest.mark.parametrize("taut", [True, False])
def test_rates_written_out_are_those_of_the_sums(shape: LimbShape, taut: bool) -> None:  # noqa: FBT001 - a case of two
    rng = np.random.default_rng(4)
    ready = full(Bow(1.7, 0.2, shape, string_follow_m=0.02), replace(STRING, added=(AddedMass(0.002, 0.0, 0.1),)))
    for _ in range(40):
        angles = np.asarray(ready.state[:5]) + rng.uniform(-0.2, 0.2, 5)
        state = [*angles.tolist(), *rng.uniform(-60.0, 60.0, 5).tolist()]
        for arrow_kg in (0.0, 0.02):
            plain, quick = (write(ready.model, arrow_kg, taut=taut)(state) for write in (rates_of, rates_of_four))
            assert quick == pytest.approx(plain, rel=1e-8, abs=1e-6)


def test_rates_are_those_that_keep_the_energy() -> None:
    """A second way to the accelerations: energy, differentiated along the motion they make, must not change."""
    ready = full()
    rates = rates_of(ready.model, 0.02, taut=True)
    rng = np.random.default_rng(6)
    for _ in range(20):
        state = np.asarray([*(np.asarray(ready.state[:5]) + rng.uniform(-0.1, 0.1, 5)), *rng.uniform(-40.0, 40.0, 5)])
        step = 1e-9 * np.asarray(rates(state.tolist()))
        if ready.model.string(state.tolist())[0] < 1e-4:
            continue
        ends = [ready.model.energy_j((state + side * step).tolist(), 0.02) for side in (-1.0, 1.0)]
        turned = sum(abs(a) for a in ready.state) * ends[0]
        assert ends[1] - ends[0] == pytest.approx(0.0, abs=1e-9 * turned)


def test_the_string_starts_and_the_arrow_leaves_where_they_should() -> None:
    found = usual()
    assert found.moments[0].time_s > 0.0
    times = [each.time_s for each in found.moments]
    assert times == sorted(times)
    leaving = next(each for each in found.moments if each.time_s == found.leaves_s)
    assert leaving.behind_m == pytest.approx(0.0, abs=1e-8)
    assert 1.4 * found.leaves_s <= times[-1] <= 2.5 * found.leaves_s
    assert all(each.tension_n >= 0.0 for each in found.moments)
    at_rest = static_tension(BOW, 0.16, 0.70, 180.0)
    assert found.draw_n == pytest.approx(at_rest.draw_n, rel=0.02)
    assert found.peak_before_n >= found.draw_n


@pytest.mark.parametrize("shape", SHAPES)
def test_a_shot_starts_at_rest_and_in_balance(shape: LimbShape) -> None:
    """Held by the fingers nothing moves: the limbs' first rates are nothing, and only the nock is pushed."""
    ready = full(Bow(1.7, 0.2, shape, string_follow_m=0.02))
    count = len(ready.model.reach_m)
    assert ready.state[count + 1 :] == [0.0] * (count + 1)
    assert ready.state[count] == 0.70
    held = replace(ready.model, at_nock_kg=1e12, shared_kg=0.0)
    rates = rates_of(held, 0.0, taut=True)(ready.state)
    assert rates == pytest.approx([0.0] * len(rates), abs=1e-4)


def test_energy_that_was_measured_takes_the_models_share() -> None:
    plain, given_ = usual(), usual(stored_j=2.0 * usual().energy_j)
    assert given_.speed_m_s == pytest.approx(2.0**0.5 * plain.speed_m_s, rel=1e-12)
    assert given_.efficiency == plain.efficiency
    assert given_.energy_j == 2.0 * plain.energy_j


def test_recurved_tips_take_the_energy_of_their_own_curve() -> None:
    recurve, straight = Bow(1.7, 0.2, "uniform", contact_m=0.06), Bow(1.58, 0.2, "uniform")
    assert usual(recurve).energy_j > usual(straight).energy_j
    shares = [usual(bow, within=1e-5).efficiency for bow in (recurve, straight)]
    assert shares[0] == pytest.approx(shares[1], rel=1e-9)


@pytest.mark.parametrize(
    ("call", "field", "code", "reason"),
    [
        (lambda: usual(arrow_kg=0.0), "arrow_kg", "min", ""),
        (lambda: usual(after_s=0.0), "after_s", "min", ""),
        (lambda: usual(stored_j=0.0), "stored_j", "min", ""),
        (lambda: usual(string=ShotString(0.0, 0.007)), "stiffness_n", "min", ""),
        (lambda: usual(string=ShotString(3e4, 0.0)), "string_mass_kg", "min", ""),
        (lambda: usual(string=ShotString(3e4, 0.007, (AddedMass(-1e-3, 0.0, 0.0),))), "added_kg", "min", ""),
        (lambda: usual(string=ShotString(3e4, 0.007, (AddedMass(1e-3, 0.2, 0.1),))), "added_far_m", "min", ""),
        (
            lambda: usual(string=ShotString(3e4, 0.007, (AddedMass(1e-3, 0.2, 0.9),))),
            "added_far_m",
            "pair",
            "added_far",
        ),
        (lambda: usual(Bow(1.7, 0.2, "tapered", string_follow_m=0.2)), "brace_m", "pair", "follow_high"),
        (
            lambda: full_draw_state(BOW, 0.16, 0.1, 180.0, string=STRING, limb_mass_kg=0.16),
            "draw_m",
            "pair",
            "draw_short",
        ),
        (
            lambda: full_draw_state(Bow(1.2, 0.2, "tapered"), 0.15, 1.1, 9.0, string=STRING, limb_mass_kg=0.1),
            "draw_m",
            "pair",
            "draw_long",
        ),
        (lambda: full_draw_state(BOW, 0.16, 0.7, 180.0, string=STRING, limb_mass_kg=0.0), "limb_mass_kg", "min", ""),
        (lambda: full_draw_state(BOW, 0.16, 0.7, 0.0, string=STRING, limb_mass_kg=0.16), "draw_force_n", "min", ""),
    ],
)
def test_what_cannot_be_loosed_is_named(call: object, field: str, code: str, reason: str) -> None:
    with pytest.raises(DomainError) as caught:
        call()  # type: ignore[operator]
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == (field, code, reason)
    if code == "min":
        assert problem.limit == (0.2 if field == "added_far_m" else 0.0)


@given(st.floats(-5.0, 5.0), st.floats(-3.0, -0.01), st.floats(-1.0, 1.0), st.floats(0.1, 2.0), st.floats(0.1, 2.0))
@settings(derandomize=True, deadline=None)
def test_the_top_of_a_parabola_is_found(high: float, bend: float, at: float, left: float, right: float) -> None:
    times = (-left, 0.0, right)
    values = [high + bend * (time - at) ** 2 for time in times]
    if values[1] >= max(values):
        assert peak(list(zip(times, values, strict=True))) == pytest.approx(high, abs=1e-9)
    else:
        assert peak(list(zip(times, values, strict=True))) == max(values)
