"""The brace sheet: against closed forms, the bench sheet and the trade; its laws."""

from __future__ import annotations

from math import copysign, cos, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import practice
from calc.making.tuning import brace_for, string_for
from calc.making.tuning.bracing import free_body, turned
from calc.mechanics.bow import SHAPES, Bow, brace_limit, string_length
from calc.mechanics.estimate import BowEstimate, BowState, StringRead
from calc.units import INCH
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

exact = pytest.mark.exact
SHEET = catalogue()["brace"]
TYPED = TypedSheet("brace")
answer, refusal = TYPED.answer, TYPED.refusal


def value(key: str, **changed: str) -> float:
    return next(row.spread.value for row in answer(**changed).rows if row.key == key)


def width(key: str, **changed: str) -> float:
    spread = next(row.spread for row in answer(**changed).rows if row.key == key)
    return spread.high - spread.low


@exact
def test_even_limbs_are_arcs_of_a_circle() -> None:
    """H = l (1 - cos p) / p and S = 2 (h + l sin(p) / p), p found here by halving."""
    limb, brace = 29.0, 6.5
    low, high = 1e-6, 1.5
    for _ in range(80):
        bend = (low + high) / 2.0
        low, high = (bend, high) if limb * (1.0 - cos(bend)) / bend < brace else (low, bend)
    by_hand = 8.0 + 2.0 * limb * sin(bend) / bend
    assert value("string_length") / INCH == pytest.approx(by_hand, abs=1e-9)
    assert by_hand == pytest.approx(64.010, abs=5e-4)


@exact
def test_hinged_limbs_are_straight_arms() -> None:
    """S = 2 (r + sqrt(a^2 - H^2)) and dH/dS = -sqrt(a^2 - H^2) / (2 H), a three quarters of the limb."""
    arm, brace = 0.75 * 29.0, 6.5
    across = sqrt(arm**2 - brace**2)
    assert value("string_length", limb_shape="hinged") / INCH == pytest.approx(8 + 2 * 29 * 0.25 + 2 * across, abs=1e-9)
    assert value("brace_per_length", limb_shape="hinged") == pytest.approx(-across / (2 * brace), rel=1e-5)


@exact
def test_a_half_inch_less_by_hand() -> None:
    """Arms again: the brace height of a string half an inch shorter, less that of the string itself."""
    arm, string = 0.75 * 29.0, 64.0
    heights = [sqrt(arm**2 - (each / 2.0 - 4.0 - 29.0 / 4.0) ** 2) for each in (string, string - 0.5)]
    typed = {"brace_height": "", "string_length": "64 in", "limb_shape": "hinged"}
    assert value("brace_height", **typed) / INCH == pytest.approx(heights[0], abs=1e-9)
    assert value("brace_step", **typed) / INCH == pytest.approx(heights[1] - heights[0], abs=1e-9)


@exact
@settings(derandomize=True, deadline=None, max_examples=200)
@given(
    bow=st.floats(20.0, 100.0),
    handle=st.floats(0.0, 0.4),
    shape=st.sampled_from(SHAPES),
    mix=st.sampled_from([-1.0, -0.5, 0.0, 0.5, 1.0]),
    share=st.floats(0.02, 0.99),
)
def test_brace_height_and_string_length_undo_each_other(
    bow: float, handle: float, shape: str, mix: float, share: float
) -> None:
    limbs = BowState(bow * INCH, bow * (1.0 - handle) * INCH / 2.0, shape, mix)  # type: ignore[arg-type]
    brace_m = share * limbs.highest_m
    string_m = limbs.string_m(brace_m)
    assert limbs.brace_m(string_m) == pytest.approx(brace_m, abs=1e-9)
    assert limbs.brace_m(string_m + 0.001) < limbs.brace_m(string_m) < limbs.brace_m(string_m - 0.001) + 1e-12
    assert limbs.slope(brace_m) < 0.0


