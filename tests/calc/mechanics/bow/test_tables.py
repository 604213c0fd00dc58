"""Every figure of our own tables of bows at rest (reference sheet, sections 2 and 3.1), at their own tolerances.

They were worked out apart from this package, with numpy and scipy: elastica by quadrature, rigid limbs on a hinge in
closed form.
"""

from __future__ import annotations

from math import degrees, radians, sin

import pytest

from calc.mechanics.bow import Bow, LimbShape, brace_after, brace_height, draw_curve, static_tension, string_length
from calc.mechanics.bow.limb_model import arc_bend

pytestmark = pytest.mark.exact
IN, LBF, GRAIN = 0.0254, 4.4482216152605, 64.79891e-6

# nock to nock, brace; arc: bow less string, slope at the tip in degrees; string of the arc with no handle
ARCS = [
    (46, 6.0, 2.656, 37.5, 43.842),
    (48, 6.0, 2.510, 35.5, 45.938),
    (48, 6.5, 2.971, 38.7, 45.566),
    (48, 7.0, 3.479, 41.9, 45.160),
    (54, 6.0, 2.158, 30.6, 52.179),
    (60, 6.0, 1.895, 26.9, 58.369),
    (60, 6.5, 2.234, 29.3, 58.079),
    (60, 7.0, 2.604, 31.6, 57.764),
    (66, 6.0, 1.690, 24.1, 64.522),
    (66, 6.5, 1.990, 26.1, 64.261),
    (66, 7.0, 2.318, 28.2, 63.977),
    (68, 6.0, 1.631, 23.2, 66.567),
    (72, 6.0, 1.525, 21.7, 70.649),
]


@pytest.mark.parametrize(("nock", "brace", "less", "slope_deg", "bare"), ARCS)
def test_arcs(nock: float, brace: float, less: float, slope_deg: float, bare: float) -> None:
    bow = Bow(nock, 8.0, "arc")
    assert nock - string_length(bow, brace) == pytest.approx(less, abs=0.005)
    assert degrees(arc_bend(brace / bow.limb_m)) == pytest.approx(slope_deg, abs=0.06)
    assert string_length(Bow(nock, 0.0, "arc"), brace) == pytest.approx(bare, abs=0.005)


AN_INCH_SHORTER = [(46, 6.97), (48, 7.03), (54, 7.20), (60, 7.36), (66, 7.52), (68, 7.57), (72, 7.68)]


@pytest.mark.parametrize(("nock", "brace"), AN_INCH_SHORTER)
def test_an_inch_off_the_string(nock: float, brace: float) -> None:
    bow = Bow(nock, 8.0, "arc")
    assert brace_after(bow, 6.0, -1.0) == pytest.approx(brace, abs=0.0051)
    assert brace_after(bow, brace_after(bow, 6.0, -1.0), -1.0) - brace < brace - 6.0


BY_RULE = [
    (46, 6.35, 7.27),
    (48, 6.53, 7.47),
    (54, 7.03, 8.05),
    (60, 7.49, 8.59),
    (66, 7.93, 9.10),
    (68, 8.07, 9.26),
    (72, 8.34, 9.58),
]


@pytest.mark.parametrize(("nock", "three", "four"), BY_RULE)
def test_strings_three_and_four_inches_short(nock: float, three: float, four: float) -> None:
    bow = Bow(nock, 8.0, "arc")
    assert brace_height(bow, nock - 3.0) == pytest.approx(three, abs=0.0051)
    assert brace_height(bow, nock - 4.0) == pytest.approx(four, abs=0.0051)


# shape, nock to nock, brace, draw, string, T0/F, T(D)/F, Tmin/F, angle in degrees, E/(F (D-H)), F'(brace) (D-H)/F
ELASTICA: list[tuple[LimbShape, float, float, float, float, float, float, float, float, float, float]] = [
    ("tapered", 46, 6, 20, 43.11, 1.275, 1.053, 0.962, 28.34, 0.505, 1.60),
    ("tapered", 48, 6, 20, 45.27, 1.390, 1.110, 1.035, 26.78, 0.514, 1.66),
    ("tapered", 48, 6, 24, 45.27, 0.977, 0.890, 0.727, 34.19, 0.468, 1.50),
    ("tapered", 54, 6, 24, 51.65, 1.274, 1.024, 0.916, 29.22, 0.499, 1.71),
    ("tapered", 60, 6, 26, 57.94, 1.359, 1.054, 0.950, 28.32, 0.503, 1.81),
    ("tapered", 60, 6, 28, 57.94, 1.191, 0.969, 0.833, 31.07, 0.486, 1.74),
    ("tapered", 66, 6, 28, 64.16, 1.429, 1.078, 0.977, 27.62, 0.505, 1.89),
    ("tapered", 66, 7, 28, 63.48, 1.422, 1.088, 1.001, 27.36, 0.511, 1.81),
    ("tapered", 68, 6, 28, 66.23, 1.505, 1.115, 1.023, 26.65, 0.510, 1.93),
    ("tapered", 72, 6, 28, 70.34, 1.656, 1.187, 1.111, 24.91, 0.519, 2.00),
    ("uniform", 48, 6, 20, 45.70, 1.574, 1.148, 1.102, 25.81, 0.531, 1.90),
    ("uniform", 60, 6, 28, 58.26, 1.364, 1.002, 0.901, 29.95, 0.505, 2.03),
    ("uniform", 68, 6, 28, 66.50, 1.688, 1.151, 1.085, 25.76, 0.524, 2.20),
]


