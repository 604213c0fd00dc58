"""Forces on the brace sheet: what they tell, how far they narrow, and what is said of it."""

from __future__ import annotations

import pytest

from calc.mechanics.bow import Bow, draw_curve, static_tension, string_length
from calc.units import INCH, POUND_FORCE
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

pytestmark = pytest.mark.exact
SHEET = catalogue()["brace"]
TYPED = TypedSheet("brace")
answer, numbers = TYPED.answer, TYPED.ends
PIPE = {"nock_to_nock": "46 in", "handle_length": "?", "limb_shape": "unknown", "brace_height": "6 in"}
REAL = Bow(46 * INCH, 5 * INCH, "uniform")
"""What the pipe bow really is, which nobody told."""


def width(spread: tuple[float, float, float]) -> float:
    return spread[2] - spread[0]


def weighed() -> dict[str, str]:
    """Return what is read off a bow of 25 lb at 20 in, weighed at 12 in."""
    far, near = (draw_curve(REAL, 6 * INCH, to * INCH, 1.0).points[0].tension_n for to in (20, 12))
    told = {"draw_weight": "25 lb", "draw_length": "20 in"}
    return told | {"weighed_force": f"{25.0 * far / near:.4f} lbf", "weighed_draw": "12 in"}


def test_a_bow_nobody_looked_at_is_found_within_what_is_told_and_every_spread_narrows() -> None:
    real = static_tension(REAL, 6 * INCH, 20 * INCH, 25.0 * POUND_FORCE)
    found = numbers(**PIPE, **weighed())
    truth = {
        "weight_found": 25.0 * POUND_FORCE,
        "tension_brace": real.brace_n,
        "tension_draw": real.draw_n,
        "stored_energy": real.energy_j,
        "string_length": string_length(REAL, 6 * INCH),
    }
    for key, value in truth.items():
        assert found[key][0] < value < found[key][2], key
    for now, first, most in (  # set that nobody measured bends the way from the weighed draw to the full one
        ("weight_found", "weight", 0.85),
        ("tension_brace", "pull", 0.55),
        ("stored_energy", "energy", 0.4),
    ):
        assert width(found[now]) / width(found[f"{first}_first"]) == pytest.approx(found[f"{first}_left"][1], rel=1e-9)
        assert found[f"{first}_left"][1] < most
    assert width(found["string_length"]) / width(found["length_first"]) == pytest.approx(found["length_left"][1])
    assert found["length_left"][1] < 0.8
    off = abs(found["string_length"][1] - truth["string_length"])
    assert off < abs(found["length_first"][1] - truth["string_length"])


def test_the_string_asked_for_by_its_length_narrows_too() -> None:
    typed = PIPE | {"brace_height": "", "string_length": f"{string_length(REAL, 6 * INCH) / INCH:.4f} in"}
    found = numbers(**typed, **weighed())
    assert found["brace_height"][0] < 6 * INCH < found["brace_height"][2]
    assert width(found["brace_height"]) / width(found["length_first"]) == pytest.approx(found["length_left"][1])
    assert found["length_left"][1] < 0.95


def test_one_force_alone_tells_the_strength_and_leaves_the_answer() -> None:
    once = {"weighed_force": "20 lb", "weighed_draw": "15 in"}
    plain, found = numbers(), numbers(**once, draw_length="26 in")
    for key in ("string_length", "brace_height", "brace_low", "limb"):
        assert found[key] == pytest.approx(plain[key], rel=2e-4)
    assert found["length_left"][1] == pytest.approx(1.0, rel=1e-4)
    assert "weight_first" not in found
    there = numbers(**once)
    assert there["weight_found"][1] == pytest.approx(20 * POUND_FORCE, rel=1e-12)
    assert there["full_draw"][1] == 15 * INCH
    assert found["weight_found"][1] > there["weight_found"][1]


def test_a_draw_weight_alone_is_taken_as_told() -> None:
    found = numbers(draw_weight="40 lb", draw_length="26 in")
    assert found["weight_found"] == found["weight_first"]
    assert found["weight_found"][1] == pytest.approx(40 * POUND_FORCE, rel=1e-12)
    assert "weighed_force" not in found
    assert answer(draw_weight="40 lb", draw_length="26 in").tables("inch")[0].key == "ladder"
    dealers = numbers(draw_weight="40 lb", draw_length="27 3/4 in", draw_from="dealer")
    assert dealers["weight_found"] == pytest.approx(found["weight_found"])
    assert dealers["full_draw"][1] == pytest.approx(26 * INCH)


