"""On the nail: held against Hooke, lengths by hand, the sheets that answer the same, and strings that were there."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest

from calc.data import fibre, practice
from calc.geometry.ends import RoundTip
from calc.making.string import End
from calc.making.tuning import (
    Hung,
    HungBefore,
    HungRead,
    Nailed,
    Tuned,
    brace_for,
    heaviest_n,
    predict_brace,
    tune,
    with_strings,
)
from calc.mechanics.estimate import BowEstimate, StringRead
from calc.worksheets import one
from calc.worksheets.core import Answer, ask, by_key, fill, usual

SHEET = one("nail")
INCH, LBF, HOUR = 0.0254, 4.4482216152605, 3600.0
BOW = BowEstimate(
    nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc", draw_m=26 * INCH, draw_weight_n=40 * LBF,
    braced_m=6.5 * INCH,
)  # fmt: skip
TIP = RoundTip(0.5 * INCH)
STIFF = 10e6 * 14 * 167e-6
"""Polyester below its knee: stiffness of the fibre x weight of 14 strands, by the fibre table [N]."""
STRING = Hung(
    bow=BOW, wanted_m=6.5 * INCH, fibres=(fibre("polyester"),), line_kg_m=14 * 167e-6,
    upper=End(section=TIP, fit="sliding"), lower=End(section=TIP, fit="nocked"), reach_m=(0.011, 0.006),
    peg_m=0.00635, reads=(HungRead(222.0, 1.648),), hung_s=HOUR, bundles=2, tail_m=0.2032, bundle_m=None,
    cord_m=0.0025, turns=60.0, throats_m=1.600,
)  # fmt: skip


def answer(**changed: str) -> Answer:
    found = ask(SHEET, usual(SHEET, changed), "inch")
    assert isinstance(found, Answer), found
    return found


def said(found: Answer, lead: str) -> str:
    return next(fill(each.text, by_key(found.rows), "inch") for each in found.headlines if each.lead == lead)


def width(done: Nailed, key: str = "brace_height") -> float:
    return done.figures[key].high - done.figures[key].low


@pytest.mark.exact
def test_two_weights_tell_a_string_that_obeys_hooke_whatever_it_is_made_of() -> None:
    """A spring of 9 kN: 1.6 m at no pull, 1.6 x pull / 9 kN longer under it. The sheet is told of no fibre at all."""
    every = tuple(fibre(each) for each in ("polyester", "nylon", "hmpe", "linen", "sinew"))

    def spring(load_n: float) -> float:
        return 1.6 * (1.0 + load_n / 9000.0)

    heavy, light = (HungRead(each, spring(each)) for each in (150.0, 60.0))
    done = predict_brace(replace(STRING, fibres=every, reads=(heavy, light), throats_m=spring(150.0) - 0.045))
    for load_n in (60.0, 105.0, 150.0, 190.0):
        assert done.length_under(load_n) == pytest.approx(spring(load_n), abs=0.0005)
    alone = predict_brace(replace(STRING, fibres=every, reads=(heavy,), throats_m=spring(150.0) - 0.045))
    assert width(done, "hung_then") < 0.5 * width(alone, "hung_then")


@pytest.mark.exact
def test_one_weight_is_carried_to_the_bow_by_the_fibre() -> None:
    """Below the knee the fibre is a spring too: by the table's stiffness, slanted by the lay."""
    done = predict_brace(replace(STRING, reads=(HungRead(100.0, 1.648),), throats_m=1.600))
    grown = done.length_under(200.0) - done.length_under(100.0)
    assert grown == pytest.approx(1.600 * 100.0 / STIFF, rel=0.12)
    assert grown > 1.600 * 100.0 / STIFF


@pytest.mark.exact
def test_a_string_that_stretches_alike_under_weight_and_bow_is_added_up_by_hand() -> None:
    """Hung at just the bow's pull: throat to throat, nock to throat at both ends, and the growth to come."""
    pull_n = predict_brace(STRING).pull_n.value
    done = predict_brace(replace(STRING, reads=(HungRead(pull_n, 1.648),)))
    again = done.pull_n.value
    grown = done.length_under(again) - done.length_under(pull_n)
    by_hand = 1.600 + 0.011 + 0.006 + grown + done.figures["left_length"].value
    assert done.figures["string_length"].value == pytest.approx(by_hand, abs=1e-9)


@pytest.mark.exact
def test_loops_on_pegs_as_thick_as_the_tips_differ_by_the_tips_alone() -> None:
    """Without throats: each loop stands as far from its middle; over the peg half of it more, on the bow half less."""
    plain = replace(STRING, throats_m=None, reach_m=None, peg_m=0.5 * INCH)
    done = predict_brace(plain)
    pull = done.length_under(done.pull_n.value)
    by_hand = pull - 2 * 0.5 * INCH + done.figures["left_length"].value
    assert done.figures["string_length"].value == pytest.approx(by_hand, abs=1e-6)