@pytest.mark.parametrize("row", ELASTICA, ids=lambda row: "-".join(map(str, row[:4])))
def test_the_whole_row_of_a_drawn_elastica(
    row: tuple[LimbShape, float, float, float, float, float, float, float, float, float, float],
) -> None:
    shape, nock, brace, draw, string, at_brace, at_draw, least, angle, energy, slope = row
    bow = Bow(nock, 8.0, shape)
    found = static_tension(bow, brace, draw, 1.0)
    assert string_length(bow, brace) == pytest.approx(string, abs=0.0051)
    assert found.brace_n == pytest.approx(at_brace, rel=0.005)
    assert found.draw_n == pytest.approx(at_draw, rel=0.005)
    assert found.least_n == pytest.approx(least, rel=0.005)
    assert degrees(found.angle_rad) == pytest.approx(angle, rel=0.005)
    assert found.energy_j / (draw - brace) == pytest.approx(energy, rel=0.005)
    assert _first_slope(bow, brace, draw) * (draw - brace) == pytest.approx(slope, rel=0.005)


def _first_slope(bow: Bow, brace: float, draw: float, step: float = 1e-3) -> float:
    """Return dF/dx at brace for a draw weight of 1, by limbs that hold the braced string alike at both draws."""
    near, far = (draw_curve(bow, brace, to, 1.0, steps=4).points[0].tension_n for to in (brace + step, draw))
    return far / near / step


def test_force_and_tension_along_the_draw_of_a_72_inch_bow() -> None:
    points = draw_curve(Bow(72, 8, "tapered"), 6, 28, 1.0, steps=7).points
    assert [point.draw_m for point in points] == pytest.approx(
        [6, 9.14, 12.29, 15.43, 18.57, 21.71, 24.86, 28], abs=0.006
    )
    forces = [0, 0.2040, 0.3380, 0.4567, 0.5760, 0.7028, 0.8424, 1]
    tensions = [1.6556, 1.3229, 1.1852, 1.1282, 1.1113, 1.1188, 1.1446, 1.1870]
    assert [point.force_n for point in points] == pytest.approx(forces, rel=0.002, abs=1e-9)
    assert [point.tension_n for point in points] == pytest.approx(tensions, rel=0.002)


@pytest.mark.parametrize(
    ("shape", "limit", "secant"), [("hinged", 1.0, 1.033), ("uniform", 1.012, 1.047), ("tapered", 1.035, 1.064)]
)
def test_tension_at_brace_from_the_first_slope_of_the_draw(shape: LimbShape, limit: float, secant: float) -> None:
    bow = Bow(68, 8, shape)
    quarter = string_length(bow, 6) / 4.0
    braced = static_tension(bow, 6, 28, 1.0).brace_n
    assert braced / (quarter * _first_slope(bow, 6, 28, 2e-3)) == pytest.approx(limit, abs=0.0011)
    assert braced / (quarter * _first_slope(bow, 6, 28, 0.2)) == pytest.approx(secant, abs=0.0011)


def test_force_is_twice_the_tension_by_the_sine_of_the_angle() -> None:
    assert 1.0 / (2.0 * sin(radians(26.65))) == pytest.approx(1.115, abs=0.0005)
    found = static_tension(Bow(68, 8, "tapered"), 6, 28, 1.0)
    assert found.draw_n == pytest.approx(1.0 / (2.0 * sin(found.angle_rad)), rel=1e-12)


SET = [
    (0.0, 89.8, 61.4, 62.9, 59.0),
    (1.0, 80.7, 61.0, 62.9, 56.8),
    (1.5, 75.7, 60.8, 62.9, 55.2),
    (2.0, 70.2, 60.6, 62.9, 53.2),
    (2.5, 64.2, 60.3, 62.8, 50.6),
    (3.0, 57.6, 60.1, 62.8, 47.2),
]


@pytest.mark.parametrize(("follow", "at_brace", "at_26", "at_28", "least"), SET)
def test_a_bow_that_follows_the_string(
    follow: float, at_brace: float, at_26: float, at_28: float, least: float
) -> None:
    bow = Bow(68, 8, "hinged", string_follow_m=follow)
    points = draw_curve(bow, 6, 28, 56.0, steps=44).points
    assert points[0].tension_n == pytest.approx(at_brace, rel=0.005)
    assert points[40].tension_n == pytest.approx(at_26, rel=0.005)
    assert points[-1].tension_n == pytest.approx(at_28, rel=0.005)
    assert static_tension(bow, 6, 28, 56.0).least_n == pytest.approx(least, rel=0.005)
    bare = static_tension(Bow(68, 8, "hinged"), 6, 28, 56.0).brace_n
    assert points[0].tension_n / bare == pytest.approx(1.0 - 0.7 * follow / 6.0, rel=0.025)
