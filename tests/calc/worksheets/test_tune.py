"""The tuning sheet: against hand calculation, the bench sheet and its own laws; readings narrow it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import cos, pi, sqrt, tan
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import practice
from calc.making.tuning import BraceReading, Tuned, sweep, tune
from calc.making.tuning.bracing import free_body
from calc.mechanics.estimate import BowEstimate
from calc.units import INCH
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, outcome, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

if TYPE_CHECKING:
    from calc.numerics import Spread

exact = pytest.mark.exact
SHEET = catalogue()["tune"]
TYPED = TypedSheet("tune")
answer, refusal = TYPED.answer, TYPED.refusal
USUAL = Tuned(
    bow=BowEstimate(nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc"),
    brace_m=6 * INCH,
    wanted_m=6.5 * INCH,
    string_m=None,
    tail_m=8 * INCH,
    bundles=2,
    bundle_m=0.045 * INCH,
    cord_m=None,
    turns=60.0,
    per_m=None,
)


def spread(key: str, **changed: str) -> Spread:
    return next(row.spread for row in answer(**changed).rows if row.key == key)


def value(key: str, **changed: str) -> float:
    return spread(key, **changed).value


def said(**changed: str) -> str:
    told = outcome(SHEET, answer(**changed), "inch")
    lines = [f"{each['lead']}: {each['text']} {each['range']}" for each in told["headlines"]]
    return " ".join([*lines, *(each["text"] for each in told["cautions"])])


@exact
def test_the_lay_now_by_hand() -> None:
    """A turn goes round a circle of one bundle diameter: tan(lay) = pi D N / length."""
    free = value("free_body")
    by_hand = pi * 0.049 * INCH * 60.0 / free
    assert tan(value("lay_now", cord_diameter="", bundle_diameter="0.049 in")) == pytest.approx(by_hand, rel=1e-12)
    assert tan(value("lay_now")) == pytest.approx(by_hand, rel=1e-12)


@exact
def test_a_turn_by_hand() -> None:
    """Bundles that keep their length shorten a body by (pi D)^2 N / length a turn; their own twist then takes a bit.

    The brace height of hinged limbs rises by sqrt(a^2 - H^2) / (2 H) of that.
    """
    typed = {"limb_shape": "hinged", "cord_diameter": "", "bundle_diameter": "0.045 in"}
    free, arm, brace = value("free_body", **typed) / INCH, 0.75 * 29.0, 6.0
    taken = (pi * 0.045) ** 2 * 60.0 / free
    rise = taken * sqrt(arm**2 - brace**2) / (2.0 * brace)
    per_turn = value("brace_per_turn", **typed) / INCH / practice("turn_response").spread.value
    assert per_turn == pytest.approx(rise, rel=0.06)


@exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    now=st.floats(5.0, 8.0),
    wanted=st.floats(5.5, 7.5),
    turns=st.floats(30.0, 120.0),
    bundles=st.sampled_from([2, 3]),
    told=st.booleans(),
)
def test_the_laws_of_tuning(now: float, wanted: float, turns: float, bundles: int, *, told: bool) -> None:
    asked = replace(USUAL, brace_m=now * INCH, wanted_m=wanted * INCH, bundles=bundles, turns=turns if told else None)
    done = tune(asked)
    figures = done.figures
    for key, each in figures.items():
        assert each.low <= each.value <= each.high, key
    change = figures["turns_change"].value
    assert (change > 0.0) == (wanted > now) or abs(wanted - now) < 1e-9
    assert figures["turns_new"].value == pytest.approx(figures["turns_now"].value + change, abs=1e-9)
    assert done.brace_at(figures["turns_new"].value) == pytest.approx(figures["brace_then"].value, abs=1e-8)
    ends = done.body.ends
    if ends.slack.turns + 0.01 < figures["turns_new"].value < ends.jam.turns - 0.01:
        assert figures["brace_then"].value == pytest.approx(wanted * INCH, abs=1e-8)
    more = tune(replace(asked, wanted_m=asked.wanted_m + 0.002)).figures["turns_change"].value
    assert more >= change


@exact
def test_putting_them_in_one_after_the_other_is_the_same() -> None:
    """Half the way, then the other half: the same turns but for the counter-twist, which is guessed anew."""
    once = tune(USUAL).figures
    half = tune(replace(USUAL, wanted_m=6.25 * INCH)).figures
    rest = tune(replace(USUAL, brace_m=6.25 * INCH, turns=half["turns_new"].value)).figures
    assert rest["turns_new"].value == pytest.approx(once["turns_new"].value, abs=0.5)


@exact
def test_the_window_is_that_of_the_bench_sheet() -> None:
    """Given the bench sheet's fresh body, its string's change is that of this one, bedded and stretched."""
    sheet = catalogue()["string"]
    bench = ask(sheet, usual(sheet, {"limb_shape": "arc"}), "inch")
    assert isinstance(bench, Answer)
    there = {row.key: row.spread.value for row in bench.rows}
    found = free_body(there["string_length"], USUAL.tail_m, practice("tip_usual").spread.value)
    asked = replace(
        USUAL,
        brace_m=there["brace_height"],
        string_m=there["string_length"] + there["middle_cord"] - found,
        bundle_m=there["bundle_diameter"],
        turns=there["turns_body"],
        wanted_m=there["brace_high"],
    )
    figures = tune(asked).figures
    longer = practice("turn_response").spread.value / (1.0 + there["bedding"]) / (1.0 + there["strain"])
    for key in ("brace_low", "brace_high"):
        moved = (figures[key].value - there["brace_height"]) / longer
        assert moved == pytest.approx(there[key] - there["brace_height"], rel=0.01)
    assert figures["turns_tight"].value == pytest.approx(there["turns_tight"], rel=1e-6)
    assert figures["turns_loose"].value == pytest.approx(there["turns_loose"], rel=1e-6)


@exact
def test_what_is_not_known_widens() -> None:
    def width(key: str, **changed: str) -> float:
        there = spread(key, **changed)
        return there.high - there.low

    assert width("brace_per_turn", turns="") > 2.0 * width("brace_per_turn")
    assert width("brace_per_turn", limb_shape="unknown") > width("brace_per_turn")
    assert width("turns_change", handle_length="?") > width("turns_change")


@exact
def test_readings_as_the_sums_have_them_narrow_the_answer_and_leave_it() -> None:
    """Heights as a usual string gives them: the middle stays, each reading makes the spread narrower."""
    plain = tune(USUAL)
    heights = [plain.brace_at(60.0 - each) for each in (15.0, 30.0)]
    once = tune(replace(USUAL, readings=(BraceReading(15.0, heights[0]),)))
    twice = tune(replace(USUAL, readings=(BraceReading(30.0, heights[1]), BraceReading(15.0, heights[0]))))
    widths = []
    for done in (plain, once, twice):
        turn = done.figures["brace_per_turn"]
        assert turn.value == pytest.approx(plain.figures["brace_per_turn"].value, rel=1e-6)
        widths.append(turn.high - turn.low)
    assert widths[1] < 0.85 * widths[0]
    assert widths[2] < 0.9 * widths[1]
    assert once.untaught == plain.figures["brace_per_turn"]
    assert 0.0 < once.believed < twice.believed < 1.0


@exact
def test_a_string_that_answers_otherwise_is_believed() -> None:
    """Heights made by a string that answers 1.2 or 2.5 times: the answer leans that way, and goes over in the end."""
    plain = tune(USUAL)

    def taught(times: float) -> float:
        heights = [6 * INCH + times * (plain.brace_at(60.0 - each) - 6 * INCH) / plain.response for each in (15, 30)]
        readings = (BraceReading(30.0, heights[1]), BraceReading(15.0, heights[0]))
        done = tune(replace(USUAL, readings=readings))
        assert done.figures["response_measured"].value == pytest.approx(times, rel=1e-6)
        return done.response

    assert plain.response < taught(1.2) < 1.2
    assert taught(2.5) == pytest.approx(2.5, rel=1e-6)


@exact
def test_readings_too_close_say_so() -> None:
    assert "too close together" in said(brace_first="6 in", turns_first="1/2")
    assert "of its width" in said(brace_first="5 1/2 in", turns_first="10", turns="70")
    assert "your readings alone are used" in said(brace_first="5 1/4 in", turns_first="10")


@exact
def test_turned_twice_is_told_in_order() -> None:
    """First height, turns, second height, turns, now: the first lies both counts back."""
    typed = {"brace_first": "5 1/4 in", "turns_first": "10", "brace_second": "5 5/8 in", "turns_second": "12"}
    asked = replace(USUAL, turns=80.0, readings=(BraceReading(22.0, 5.25 * INCH), BraceReading(12.0, 5.625 * INCH)))
    by_hand = tune(asked).figures["turns_change"].value
    assert value("turns_change", turns="80", cord_diameter="", bundle_diameter="0.045 in", **typed) == pytest.approx(
        by_hand, rel=1e-12
    )


@exact
def test_the_range_line_and_the_verdict() -> None:
    assert "At the range: put in 10 turns: now 6 in, wanted 6 1/2 in 8 to 13.5 turns" in said()
    assert "take out" in said(brace_now="7 in")
    assert "leave it" in said(brace_now="6 1/2 in")
    assert "Make it again?: no" in said()
    assert "kink when slack before" in said(brace_height="8 1/2 in")
    assert "Too many for this string" in said(brace_height="8 1/2 in")
    assert "fall open before" in said(brace_height="4 1/2 in")
    assert "turns cannot bring it there" in said(brace_height="4 1/2 in")
    assert "Do not draw the bow with it" in said(brace_height="4 1/2 in")


@exact
def test_which_way_to_turn_the_loop() -> None:
    """A right-handed helix, Z like a common screw, tightens as its near end turns counter-clockwise."""
    assert "turn it counter-clockwise, as you look from the loop along the string: that tightens a Z lay" in said()
    assert "turn it clockwise, as you look from the loop along the string: that tightens an S lay" in said(hand="S")
    assert "turn it clockwise, as you look from the loop along the string: that opens a Z lay" in said(brace_now="7 in")
    assert value("turns_change", hand="S") == value("turns_change")


@exact
def test_the_jam_is_that_of_zero_twist() -> None:
    """Olsen and Bohr's most turns, here for two bundles: 0.23526 / bundle diameter over their length."""
    made = tune(USUAL).body
    twisted = made.ends.jam.cord_m / cos(made.ends.jam.lay_rad)
    assert made.ends.jam.turns * made.bundle_m / twisted == pytest.approx(0.23526, abs=5e-6)


