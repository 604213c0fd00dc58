"""The loops worksheet: circles and tangents worked by hand, the trade's loops, laws of fit, and its sentences."""

from __future__ import annotations

from math import cos, pi, radians, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import rule
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

SHEET = catalogue()["loops"]
TYPED = TypedSheet("loops", "metric")
answer, numbers, values = TYPED.answer, TYPED.spreads, TYPED.values
INCH = 0.0254


@pytest.mark.exact
def test_two_tangents_to_a_round_tip_by_hand() -> None:
    """Tip 20 mm, cord 2 mm, legs 60 degrees apart: circle of radius 11, tangents from 1 mm off the middle line.

    The legs' line stands 11 mm from the middle and leans 30 degrees, so it passes y = 1 mm at
    x = (11 - 1 cos 30) / sin 30; the tangent from there is sqrt(x^2 + 1 - 121), and 180 + 60 degrees are wrapped.
    """
    made = values(tip="round 20 mm", cord_diameter="2 mm")
    throat = (11 - cos(pi / 6)) / 0.5 / 1000
    leg = sqrt(throat**2 + 0.001**2 - 0.011**2)
    assert made["opening"] == pytest.approx(pi / 3, rel=1e-4)
    assert made["throat"] == pytest.approx(throat, rel=1e-4)
    assert made["loop_length"] == pytest.approx(2 * leg + 0.011 * (pi + pi / 3), rel=1e-4)
    assert made["reach"] == pytest.approx(made["throat"] - 0.010, rel=1e-9)
    assert made["leg_pull"] == pytest.approx(1 / sqrt(3), rel=1e-4)


@pytest.mark.exact
def test_a_sliding_loop_is_the_tight_one_and_a_twentieth_of_the_girth() -> None:
    """Three circles that touch: a cord as thick as its tip closes at 120 degrees."""
    made = values(tip="round 6 mm", passes="round 6 mm", cord_diameter="6 mm", loop_fit="sliding")
    tight = 2 * 0.006 * radians(150)
    assert made["loop_length"] == pytest.approx(tight + 0.05 * pi * 0.006, rel=1e-9)
    assert made["girth"] == pytest.approx(pi * 0.006, rel=1e-9)


@pytest.mark.exact
def test_a_loop_that_passes_a_thicker_place_is_that_places_loop() -> None:
    over = values(tip="round 1/2 in", passes="round 1 in", loop_fit="sliding")
    there = values(tip="round 1 in", passes="round 1 in", loop_fit="sliding")
    assert over["loop_length"] == pytest.approx(there["loop_length"], rel=1e-12)
    assert over["opening"] < there["opening"]
    assert over["loop_raw"] == pytest.approx(there["loop_raw"], rel=1e-12)


@pytest.mark.exact
@pytest.mark.parametrize("tip", ["round 3/8 in", "round 1/2 in", "round 5/8 in", "round 3/4 in", "flat 5/8 x 3/8 in"])
def test_a_loop_that_slides_is_never_smaller_than_one_made_for_its_nock(tip: str) -> None:
    """Told alone, the bench sheet gave 2 in for the sliding loop and 2 1/4 for the other, on one tip of 1/2 in."""
    slides, sits = (values(tip=tip, loop_fit=fit) for fit in ("sliding", "nocked"))
    assert slides["loop_raw"] > sits["loop_raw"]
    string = catalogue()["string"]
    bench = ask(string, usual(string, {"tip_upper": tip, "tip_lower": tip}), "metric")
    assert isinstance(bench, Answer)
    planned = {row.key: row.spread.value for row in bench.rows}
    assert planned["loop_upper"] > planned["loop_lower"]


@pytest.mark.exact
def test_a_limb_that_was_told_counts_as_it_was_told() -> None:
    told = values(tip="round 1/2 in", passes=f"round {12.7 + 4.0} mm", loop_fit="sliding")
    left = values(tip="round 1/2 in", loop_fit="sliding")
    assert told["loop_raw"] == pytest.approx(left["loop_raw"], rel=1e-9)
    assert told["thicker"] == 0.0
    assert left["thicker"] == pytest.approx(0.004)
    assert values(tip="pipe 3/4", loop_fit="sliding")["thicker"] == 0.0


@pytest.mark.exact
def test_the_bundle_is_what_the_bench_sheet_marks_off() -> None:
    """Same tip, same bundle, same lay: the loops of the two worksheets are one."""
    string = catalogue()["string"]
    bench = ask(string, usual(string), "metric")
    assert isinstance(bench, Answer)
    planned = {row.key: row.spread.value for row in bench.rows}
    cord = f"{planned['cord_diameter'] * 1000:.9f} mm"
    for fit, key in (("sliding", "loop_upper"), ("nocked", "loop_lower")):
        assert values(cord_diameter=cord, loop_fit=fit)["loop_raw"] == pytest.approx(planned[key], rel=1e-6)


@pytest.mark.practice
def test_three_inches_of_bundle_suit_most_bows() -> None:
    """Common practice, no published source: met by tips of 5/8 and 3/4 in; slimmer tips take less."""
    said = rule("loop_length").figure("most bows").spread
    for tip in ("round 5/8 in", "round 3/4 in"):
        assert said.low <= values(tip=tip)["loop_raw"] <= said.high
    assert values(tip="round 1/2 in")["loop_raw"] < said.low


