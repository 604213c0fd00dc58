"""A loop on its tip and a string over its bridge: exact cases, and second ways by adding up and by trying."""

from __future__ import annotations

from itertools import pairwise
from math import cos, hypot, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from calc.errors import DomainError
from calc.geometry.ends import RoundTip, bearing_line, loop_of_throat, over_bridge
from calc.making.strands import Groove
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual

pytestmark = pytest.mark.exact
LAW = settings(derandomize=True, deadline=None, max_examples=60)
SHEET = catalogue()["loops"]
GROOVE = Groove(width_m=0.0127, opening_rad=pi / 3.0, cord_m=0.0023, pull_n=600.0, wood="white_ash")


def test_legs_that_stand_together_press_with_the_pull_over_the_width() -> None:
    assert bearing_line(0.02, 0.0, 100.0) == 5000.0
    assert bearing_line(0.02, pi / 2.0, 100.0) == pytest.approx(5000.0 * sqrt(2.0), rel=1e-12)


@LAW
@given(st.floats(0.005, 0.05), st.floats(0.0, 2.5), st.floats(1.0, 2000.0))
def test_all_that_presses_adds_up_to_the_pull(width_m: float, opening_rad: float, pull_n: float) -> None:
    """Round the tip from one leg to the other, each little arc pressing towards the middle."""
    wrap = pi + opening_rad
    angles = (np.arange(4000) + 0.5) / 4000 * wrap - wrap / 2.0
    line = bearing_line(width_m, opening_rad, pull_n)
    pressed = float(np.sum(line * np.cos(angles)) * width_m / 2.0 * wrap / 4000)
    assert pressed == pytest.approx(pull_n, rel=1e-5)


def test_a_bridge_makes_a_triangle() -> None:
    assert over_bridge(0.04, 0.03) == pytest.approx(0.05, rel=1e-15)
    assert over_bridge(0.06, 0.0) == 0.06


@LAW
@given(st.floats(0.02, 0.3), st.floats(0.0, 0.05), st.floats(0.5, 1.5))
def test_a_tight_string_takes_the_shortest_way_over_both_bridges(
    from_m: float, height_m: float, apart_m: float
) -> None:
    """Two nocks on a line, bridges that stand above it: the shortest way found by trying."""
    ends = np.array([[0.0, 0.0], [apart_m + 2.0 * from_m, 0.0]])

    def length(at: np.ndarray) -> float:
        way = [ends[0], (from_m, at[0]), (from_m + apart_m, at[1]), ends[1]]
        return sum(hypot(*(np.subtract(b, a))) for a, b in pairwise(way))

    found = minimize(length, [height_m + 0.05] * 2, bounds=[(height_m, 1.0)] * 2)
    assert found.fun == pytest.approx(apart_m + 2.0 * over_bridge(from_m, height_m), rel=1e-6)


def test_a_groove_by_hand() -> None:
    """White ash: 1008.5 lbf on 0.1548 sq in, a fifth drier, six tenths of it, on eight tenths of 2.3 mm."""
    pressure = 1008.5 * 4.4482216152605 / (pi * (0.444 * 0.0254) ** 2 / 4.0) * 1.2 * 0.6
    by_hand = pressure * 0.0023 * 0.8 * 0.0127 * cos(pi / 6.0)
    assert GROOVE.bears().value == pytest.approx(by_hand, rel=1e-9)
    assert GROOVE.wants_m().value == pytest.approx(max(1.0, 600.0 / by_hand) * 0.0023, rel=1e-9)


def test_padding_makes_the_loop_as_thick_as_it_is_told() -> None:
    """So many strands more have the section of so thick a loop."""
    pads = GROOVE.padding(12)
    assert pads % 2 == 0
    assert sqrt((12 + pads) / 12) >= GROOVE.padded_m / 0.0023
    assert sqrt((12 + pads - 2) / 12) < GROOVE.padded_m / 0.0023
    assert GROOVE.too_thick
    light = Groove(width_m=0.0127, opening_rad=1.0, cord_m=0.003, pull_n=60.0, wood="osage")
    assert (light.padding(12), light.too_thick, light.wants_m().high) == (0, False, 0.003)
    unknown = Groove(width_m=0.0127, opening_rad=1.0, cord_m=0.003, pull_n=60.0, wood=None)
    assert unknown.bears().value < light.bears().value
    with pytest.raises(DomainError):
        light.padding(0)
    with pytest.raises(DomainError):
        Groove(width_m=0.0127, opening_rad=pi, cord_m=0.003, pull_n=60.0, wood=None)
    with pytest.raises(DomainError):
        over_bridge(0.02, -0.1)


def answer(**changed: str) -> Answer:
    told = ask(SHEET, usual(SHEET, changed), "inch")
    assert isinstance(told, Answer), told
    return told


def test_the_verdict_comes_first_and_goes_by_the_low_end() -> None:
    for pull, verdict in (
        ("30 lbf", "bears the loop"),
        ("120 lbf", "may be pressed in"),
        ("600 lbf", "will be pressed"),
    ):
        told = answer(hardest_pull=pull, wood="white_ash")
        bears = next(row.spread for row in told.rows if row.key == "groove_bears")
        pulled = float(pull.split()[0]) * 4.4482216152605
        assert told.headlines[0].lead == "The groove"
        assert told.headlines[0].text.startswith(verdict)
        assert (bears.low >= pulled) == (pull == "30 lbf")
        assert (bears.value < pulled) == (pull == "600 lbf")
    assert answer().headlines[0].lead == "Mark off"


def test_a_loop_longer_than_the_bridge_lets_it_be_is_told() -> None:
    told = answer(bridge_from_nock="1 in", loop_fit="sliding", passes="round 1 in")
    rows = {row.key: row.spread.value for row in told.rows}
    assert told.headlines[0].text.startswith("under the loop")
    assert rows["loop_length"] > rows["loop_longest"]
    cord_m = rows["cord_diameter"]
    assert rows["loop_longest"] == pytest.approx(loop_of_throat(RoundTip(0.0127), cord_m, 0.0254).length_m, rel=1e-9)
    assert answer(bridge_from_nock="3 in").headlines[0].text.startswith("clear of the loop")


def test_a_bow_with_bridges_takes_their_way_on_top() -> None:
    sheet = catalogue()["brace"]
    bare, over = (
        ask(sheet, usual(sheet, changed), "inch")
        for changed in ({}, {"bridge_from_nock": "4 in", "bridge_height": "0.3 in"})
    )
    assert isinstance(bare, Answer)
    assert isinstance(over, Answer)
    string = next(row.spread.value for row in bare.rows if row.key == "string_length")
    whole = next(row.spread.value for row in over.rows if row.key == "string_whole")
    assert whole - string == pytest.approx(2.0 * sqrt(4.0**2 + 0.3**2) * 0.0254, rel=1e-9)
