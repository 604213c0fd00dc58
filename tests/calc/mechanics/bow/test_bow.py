"""Bows against tables worked out independently (own elastica and hinge computations, printed digits)."""

from __future__ import annotations

from itertools import pairwise
from math import cos, dist, isclose, pi, sin

import numpy as np
import pytest
from scipy import integrate, optimize

from calc.data import fibre
from calc.errors import DomainError
from calc.mechanics.bow import (
    SHAPES,
    Bow,
    LimbShape,
    brace_height,
    brace_limit,
    brace_per_length,
    limb_outline,
    static_tension,
    string_length,
)
from calc.mechanics.fibre import elastic_stretch, strand_strength

pytestmark = pytest.mark.exact
IN = 0.0254

# nock to nock, brace: string by hinge, its slope, string by arc, its slope, by taper, its slope, by uniform, its slope
TABLE = [
    (46, 6.0, 43.351, -1.077, 43.344, -1.071, 43.107, -0.979, 43.565, -1.181),
    (48, 6.0, 45.495, -1.146, 45.490, -1.140, 45.267, -1.043, 45.696, -1.254),
    (48, 6.5, 45.037, -1.040, 45.029, -1.034, 44.763, -0.944, 45.278, -1.141),
    (48, 7.0, 44.533, -0.948, 44.521, -0.941, 44.207, -0.857, 44.819, -1.043),
    (54, 6.0, 51.846, -1.348, 51.842, -1.343, 51.653, -1.231, 52.015, -1.470),
    (60, 6.0, 58.108, -1.546, 58.105, -1.542, 57.941, -1.416, 58.255, -1.683),
    (60, 6.5, 57.770, -1.414, 57.766, -1.410, 57.571, -1.293, 57.944, -1.541),
    (60, 7.0, 57.401, -1.300, 57.396, -1.295, 57.167, -1.187, 57.606, -1.419),
    (66, 6.0, 64.312, -1.742, 64.310, -1.739, 64.165, -1.598, 64.442, -1.893),
    (66, 6.5, 64.012, -1.597, 64.010, -1.593, 63.837, -1.463, 64.166, -1.737),
    (66, 7.0, 63.686, -1.471, 63.682, -1.467, 63.481, -1.346, 63.866, -1.602),
    (68, 6.0, 66.370, -1.807, 66.369, -1.804, 66.228, -1.658, 66.496, -1.963),
    (72, 6.0, 70.476, -1.936, 70.475, -1.933, 70.344, -1.778, 70.593, -2.102),
]


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row[0]}-{row[1]}")
def test_string_length_and_slope_for_every_shape(row: tuple[float, ...]) -> None:
    nock, brace = row[0] * IN, row[1] * IN
    for k, shape in enumerate(("hinged", "arc", "tapered", "uniform")):
        bow = Bow(nock, 8 * IN, shape)  # type: ignore[arg-type]
        assert string_length(bow, brace) / IN == pytest.approx(row[2 + 2 * k], abs=0.005)
        assert brace_per_length(bow, brace) == pytest.approx(row[3 + 2 * k], abs=0.005)


# shape, nock to nock, brace, draw, then string tension / draw weight: braced, at full draw
TENSIONS: list[tuple[LimbShape, float, float, float, float, float]] = [
    ("tapered", 46, 6, 20, 1.275, 1.053),
    ("tapered", 48, 6, 20, 1.390, 1.110),
    ("tapered", 48, 6, 24, 0.977, 0.890),
    ("tapered", 54, 6, 24, 1.274, 1.024),
    ("tapered", 60, 6, 26, 1.359, 1.054),
    ("tapered", 60, 6, 28, 1.191, 0.969),
    ("tapered", 66, 6, 28, 1.429, 1.078),
    ("tapered", 66, 7, 28, 1.422, 1.088),
    ("tapered", 68, 6, 28, 1.505, 1.115),
    ("tapered", 72, 6, 28, 1.656, 1.187),
    ("uniform", 48, 6, 20, 1.574, 1.148),
    ("uniform", 60, 6, 28, 1.364, 1.002),
    ("uniform", 68, 6, 28, 1.688, 1.151),
    ("hinged", 72, 6, 28, 1.7554, 1.195),
]


