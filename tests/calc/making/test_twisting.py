"""A cord twisted to a finished length, at lengths other than a metre."""

from __future__ import annotations

from math import atan, cos, pi, tan

import pytest

from calc.errors import DomainError
from calc.geometry.lay import jam, lay_of_cord_turns
from calc.making.string import twisted_to_turns, widest_bundle

pytestmark = pytest.mark.exact


@pytest.mark.parametrize("bundles", [2, 3])
@pytest.mark.parametrize("cord_m", [0.4, 1.0, 1.7])
def test_the_widest_bundle_is_the_one_that_just_holds_the_turns(bundles: int, cord_m: float) -> None:
    widest_m = widest_bundle(bundles, cord_m, 80.0)
    near = lay_of_cord_turns(widest_m * (1.0 - 1e-9), bundles, 80.0, cord_m)
    assert near.lay_rad == pytest.approx(jam(bundles).lay_rad, rel=1e-3)
    with pytest.raises(DomainError):
        lay_of_cord_turns(widest_m * (1.0 + 1e-9), bundles, 80.0, cord_m)


@pytest.mark.parametrize("cord_m", [0.6, 1.5])
def test_a_twisted_cord_of_any_length_by_hand(cord_m: float) -> None:
    """An unrolled cylinder of two bundles of 2 mm; a bundle of fibres at an angle gives up tan^2 of half of it."""
    turns = 40.0 * cord_m
    made = twisted_to_turns(0.002, 2, cord_m, turns, 1.0)
    lay = atan(pi * 0.002 * 40.0)
    assert (made.cord_m, made.turns) == (cord_m, turns)
    assert made.bundle_m == pytest.approx(cord_m / cos(lay), rel=1e-9)
    assert made.take_up == pytest.approx(1.0 - cos(lay), rel=1e-9)
    left = made.counter - turns * cos(lay)
    angle = atan(pi * 0.002 * left / made.bundle_m)
    assert made.own_take_up == pytest.approx(tan(angle / 2.0) ** 2, rel=1e-9)
    assert made.turns_at(lay) == pytest.approx(turns, rel=1e-9)
    assert made.jam_turns == pytest.approx(made.bundle_m * 0.23526 / 0.002, rel=1e-4)  # 0.23526: closed form