@pytest.mark.practice
def test_a_string_as_the_trade_lays_it_has_room_both_ways() -> None:
    """Common practice, no published source: one turn in 1 to 1 1/2 in at rest, of a two-bundle string."""
    for inches in ("1", "1.5"):
        typed = {"turns": "", "turns_per_length": f"1 turn / {inches} in", "brace_now": "6 1/2 in"}
        assert value("turns_to_loose", **typed) > 0.0
        assert value("lay_new", **typed) < practice("lay_tightest").spread.value


@exact
def test_units_change_no_number() -> None:
    typed = {"brace_now": "152.4", "brace_height": "165.1 mm", "nock_to_nock": "167.64 cm", "handle_length": "203.2",
             "cord_diameter": "2.4892 mm", "tail_length": "20.32 cm"}  # fmt: skip
    metric = ask(SHEET, usual(SHEET, typed), "metric")
    assert isinstance(metric, Answer)
    for there, here in zip(metric.rows, answer().rows, strict=True):
        assert there.spread.value == pytest.approx(here.spread.value, rel=1e-6, abs=1e-9), there.key


@exact
def test_the_list_for_the_range() -> None:
    table = answer().tables("inch")[0]
    assert ("as it is", "6 in") in table.cells
    assert ("put in 8", "6 3/8 in") in table.cells
    chart = answer().figures("inch")[0]
    assert "Now 60 turns and 6 in; wanted 6 1/2 in" in chart.desc


