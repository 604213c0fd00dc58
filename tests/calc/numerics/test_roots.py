"""Roots against an independent search, and where none can be."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, exp, sin, sqrt, tanh
from typing import TypeAlias

import numpy as np
import pytest
from scipy.optimize import brentq, root_scalar
from scipy.optimize import fixed_point as scipys_fixed_point

from calc.numerics import NoRootError, find_root, find_root_near, fixed_point, newton
from tests.tolerances import SOLVED

pytestmark = pytest.mark.exact

Kind: TypeAlias = Callable[[float, float, float], float]


KINDS: list[Kind] = [
    lambda x, a, b: a * x**3 + b * x,
    lambda x, a, _: exp(min(a * x, 50.0)) - 1.0,
    lambda x, a, b: tanh(a * x) + 0.1 * b * x,
    lambda x, a, b: (a + b) * x + b * (1.0 - cos(x)),
]
"""Functions that grow throughout and are zero at zero."""


def test_a_root_is_the_one_another_search_finds() -> None:
    rng = np.random.default_rng(71)
    for at in range(500):
        a, b, before, after = (float(each) for each in rng.uniform(0.2, 5.0, 4))
        root, kind = float(rng.uniform(-2.0, 2.0)), KINDS[at % 4]

        def function(x: float, kind: Kind = kind, a: float = a, b: float = b, root: float = root) -> float:
            return kind(x - root, a, b)

        ours = find_root(function, root - before, root + after)
        theirs = brentq(function, root - before, root + after, xtol=1e-15)
        assert ours == pytest.approx(theirs, rel=SOLVED, abs=1e-12)


def test_ends_may_stand_in_either_order_or_on_the_root() -> None:
    assert find_root(lambda x: x - 1.0, 3.0, 0.0) == pytest.approx(1.0, rel=1e-14)
    assert find_root(lambda x: x - 1.0, 1.0, 3.0) == 1.0
    assert find_root(lambda x: x - 1.0, 0.0, 1.0) == 1.0


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_ends_of_one_sign_are_refused(side: float) -> None:
    with pytest.raises(ValueError, match=r"find_root: got .* expected different signs"):
        find_root(lambda x: side * (x * x + 1.0), -1.0, 2.0)


def test_it_stops_as_early_as_it_is_told() -> None:
    asked: list[float] = []

    def watched(x: float) -> float:
        asked.append(x)
        return x**3 - 2.0

    rough = find_root(watched, 0.0, 2.0, within=1e-2)
    few = len(asked)
    fine = find_root(watched, 0.0, 2.0)
    assert few < len(asked) - few
    assert rough == pytest.approx(2.0 ** (1.0 / 3.0), rel=2e-2)
    assert fine == pytest.approx(2.0 ** (1.0 / 3.0), rel=1e-15)


def test_a_root_takes_hardly_more_looks_than_brents_search() -> None:
    rng = np.random.default_rng(72)
    ours: list[float] = []
    theirs: list[float] = []
    for at in range(500):
        a, b, before, after = (float(each) for each in rng.uniform(0.2, 5.0, 4))
        ends, kind = (1.0 - before, 1.0 + after), KINDS[at % 4]
        for search, looks in ((find_root, ours), (_brents, theirs)):
            _watched(search, kind, (a, b), ends, looks)
    assert len(ours) <= 1.1 * len(theirs)


def test_a_step_and_a_flat_end_are_found_too() -> None:
    looks: list[float] = []

    def step(x: float) -> float:
        looks.append(x)
        return -1.0 if x < 0.3 else 1e-9

    assert find_root(step, 0.0, 1.0) == pytest.approx(0.3, rel=2e-15)
    assert len(looks) < 120
    assert find_root(lambda x: (x - 1.0) ** 9, 0.0, 1.7) == pytest.approx(1.0, abs=1e-12)


def test_from_a_guess_it_is_the_root_another_search_finds() -> None:
    rng = np.random.default_rng(73)
    for at in range(500):
        a, b, before, after = (float(each) for each in rng.uniform(0.2, 5.0, 4))
        root, kind = float(rng.uniform(-2.0, 2.0)), KINDS[at % 4]
        low, high = root - before, root + after
        start, guess = (float(each) for each in rng.uniform(low, high, 2))

        def function(x: float, kind: Kind = kind, a: float = a, b: float = b, root: float = root) -> float:
            return kind(x - root, a, b)

        ours = find_root_near(function, (start, function(start)), guess, low, high, close=1e-13)
        assert ours == pytest.approx(brentq(function, low, high, xtol=1e-15), rel=SOLVED, abs=1e-11)


def test_a_nearly_straight_function_takes_few_looks() -> None:
    looks: list[float] = []

    def function(x: float) -> float:
        looks.append(x)
        return x + 0.05 * x * x - 1.0

    found = find_root_near(function, (0.0, -1.0), 0.9, 0.0, 2.0, close=1e-12)
    assert found == pytest.approx(10.0 * (sqrt(1.2) - 1.0), rel=1e-12)
    assert len(looks) <= 5


@pytest.mark.parametrize(("root", "end"), [(-1.0, 0.0), (3.0, 2.0)])
def test_from_a_guess_a_root_outside_gives_the_end_that_is_nearer(root: float, end: float) -> None:
    assert find_root_near(lambda x: x - root, (1.0, 1.0 - root), 0.5, 0.0, 2.0, close=1e-12) == end


def test_secants_that_stop_leave_it_to_the_search_between_the_ends() -> None:
    def flat_then_steep(x: float) -> float:
        return -1.0 if x < 1.0 else (x - 1.0) ** 3 - 1.0

    assert find_root_near(flat_then_steep, (0.0, -1.0), 0.5, 0.0, 4.0, close=1e-13) == pytest.approx(2.0, rel=1e-12)


def test_newton_finds_the_root_a_general_library_finds() -> None:
    for share in np.linspace(0.05, 0.9, 50):

        def kepler(x: float, share: float = float(share)) -> tuple[float, float]:
            return x - share * sin(x) - 1.0, 1.0 - share * cos(x)

        theirs = root_scalar(kepler, x0=1.0, fprime=True, method="newton").root
        assert newton(kepler, 1.0, within=1e-9) == pytest.approx(theirs, rel=SOLVED)


def test_a_fixed_point_is_the_one_a_general_library_finds() -> None:
    for share in np.linspace(0.05, 0.5, 50):

        def shrunk(x: float, share: float = float(share)) -> float:
            return share * cos(x)

        theirs = float(scipys_fixed_point(shrunk, 0.0, xtol=1e-12))
        assert fixed_point(shrunk, 0.0, within=1e-12) == pytest.approx(theirs, rel=SOLVED)


def test_what_does_not_come_to_an_end_is_refused() -> None:
    with pytest.raises(NoRootError, match="newton: still moving"):
        newton(lambda x: (x * x + 1.0, 2.0 * x), 0.3, within=1e-9)
    with pytest.raises(NoRootError, match="fixed_point: still moving"):
        fixed_point(lambda x: 1.0 - x, 0.2, within=1e-9)


def _brents(function: Callable[[float], float], low: float, high: float) -> float:
    return float(brentq(function, low, high, xtol=1e-15, rtol=1e-15))


def _watched(
    search: Callable[[Callable[[float], float], float, float], float],
    kind: Kind,
    of: tuple[float, float],
    ends: tuple[float, float],
    looks: list[float],
) -> None:
    def function(x: float) -> float:
        looks.append(x)
        return kind(x - 1.0, *of)

    assert search(function, *ends) == pytest.approx(1.0, rel=1e-9)
