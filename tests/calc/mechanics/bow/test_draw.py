"""Draw force: elastica drawn by scipy, energy as the area under the force, recurves by virtual work, scaling."""

from __future__ import annotations

from math import atan, cos, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.optimize import root

from calc.errors import DomainError
from calc.mechanics.bow import SHAPES, Bow, LimbShape, draw_curve, static_tension, string_length
from calc.numerics import NoRootError, find_roots
from calc.numerics.linear import solve_linear

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=60)


def bows(seed: int, count: int) -> list[tuple[Bow, float, float]]:
    rng = np.random.default_rng(seed)
    made = []
    for k in range(count):
        nock_m = float(rng.uniform(1.15, 1.85))
        bow = Bow(nock_m, float(rng.uniform(0.0, 0.25)), "tapered" if k % 2 else "uniform")
        made.append((bow, float(rng.uniform(0.13, 0.19)), nock_m * float(rng.uniform(0.35, 0.44))))
    return made


def drawn(bow: Bow, brace_m: float, draw_m: float) -> tuple[float, float]:
    """Return tension / draw force and force x limb^2 / stiffness at full draw, by shooting at tip and string."""
    unit = bow.limb_m
    half, handle, draw = string_length(bow, brace_m) / 2.0 / unit, bow.handle_length_m / 2.0 / unit, draw_m / unit

    def tip(load: float, angle: float) -> tuple[float, float]:
        along, across = half * cos(angle) - handle, draw - half * sin(angle)

        def rates(s: float, y: np.ndarray) -> list[float]:
            stiff = 1.0 - s if bow.shape == "tapered" else 1.0
            moment = load * (cos(angle) * (across - y[2]) + sin(angle) * (along - y[1]))
            return [moment / stiff, cos(y[0]), sin(y[0])]

        found = solve_ivp(rates, (0.0, 1.0 - 1e-7), [0.0, 0.0, 0.0], rtol=1e-8, atol=1e-10, method="LSODA").y[:, -1]
        return float(found[1] - along), float(found[2] - across)

    def misses(at: np.ndarray) -> list[float]:
        return list(tip(float(at[0]), float(at[1])))

    found = root(misses, [2.2 if bow.shape == "uniform" else 1.3, 0.5], tol=1e-9)
    assert found.success
    load, angle = found.x
    return 1.0 / (2.0 * sin(angle)), 2.0 * load * sin(angle)


@pytest.mark.parametrize("seed", range(10))
def test_five_bows_a_seed_drawn_as_an_elastica(seed: int) -> None:
    for bow, brace_m, draw_m in bows(seed, 5):
        share, force = drawn(bow, brace_m, draw_m)
        found = static_tension(bow, brace_m, draw_m, 100.0)
        assert found.draw_n / 100.0 == pytest.approx(share, rel=1e-3)
        braced = static_tension(bow, brace_m, (brace_m + draw_m) / 2.0, 100.0).brace_n
        half_way = drawn(bow, brace_m, (brace_m + draw_m) / 2.0)[1]
        assert found.brace_n / braced == pytest.approx(half_way / force, rel=2e-3)


@pytest.mark.parametrize("seed", range(20))
def test_ten_bows_a_seed_store_the_area_under_their_force(seed: int) -> None:
    """200 bows, every other one recurved or with set: what the limbs gain is what the fingers did."""
    rng = np.random.default_rng(100 + seed)
    for k, (plain, brace_m, draw_m) in enumerate(bows(seed, 10)):
        contact_m, follow_m = (0.04, 0.02) if k % 2 else (0.0, float(rng.uniform(-0.02, 0.04)))
        shape: LimbShape = SHAPES[k % 4]
        bow = Bow(plain.nock_to_nock_m, plain.handle_length_m, shape, 0.01, follow_m, contact_m)
        curve = draw_curve(bow, brace_m, draw_m, 100.0, steps=24)
        at, weights = np.polynomial.legendre.leggauss(7)
        areas = 0.0
        for place, weight in zip((at + 1.0) / 2.0, weights / 2.0, strict=True):
            to_m = brace_m + float(place) * (draw_m - brace_m)
            braced = draw_curve(bow, brace_m, to_m, 100.0, steps=6).points[0].tension_n
            areas += weight * 100.0 * curve.points[0].tension_n / braced
        assert curve.energy_j == pytest.approx(areas * (draw_m - brace_m), rel=2e-4)


def test_the_area_by_scipys_own_quadrature() -> None:
    bow = Bow(1.7, 0.2, "tapered", contact_m=0.05)
    whole = draw_curve(bow, 0.16, 0.7, 200.0, steps=8)

    def force(to_m: float) -> float:
        if to_m <= 0.16:
            return 0.0
        return 200.0 * whole.points[0].tension_n / draw_curve(bow, 0.16, to_m, 200.0, steps=6).points[0].tension_n

    assert whole.energy_j == pytest.approx(quad(force, 0.16, 0.7, epsrel=1e-8)[0], rel=1e-6)


@law
@given(st.sampled_from(SHAPES), st.floats(0.2, 4.0), st.floats(0.1, 10.0))
def test_curves_scale_with_length_and_force(shape: LimbShape, long: float, strong: float) -> None:
    one = static_tension(Bow(1.7, 0.2, shape, 0.01, 0.02, 0.03), 0.16, 0.7, 200.0)
    bow = Bow(1.7 * long, 0.2 * long, shape, 0.01 * long, 0.02 * long, 0.03 * long)
    other = static_tension(bow, 0.16 * long, 0.7 * long, 200.0 * strong)
    assert other.brace_n == pytest.approx(strong * one.brace_n, rel=1e-9)
    assert other.draw_n == pytest.approx(strong * one.draw_n, rel=1e-9)
    assert other.least_n == pytest.approx(strong * one.least_n, rel=1e-9)
    assert other.least_at_m == pytest.approx(long * one.least_at_m, rel=1e-9)
    assert other.energy_j == pytest.approx(strong * long * one.energy_j, rel=1e-9)