SENTENCES = [
    ({"cord_diameter": ""}, "Enter the thickness of the cord or of one bundle"),
    ({"turns": "450"}, "So many turns do not fit this cord: at most"),
    ({"turns_per_length": "8 turns / 6 in"}, "Leave the turns in the body or the turns along a length empty"),
    ({"brace_first": "5 in"}, "Enter the turns that were put in after that brace height was read"),
    ({"turns_first": "5"}, "Enter the brace height that was read before those turns were put in"),
    ({"brace_second": "5 in", "turns_second": "5"}, "Enter the first brace height and the turns that followed it"),
    ({"brace_first": "7 in", "turns_first": "10"}, "Brace height rises when turns go in. Check both readings"),
    ({"brace_first": "5 in", "turns_first": "70"}, "These turns do not fit the count in the body. Check both"),
    ({"nock_to_nock": "40 in", "brace_now": "14 in"}, "Brace height now must be 9 9/16 in or less"),
    ({"nock_to_nock": "40 in", "brace_height": "14 in"}, "Brace height wanted must be 9 9/16 in or less"),
    ({"nock_to_nock": "30 in", "handle_length": "30 in"}, "Stiff handle must be shorter than the bow"),
    (
        {"nock_to_nock": "30 in", "brace_now": "3 in", "brace_height": "4 in", "tail_length": "16 in"},
        "Two splices with",
    ),
]


