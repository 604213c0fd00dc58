"""The tiller sheet: a long string as another solver has it, laws of three strings, and what the sheet says."""

from __future__ import annotations

from math import cos, hypot, sin
from typing import TYPE_CHECKING, TypeAlias

import pytest

from calc.mechanics.bow import Bow, draw_curve, drawn_on_long, string_length
from tests.calc.worksheets.typed_sheet import TypedSheet

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact
TYPED = TypedSheet("tiller")
answered, numbers = TYPED.answer, TYPED.spreads
INCH, LBF = 0.0254, 4.4482216152605
STRAIGHT = {"handle_proud": "0 in", "string_follow": "0 in"}


_Case: TypeAlias = "tuple[dict[str, str], dict[str, tuple[float, float, float]]]"
LINKED: tuple[_Case, ...] = (
    (
        {"nock_to_nock": "66 in", "handle_length": "8 in", "brace_height": "6.5 in", "draw_length": "26 in",
         "draw_weight": "40 lb"},
        {"uniform": (35.3, 9.7, 12.9), "arc": (34.9, 9.5, 12.7), "tapered": (34.5, 9.4, 12.5)},
    ),
    (
        {"nock_to_nock": "58 in", "handle_length": "6 in", "brace_height": "6 in", "draw_length": "24 in",
         "draw_weight": "28 lb"},
        {"uniform": (24.4, 8.9, 11.9), "arc": (24.1, 8.8, 11.8), "tapered": (23.7, 8.6, 11.6)},
    ),
)  # fmt: skip
"""By another solver (forty rigid links a limb, a string that stretches and weighs something): on a string 4 in longer
than the bow, drawn to the mark of full draw, the scale [lbf] and how far the tips have moved [in]; and how far on the
last string [in]."""


@pytest.mark.parametrize("case", LINKED, ids=lambda case: case[0]["nock_to_nock"])
@pytest.mark.parametrize("shape", ["uniform", "arc", "tapered"])
def test_a_long_string_as_a_solver_with_links_has_it(case: _Case, shape: str) -> None:
    typed, shapes = case
    reads, long_in, last_in = shapes[shape]
    found = numbers(**STRAIGHT, **typed, limb_shape=shape, long_extra="4 in")
    assert found["long_reads"].value / LBF == pytest.approx(reads, abs=0.1)
    assert found["long_bend"].value == pytest.approx(long_in / last_in, abs=0.01)


@pytest.mark.parametrize("shape", ["uniform", "arc", "tapered", "hinged"])
def test_a_string_that_does_brace_is_the_braced_bow(shape: LimbShape) -> None:
    """The same sum from the other side: a string that braces by half an inch, taken for a long one."""
    bow = Bow(1.6, 0.2, shape)
    string_m = string_length(bow, 0.0127)
    long = drawn_on_long(bow, string_m, (0.35, 0.6))
    curve = draw_curve(bow, 0.0127, 0.6, 1.0, steps=1000)
    forces = [2.0 * each.load * sin(each.pull_rad) for each in long]
    near = min(curve.points, key=lambda each: abs(each.draw_m - 0.35))
    assert forces[0] / forces[1] == pytest.approx(near.force_n, rel=5e-3)


def test_the_string_keeps_its_length_and_is_slack_until_it_is_tight() -> None:
    bow = Bow(1.6, 0.2, "arc")
    slack, taut = drawn_on_long(bow, 1.7, (0.28, 0.5))
    assert slack.load == 0.0
    tip = 0.1 + taut.along * bow.limb_m, taut.across * bow.limb_m
    assert hypot(tip[0], 0.5 - tip[1]) == pytest.approx(0.85, rel=1e-6)
    assert taut.load > 0.0
    assert cos(taut.pull_rad) == pytest.approx(tip[0] / 0.85, rel=1e-6)


def test_the_longer_the_string_the_less_it_shows_and_the_later_it_is_changed() -> None:
    short, long = (numbers(**STRAIGHT, long_extra=each) for each in ("2 in", "6 in"))
    assert long["long_reads"].value < short["long_reads"].value < 40 * LBF
    assert long["change_draw"].value > short["change_draw"].value
    assert long["change_reads"].value != pytest.approx(short["change_reads"].value)
    assert short["first_reads"].value == pytest.approx(long["first_reads"].value)


def test_the_bow_that_fools_the_long_string() -> None:
    found = numbers(**STRAIGHT)
    assert found["long_hides"].value == pytest.approx((40 * LBF) ** 2 / found["long_reads"].value)
    again = numbers(**STRAIGHT, draw_weight=f"{found['long_hides'].value} N")
    assert again["long_reads"].value == pytest.approx(40 * LBF)


def test_the_tree_has_even_marks_and_ends_at_the_weight_wanted() -> None:
    (table,) = answered().tables("inch")
    assert [line[0] for line in table.cells] == [f"{k} in" for k in range(8, 27, 2)]
    assert table.cells[0][1] == "slack"
    assert table.cells[-1][3] == "40.0 lb"
    (table,) = answered().tables("metric")
    assert table.cells[0][0] == "200 mm"


def test_what_a_tree_can_do_to_people_is_said() -> None:
    said = " ".join(each.text for each in answered().cautions if each.level == "caution")
    for words in ("break", "aside", "eyes covered", "children", "Common practice, no published source"):
        assert words in said