@pytest.mark.exact
def test_brace_height_and_turns_are_those_of_the_sheets_that_ask_for_them() -> None:
    done = predict_brace(STRING)
    string_m, height_m = (done.figures[key].value for key in ("string_length", "brace_height"))
    assert brace_for(BOW, string_m, 0.2032).figures["brace_height"].value == pytest.approx(height_m, abs=1e-7)
    tuned = tune(
        Tuned(bow=BOW, brace_m=height_m, wanted_m=6.5 * INCH, string_m=string_m, tail_m=0.2032, bundles=2,
              bundle_m=None, cord_m=0.0025, turns=60.0, per_m=None)
    )  # fmt: skip
    for key in ("brace_per_turn", "turns_new", "brace_low", "brace_high"):
        assert done.figures[key] == tuned.figures[key]
    assert done.figures["turns_change"].value == tuned.figures["turns_change"].value


@pytest.mark.exact
def test_a_string_just_like_the_last_braces_as_the_last_did() -> None:
    """The same length on the same nail: whatever is unknown of cord, loops and bow was the same then."""
    last = HungBefore(1.648, 0.150)
    done = predict_brace(replace(STRING, earlier=last))
    assert done.figures["brace_height"].value == pytest.approx(0.150, abs=0.004)
    assert width(done) < 0.5 * width(predict_brace(STRING))
    longer = predict_brace(replace(STRING, earlier=replace(last, length_m=1.644)))
    slope = BOW.middle.slope(0.150)
    moved = longer.figures["brace_height"].value - done.figures["brace_height"].value
    assert moved == pytest.approx(0.004 * slope, rel=0.2)


@pytest.mark.exact
@pytest.mark.parametrize(("throats_m", "tapes"), [(None, 2.0), (1.600, 1.2)])
def test_the_last_string_leaves_the_readings_of_both_alone(throats_m: float | None, tapes: float) -> None:
    """Brace height is off by a tape, peg to peg of each too: two squares. Throats of both, and loops, make three.

    Both ways together leave 2 x 3 / (2 + 3) of them.
    """
    done = predict_brace(replace(STRING, earlier=HungBefore(1.648, 0.150, throats_m)))
    tape_m = practice("tape_reading").spread.high
    slope = BOW.middle.slope(done.figures["brace_height"].value)
    by_hand = tape_m * (1.0 + tapes * slope**2) ** 0.5
    assert width(done) / 2.0 == pytest.approx(by_hand, rel=0.15)


@pytest.mark.exact
def test_a_bow_with_set_pulls_harder_where_it_is_braced_higher_and_stretches_the_next_string_more() -> None:
    """2 in of set: the pull goes up with the brace height, and what that stretches the last string did not have."""
    bow = replace(BOW, string_follow_m=2 * INCH, handle_proud_m=0.0)
    alone = predict_brace(replace(STRING, bow=bow))
    height_m = alone.figures["brace_height"].value
    low_m = height_m - 0.03
    pulls = [bow.drawn(brace_m=each).centre.brace_n for each in (low_m, height_m)]
    more_m = alone.length_under(pulls[1]) - alone.length_under(pulls[0])
    assert more_m > 0.001
    longer_m = bow.middle.string_m(low_m) - bow.middle.string_m(height_m) + more_m
    done = predict_brace(replace(STRING, bow=bow, earlier=HungBefore(1.648 + longer_m, low_m)))
    assert done.figures["brace_height"].value == pytest.approx(height_m, abs=0.2 * more_m)


@pytest.mark.exact
def test_every_reading_more_narrows_the_answer() -> None:
    plain = replace(STRING, throats_m=None, reach_m=None)
    widths = [width(predict_brace(each)) for each in (plain, STRING)]
    read = with_strings(BOW, (StringRead(64.0 * INCH, 6.45 * INCH),))
    widths.append(width(predict_brace(replace(STRING, bow=read))))
    widths.append(width(predict_brace(replace(STRING, bow=read, earlier=HungBefore(1.648, 6.45 * INCH)))))
    assert widths == sorted(widths, reverse=True)
    assert widths[-1] < 0.25 * widths[0]


@pytest.mark.exact
def test_a_string_that_has_stopped_growing_has_settled() -> None:
    grew = predict_brace(replace(STRING, first_m=1.644)).figures["left_length"]
    still = predict_brace(replace(STRING, first_m=1.648)).figures["left_length"]
    assert grew.value > 0.0005
    assert still.value == 0.0
    night, hour = (predict_brace(replace(STRING, hung_s=each * HOUR)).figures["left_length"].value for each in (8, 1))
    assert night < hour
    tape = practice("tape_reading").spread.high
    grown = predict_brace(replace(STRING, first_m=1.646)).figures["grown_length"]
    off = tape * 2**0.5
    assert (grown.low, grown.value, grown.high) == pytest.approx((0.002 - off, 0.002, 0.002 + off))


