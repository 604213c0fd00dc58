"""The limb test: cantilevers of a textbook, an elastica shot for, bows solved another way, and what the sheet says."""

from __future__ import annotations

from math import cos, sin
from typing import TYPE_CHECKING, TypeAlias

import pytest

from calc.data import practice
from calc.mechanics.bow import Bow, draw_curve, hung_limb, hung_outline
from calc.mechanics.estimate import BowEstimate, LimbTest
from calc.worksheets.core import by_key, show_row
from tests.calc.worksheets.typed_sheet import TypedSheet

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact
TYPED = TypedSheet("limb-test")
answered, numbers = TYPED.answer, TYPED.spreads
INCH, LBF = 0.0254, 4.4482216152605


@pytest.mark.parametrize(("shape", "load"), [("uniform", 3.0), ("tapered", 2.0)])
def test_small_drops_are_those_of_a_textbook_cantilever(shape: LimbShape, load: float) -> None:
    """P l^3 / (3 EI) where it is alike all along, P l^3 / (2 EI) where its stiffness falls evenly to nothing."""
    assert hung_limb(Bow(2.0, 0.0, shape), 1e-4)[-1] / 1e-4 == pytest.approx(load, rel=1e-6)


def shot_for(shape: LimbShape, load: float, steps: int = 4000) -> float:
    """Return the drop of a unit limb under a dead weight: curvature x stiffness = weight x distance, tip shot for."""
    one, two = {"uniform": (0.0, 0.0), "tapered": (1.0, 0.0), "arc": (0.0, 1.0)}[shape]

    def traced(reach: float) -> tuple[float, float]:
        angle = x = y = 0.0
        for k in range(steps):
            middle = (k + 0.5) / steps
            half = angle + load * (reach - x) / (1.0 - one * middle - two * middle**2) / steps / 2.0
            x, y = x + cos(half) / steps, y + sin(half) / steps
            angle = 2.0 * half - angle
        return x, y

    low, high = 0.3, 1.0
    for _ in range(60):
        reach = (low + high) / 2.0
        low, high = (reach, high) if traced(reach)[0] > reach else (low, reach)
    return traced(reach)[1]


@pytest.mark.parametrize("shape", ["uniform", "arc", "tapered"])
def test_large_drops_are_those_of_an_elastica(shape: LimbShape) -> None:
    drop = shot_for(shape, 0.8)
    assert hung_limb(Bow(2.0, 0.0, shape), drop)[-1] == pytest.approx(0.8, rel=2e-3)
    assert hung_outline(Bow(2.0, 0.0, shape), drop)[-1][1] == pytest.approx(drop, rel=1e-4)


_Case: TypeAlias = "tuple[float, float, float, float, float, float, dict[LimbShape, float]]"
LINKED: tuple[_Case, ...] = (
    (66, 8, 6.5, 26, 8, 40, {"uniform": 2.686, "arc": 2.671, "tapered": 2.657}),
    (58, 6, 6.0, 24, 6, 28, {"uniform": 2.728, "arc": 2.719, "tapered": 2.712}),
)
"""Nock to nock, handle, brace, draw [in], hung and draw weight [lbf], and the drops [in] of another solver: forty rigid
links a limb, and a string that stretches and weighs something."""


@pytest.mark.parametrize("case", LINKED, ids=lambda case: f"{case[0]} in")
@pytest.mark.parametrize("shape", ["uniform", "arc", "tapered"])
def test_the_draw_weight_of_bows_solved_with_links(case: _Case, shape: LimbShape) -> None:
    long_in, handle, brace, draw, hung, weight, drops = case
    told = {
        "nock_to_nock": f"{long_in} in", "handle_length": f"{handle} in", "limb_shape": shape, "handle_proud": "0 in",
        "string_follow": "0 in", "brace_height": f"{brace} in", "draw_length": f"{draw} in",
        "test_weight": f"{hung} lbf", "limb_drop_upper": f"{drops[shape]} in", "limb_drop_lower": f"{drops[shape]} in",
    }  # fmt: skip
    found = numbers(**told)["draw_weight_found"]
    assert found.value / LBF == pytest.approx(weight, rel=0.005)
    assert found.low < weight * LBF < found.high