@exact
@pytest.mark.parametrize(("changed", "sentence"), SENTENCES)
def test_sentences(changed: dict[str, str], sentence: str) -> None:
    assert refusal(**changed).startswith(sentence)


@exact
def test_the_list_for_the_quietest_goes_by_what_turns_do() -> None:
    """Each line's brace height is what a sheet says that is told of those turns as put in already."""
    tries = sweep(tune(USUAL))
    assert 4 <= len(tries) <= 9
    assert [each.more for each in tries] == [b - a for a, b in pairwise((0, *(each.turns for each in tries)))]
    heights = [each.brace_m for each in tries]
    assert heights == sorted(heights)
    for each in tries[1::3]:
        there = tune(replace(USUAL, wanted_m=each.brace_m))
        assert there.figures["turns_change"].value == pytest.approx(each.turns, abs=1e-3)


@exact
@given(st.floats(40.0, 80.0), st.floats(52.0, 72.0), st.floats(5.0, 7.5))
@settings(derandomize=True, deadline=None, max_examples=15)
def test_no_height_to_try_is_beyond_the_bow_or_the_lay(turns: float, nock_in: float, now_in: float) -> None:
    bow = BowEstimate(nock_to_nock_m=nock_in * INCH, handle_length_m=8 * INCH, shape="arc")
    done = tune(replace(USUAL, bow=bow, turns=turns, brace_m=now_in * INCH))
    for each in sweep(done):
        assert 0.085 <= each.brace_m / (nock_in * INCH) <= 0.115
        assert done.figures["turns_loose"].high <= turns + each.turns <= done.figures["turns_tight"].low
        assert done.brace_at(turns + each.turns) == pytest.approx(each.brace_m, rel=1e-9)


@pytest.mark.contract
def test_the_list_has_blanks_to_write_on_and_goes_into_a_spreadsheet() -> None:
    told = answer()
    table = next(each for each in told.tables("inch") if each.key == "sweep")
    assert table.heads[2:] == ("Read", "Loud, group")
    assert table.cells[0][0].startswith("take out ")
    assert {line[2:] for line in table.cells} == {("____",) * 2}
    text = told.files("inch")[0].text
    assert text.count("\r\n") == len(table.cells) + 1
    assert value("sweep_arrows") == 10 * len(table.cells)
    uncounted = answer(turns="")
    assert [each.key for each in uncounted.tables("inch")] == ["ladder"]
    assert uncounted.files("inch") == ()
    assert "count the turns in the body" in said(turns="")