def test_forces_are_read_at_the_brace_height_of_the_string_that_was_on() -> None:
    strings = {"measured_string": "63 1/2 in", "measured_brace": "7 in"}
    there = numbers(**strings, **weighed_long(), brace_height="7 in")
    lower = numbers(**strings, **weighed_long(), brace_height="6 in")
    assert there["weight_found"][1] == pytest.approx(lower["weight_found"][1], rel=0.03)
    assert there["weight_found"][1] > lower["weight_found"][1]  # a longer string bends the limbs less
    assert numbers(**strings)["calibrated"] == pytest.approx(there["calibrated"], rel=2e-4)


def weighed_long() -> dict[str, str]:
    return {"weighed_force": "20 lb", "weighed_draw": "15 in", "draw_length": "26 in"}


def test_what_is_said_of_it() -> None:
    def said(**changed: str) -> str:
        return " ".join(each.text for each in answer(**changed).cautions)

    assert "Never let the string go without an arrow" in said(**PIPE, **weighed())
    assert "do not go together" not in said(**PIPE, **weighed())
    apart, wrong = (weighed() | {"weighed_force": text} for text in ("16 lb", "60 lb"))
    assert "These forces do not go together" in said(**PIPE, **apart)
    told = ask(SHEET, usual(SHEET, PIPE | wrong), "inch")
    assert not isinstance(told, Answer)
    assert (told[0].field, told[0].text[:31]) == ("weighed_force", "These forces do not go together")
    assert "Enter the draw length too" in said(draw_weight="40 lb")
    assert "Enter the draw length too" not in said(draw_weight="40 lb", draw_length="26 in")
    leads = [each.lead for each in answer(**PIPE, **weighed()).headlines]
    assert leads[-1] == "The bow pulls"
    assert "The bow pulls" not in [each.lead for each in answer().headlines]


def test_the_table_shows_before_and_after() -> None:
    table = answer(**PIPE, **weighed()).tables("inch")[0]
    assert table.key == "learnt"
    assert all(table.heads)  # a column without a name would let the others slip to the left on the page
    assert [len(line) for line in table.cells] == [4] * 4
    assert table.cells[0][1:] == (
        "{weight_first.low} to {weight_first.high}",
        "{weight_found.low} to {weight_found.high}",
        "{weight_left}",
    )
    assert "by their ratio" in table.note
    once = answer(**weighed_long()).tables("inch")[0]
    assert once.cells[0][1] == "not known"
    assert once.cells[3][3] == "{length_left}"
    assert "nothing of how its limbs bend" in once.note


def test_the_drawn_bow_is_the_one_that_fits() -> None:
    drawn = [answer(**PIPE, **forces).figures("inch")[0].shapes for forces in ({}, weighed())]
    assert drawn[0] != drawn[1]


@pytest.mark.parametrize(
    ("changed", "field", "text"),
    [
        ({"weighed_force": "20 lb"}, "weighed_draw", "Enter both: the force that was weighed and the draw"),
        ({"weighed_draw": "20 in"}, "weighed_force", "Enter both: the force that was weighed and the draw"),
        ({"weighed_force": "20 lb", "weighed_draw": "10 in"}, "weighed_draw", "A draw must be 4 in or more above"),
        ({"draw_weight": "20 lb", "draw_length": "10 in"}, "draw_length", "A draw must be 4 in or more above"),
        (
            {"draw_weight": "20 lb", "draw_length": "9 in", "brace_height": "", "string_length": "64 in"},
            "draw_length",
            "A draw must be 4 in or more above",
        ),
        (
            {"measured_string": "62 in", "measured_brace": "9 in", "weighed_force": "9 lb", "weighed_draw": "12 in"},
            "weighed_draw",
            "A draw must be 4 in or more above",
        ),
        (
            {"nock_to_nock": "36 in", "brace_height": "5 in", "draw_weight": "20 lb", "draw_length": "30 in"},
            "draw_length",
            "This draw is more than a bow of this length can follow",
        ),
        (
            {"nock_to_nock": "36 in", "brace_height": "5 in", "weighed_force": "20 lb", "weighed_draw": "30 in"}
            | {"draw_length": "14 in"},
            "weighed_draw",
            "This draw is more than a bow of this length can follow",
        ),
        (  # a bow that goes with both would have to push
            {"nock_to_nock": "21.25 in", "brace_height": "2 in", "draw_weight": "40 lb", "draw_length": "8 in"}
            | {"weighed_force": "32 lb", "weighed_draw": "14 in"},
            "weighed_force",
            "These forces do not go together on any bow of this length",
        ),
    ],
)
def test_what_is_refused(changed: dict[str, str], field: str, text: str) -> None:
    told = ask(SHEET, usual(SHEET, changed), "inch")
    assert not isinstance(told, Answer)
    assert told[0].field == field
    assert told[0].text.startswith(text)