@exact
def test_the_ends_of_what_a_string_can_do() -> None:
    limbs = BowState(66 * INCH, 29 * INCH, "arc")
    assert limbs.brace_m(66 * INCH) == 0.0
    assert limbs.brace_m(30 * INCH) == pytest.approx(brace_limit(limbs.bow()), rel=1e-12)
    for bow in (limbs, BowState(46 * INCH, 23 * INCH, "arc", -0.5)):
        heights = [bow.brace_m(bow.nock_to_nock_m - 10.0**-power) for power in range(3, 17)]
        assert heights == sorted(heights, reverse=True)
        assert heights[-1] == 0.0


@exact
@settings(derandomize=True, deadline=None, max_examples=150)
@given(
    bow=st.floats(44.0, 80.0),
    brace=st.floats(4.0, 8.0),
    shape=st.sampled_from([*SHAPES, None]),
    handle=st.one_of(st.none(), st.floats(0.0, 10.0)),
)
def test_one_answer_is_the_other_turned_about(
    bow: float, brace: float, shape: str | None, handle: float | None
) -> None:
    stave = BowEstimate(
        nock_to_nock_m=bow * INCH,
        handle_length_m=None if handle is None else handle * INCH,
        shape=shape,  # type: ignore[arg-type]
    )
    there = string_for(stave, brace * INCH, 8 * INCH).figures
    back = brace_for(stave, there["string_length"].value, 8 * INCH).figures
    assert back["brace_height"].value == pytest.approx(brace * INCH, abs=1e-9)
    assert back["brace_per_length"].value == pytest.approx(there["brace_per_length"].value, rel=1e-6)
    for each in (*there.values(), *back.values()):
        assert each.low <= each.value <= each.high
    assert there["brace_low"].value < brace * INCH < there["brace_high"].value
    if stave.shape is not None:
        return
    told = BowEstimate(nock_to_nock_m=stave.nock_to_nock_m, handle_length_m=stave.handle_length_m, shape="arc")
    narrow = string_for(told, brace * INCH, 8 * INCH).figures["string_length"]
    assert narrow.low >= there["string_length"].low
    assert narrow.high <= there["string_length"].high


@exact
def test_what_is_not_known_widens_and_is_named() -> None:
    """In quadrature, beside tape, set and a proud handle: by strings of bows that differ in one thing."""

    def string(handle_m: float = 8 * INCH, mix: float = 0.0) -> float:
        at = {
            shape: string_length(Bow(66 * INCH, handle_m, shape), 6.5 * INCH) for shape in ("tapered", "arc", "uniform")
        }
        return at["arc"] + mix * (at["uniform"] - at["arc"] if mix > 0.0 else at["arc"] - at["tapered"])

    usual_m, told, unknown = (practice(name).spread for name in ("handle_usual", "limb_told", "limb_unknown"))
    known = answer().rows[0].spread
    assert usual_m.value == pytest.approx(8 * INCH)
    handles = (
        answer(handle_length="?").rows[0].spread,
        (string(), string()),
        (string(usual_m.low), string(usual_m.high)),
    )
    limbs = (
        answer(limb_shape="unknown").rows[0].spread,
        (string(mix=told.low), string(mix=told.high)),
        (string(mix=unknown.low), string(mix=unknown.high)),
    )
    for here, before, after in (handles, limbs):
        assert here.high - here.low > known.high - known.low
        for pick in (min, max):
            was, one, other = (pick(each) - string() for each in ((known.low, known.high), before, after))
            expected = copysign(sqrt(was**2 - one**2 + other**2), was)
            assert pick(here.low, here.high) - string() == pytest.approx(expected, rel=2e-3)
    said = " ".join(each.text for each in answer(limb_shape="unknown").cautions)
    assert "from a handle that may stand proud. Stretch a thread" in said
    for worst, told_of in (
        ("proud", BowEstimate(nock_to_nock_m=46 * INCH, shape="arc", string_follow_m=0.0)),
        ("handle", BowEstimate(nock_to_nock_m=46 * INCH, shape="arc", handle_proud_m=0.0, string_follow_m=0.0)),
        ("handle", BowEstimate(nock_to_nock_m=46 * INCH, shape="arc", thread_gap_m=0.01, string_follow_m=0.01)),
    ):
        assert string_for(told_of, 6 * INCH, 8 * INCH).worst() == worst


