"""Slopes of the equations of a held limb against differences, and what drawn limbs are refused for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from calc.mechanics import bending
from calc.mechanics.bending import Held, Strung, braced, drawn
from calc.mechanics.limb import limb
from calc.mechanics.solve import NoRootError, newton

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.solve import Residual

pytestmark = pytest.mark.exact
LIMB = limb("tapered", 4)
REST = (0.01, 0.02, 0.03, 0.04)


def slopes_are_right(equations: Callable[[list[float]], Residual], at: list[float]) -> None:
    _, slopes = equations(at)
    for k in range(len(at)):
        ends = [equations([each + side * 1e-5 * (n == k) for n, each in enumerate(at)])[0] for side in (-1.0, 1.0)]
        expected = (np.array(ends[1]) - np.array(ends[0])) / 2e-5
        assert [row[k] for row in slopes] == pytest.approx(expected.tolist(), rel=1e-6, abs=1e-7)


def test_slopes_of_the_equations_are_those_of_small_differences(monkeypatch: pytest.MonkeyPatch) -> None:
    """With wrong slopes the same state would be found, by more steps or not at all."""
    seen: list[list[float]] = []

    def watched(equations: Callable[[list[float]], Residual], start: list[float]) -> list[float]:
        for shift in (0.0, 0.1, -0.15):
            slopes_are_right(equations, [each + shift * (1.0 + 0.3 * k) for k, each in enumerate(start)])
        seen.append(start)
        return newton(equations, start)

    monkeypatch.setattr(bending, "newton", watched)
    held = braced(LIMB, REST, 0.21)
    strung = Strung(LIMB, REST, 0.13, 0.13 + held.along + 0.08, 0.08, held.angles[-1])
    state = drawn(strung, 0.5, held)
    assert seen[0] == pytest.approx([*(0.42 * place for place in LIMB.places), 2.0])
    assert seen[1] == [*held.angles, held.load]
    assert state.load > 0.0


FLAT = Strung(LIMB, REST, 0.1, 1.0)
START = Held(REST, 1.0, 0.0, 0.9, 0.1, 0.0)


@pytest.mark.parametrize(
    ("found", "draw", "taken"),
    [
        ([0.1, 0.2, 0.3, 0.4, 1.0], 0.5, True),
        ([0.1, 0.2, 0.3, 0.4, 1e-9], 0.5, True),
        ([0.1, 0.2, 0.3, 0.4, 0.0], 0.5, False),
        ([0.1, 0.2, 0.3, 0.4, -1.0], 0.5, False),
        ([-0.1, 0.2, 0.3, -0.4, 1.0], 0.5, True),
        ([0.1, 0.2, 0.3, 0.4, 1.0], 5.0, True),
        ([0.1, 0.2, 0.3, 0.4, 1.0], 9.0, False),
        ([0.1, 0.2, 0.3, 0.4, 1.0], -9.0, False),
        ([0.1, 2.39, 0.3, 0.4, 1.0], 0.5, True),
        ([0.1, 2.41, 0.3, 0.4, 1.0], 0.5, False),
    ],
)
def test_past_what_a_bow_can_do(found: list[float], draw: float, taken: bool, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: FBT001 - a case of two
    """A slack string, one at 80 degrees and more, a limb bent past 137."""
    monkeypatch.setattr(bending, "newton", lambda *_: found)
    if taken:
        assert drawn(FLAT, draw, START).load == found[-1]
        return
    with pytest.raises(NoRootError, match=r"^drawn: past what a bow can do$"):
        drawn(FLAT, draw, START)
