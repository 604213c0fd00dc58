"""Circles packed in a circle, found again by a search of its own."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import linprog, minimize

from calc.geometry import envelope_ratio

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
    assert _packed(count, seed) == pytest.approx(envelope_ratio(count), rel=1e-9)


@pytest.mark.parametrize("count", [8, 12])
def test_no_other_start_packs_closer(count: int) -> None:
    assert min(_packed(count, seed) for seed in (100, 101, 102)) >= envelope_ratio(count) * (1.0 - 1e-9)
