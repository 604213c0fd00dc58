"""A force weighed beside the draw weight on the shot sheet, and how unsure a draw weight is that was only told."""

from __future__ import annotations

from math import exp, hypot

import pytest

from calc.data import practice
from calc.mechanics.bow import Bow, draw_curve, static_tension
from calc.mechanics.estimate import BowEstimate, ForceRead
from calc.units import INCH, POUND_FORCE
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from tests.calc.mechanics.estimate.made_up import force
from tests.calc.worksheets.typed_sheet import TypedSheet

pytestmark = pytest.mark.exact
SHEET = catalogue()["shot"]
TYPED = TypedSheet("shot")
answer, numbers = TYPED.answer, TYPED.ends
WEIGHED = {"limb_mass": "170 g", "string_mass": "70 gr", "string_stiffness": "20 kN"}
"""Nothing left to guess but bow and strength."""


def width(spread: tuple[float, float, float]) -> float:
    return spread[2] - spread[0]


def at_15_in(pounds: float = 40.0) -> dict[str, str]:
    """Return the force at 15 in of the usual bow, were it of so many pounds at 26 in."""
    bow = Bow(66 * INCH, 8 * INCH, "arc")
    far, near = (draw_curve(bow, 6.5 * INCH, to * INCH, 1.0).points[0].tension_n for to in (26, 15))
    return {"weighed_force": f"{pounds * far / near:.5f} lbf", "weighed_draw": "15 in"}


def test_a_told_draw_weight_makes_energy_and_pulls_as_unsure_as_itself() -> None:
    off = hypot(practice("weight_told").spread.high, practice("tape_reading").spread.high / (19.5 * INCH))
    found = numbers(**WEIGHED)
    assert found["weight_first"][2] == pytest.approx(40 * POUND_FORCE * exp(off), rel=1e-9)
    for key in ("stored_energy", "tension_draw"):
        assert found[key][2] / found[key][1] - 1.0 == pytest.approx(exp(off) - 1.0, rel=0.15), key
    stronger, weaker = (numbers(**WEIGHED, draw_weight=f"{40 * exp(side * off):.6f} lbf") for side in (1, -1))
    for key in (
        "stored_energy",
        "arrow_speed",
        "tension_brace",
        "tension_draw",
        "tension_peak_before",
        "tension_peak_after",
    ):
        assert found[key][0] <= weaker[key][1] * 1.002, key
        assert stronger[key][1] <= found[key][2] * 1.002, key


def test_a_stronger_bow_is_this_one_off_a_softer_string() -> None:
    """The law the spread hangs on, by shots of their own: strength and stiffness twice, speed by the root of two."""
    one = numbers(**WEIGHED)
    other = numbers(**WEIGHED | {"string_stiffness": "40 kN"}, draw_weight="80 lb")
    assert other["arrow_speed"][1] == pytest.approx(2.0**0.5 * one["arrow_speed"][1], rel=2e-3)
    assert other["efficiency"][1] == pytest.approx(one["efficiency"][1], rel=2e-3)
    assert other["stored_energy"][1] == pytest.approx(2.0 * one["stored_energy"][1], rel=1e-9)
    for key in ("tension_brace", "tension_draw"):
        assert other[key][1] == pytest.approx(2.0 * one[key][1], rel=1e-9)
    for key in ("tension_peak_before", "tension_peak_after"):
        assert other[key][1] == pytest.approx(2.0 * one[key][1], rel=1e-2)