@exact
def test_units_change_no_number() -> None:
    inch = [row.spread.value for row in answer().rows]
    typed = {"nock_to_nock": "167.64 cm", "handle_length": "203.2", "brace_height": "165.1", "tail_length": "20.32 cm"}
    metric = ask(SHEET, usual(SHEET, typed), "metric")
    assert isinstance(metric, Answer)
    assert [row.spread.value for row in metric.rows] == pytest.approx(inch, rel=1e-9)


@exact
def test_the_window_by_hand() -> None:
    """Free body, and a window from the loosest lay to the tightest: bundles that neither shorten nor lengthen."""
    loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
    plain = cos(tightest) / ((cos(loosest) + cos(tightest)) / 2.0) - 1.0
    longer, shorter = turned()
    assert shorter == pytest.approx(plain, rel=0.1)
    assert 0.6 < longer / -plain < 1.0
    body = free_body(64.0 * INCH, 8.0 * INCH, 0.5 * INCH) / INCH
    assert 64.0 - 2 * 8.0 - 2 * 1.0 < body < 64.0 - 2 * 8.0 * cos(0.33)


@exact
def test_the_window_is_that_of_the_bench_sheet() -> None:
    """The bench sheet works its window out from cord, loops and splices; this one from lays alone."""
    bench = ask(catalogue()["string"], usual(catalogue()["string"], {"limb_shape": "arc"}), "inch")
    assert isinstance(bench, Answer)
    there = {row.key: row.spread.value for row in bench.rows}
    for key in ("brace_low", "brace_high"):
        assert value(key) - value("brace_height") == pytest.approx(there[key] - there["brace_height"], rel=0.06)


@pytest.mark.practice
def test_the_trades_rule_suits_a_handle_that_stands_proud() -> None:
    """Common practice, no published source: 3 to 4 in shorter, and 6 to 7 in of brace height, both on a long bow.

    On a bow whose handle stands proud by 1 to 1 1/2 in the tape reads that much less than the limbs are bent.
    """
    low, high = value("rule_low") / INCH, value("rule_high") / INCH
    assert low - 1.5 <= 6.5 <= high - 1.0


@exact
def test_the_short_rule_for_the_notebook() -> None:
    for typed in ({}, {"nock_to_nock": "54 in", "brace_height": "6 in"}, {"nock_to_nock": "72 in"}):
        assert value("deficit_quick", **typed) == pytest.approx(value("deficit", **typed), abs=0.1 * INCH)


@exact
def test_the_drawn_bow_is_the_bow_of_the_answer() -> None:
    bow, chart = answer().figures("inch")
    assert "brace 6 1/2 in; string 64 in" in bow.desc
    assert "64 in of string braces at 6 1/2 in" in chart.desc
    table = answer().tables("metric")[0]
    assert len(table.cells) == 9
    heights = [int(line[1].split()[0]) for line in table.cells]
    assert heights == sorted(heights, reverse=True)


@exact
def test_a_measured_string_is_given_back_and_narrows_the_answer() -> None:
    """A tapered bow, told as unknown: the string measured at one brace height tells the string for another."""
    real = BowState(66 * INCH, 29 * INCH, "tapered")
    strings = {brace: real.string_m(brace * INCH) / INCH for brace in (5.0, 6.5, 7.0)}
    vague = {"limb_shape": "unknown", "handle_length": "?"}
    once = vague | {"measured_string": f"{strings[7.0]:.4f} in", "measured_brace": "7 in"}
    twice = once | {"measured_string_2": f"{strings[5.0]:.4f} in", "measured_brace_2": "5 in"}
    guessed, taught, sure = (value("string_length", **typed) / INCH for typed in (vague, once, twice))
    assert abs(guessed - strings[6.5]) > 0.15
    assert taught == pytest.approx(strings[6.5], abs=0.01)
    assert sure == pytest.approx(strings[6.5], abs=0.01)
    assert width("string_length", **once) < 0.4 * width("string_length", **vague)
    assert value("shrink", **once) < 0.4
    assert value("brace_height", **{**twice, "brace_height": "", "string_length": f"{strings[6.5]:.4f} in"}) == (
        pytest.approx(6.5 * INCH, abs=0.01 * INCH)
    )
    said = " ".join(each.text for each in answer(**once).cautions)
    assert "{shrink} of its width" in said
    assert answer(**twice).figures("inch")[0].shapes != answer(**vague).figures("inch")[0].shapes


