"""What a growing string costs, the turns that bring it back, and what readings and strands are refused."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.making.strands import choose
from calc.making.tuning import BraceReading, Tuned, tune
from calc.making.tuning.turns_against_stretch import bow_for, undone
from calc.mechanics.bow import Bow, brace_height, brace_limit, string_length
from calc.mechanics.estimate import BowEstimate, CordEstimate
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact
NOCK_M, HANDLE_M, BRACE_M = 1.7, 0.2, 0.16
LIMBS = Bow(NOCK_M, HANDLE_M, "arc")
STRING_M = string_length(LIMBS, BRACE_M)


def string(**changed: Any) -> Tuned:  # noqa: ANN401 - any field of it
    usual = Tuned(
        bow=BowEstimate(nock_to_nock_m=NOCK_M, handle_length_m=HANDLE_M, shape="arc"),
        brace_m=BRACE_M,
        wanted_m=BRACE_M,
        string_m=STRING_M,
        tail_m=0.2,
        bundles=2,
        bundle_m=0.00115,
        cord_m=None,
        turns=60.0,
        per_m=None,
    )
    return replace(usual, **changed)


def problem(work: Any) -> tuple[str, str, str | None, str | None]:  # noqa: ANN401 - whatever is called
    with pytest.raises(DomainError) as caught:
        work()
    found = caught.value.problem
    return found.field, found.code, found.other, found.reason


@pytest.mark.parametrize("shape", ["arc", "tapered", "uniform", "hinged"])
def test_a_string_braces_the_bow_it_is_for_up_to_the_highest_there_is(shape: LimbShape) -> None:
    for nock_m, handle_m in ((1.2, 0.0), (1.7, 0.25)):
        limbs = Bow(nock_m, handle_m, shape)
        for brace_m in (0.1, 0.99 * brace_limit(limbs)):
            long_m = string_length(limbs, brace_m)
            assert bow_for(long_m, brace_m, handle_m, shape) == pytest.approx(nock_m, rel=1e-7)


def test_a_string_too_short_to_brace_any_bow_so_high_is_refused() -> None:
    assert problem(lambda: bow_for(0.2, 0.16, 0.2, "arc")) == ("brace_m", "pair", "string_m", "brace_string")


def test_growth_lets_the_bow_down_as_its_limbs_say_and_turns_make_it_good() -> None:
    grown_m = 0.004
    found = undone(string(), Spread(0.002, grown_m, 0.006))
    for end, growth in (("low", 0.002), ("value", grown_m), ("high", 0.006)):
        left_m = brace_height(LIMBS, STRING_M + growth)
        assert getattr(found.brace_lost, end) == pytest.approx(BRACE_M - left_m, rel=1e-6)
    fallen = string(brace_m=brace_height(LIMBS, STRING_M + grown_m), string_m=STRING_M + grown_m)
    assert found.turns.value == pytest.approx(tune(fallen).figures["turns_change"].value, rel=1e-6)
    assert found.per_turn_m == pytest.approx(grown_m / found.turns.value)
    assert 0.0 <= found.turns.low < found.turns.value < found.turns.high
    unknown = undone(string(string_m=None), Spread.exactly(grown_m))
    assert unknown.turns.value == pytest.approx(found.turns.value, rel=1e-3)


def test_no_growth_takes_no_turn() -> None:
    none = undone(string(), Spread(0.0, 0.0, 0.003))
    assert (none.turns, none.per_turn_m) == (Spread.exactly(0.0), 0.0)
    assert none.brace_lost.low == none.brace_lost.value == 0.0 < none.brace_lost.high
    perhaps = undone(string(), Spread(0.0, 0.002, 0.004))
    certain = undone(string(), Spread(0.0019, 0.002, 0.0021))
    assert perhaps.turns.low < certain.turns.low
    assert perhaps.turns.value == pytest.approx(certain.turns.value)


def test_what_lets_the_bow_down_altogether_takes_turns_in_step() -> None:
    """Half an inch is the lowest that limbs are followed to; the rest of a growth is counted at the same rate."""
    most_m = string_length(LIMBS, 0.0127) - STRING_M
    once, twice = (undone(string(), Spread.exactly(each * most_m)) for each in (1.0, 2.0))
    assert twice.turns.value == pytest.approx(2.0 * once.turns.value, rel=1e-6)
    nearly = undone(string(), Spread.exactly(0.999 * most_m))
    assert once.turns.value == pytest.approx(nearly.turns.value, rel=5e-3), "no step where the counting changes"
    assert twice.brace_lost.value == pytest.approx(BRACE_M)


def test_a_count_may_be_half_a_turn_off_and_cord_as_thick_as_it_is_read() -> None:
    half = tune(string()).causes["count"]
    assert (half.low, half.value, half.high) == (-0.5, 0.0, 0.5)
    assert "lay" not in tune(string()).causes
    assert "count" not in tune(string(turns=None)).causes
    counted = tune(string()).figures["turns_now"]
    assert counted.low == pytest.approx(59.5, abs=0.05)
    assert counted.high == pytest.approx(60.5, abs=0.05)
    told = tune(string()).figures["bundle_diameter"]
    off = practice("thickness_reading").spread
    assert told.low / told.value == pytest.approx(1.0 + off.low, rel=1e-6)
    assert told.high / told.value == pytest.approx(1.0 + off.high, rel=1e-6)
    whole = tune(string(bundle_m=None, cord_m=0.0023))
    assert whole.figures["bundle_diameter"].value == pytest.approx(0.00115, rel=1e-3)
    assert whole.figures["bundle_diameter"].low < whole.figures["bundle_diameter"].value


def test_a_turn_is_told_wider_for_a_tape_that_is_read_less_surely() -> None:
    """The tape moves the brace height it starts from, so whatever hangs on that has a spread."""
    off = practice("tape_reading").spread
    limbs = tune(string(wanted_m=0.17)).figures
    assert limbs["turns_change"].high > limbs["turns_change"].value > limbs["turns_change"].low
    up, down = (tune(string(wanted_m=0.17, brace_m=BRACE_M + each)) for each in (off.low, off.high))
    assert up.figures["turns_change"].value > down.figures["turns_change"].value
    assert up.figures["string_change"].value < down.figures["string_change"].value < 0.0


def reading(since: float, brace_m: float) -> BraceReading:
    return BraceReading(since=since, brace_m=brace_m)


def test_readings_that_cannot_be_are_refused() -> None:
    backward = string(readings=(reading(10.0, BRACE_M + 0.02),))
    assert problem(lambda: tune(backward)) == ("turns_first", "pair", "brace_first", "turns_backward")
    too_many = string(readings=(reading(61.0, BRACE_M - 0.02),))
    assert problem(lambda: tune(too_many)) == ("turns_first", "pair", "turns", "turns_apart")
    assert tune(string(readings=(reading(60.0, BRACE_M - 0.05),))).believed > 0.0


def test_a_reading_without_a_turn_between_decides_nothing() -> None:
    same = tune(string(readings=(reading(0.0, BRACE_M),)))
    assert same.believed == pytest.approx(0.0, abs=1e-12)


def cord() -> CordEstimate:
    return CordEstimate(fibre=fibre("polyester"), laid=False, yarn_kg_m=167e-6)


def test_what_the_sum_of_strands_must_be_and_what_they_weigh() -> None:
    made = choose(cord(), 12, 2, 178.0)
    strength = made.strength
    margin = practice("working_margin").spread.value
    wanted = strength.peak_ratio.value * margin / strength.efficiency.value
    assert made.times_asked.value == pytest.approx(wanted)
    assert made.mass_kg(1.6, 10) == pytest.approx(10 * 167e-6 * 1.6)


def test_fewer_strands_than_bundles_are_refused_and_as_many_are_not() -> None:
    assert problem(lambda: choose(cord(), 2, 3, 178.0)) == ("strands", "pair", "bundles", "few_strands")
    assert problem(lambda: choose(cord(), 3, 2, 178.0)) == ("strands", "pair", "bundles", "uneven_strands")
    assert choose(cord(), 3, 3, 178.0).strands == 3
