"""A string on the nail: readings that cannot be are refused by name, and the least that can be is taken."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError, Problem
from calc.geometry.ends import RoundTip
from calc.making.string import End
from calc.making.tuning import Hung, HungBefore, HungRead
from calc.mechanics.estimate import BowEstimate
from calc.mechanics.fibre import strand_strength

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
