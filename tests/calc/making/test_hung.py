"""A string on the nail: readings that cannot be are refused by name, and the least that can be is taken."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError, Problem
from calc.geometry.ends import RoundTip
from calc.making.string import End, body_lay
from calc.making.tuning import Hung, HungBefore, HungRead
from calc.making.tuning.hung import HungLine
from calc.mechanics.estimate import BowEstimate
from calc.mechanics.fibre import elastic_stretch, strand_strength
from calc.numerics import Spread

pytestmark = pytest.mark.exact

INCH = 0.0254
TIP = RoundTip(0.5 * INCH)
BOW = BowEstimate(nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc", draw_m=26 * INCH,
                  draw_weight_n=178.0, braced_m=6.5 * INCH)  # fmt: skip
STRING = Hung(
    bow=BOW, wanted_m=6.5 * INCH, fibres=(fibre("polyester"), fibre("linen")), line_kg_m=14 * 167e-6,
    upper=End(section=TIP, fit="sliding"), lower=End(section=TIP, fit="nocked"), reach_m=None, peg_m=0.00635,
    reads=(HungRead(222.0, 1.648),), hung_s=3600.0, bundles=2, tail_m=0.2032, bundle_m=None, cord_m=0.0025, turns=60.0,
)  # fmt: skip
WEAKEST_N = strand_strength(fibre("linen"), 14 * 167e-6).value
TAPE_M = practice("tape_reading").spread.high


def refused(**changed: Any) -> Problem:  # noqa: ANN401 - any field of the string
    with pytest.raises(DomainError) as caught:
        replace(STRING, **changed)
    return caught.value.problem


def test_a_reading_of_nothing_is_refused_and_a_small_one_taken() -> None:
    for make, field in (
        (lambda: HungRead(0.0, 1.6), "weight_n"),
        (lambda: HungRead(200.0, 0.0), "length_m"),
        (lambda: HungBefore(0.0, 0.16), "earlier_m"),
        (lambda: HungBefore(1.6, 0.0), "brace_m"),
    ):
        with pytest.raises(DomainError) as caught:
            make()
        assert (caught.value.problem.field, caught.value.problem.code) == (field, "min")
    assert HungRead(0.5, 0.5).weight_n == HungBefore(0.5, 0.5).length_m == 0.5


@pytest.mark.parametrize(
    ("changed", "field", "code"),
    [
        ({"wanted_m": -0.01}, "wanted_m", "min"),
        ({"wanted_m": BOW.middle.highest_m + 0.001}, "wanted_m", "max"),
        ({"hung_s": 0.0}, "hung_s", "min"),
        ({"reads": (HungRead(1.001 * WEAKEST_N, 1.648),)}, "weight_n", "max"),
    ],
)
def test_what_is_out_of_bounds_is_refused_by_name(changed: dict[str, Any], field: str, code: str) -> None:
    """The weakest fibre that it may be of decides what may hang on it."""
    problem = refused(**changed)
    assert (problem.field, problem.code) == (field, code)


def test_the_least_that_can_be_is_taken() -> None:
    assert replace(STRING, hung_s=0.5).hung_s == 0.5
    assert replace(STRING, reads=(HungRead(0.999 * WEAKEST_N, 1.648),)).read.length_m == 1.648


@pytest.mark.parametrize("throats_m", [1.648, 1.7, 1.648 - 0.3 - 1e-9, 1.2])
def test_throats_as_far_apart_as_the_pegs_or_nowhere_near_are_refused(throats_m: float) -> None:
    problem = refused(throats_m=throats_m)
    assert (problem.field, problem.code, problem.other, problem.reason) == (
        "throats_m", "pair", "length_m", "throats_apart",
    )  # fmt: skip


@pytest.mark.parametrize("throats_m", [1.647, 1.6, 1.36])
def test_throats_a_little_nearer_than_the_pegs_are_taken(throats_m: float) -> None:
    assert replace(STRING, throats_m=throats_m).throats_m == throats_m


def test_two_weights_alike_tell_nothing_and_are_refused() -> None:
    problem = refused(reads=(HungRead(222.0, 1.648), HungRead(222.0, 1.640)))
    assert (problem.field, problem.code, problem.other, problem.reason) == (
        "second_weight", "pair", "weight_n", "same_weight",
    )  # fmt: skip


@pytest.mark.parametrize("heavy_first", [True, False])
def test_a_string_is_no_shorter_under_more_weight_than_a_tape_may_be_off_twice(*, heavy_first: bool) -> None:
    light = HungRead(111.0, 1.640)

    def both(heavy_m: float) -> tuple[HungRead, ...]:
        reads = (HungRead(222.0, heavy_m), light)
        return reads if heavy_first else reads[::-1]

    problem = refused(reads=both(1.640 - 2.01 * TAPE_M))
    assert (problem.field, problem.code, problem.other, problem.reason) == (
        "second_length", "pair", "length_m", "shrank",
    )  # fmt: skip
    assert len(replace(STRING, reads=both(1.640 - 1.99 * TAPE_M)).reads) == 2


AS_TYPED = {"read 0": 0.0, "read 1": 0.0, "soft": 1.0, "peg": 0.0, "tip": 0.0, "seat": 0.0, "throats": 0.0, "left": 0.0}


def stretch(line: HungLine, load_n: float) -> float:
    """Return what the typical fibre lets it grow from no pull, by the room below [m]."""
    hung = line.hung
    return line.free_m * elastic_stretch(hung.fibres[0], hung.line_kg_m, load_n, body_lay()).value


def test_a_cord_that_was_not_measured_is_as_thick_as_two_of_its_bundles() -> None:
    assert replace(STRING, cord_m=None, bundle_m=0.00125).over_m == pytest.approx(0.0025)
    assert replace(STRING, bundle_m=0.001).over_m == STRING.over_m == 0.0025


def test_what_is_not_sure_of_it_is_what_was_not_measured() -> None:
    tape, tip, usual = (practice(name).spread for name in ("tape_reading", "tip_reading", "tip_usual"))
    found = HungLine.of(STRING).causes
    assert (found["read 0"], found["tip"], found["seat"]) == (tape, tip, Spread(-1.0, 0.0, 1.0))
    assert "throats" not in found
    nobody = End(section=None, fit="nocked")
    for half_known in (replace(STRING, upper=nobody), replace(STRING, lower=nobody)):
        unknown = HungLine.of(half_known).causes["tip"]
        assert unknown.value == 0.0
        assert unknown.low == pytest.approx(usual.low - usual.value)
        assert unknown.high == pytest.approx(usual.high - usual.value)
    measured = HungLine.of(replace(STRING, reach_m=(0.011, 0.006), throats_m=1.6)).causes
    assert (measured["reach upper"], measured["reach lower"], measured["throats"]) == (tip, tip, tape)
    assert not {"tip", "seat"} & measured.keys()


def test_its_loops_are_those_of_its_tips_and_a_tip_not_known_is_the_usual_one() -> None:
    upper, lower = HungLine.of(STRING).loops_m
    assert upper > lower, "the sliding one first"
    usual = replace(STRING, upper=End(section=RoundTip(practice("tip_usual").spread.value), fit="sliding"))
    unknown = replace(STRING, upper=End(section=None, fit="sliding"))
    assert HungLine.of(unknown).loops_m == pytest.approx(HungLine.of(usual).loops_m)
    assert HungLine.of(replace(STRING, upper=End(section=RoundTip(0.02), fit="sliding"))).loops_m[0] > upper


@pytest.mark.parametrize("soft", [0.8, 1.0, 1.3])
def test_one_reading_is_carried_on_by_the_fibre(soft: float) -> None:
    line, at = HungLine.of(STRING), AS_TYPED | {"soft": soft, "read 0": 0.0007}
    for load_n in (0.0, 0.5, 150.0, 300.0):
        by_m = soft * (stretch(line, load_n) - stretch(line, 222.0))
        assert line.at(load_n, at) == pytest.approx(1.648 + 0.0007 + by_m, abs=1e-12)
    assert line.at(-5.0, at) == line.at(0.0, at), "nothing pushes a string"


@pytest.mark.parametrize("second", [HungRead(111.0, 1.640), HungRead(60.0, 1.638), HungRead(330.0, 1.652)])
def test_two_readings_and_the_fibre_are_weighed_by_least_squares(second: HungRead) -> None:
    """The stretch that is found leaves less than any a little softer or stiffer: a law, not the sum itself."""
    line = HungLine.of(replace(STRING, reads=(*STRING.reads, second)))
    soft = line.causes["soft"]
    unsure = max(soft.high - soft.value, soft.value - soft.low, 0.05)
    grown = [stretch(line, each.weight_n) for each in line.hung.reads]
    own = (line.at(300.0, AS_TYPED) - line.at(100.0, AS_TYPED)) / (stretch(line, 300.0) - stretch(line, 100.0))

    def left(tried: float) -> float:
        offs = [each.length_m - tried * g for each, g in zip(line.hung.reads, grown, strict=True)]
        middle = sum(offs) / 2.0
        return ((tried - 1.0) / unsure) ** 2 + sum(((off - middle) / TAPE_M) ** 2 for off in offs)

    assert left(own) < min(left(own * 1.001), left(own * 0.999))
    assert line.at(200.0, AS_TYPED) - own * stretch(line, 200.0) == pytest.approx(
        sum(each.length_m - own * g for each, g in zip(line.hung.reads, grown, strict=True)) / 2.0
    )


def test_no_string_grows_shorter_under_a_pull() -> None:
    line = HungLine.of(STRING)
    assert line.at(100.0, AS_TYPED | {"soft": -3.0}) == line.at(300.0, AS_TYPED | {"soft": -3.0}) == 1.648


def test_throats_and_pegs_count_as_they_were_read() -> None:
    told, untold = HungLine.of(replace(STRING, throats_m=1.6)), HungLine.of(STRING)
    pull = {"pull": 222.0}
    assert told.on_bow(AS_TYPED | pull | {"throats": 0.001}) - told.on_bow(AS_TYPED | pull) == pytest.approx(0.001)
    thick = untold.on_bow(AS_TYPED | pull | {"peg": 0.0004}) - untold.on_bow(AS_TYPED | pull)
    assert thick == pytest.approx(untold.on_pegs_m(0.00635) - untold.on_pegs_m(0.00675))
    assert thick != 0.0


def test_ends_that_were_measured_are_added_up_and_others_follow_the_tip() -> None:
    measured = HungLine.of(replace(STRING, reach_m=(0.011, 0.006)))
    assert measured.reach_m({"reach upper": 0.001, "reach lower": 0.0004}) == pytest.approx(0.0184)
    line = HungLine.of(STRING)
    seated = line.reach_m(AS_TYPED | {"seat": 1.0}) - line.reach_m(AS_TYPED)
    assert seated == pytest.approx(2.0 * TIP.depth_m / 2.0), "a loop seated half a tip further out, at both ends"


def test_a_peg_that_no_loop_goes_over_is_refused_by_name() -> None:
    problem = refused_line(peg_m=0.03)
    assert (problem.field, problem.code, problem.other, problem.reason) == ("peg_m", "pair", "tip_upper", "peg_thick")


def refused_line(**changed: Any) -> Problem:  # noqa: ANN401 - any field of the string
    with pytest.raises(DomainError) as caught:
        HungLine.of(replace(STRING, **changed))
    return caught.value.problem