@exact
def test_a_handle_of_next_to_nothing_is_drawn_as_none() -> None:
    for handle in ("0", "1e-240 mm", "1e-9 in"):
        bow = answer(handle_length=handle, brace_height="", string_length="60 in").figures("inch")[0]
        assert bow.frame.width == pytest.approx(360.0, abs=1.0)


@exact
def test_a_bow_that_strings_have_shown_is_turned_about() -> None:
    pairs = (StringRead(64.375 * INCH, 5 * INCH), StringRead(63 * INCH, 7.25 * INCH))
    found = BowEstimate(nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc").given(*pairs).middle
    assert found.proud_m > 0.0
    for string in (62.0, 63.0, 64.5, 65.5):
        assert found.string_m(found.brace_m(string * INCH)) == pytest.approx(string * INCH, abs=1e-9)
    assert found.brace_m(66 * INCH) == 0.0


SENTENCES = [
    ({"brace_height": ""}, "Enter the brace height or the string length: this sheet works out the other"),
    ({"string_length": "64 in"}, "Leave the brace height or the string length empty"),
    ({"string_length": "long"}, "String length must be a number, or left empty"),
    ({"brace_height": "", "string_length": "66 in"}, "String length must be 65 13/16 in or less: a longer string does"),
    ({"brace_height": "", "string_length": "48 in"}, "String length must be 48 5/16 in or more: the limbs cannot"),
    ({"measured_string": "64 in"}, "Enter both: the length of the measured string and the brace height it gave"),
    ({"measured_string_2": "64 in", "measured_brace_2": "6 in"}, "Enter the first measured string, or leave"),
    ({"measured_string": "67 in", "measured_brace": "6 in"}, "The measured string must be shorter than the bow"),
    (
        {"measured_string": "65 7/8 in", "measured_brace": "9 in"},
        "The measured string would brace a bow",
    ),
    ({"measured_string": "40 in", "measured_brace": "3 in"}, "Limbs of this bow cannot bend as far as the measured"),
    (
        {"measured_string": "65 7/8 in", "measured_brace": "2 1/16 in"}
        | {"measured_string_2": "63 in", "measured_brace_2": "4 5/16 in"},
        "These readings do not go with a bow of this length",
    ),
    ({"brace_height": "20 in"}, "Brace height must be 16 in or less"),
    ({"handle_length": "40 in", "nock_to_nock": "40 in"}, "Stiff handle must be shorter than the bow"),
    (
        {"nock_to_nock": "30 in", "brace_height": "4 in", "tail_length": "16 in"},
        "Two splices with these tails leave no",
    ),
]


@exact
@pytest.mark.parametrize(("changed", "sentence"), SENTENCES)
def test_sentences(changed: dict[str, str], sentence: str) -> None:
    assert refusal(**changed).startswith(sentence)


@exact
def test_cautions_come_where_they_apply() -> None:
    def said(**changed: str) -> str:
        return " ".join(each.text for each in answer(**changed).cautions)

    apart = {"measured_string": "65 9/16 in", "measured_brace": "2 1/16 in"}
    apart |= {"measured_string_2": "65 3/8 in", "measured_brace_2": "4 5/16 in"}
    assert "These readings do not go together" in said(**apart)
    assert "These readings do not go together" not in said(measured_string="63 1/2 in", measured_brace="7 in")
    assert "too long to brace" not in said()
    assert "too long to brace" in said(brace_height="", string_length="65 11/16 in")
    assert "Lower than usual" in said(brace_height="5 in")
    assert "Higher than usual" in said(brace_height="8 in")
    assert "than usual" not in said()
    assert "Overbraced" not in said(brace_height="8 in")
    for brace, over in (("5 in", False), ("6 in", True)):  # an eighth of 44 in is 5 1/2 in
        child = {"nock_to_nock": "44 in", "brace_height": brace}
        assert ("Overbraced" in said(**child)) is over
        planned = ask(catalogue()["string"], usual(catalogue()["string"], {**child, "draw_length": "20 in"}), "inch")
        assert isinstance(planned, Answer)
        assert any("Overbraced" in each.text for each in planned.cautions) is over
