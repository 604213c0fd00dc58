"""Circles packed in a circle, found again by a search of its own."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import linprog, minimize

from calc.geometry.lay import envelope_ratio
from tests.tolerances import CLOSED_FORM

pytestmark = pytest.mark.exact

Reals = NDArray[np.float64]


def _pushed_apart(place: Reals, count: int, wall: float) -> tuple[float, Reals]:
    """Give the energy of overlaps of unit circles with each other and with a round wall, and its slope."""
    x, y = place[:count], place[count:]
    one, other = np.triu_indices(count, 1)
    dx, dy = x[one] - x[other], y[one] - y[other]
    apart = np.hypot(dx, dy) + 1e-12
    inside, out = np.maximum(0.0, 2.0 - apart), np.hypot(x, y) + 1e-12
    beyond = np.maximum(0.0, out - wall + 1.0)
    pull = -2.0 * inside / apart
    slope = np.zeros(2 * count)
    for start, part in ((0, dx), (count, dy)):
        np.add.at(slope, start + one, pull * part)
        np.add.at(slope, start + other, -pull * part)
    slope += np.tile(2.0 * beyond / out, 2) * place
    return float(np.sum(inside**2) + np.sum(beyond**2)), slope


def _wall(place: Reals, count: int) -> tuple[float, float]:
    """Give the wall round places blown up until unit circles just fit, and how far to blow them up."""
    one, other = np.triu_indices(count, 1)
    grow = 2.0 / float(np.min(np.hypot(place[one] - place[other], place[count + one] - place[count + other])))
    return grow * float(np.max(np.hypot(place[:count], place[count:]))) + 1.0, grow


def _step(place: Reals, count: int, reach: float) -> Reals:
    """Move every circle a little so that the wall shrinks most: a linear program."""
    one, other = np.triu_indices(count, 1)
    gap = np.stack([place[one] - place[other], place[count + one] - place[count + other]])
    apart = np.hypot(*gap)
    near = np.flatnonzero(apart < 2.0 + 4.0 * reach + 1e-3)
    side, out = gap / apart, np.hypot(place[:count], place[count:]) + 1e-15
    rows = np.zeros((len(near) + count, 2 * count + 1))
    for axis, start in enumerate((0, count)):
        rows[np.arange(len(near)), start + one[near]] = -side[axis, near]
        rows[np.arange(len(near)), start + other[near]] = side[axis, near]
        rows[len(near) + np.arange(count), start + np.arange(count)] = place[start : start + count] / out
    rows[len(near) :, -1] = -1.0
    limits = np.concatenate([apart[near] - 2.0, -out - 1.0])
    cost = np.append(np.zeros(2 * count), 1.0)
    box = [*[(-reach, reach)] * (2 * count), (0.0, None)]
    found = linprog(cost, A_ub=rows, b_ub=limits, bounds=box, method="highs")
    return np.asarray(found.x)[:-1]


def _packed(count: int, seed: int) -> float:
    """Pack circles from one random start: push them apart, then shrink the wall until nothing moves."""
    rng = np.random.default_rng(seed)
    wall = envelope_ratio(count)
    out, around = (wall - 1.0) * np.sqrt(rng.random(count)), 2.0 * pi * rng.random(count)
    start = np.concatenate([out * np.cos(around), out * np.sin(around)])
    found = minimize(_pushed_apart, start, args=(count, wall), jac=True, method="L-BFGS-B", options={"maxiter": 2000})
    best, grow = _wall(np.asarray(found.x), count)
    place, reach = np.asarray(found.x) * grow, 0.1
    while reach > 1e-7:
        moved = place + _step(place, count, reach)
        radius, grow = _wall(moved, count)
        if radius < best - 1e-14:
            best, place = radius, moved * grow
        else:
            reach /= 4.0
    return best


STARTS = dict.fromkeys(range(2, 21), 0) | {5: 1, 9: 14, 15: 11, 16: 5}
"""Random starts that fall into the best packing known; most starts do not. Beyond 20 it takes hundreds of them."""


@pytest.mark.parametrize(("count", "seed"), STARTS.items())
def test_packed_circles_need_the_envelope_of_the_table(count: int, seed: int) -> None:
    assert _packed(count, seed) == pytest.approx(envelope_ratio(count), rel=CLOSED_FORM)


SMALLER, STARTS_EACH = 1e-4, 28


def _overlaps(places: Reals, wall: float) -> tuple[Reals, Reals]:
    """Give the energies of many arrangements at once, and their slopes: first axis the arrangement, second x and y."""
    gap = places[:, :, :, None] - places[:, :, None, :]
    apart = np.hypot(gap[:, 0], gap[:, 1]) + 2.0 * np.eye(places.shape[2]) + 1e-12
    inside = np.maximum(0.0, 2.0 - apart)
    out = np.hypot(places[:, 0], places[:, 1]) + 1e-12
    beyond = np.maximum(0.0, out - wall + 1.0)
    slope = np.sum(-2.0 * (inside / apart)[:, None] * gap, axis=3) + (2.0 * beyond / out)[:, None] * places
    return np.sum(inside**2, axis=(1, 2)) / 2.0 + np.sum(beyond**2, axis=1), slope


def _least_overlap(count: int, wall: float) -> float:
    """Give the least overlap that many random starts, relaxed side by side, are left with."""
    shape = (STARTS_EACH, 2, count)

    def all_of_them(flat: Reals) -> tuple[float, Reals]:
        energies, slope = _overlaps(flat.reshape(shape), wall)
        return float(np.sum(energies)), slope.ravel()

    first = np.random.default_rng(200 + count).uniform(-wall / 2.0, wall / 2.0, shape).ravel()
    found = minimize(
        all_of_them, first, jac=True, method="L-BFGS-B", options={"maxiter": 600, "ftol": 1e-16, "gtol": 1e-12}
    )
    return float(np.min(_overlaps(np.asarray(found.x).reshape(shape), wall)[0]))


@pytest.mark.parametrize("count", range(2, 21))
def test_no_start_finds_room_in_a_smaller_round(count: int) -> None:
    """Over all counts 532 random starts."""
    assert _least_overlap(count, envelope_ratio(count) * (1.0 - SMALLER)) > 1e-10


@pytest.mark.parametrize("count", [2, 3, 4, 6, 7, 10, 12, 14])
def test_some_start_finds_room_in_a_larger_round(count: int) -> None:
    """The same search does find room where there is some."""
    assert _least_overlap(count, envelope_ratio(count) * (1.0 + SMALLER)) < 1e-13


@pytest.mark.parametrize("count", [8, 12])
def test_no_other_start_packs_closer(count: int) -> None:
    assert min(_packed(count, seed) for seed in (100, 101, 102)) >= envelope_ratio(count) * (1.0 - 1e-9)
