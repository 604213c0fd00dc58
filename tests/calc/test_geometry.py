"""Lays, loops and bundles against scipy, closed forms and laws."""

from __future__ import annotations

from math import cos, degrees, isclose, pi, radians, sin, sqrt, tan

import fluids.piping
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize
from scipy.spatial import ConvexHull

from calc.data import packing_ratios, pipe_diameters
from calc.errors import DomainError
from calc.geometry import (
    FlatTip,
    RoundTip,
    balanced_twist,
    bundle_diameter,
    envelope_ratio,
    flattened,
    jam,
    jam_turns,
    lay,
    lay_of_cord_turns,
    lay_of_turns,
    loop_nocked,
    loop_of_length,
    loop_of_throat,
    loop_sliding,
    perimeter,
    pipe,
    retraction,
    torque_free_ratio,
)

pytestmark = pytest.mark.exact


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_radius_is_the_closest_approach_of_the_centre_lines(bundles: int) -> None:
    rng = np.random.default_rng(20 + bundles)
    t = np.linspace(-2 * pi, 2 * pi, 4001)
    for angle in rng.uniform(0.01, jam(bundles).lay_rad, 170):
        made = lay(0.002, bundles, float(angle))
        pitch = made.radius_m / tan(angle)

        def gap(x: float, phase: float, made: object = made, pitch: float = pitch) -> float:
            a = made.radius_m  # type: ignore[attr-defined]
            return float(2 * a * a * (1 - np.cos(x - phase)) + pitch * pitch * x * x)

        least = []
        for k in range(1, bundles // 2 + 1):
            phase = 2 * pi * k / bundles
            values = 2 * made.radius_m**2 * (1 - np.cos(t - phase)) + (pitch * t) ** 2
            at = t[int(np.argmin(values))]
            best = optimize.minimize_scalar(
                gap, args=(phase,), bounds=(at - 0.01, at + 0.01), method="bounded", options={"xatol": 1e-12}
            )
            least.append(sqrt(best.fun))
        assert isclose(min(least), 0.002, rel_tol=1e-6)


def test_turns_and_lay_agree_both_ways_over_random_cords() -> None:
    rng = np.random.default_rng(3)
    for _ in range(500):
        bundles = int(rng.integers(2, 5))
        diameter, strand = float(rng.uniform(3e-4, 4e-3)), float(rng.uniform(0.05, 2.0))
        turns = float(rng.uniform(0.01, 0.999)) * jam_turns(diameter, bundles, strand)
        made = lay_of_turns(diameter, bundles, turns, strand)
        assert isclose(made.turns_per_strand_m * strand, turns, rel_tol=1e-9)
        cord = strand * (1 - made.take_up)
        again = lay_of_cord_turns(diameter, bundles, turns, cord)
        assert isclose(again.lay_rad, made.lay_rad, rel_tol=1e-6)
        arc = sqrt(cord**2 + (2 * pi * made.radius_m * turns) ** 2)
        assert isclose(arc, strand, rel_tol=1e-9)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_jam_is_where_turns_are_most(bundles: int) -> None:
    def fewer(angle: float) -> float:
        return -lay(1.0, bundles, float(angle)).turns_per_strand_m

    top = jam(bundles).lay_rad
    found = optimize.minimize_scalar(fewer, bounds=(0.5, top), method="bounded", options={"xatol": 1e-10})
    assert isclose(found.x, top, rel_tol=1e-4)
    with pytest.raises(DomainError) as caught:
        lay_of_turns(0.002, bundles, 1.01 * jam_turns(0.002, bundles, 1.0), 1.0)
    assert (caught.value.problem.code, caught.value.problem.reason) == ("model", "jam")


@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.integers(2, 4), st.floats(0.01, 0.75), st.floats(1e-4, 1e-2), st.floats(0.1, 10.0))
def test_scaling_a_lay_scales_its_lengths_only(bundles: int, angle: float, diameter: float, k: float) -> None:
    one, big = lay(diameter, bundles, angle), lay(k * diameter, bundles, angle)
    assert isclose(big.radius_m, k * one.radius_m, rel_tol=1e-12)
    assert isclose(big.turns_per_m * k, one.turns_per_m, rel_tol=1e-12)
    assert big.take_up == one.take_up


def test_balanced_twist_of_two_and_its_closed_form() -> None:
    for angle in np.linspace(0.0, 0.6, 50):
        assert isclose(balanced_twist(2, float(angle)), 1 / cos(angle) + cos(angle), rel_tol=1e-12)


def test_torque_free_ratio_minimises_the_elastic_energy() -> None:
    for angle in (0.1, 0.2, 0.4, 0.6):
        for ratio in (0.5, 1.0, 1.5):
            before = sin(angle) / torque_free_ratio(angle, ratio)

            def energy(x: float, ratio: float = ratio, before: float = before) -> float:
                return float(ratio * sin(x) ** 4 / 2 + (before - sin(x) * cos(x)) ** 2 / 2)

            found = optimize.minimize_scalar(energy, bounds=(0.01, 0.78), method="bounded", options={"xatol": 1e-11})
            assert isclose(found.x, angle, rel_tol=1e-5)