@pytest.mark.practice
def test_at_least_three_and_a_half_inches_slide_over_a_three_quarter_pipe() -> None:
    """Common practice, no published source. The trade's 4 in over a 1 in pipe is shorter than that pipe is round."""
    least = rule("loop_length").figure("over a 3/4 in pipe, at least").spread.value
    assert values(tip="pipe 3/4", loop_fit="sliding")["loop_raw"] > least
    inch = values(tip="pipe 1", loop_fit="sliding")
    said = rule("loop_length").figure("over a 1 in pipe").spread
    assert inch["girth"] > said.value
    assert inch["loop_raw"] > said.high


@pytest.mark.transcribed
def test_pipes_are_as_thick_as_the_standard_has_them() -> None:
    """ASME B36.10M: nominal 3/4 is 1.050 in outside, nominal 1 is 1.315 in."""
    assert values(tip="pipe 3/4")["tip_wide"] == pytest.approx(1.050 * INCH, rel=1e-9)
    assert values(tip="pipe 1")["tip_wide"] == pytest.approx(1.315 * INCH, rel=1e-9)


SIZE = st.floats(4.0, 40.0)
CORD = st.floats(1.0, 6.0)
FIT = st.sampled_from(["nocked", "sliding"])


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(size=SIZE, cord=CORD, fit=FIT, more=st.floats(1.01, 1.5))
def test_a_thicker_tip_or_cord_wants_a_longer_loop(size: float, cord: float, fit: str, more: float) -> None:
    made = values(tip=f"round {size:.6f} mm", cord_diameter=f"{cord:.6f} mm", loop_fit=fit)
    tip = values(tip=f"round {size * more:.6f} mm", cord_diameter=f"{cord:.6f} mm", loop_fit=fit)
    thick = values(tip=f"round {size:.6f} mm", cord_diameter=f"{cord * more:.6f} mm", loop_fit=fit)
    for key in ("loop_length", "loop_raw"):
        assert made[key] < tip[key]
        assert made[key] < thick[key]
    assert made["loop_length"] > pi * (size + cord) / 1000 * 0.5 + made["throat"]
    assert made["loop_raw"] > made["loop_length"]


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(size=SIZE, deep=SIZE, cord=CORD, fit=FIT, scale=st.floats(0.7, 2.0), bundles=st.sampled_from("23"))
def test_a_loop_twice_as_large_in_all_is_twice_as_long(
    *, size: float, deep: float, cord: float, fit: str, scale: float, bundles: str
) -> None:
    def made(k: float) -> dict[str, float]:
        tip = f"flat {size * k:.9f} x {deep * k:.9f} mm"
        passes = f"flat {size * 1.2 * k:.9f} x {deep * 1.2 * k:.9f} mm"
        return values(tip=tip, passes=passes, cord_diameter=f"{cord * k:.9f} mm", loop_fit=fit, bundles=bundles)

    one, other = made(1.0), made(scale)
    for key in ("loop_length", "loop_raw", "throat"):
        assert other[key] == pytest.approx(scale * one[key], rel=1e-6)
    assert other["opening"] == pytest.approx(one["opening"], rel=1e-6)


@pytest.mark.exact
def test_what_is_not_known_widens_and_a_pipe_narrows() -> None:
    def wide(**typed: str) -> float:
        spread = numbers(loop_fit="sliding", **typed)["loop_length"]
        return (spread.high - spread.low) / spread.value

    measured = {"passes": "round 5/8 in"}
    assert wide(tip="not known") > 1.5 * wide(tip="round 1/2 in") > 2 * wide(tip="round 1/2 in", **measured)
    assert wide(tip="pipe 1/2") < wide(tip="round 0.84 in")


@pytest.mark.exact
def test_units_change_no_number_and_the_table_no_row() -> None:
    found = [ask(SHEET, usual(SHEET), system) for system in ("inch", "metric")]
    first, second = (each for each in found if isinstance(each, Answer))
    assert first.rows == second.rows
    table = first.tables("inch")[0]
    assert table.cells[1] == ("round 1/2 in", "2 1/4 in", "2 9/16 in")
    assert second.tables("metric")[0].cells[1][1] == "57 mm"
    thick = answer(cord_diameter="24 mm", tip="round 2 in").tables("metric")[0]
    assert len(thick.cells) == len(table.cells)


@pytest.mark.exact
def test_cautions_come_where_they_apply() -> None:
    def said(**typed: str) -> str:
        return " ".join(each.text for each in answer(**typed).cautions)

    assert "wider than" not in said()
    assert "wider than" not in said(loop_fit="sliding")
    assert "wider than" in said(loop_fit="sliding", tip="pipe 3/4")
    assert "Plastic pipe" in said(tip="pipe 3/4")
    assert "need not pass" in said(passes="round 1 in")
    assert "grooves" in said()


SENTENCES = [
    ({"tip": "round 3 mm", "cord_diameter": "20 mm"}, "cord_diameter", "This cord is too thick to close"),
    ({"tip": "square 3"}, "tip", "Say round, flat or pipe"),
    ({"tip": "flat 3 in"}, "tip", "A flat tip has two measures"),
    ({"tip": "round 1 mm"}, "tip", "Limb tip must be"),
    ({"passes": "pipe 9"}, "passes", "This pipe size is not in the table"),
    ({"cord_diameter": "40 lb"}, "cord_diameter", "Thickness of the cord must be a thickness"),
]  # fmt: skip


@pytest.mark.exact
@pytest.mark.parametrize(("typed", "field", "begins"), SENTENCES)
def test_sentences(typed: dict[str, str], field: str, begins: str) -> None:
    found = ask(SHEET, usual(SHEET, typed), "metric")
    assert not isinstance(found, Answer)
    assert (found[0].field, found[0].text[: len(begins)]) == (field, begins)