def test_a_force_that_fits_changes_no_answer_and_narrows_all() -> None:
    before, after = numbers(**WEIGHED), numbers(**WEIGHED, **at_15_in())
    for key in (
        "stored_energy",
        "arrow_speed",
        "tension_brace",
        "tension_draw",
        "tension_peak_before",
        "tension_peak_after",
    ):
        assert after[key][1] == pytest.approx(before[key][1], rel=1e-4), key
        assert width(after[key]) < width(before[key]), key
    assert width(after["weight_found"]) < 0.8 * width(after["weight_first"]), "set that nobody measured"
    for straight, left in ((None, 0.8), (0.0, 0.5)):
        known = BowEstimate(
            nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc", handle_proud_m=straight,
            string_follow_m=straight, draw_m=26 * INCH, draw_weight_n=40 * POUND_FORCE, braced_m=6.5 * INCH,
        )  # fmt: skip
        at_15_n = force(Bow(66 * INCH, 8 * INCH, "arc"), 6.5 * INCH, 26 * INCH, 40 * POUND_FORCE, 15 * INCH)
        spreads = [
            each.spread(lambda bow: bow.weight_n) for each in (known, known.given(ForceRead(15 * INCH, at_15_n, 0.02)))
        ]
        assert spreads[1].high - spreads[1].low < left * (spreads[0].high - spreads[0].low)
    assert after["weight_first"] == pytest.approx(before["weight_first"], rel=1e-3)
    assert after["efficiency"][1] * after["stored_energy"][1] == pytest.approx(
        after["arrow_mass"][1] * after["arrow_speed"][1] ** 2 / 2.0, rel=1e-9
    )


def test_a_force_that_is_higher_lifts_the_draw_weight_most_of_the_way() -> None:
    found = numbers(**WEIGHED, **at_15_in(43.0))
    assert 41.5 * POUND_FORCE < found["weight_found"][1] < 43.0 * POUND_FORCE
    assert found["draw_weight"][1] == pytest.approx(40.0 * POUND_FORCE, rel=1e-12)
    real = static_tension(Bow(66 * INCH, 8 * INCH, "arc"), 6.5 * INCH, 26 * INCH, found["weight_found"][1])
    assert found["tension_draw"][1] == pytest.approx(real.draw_n, rel=0.02)
    assert found["stored_energy"][1] == pytest.approx(real.energy_j, rel=0.02)


def test_a_bow_nobody_looked_at_gets_surer_than_by_its_strength_alone() -> None:
    pipe = WEIGHED | {"nock_to_nock": "46 in", "handle_length": "?", "limb_shape": "unknown", "draw_weight": "25 lb",
                      "draw_length": "20 in", "brace_height": "6 in"}  # fmt: skip
    before = numbers(**pipe)
    after = numbers(**pipe, weighed_force="13 lb", weighed_draw="12 in")
    for key in ("stored_energy", "tension_brace", "tension_draw"):
        assert width(after[key]) < 0.8 * width(before[key]), key
    assert 0.0 <= after["handle"][0] < after["handle"][1] < before["handle"][1]


def test_what_is_said_of_it() -> None:
    def said(**changed: str) -> str:
        return " ".join(each.text for each in answer(**changed).cautions)

    assert "With the force you weighed" in said(**at_15_in())
    assert "do not go together" not in said(**at_15_in())
    assert "do not go together" in said(**at_15_in(60.0))
    table = {"force_table": "10 in 9 lb\n26 in 40 lb"}
    assert "is left aside" in said(**table, **at_15_in())
    assert "is left aside" not in said(**table)
    assert "With the force you weighed" not in said()
    assert numbers(**table, **at_15_in())["stored_energy"] == numbers(**table)["stored_energy"]
    assert "weight_first" not in numbers(**table)


@pytest.mark.parametrize(
    ("changed", "field", "text"),
    [
        ({"weighed_force": "20 lb"}, "weighed_draw", "Enter both: the force that was weighed"),
        ({"weighed_draw": "20 in"}, "weighed_force", "Enter both: the force that was weighed"),
        (
            {"weighed_force": "20 lb", "weighed_draw": "10 in"},
            "weighed_draw",
            "The weighed draw must be 4 in (100 mm)",
        ),
        (
            {"nock_to_nock": "36 in", "brace_height": "5 in", "draw_length": "14 in", "weighed_force": "20 lb"}
            | {"weighed_draw": "30 in"},
            "weighed_draw",
            "Draw length is more than a bow of this length can follow",
        ),
    ],
)
def test_what_is_refused(changed: dict[str, str], field: str, text: str) -> None:
    told = ask(SHEET, usual(SHEET, changed), "inch")
    assert not isinstance(told, Answer)
    assert told[0].field == field
    assert told[0].text.startswith(text)