def test_retraction_is_the_mean_helix_shortening() -> None:
    for angle in (0.1, 0.3, 0.6):
        mean_length = (1 + 1 / cos(angle)) / 2
        assert isclose(retraction(angle), 1 - 1 / mean_length, rel_tol=1e-12)


def _hull_length(section: FlatTip, cord: float, throat: float) -> float:
    """Measure a loop as the taut outline round many points of the section, half a cord outside it."""
    rise, inner_x = section.corner_m + cord / 2, section.width_m / 2 - section.corner_m
    inner_y = section.depth_m / 2 - section.corner_m
    angles = np.linspace(0, 2 * pi, 100_001)
    points = np.concatenate(
        [
            np.stack([sx * inner_x + rise * np.cos(angles), sy * inner_y + rise * np.sin(angles)], 1)
            for sx in (1, -1)
            for sy in (1, -1)
        ]
    )
    legs = np.array([[cord / 2, -throat], [-cord / 2, -throat]])
    hull = ConvexHull(np.concatenate([points, legs]))
    return float(hull.area) - cord


def test_loops_against_the_taut_outline() -> None:
    rng = np.random.default_rng(7)
    for _ in range(40):
        width, depth, cord = (float(x) for x in rng.uniform([0.008, 0.006, 0.001], [0.03, 0.02, 0.004]))
        section = FlatTip(width, depth, float(rng.uniform(0, min(width, depth) / 2)))
        throat = depth / 2 + cord / 2 + float(rng.uniform(0.004, 0.06))
        made = loop_of_throat(section, cord, throat)
        assert isclose(made.length_m, _hull_length(section, cord, throat), rel_tol=1e-6)
        assert isclose(loop_of_length(section, cord, made.length_m).throat_m, throat, rel_tol=1e-6)


def test_loop_fits() -> None:
    tip = RoundTip(0.0127)
    assert isclose(degrees(loop_nocked(tip, 0.003, radians(60)).opening_rad), 60.0, rel_tol=1e-9)
    assert loop_sliding(tip, 0.003, 0.1).length_m > loop_sliding(tip, 0.003, 0.0).length_m > perimeter(tip)
    with pytest.raises(DomainError):
        loop_of_length(tip, 0.003, 0.9 * perimeter(tip))


def test_a_flattened_pipe_keeps_its_perimeter() -> None:
    for depth in (0.005, 0.012, 0.0267):
        assert isclose(perimeter(flattened(0.0267, depth)), pi * 0.0267, rel_tol=1e-12)


def test_pipe_sizes_against_an_independent_table() -> None:
    for nominal, inches in (("1/2", 0.5), ("3/4", 0.75), ("1", 1.0), ("1 1/4", 1.25), ("2", 2.0)):
        _, _, outside, _ = fluids.piping.nearest_pipe(NPS=inches, schedule="40")  # type: ignore[arg-type]
        assert isclose(pipe(nominal), outside, abs_tol=0.0003)
    assert pipe_diameters()["dn 20"] == pipe("3/4 in")
    with pytest.raises(DomainError):
        pipe("7/9")


def _packed(count: int, rng: np.random.Generator) -> float:
    """Return the best envelope found from some random starts, in circle diameters."""
    first, second = np.triu_indices(count, 1)

    def apart(z: np.ndarray) -> np.ndarray:
        xy = z[:-1].reshape(count, 2)
        gap = ((xy[first] - xy[second]) ** 2).sum(1) - 4.0
        return np.concatenate([gap, (z[-1] - 1) ** 2 - (xy**2).sum(1)])

    best = 99.0
    for _ in range(12):
        start = np.append(rng.normal(0, 2, 2 * count), 2.0 + count)
        found = optimize.minimize(  # type: ignore[call-overload]  # the stubs know no mixed start
            lambda z: float(z[-1]),
            start,
            method="SLSQP",
            constraints=optimize.NonlinearConstraint(apart, 0.0, np.inf),
            options={"maxiter": 400},
        )
        if found.success and apart(found.x).min() > -1e-7:
            best = min(best, float(found.x[-1]))
    return best


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 7])
def test_circle_packing_by_optimisation(count: int) -> None:
    assert isclose(envelope_ratio(count), _packed(count, np.random.default_rng(count)), rel_tol=1e-5)


def test_circle_packing_closed_forms() -> None:
    ratios = packing_ratios()
    rings = {5: 5, 8: 7, 9: 8, 11: 9}
    closed = {count: 1 + 1 / sin(pi / ring) for count, ring in rings.items()}
    closed |= {3: 1 + 2 / sqrt(3), 4: 1 + sqrt(2), 13: 2 + sqrt(5), 19: 1 + sqrt(2) + sqrt(6)}
    for count, value in closed.items():
        assert isclose(ratios[count], value, abs_tol=6e-7)
    assert sorted(ratios.values()) == list(ratios.values())


def test_bundle_area_holds_its_fibre() -> None:
    diameter = bundle_diameter(1e-3, 1380.0, 0.7)
    assert isclose(pi / 4 * diameter**2 * 1380.0 * 0.7, 1e-3, rel_tol=1e-12)
