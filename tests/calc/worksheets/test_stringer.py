"""A stringer: the geometry of a bow with one hinge by hand, laws, what it holds, and what the sheet says."""

from __future__ import annotations

from math import asin, cos, hypot, pi, sin

import pytest

from calc.geometry.ends import FlatTip, RoundTip
from calc.making.tuning import pocket
from calc.worksheets.core import by_key
from tests.calc.worksheets.typed_sheet import TypedSheet

pytestmark = pytest.mark.exact
TYPED = TypedSheet("stringer")
answered, numbers = TYPED.answer, TYPED.spreads
INCH, LBF = 0.0254, 4.4482216152605
STRAIGHT = {"handle_proud": "0 in", "string_follow": "0 in"}


def test_limbs_on_a_hinge_are_two_triangles() -> None:
    """Stiff limbs on hinges a quarter out (Hickman 1937): cord by a sine, pull by moments about the hinge."""
    bow = {"limb_shape": "hinged", "handle_length": "8 in", "nock_to_nock": "66 in", "brace_height": "6 1/2 in"}
    found = numbers(**STRAIGHT, **bow, draw_length="26 in", draw_weight="40 lb", grip_lift="20 in")
    limb, half = 0.75 * 29.0, 4.0 + 0.25 * 29.0
    bent = found["bent_to"].value / INCH
    angle = asin(bent / limb)
    out = half + limb * cos(angle)
    assert found["stringer_length"].value / INCH == pytest.approx(2.0 * hypot(out, 20.0 - bent), rel=5e-3)
    string = half + limb * cos(asin(6.5 / limb))
    low, high = 0.0, pi / 2.0
    for _ in range(60):
        full = (low + high) / 2.0
        short = hypot(half + limb * cos(full), 26.0 - limb * sin(full)) > string
        low, high = (full, high) if short else (low, full)

    def tension(turned: float, depth: float) -> float:
        x, y = half + limb * cos(turned), limb * sin(turned)
        long = hypot(x, depth - y)
        lever = abs((x - half) * (depth - y) / long + y * x / long)
        return turned / lever

    drawn = tension(full, 26.0)
    sine = (26.0 - limb * sin(full)) / hypot(half + limb * cos(full), 26.0 - limb * sin(full))
    pull = 40.0 * tension(angle, 20.0) / (2.0 * drawn * sine)
    assert found["stringer_pull"].value / LBF == pytest.approx(pull, rel=0.02)
    lift = 2.0 * pull * (20.0 - bent) / hypot(out, 20.0 - bent)
    assert found["lift_force"].value / LBF == pytest.approx(lift, rel=0.02)


def test_held_higher_the_cord_is_longer_and_pulls_less() -> None:
    low, high = numbers(grip_lift="16 in"), numbers(grip_lift="24 in")
    assert high["stringer_length"].value > low["stringer_length"].value
    assert high["stringer_pull"].value < low["stringer_pull"].value


def test_a_bow_twice_as_strong_pulls_twice_as_hard_on_the_same_cord() -> None:
    one, two = numbers(draw_weight="30 lb"), numbers(draw_weight="60 lb")
    assert two["stringer_pull"].value == pytest.approx(2.0 * one["stringer_pull"].value)
    assert two["stringer_length"].value == pytest.approx(one["stringer_length"].value)


def test_strength_is_judged_on_the_low_end() -> None:
    found = numbers()
    assert found["stringer_safety"].low < found["stringer_safety"].value
    asked = found["cord_asked"].value
    assert asked == pytest.approx(5.0 * found["stringer_pull"].high / found["knot_leaves"].value)
    weak = answered(rope_thickness="0.06 in")
    assert by_key(weak.rows)["stringer_safety"].spread.value > 1.0
    assert "too weak" in weak.headlines[1].text
    assert any(each.text.startswith("Too weak") for each in weak.cautions)
    assert "strong enough" in answered().headlines[1].text


def test_pockets_go_round_their_tips() -> None:
    """Round a tip of 1/2 in: pi halves of an inch, 15 % more; folded in two, with a seam of 8 mm on each side."""
    made = pocket(RoundTip(0.5 * INCH), 0.0, INCH)
    assert made.girth_m.value == pytest.approx(1.15 * pi * 0.5 * INCH)
    assert made.wide_m.value == pytest.approx(made.girth_m.value / 2.0 + 0.016)
    assert made.long_m.value == pytest.approx(2.0 * INCH)
    assert pocket(FlatTip(0.02, 0.01), 0.003).girth_m.value == pytest.approx(1.15 * (0.06 + 0.012))


def test_what_a_stringer_can_do_to_people_is_said() -> None:
    said = " ".join(each.text for each in answered().cautions if each.level == "caution")
    for words in ("slips lets the bow fly", "never above", "eye protection"):
        assert words in said
    assert any("a cap can slip off" in each.text for each in answered(tip_beyond="3/8 in").cautions)