@pytest.mark.parametrize("row", TENSIONS)
def test_string_tension_over_draw_weight(row: tuple[LimbShape, float, float, float, float, float]) -> None:
    shape, nock, brace, draw, braced, drawn = row
    found = static_tension(Bow(nock * IN, 8 * IN, shape), brace * IN, draw * IN, 1.0)
    assert found.brace_n == pytest.approx(braced, rel=0.005)
    assert found.draw_n == pytest.approx(drawn, rel=0.005)


@pytest.mark.parametrize("shape", SHAPES)
def test_brace_and_string_are_each_others_inverse(shape: LimbShape) -> None:
    rng = np.random.default_rng(11)
    for _ in range(60):
        bow = Bow(float(rng.uniform(1.0, 2.0)), float(rng.uniform(0.0, 0.3)), shape)
        brace = float(rng.uniform(0.02, 0.98)) * brace_limit(bow)
        assert brace_height(bow, string_length(bow, brace)) == pytest.approx(brace, rel=1e-7)
        k = 1.7
        big = Bow(k * bow.nock_to_nock_m, k * bow.handle_length_m, shape)
        assert string_length(big, k * brace) == pytest.approx(k * string_length(bow, brace), rel=1e-9)


def test_a_uniform_limb_against_scipys_own_integrator() -> None:
    for across in (0.1, 0.25, 0.45):

        def limb(load: float, across: float = across) -> np.ndarray:
            def rates(_: float, y: np.ndarray) -> list[float]:
                return [load * (across - y[2]), cos(y[0]), sin(y[0])]

            return np.asarray(integrate.solve_ivp(rates, (0, 1), [0, 0, 0], rtol=1e-11, atol=1e-12).y[:, -1])

        load = optimize.brentq(lambda p, limb=limb, across=across: limb(p)[2] - across, 2.0, 6.0, xtol=1e-12)
        bow = Bow(2.0, 0.0, "uniform")
        assert string_length(bow, across) / 2.0 == pytest.approx(limb(load)[1], rel=1e-6)


def test_low_brace_approaches_the_closed_laws() -> None:
    for shape in ("arc", "hinged"):
        bow = Bow(2.0, 0.0, shape)
        assert isclose(2.0 - string_length(bow, 0.01), 4 * 0.01**2 / 3, rel_tol=1e-3)
    uniform = Bow(2.0, 0.0, "uniform")
    assert isclose(2.0 - string_length(uniform, 0.01), pi**2 * 0.01**2 / 8, rel_tol=1e-3)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_drawn_limb_ends_where_the_string_does_and_keeps_its_length(shape: LimbShape) -> None:
    bow = Bow(1.6, 0.2, shape)
    points = limb_outline(bow, 0.17)
    along, across = points[-1]
    assert 2 * along == pytest.approx(string_length(bow, 0.17), rel=1e-6)
    assert across == pytest.approx(0.17, rel=1e-6)
    if shape != "hinged":
        run = sum(dist(one, two) for one, two in pairwise(points))
        assert run == pytest.approx(0.8, rel=2e-3)


@pytest.mark.parametrize(
    ("call", "field", "code"),
    [
        (lambda: string_length(Bow(1.2, 0.2, "arc"), 0.4), "brace_m", "max"),
        (lambda: string_length(Bow(1.2, 0.2, "arc"), float("nan")), "brace_m", "number"),
        (lambda: brace_height(Bow(1.2, 0.2, "arc"), 1.3), "string_m", "pair"),
        (lambda: brace_height(Bow(1.2, 0.2, "arc"), 0.5), "string_m", "min"),
        (lambda: Bow(1.2, 1.3, "arc"), "handle_length_m", "pair"),
        (lambda: static_tension(Bow(1.2, 0.2, "arc"), 0.15, 0.1, 100.0), "draw_m", "pair"),
        (lambda: static_tension(Bow(1.2, 0.2, "tapered"), 0.15, 1.1, 100.0), "draw_m", "pair"),
    ],
)
def test_what_a_bow_cannot_do_is_named(call: object, field: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        call()  # type: ignore[operator]
    assert (caught.value.problem.field, caught.value.problem.code) == (field, code)


def test_strength_and_stretch_by_hand() -> None:
    polyester = fibre("polyester")
    assert strand_strength(polyester, 111.1e-6).value == pytest.approx(111.1 * 0.80)
    assert elastic_stretch(polyester, 1e-3, 100.0).value == pytest.approx(100.0 / (1000 * 10.0))