@pytest.mark.contract
def test_the_loops_are_told_apart_from_the_body() -> None:
    loops = {"throats_length": "62 15/16 in", "first_length": "64 5/8 in"}
    assert said(answer(**loops, throats_first="62 7/8 in"), "The loops").startswith("bed in or slip")
    assert said(answer(**loops, throats_first="62 11/16 in"), "The loops").startswith("hold")
    slipping = answer(**loops, throats_first="62 7/8 in")
    assert any("Do not brace with it" in each.text for each in slipping.cautions)


@pytest.mark.contract
def test_turns_that_cannot_mend_it_are_not_told() -> None:
    assert "make the string longer" in said(answer(hung_length="62 1/2 in"), "Turn it now")
    assert "make the string shorter" in said(answer(hung_length="66 in", turns="60"), "Turn it now")
    assert said(answer(), "Turn it now").startswith("put in")
    assert said(answer(hung_length="64 1/2 in", turns="70"), "Turn it now").startswith("take out")


@pytest.mark.practice
def test_more_than_makers_hang_is_warned_of() -> None:
    """Common practice, no published source: 50 lb, and 60 at most."""
    heavy = [each for each in answer(hanging_weight="70 lb").cautions if "more weight than anybody" in each.text]
    usual_weight = [each for each in answer().cautions if "more weight than anybody" in each.text]
    assert heavy
    assert not usual_weight
    assert heaviest_n() < 70 * LBF
    assert any("Hanging weights fall" in each.text for each in answer().cautions)


@pytest.mark.exact
def test_the_bench_sheet_promises_no_more_of_the_nail_than_the_nail_keeps() -> None:
    """The same bow and string on both sheets; the nail says what it would tell with throats and nocks measured."""
    on_nail, bench = (ask(one(key), usual(one(key)), "inch") for key in ("nail", "string"))
    assert isinstance(on_nail, Answer)
    assert isinstance(bench, Answer)
    found = {row.key: row.spread for row in on_nail.rows}
    before = next(row.spread for row in bench.rows if row.key == "brace_height")
    told = next(line for table in bench.tables("inch") if table.key == "next-readings" for line in table.cells
                if "nail" in line[0])  # fmt: skip
    given = found["brace_given"]
    kept = 1.0 - (given.high - given.low) * (1.0 - found["narrower_ends"].value) / (before.high - before.low)
    assert float(told[2].removesuffix(" %")) / 100.0 == pytest.approx(kept, abs=0.1)


_ENDS = {"throats_length": "62 15/16 in", "reach_upper": "3/8 in", "reach_lower": "3/8 in"}
_THREAD = {"string_follow": "0 in", "thread_gap": "0 in"}
_BEFORE = {"measured_string": "64 in", "measured_brace": "6 1/2 in", "earlier_hung": "64 3/4 in"}


@pytest.mark.exact
@pytest.mark.parametrize(
    ("key", "known", "read"),
    [
        ("thread", {}, _THREAD),
        ("ends", _THREAD, _ENDS),
        ("night", {**_THREAD, **_ENDS, "hanging_weight": "25 lbf"}, {"hang_time": "12 h"}),
        ("twice", {**_THREAD, **_ENDS, **_BEFORE, "hang_time": "1 d"}, {"read_times": "2"}),
    ],
)
def test_what_a_reading_is_told_to_narrow_it_does(key: str, known: dict[str, str], read: dict[str, str]) -> None:
    """Asked again with the reading made; its middle differs a little, and so does the width."""
    asked = (answer(**known), answer(**known, **read))
    before, then = ({row.key: row.spread for row in each.rows} for each in asked)
    was, now = (each["brace_given"].high - each["brace_given"].low for each in (before, then))
    assert 1.0 - now / was == pytest.approx(before[f"narrower_{key}"].value, abs=0.03)
    assert f"narrower_{key}" not in then


@pytest.mark.exact
def test_the_mean_of_readings_is_surer_by_the_root_of_their_count() -> None:
    """Independent readings, drawn by numpy: nine in ten of their means lie within what is told."""
    tape = practice("tape_reading").spread
    off_m = np.random.default_rng(5).normal(0.0, tape.high / 1.6448536, (20_000, 3))
    for times in (1, 2, 3):
        told_m = replace(STRING, times=times).tape.high
        assert told_m == pytest.approx(tape.high / sqrt(times), rel=1e-12)
        assert np.mean(np.abs(off_m[:, :times].mean(axis=1)) <= told_m) == pytest.approx(0.9, abs=0.007)