def test_the_shape_of_the_limbs_moves_it_by_about_a_hundredth() -> None:
    found = [numbers(limb_shape=shape)["draw_weight_found"].value for shape in ("uniform", "arc", "tapered")]
    assert max(found) / min(found) < 1.015


def test_unlike_limbs_are_half_a_bow_each() -> None:
    """The middle of the string goes straight back: each half pulls as if its bow had two such limbs."""
    bow = BowEstimate(nock_to_nock_m=1.6, handle_length_m=0.2, shape="arc", handle_proud_m=0.0, string_follow_m=0.0,
                      draw_m=0.65)  # fmt: skip
    alone = [LimbTest(bow=bow, brace_m=0.16, hung_n=30.0, drops_m=(each, each)).found()["weight"].value
             for each in (0.060, 0.075)]  # fmt: skip
    both = LimbTest(bow=bow, brace_m=0.16, hung_n=30.0, drops_m=(0.060, 0.075)).found()
    assert both["weight"].value == pytest.approx(sum(alone) / 2.0)
    assert both["balance"].value == pytest.approx(alone[0] / alone[1] - 1.0)


def test_every_draw_lies_on_the_curve_of_those_limbs() -> None:
    bow = BowEstimate(nock_to_nock_m=1.6, handle_length_m=0.2, shape="arc", handle_proud_m=0.0, string_follow_m=0.0,
                      draw_m=0.65)  # fmt: skip
    found = LimbTest(bow=bow, brace_m=0.16, hung_n=30.0, drops_m=(0.06, 0.06)).found([0.405, 0.65])
    curve = draw_curve(Bow(1.6, 0.2, "arc"), 0.16, 0.65, found["weight"].value, steps=2)
    assert found["at_0"].value == pytest.approx(curve.points[1].force_n, rel=1e-6)
    assert found["at_1"].value == pytest.approx(found["weight"].value)


def test_what_is_measured_narrows_it_and_a_clamp_that_gives_only_raises_it() -> None:
    open_, told = (
        numbers()["draw_weight_found"],
        numbers(handle_proud="0 in", string_follow="0 in")["draw_weight_found"],
    )
    assert told.high - told.low < 0.5 * (open_.high - open_.low)
    give = practice("clamp_give").spread
    assert (give.low, give.value) == (0.0, 0.0)
    assert told.high - told.value > told.value - told.low


def test_the_stiffer_limb_is_named_and_alike_is_said_where_a_tape_cannot_tell() -> None:
    said = [answered(limb_drop_lower=each).headlines[1].text for each in ("2 5/8 in", "2 1/8 in", "3 1/4 in")]
    assert said[0] == "alike, as far as a tape can tell"
    assert "the lower is stiffer by" in said[1]
    assert "the upper is stiffer by" in said[2]
    lower = numbers(limb_drop_upper="2 in", limb_drop_lower="2 1/2 in")
    upper = numbers(limb_drop_upper="2 1/2 in", limb_drop_lower="2 in")
    for end in ("low", "value", "high"):
        assert getattr(lower["stiffer_by"], end) == pytest.approx(getattr(upper["stiffer_by"], end), rel=0.02)


def test_set_and_recurve_are_not_left_aside() -> None:
    plain = numbers(string_follow="0 in")["draw_weight_found"].value
    assert numbers(string_follow="1 in")["draw_weight_found"].value < plain
    assert numbers(string_follow="-1 in")["draw_weight_found"].value > plain
    assert numbers(tip_contact="2 in")["draw_weight_found"].value != pytest.approx(plain, rel=1e-3)


def test_a_bow_without_a_string_is_handled_with_care() -> None:
    said = " ".join(each.text for each in answered().cautions if each.level == "caution")
    for words in ("may break", "eyes covered", "feet", "quarter", "crack"):
        assert words in said
    much = answered(test_weight="12 lb", limb_drop_upper="4 in", limb_drop_lower="4 in")
    assert any("more than half" in each.text for each in much.cautions)


def test_the_table_ends_as_the_headline_does() -> None:
    """Low ends are rounded down and high ones up, wherever they stand."""
    found = answered()
    (table,) = found.tables("inch")
    rows = by_key(found.rows)
    low, high = (show_row(rows["draw_weight_found"], "inch", end) for end in ("low", "high"))
    assert table.cells[-1][2] == f"{low} to {high}"
