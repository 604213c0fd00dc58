"""Slopes of the equations of a held limb against differences, and what drawn limbs are refused for."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from calc.mechanics.bow import LimbState, StringHold, braced, drawn, limb, statics
from calc.mechanics.bow.statics_four import braced_four, drawn_four
from calc.numerics import NoRootError, find_roots

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.bow import LimbShape
    from calc.numerics import Residual

pytestmark = pytest.mark.exact
LIMB = limb("tapered", 4)
REST = (0.01, 0.02, 0.03, 0.04)


def slopes_are_right(equations: Callable[[list[float]], Residual], at: list[float]) -> None:
    _, slopes = equations(at)
    for k in range(len(at)):
        ends = [equations([each + side * 1e-5 * (n == k) for n, each in enumerate(at)])[0] for side in (-1.0, 1.0)]
        expected = (np.array(ends[1]) - np.array(ends[0])) / 2e-5
        assert [row[k] for row in slopes] == pytest.approx(expected.tolist(), rel=1e-6, abs=1e-7)


def by_the_sums(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave every limb to `find_roots`, as one of other than four angles is."""

    def left(*_: object) -> None:
        raise NoRootError("left")

    for name in ("braced_four", "drawn_four"):
        monkeypatch.setattr(statics, name, left)


def test_slopes_of_the_equations_are_those_of_small_differences(monkeypatch: pytest.MonkeyPatch) -> None:
    """With wrong slopes the same state would be found, by more steps or not at all."""
    seen: list[list[float]] = []

    def watched(equations: Callable[[list[float]], Residual], start: list[float]) -> list[float]:
        for shift in (0.0, 0.1, -0.15):
            slopes_are_right(equations, [each + shift * (1.0 + 0.3 * k) for k, each in enumerate(start)])
        seen.append(start)
        return find_roots(equations, start)

    by_the_sums(monkeypatch)
    monkeypatch.setattr(statics, "find_roots", watched)
    held = braced(LIMB, REST, 0.21)
    strung = StringHold(LIMB, REST, 0.13, 0.13 + held.along + 0.08, 0.08, held.angles[-1])
    state = drawn(strung, 0.5, held)
    assert seen[0] == pytest.approx([*(0.42 * place for place in LIMB.positions), 2.0])
    assert seen[1] == [*held.angles, held.load]
    assert state.load > 0.0


FLAT = StringHold(LIMB, REST, 0.1, 1.0)
START = LimbState(REST, 1.0, 0.0, 0.9, 0.1, 0.0)


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
    by_the_sums(monkeypatch)
    monkeypatch.setattr(statics, "find_roots", lambda *_: found)
    if taken:
        assert drawn(FLAT, draw, START).load == found[-1]
        return
    with pytest.raises(NoRootError, match=r"^drawn: past what a bow can do$"):
        drawn(FLAT, draw, START)


@pytest.mark.parametrize("shape", ["arc", "tapered", "uniform"])
@pytest.mark.parametrize("lever", [0.0, 0.12])
def test_four_angles_written_out_balance_as_the_sums_do(
    shape: LimbShape, lever: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Newton's rule on the sums, with pivots, is the second way; recurved, set and reflexed bows are among them."""
    bent = limb(shape, 4)

    def states(rest: tuple[float, ...], across: float) -> list[LimbState]:
        held = braced(bent, rest, across)
        strung = StringHold(bent, rest, 0.13, 0.13 + held.along + lever, lever, held.angles[-1])
        found = [held]
        for k in range(1, 5):
            found.append(drawn(strung, across + 0.14 * k, found[-1]))
        return found

    cases = [(tuple(bend * place for place in bent.positions), across) for bend, across in CASES]
    quick = [states(*case) for case in cases]
    by_the_sums(monkeypatch)
    for case, mine in zip(cases, quick, strict=True):
        for one, other in zip(mine, states(*case), strict=True):
            assert one.angles == pytest.approx(other.angles, rel=1e-10)
            assert (one.load, one.energy) == pytest.approx((other.load, other.energy), rel=1e-10)


CASES = ((0.0, 0.021), (0.0, 0.2), (0.0, 0.35), (0.12, 0.22), (-0.2, 0.25))


def test_a_limb_of_four_angles_is_left_to_the_sums_where_it_hardly_bends(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object) -> None:
        pytest.fail("balanced without pivots")

    monkeypatch.setattr(statics, "braced_four", never)
    assert braced(LIMB, (0.0,) * 4, 0.0199).across == pytest.approx(0.0199, rel=1e-12)


@pytest.mark.parametrize("write", [braced_four, drawn_four])
def test_written_out_it_says_when_it_does_not_close(write: Callable[..., object]) -> None:
    far = (FLAT, 40.0) if write is drawn_four else (LIMB, REST, 3.0)
    with pytest.raises(NoRootError, match=r"_four: still moving by "):
        write(*far, (*REST, 1.0))
    limp = replace(LIMB, stiffness=((0.0,) * 4,) * 4)
    slack = (replace(FLAT, limb=limp), 0.5) if write is drawn_four else (limp, REST, 0.1)
    with pytest.raises(NoRootError, match=r"^statics_four: no slope$"):
        write(*slack, (*REST, 0.0))