@pytest.mark.parametrize("shape", SHAPES)
def test_more_steps_come_to_the_same_place(shape: LimbShape) -> None:
    bow = Bow(1.7, 0.2, shape, contact_m=0.04)
    few, many = (draw_curve(bow, 0.16, 0.7, 200.0, steps=steps) for steps in (6, 48))
    assert few.energy_j == pytest.approx(many.energy_j, rel=1e-9)
    assert few.points[3].tension_n == pytest.approx(many.points[24].tension_n, rel=1e-9)
    assert [many.points[0].draw_m, many.points[-1].draw_m] == [0.16, 0.7]
    assert many.points[0].force_n == pytest.approx(0.0, abs=1e-9)
    assert many.points[-1].force_n == pytest.approx(200.0, rel=1e-12)
    least = min(many.points, key=lambda point: point.tension_n)
    rest = static_tension(bow, 0.16, 0.7, 200.0)
    assert rest.least_n == pytest.approx(least.tension_n, rel=2e-3)
    assert rest.least_at_m == pytest.approx(least.draw_m, abs=0.02)


def test_a_contact_of_nothing_is_a_straight_bow_and_a_longer_one_a_stronger_start() -> None:
    plain = static_tension(Bow(1.7, 0.2, "arc"), 0.16, 0.7, 200.0)
    nothing = static_tension(Bow(1.7, 0.2, "arc", contact_m=1e-9), 0.16, 0.7, 200.0)
    assert nothing.brace_n == pytest.approx(plain.brace_n, rel=1e-6)
    energies = [
        static_tension(Bow(1.7, 0.2, "arc", contact_m=each), 0.16, 0.7, 200.0).energy_j for each in (0.03, 0.06)
    ]
    assert plain.energy_j < energies[0] < energies[1]


@pytest.mark.parametrize(
    ("draw_m", "force", "steps", "field", "code"),
    [(0.7, 0.0, 8, "draw_force_n", "min"), (0.0, 1.0, 8, "draw_m", "min"), (0.7, 1.0, 0, "steps", "min")],
)
def test_what_cannot_be_drawn_is_named(draw_m: float, force: float, steps: int, field: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        draw_curve(Bow(1.7, 0.2, "arc"), 0.16, draw_m, force, steps=steps)
    assert (caught.value.problem.field, caught.value.problem.code) == (field, code)
    assert caught.value.problem.limit == (1.0 if field == "steps" else 0.0)


@pytest.mark.parametrize("shape", SHAPES)
def test_draws_go_up_to_a_limit_and_not_beyond(shape: LimbShape) -> None:
    """Force rises all the way to the longest draw there is an answer for; every longer one is refused."""
    bow = Bow(1.2, 0.2, shape)
    reached: list[tuple[float, float]] = []
    refused: list[tuple[float, str]] = []
    for draw_m in np.arange(0.3, 1.3, 0.02).tolist():
        try:
            braced = draw_curve(bow, 0.15, draw_m, 1.0, steps=12).points[0].tension_n
        except DomainError as error:
            refused.append((draw_m, error.problem.reason))
        else:
            reached.append((draw_m, 1.0 / braced))
    assert reached
    assert {reason for _, reason in refused} == {"draw_long"}
    assert max(reached)[0] < min(refused)[0]
    forces = [force for _, force in reached]
    assert forces == sorted(forces)


@law
@given(st.integers(1, 6), st.integers(0, 10_000))
def test_elimination_solves_what_numpy_solves(count: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    rows, right = rng.normal(size=(count, count)), rng.normal(size=count)
    expected = np.linalg.solve(rows, right)
    assert solve_linear(rows.tolist(), right.tolist()) == pytest.approx(expected.tolist(), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("draw_m", [0.16, 0.1])
def test_a_draw_no_longer_than_the_brace_is_none(draw_m: float) -> None:
    with pytest.raises(DomainError) as caught:
        static_tension(Bow(1.7, 0.2, "arc"), 0.16, draw_m, 200.0)
    assert (caught.value.problem.field, caught.value.problem.reason) == ("draw_m", "draw_short")


def test_newton_says_when_it_does_not_close() -> None:
    with pytest.raises(NoRootError):
        find_roots(lambda x: ([x[0] ** 2 + 1.0], [[2.0 * x[0]]]), [3.0])
    with pytest.raises(NoRootError):
        find_roots(lambda _: ([1.0], [[0.0]]), [3.0])


def test_elimination_takes_the_largest_pivot_wherever_it_stands() -> None:
    rows = [[0.0, 2.0, 1.0], [4.0, 0.0, 1.0], [0.0, 1.0, 5.0]]
    assert solve_linear([list(row) for row in rows], [7.0, 7.0, 17.0]) == pytest.approx([1.0, 2.0, 3.0], rel=1e-12)
    tiny = [[1e-20, 1.0], [1.0, 1.0]]
    assert solve_linear(tiny, [1.0, 2.0]) == pytest.approx([1.0, 1.0], rel=1e-12)
    assert solve_linear([[1.0, 1.0], [-4.0, 1e-20]], [2.0, -4.0]) == pytest.approx([1.0, 1.0], rel=1e-12)


def test_newton_comes_home_where_whole_steps_would_run_away() -> None:
    """From 3 a whole step on the arc tangent goes to -9.5, the next one to 124."""
    found = find_roots(lambda x: ([atan(x[0])], [[1.0 / (1.0 + x[0] ** 2)]]), [3.0])
    assert found == pytest.approx([0.0], abs=1e-12)
