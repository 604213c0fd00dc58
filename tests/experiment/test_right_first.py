"""Strings for bows of hidden truth, planned by the sheets as a user asks them, made and braced in the second way.

With ``--long`` all 500 bows; 60 without, for which a share of nine in ten strays by one in thirteen either way.
"""

from __future__ import annotations

import json
from math import hypot
from pathlib import Path

import numpy as np
import pytest

from calc.data import practice
from calc.units import INCH
from tests.experiment.carried import CARRIERS, carried
from tests.experiment.nailing import on_nail
from tests.experiment.page import page
from tests.experiment.rows import BOWS, STRONG, Experiment
from tests.experiment.rows import on_nail as row_on_nail

FEW = 60
_AS_STATED = (0.87, 0.93)
_OF_FEW = (0.81, 0.97)


@pytest.fixture(scope="module")
def tried(share: int) -> Experiment:
    """Return the bows, and what the bench sheet says of each."""
    return Experiment.of(BOWS if share == 1 else FEW)


def band(tried: Experiment) -> tuple[float, float]:
    """Return between which shares a range that is right nine times in ten holds the truth."""
    return _AS_STATED if len(tried.drawn) >= BOWS else _OF_FEW


@pytest.mark.exact
def test_every_bow_is_answered_and_braced(tried: Experiment) -> None:
    weights = np.array([each.true["weight_n"] for each in tried.drawn]) / 4.4482216
    assert weights.min() < 20
    assert weights.max() > 75
    assert tried.refused <= 0.02 * len(tried.drawn)
    assert not np.isnan(tried.braced[0]).any()
    assert {each.typed["bundles"] for each in tried.drawn} == {"2", "3"}
    assert len({each.fibre.id for each in tried.drawn}) >= 12


@pytest.mark.exact
def test_where_the_sheet_leaves_nothing_out_both_ways_agree(tried: Experiment) -> None:
    """No set, a flush handle, no creep, and bundles that hold no more twist than a free cord keeps."""
    row = tried.plain().tape()
    low, high = band(tried)
    assert abs(float(np.median(row.off_m))) < 0.2 * INCH
    assert low <= row.holds <= high


@pytest.mark.exact
def test_the_stated_range_holds_the_truth_nine_times_in_ten(tried: Experiment) -> None:
    row = tried.tape()
    low, high = band(tried)
    assert low <= row.holds <= high, row.holds


@pytest.mark.exact
@pytest.mark.xfail(reason="turns alone mend 76 strings in 100; of all it is told how many of ten they may not")
def test_turns_bring_every_string_in(tried: Experiment) -> None:
    assert tried.reached().mean() >= 0.98


@pytest.mark.exact
def test_advised_strands_hold_the_hardest_pull(tried: Experiment) -> None:
    """98 in 100; of 60 bows, of which that leaves one or two, at most four."""
    assert (tried.held() >= 1.0).mean() >= (STRONG if len(tried.drawn) >= BOWS else 56.0 / FEW)


@pytest.mark.exact
def test_a_string_on_the_nail_tells_the_brace_height_as_often_as_it_says(tried: Experiment) -> None:
    """Within 3/8 in nine times in ten; of 60 bows one in ten strays by more."""
    done = on_nail(tried)
    row = row_on_nail("nail", done)
    low, high = band(tried)
    assert low <= row.holds <= high
    assert row.off <= (3.0 / 8.0 if len(tried.drawn) >= BOWS else 0.45) * INCH
    assert abs(float(np.median(row.off_m))) < (INCH / 16 if len(tried.drawn) >= BOWS else INCH / 10)
    assert done.mended.mean() >= 0.7
    alone = carried(done.told)
    thread_m = hypot(*(practice(name).spread.high for name in ("follow_reading", "tape_reading")))
    assert alone[next(iter(CARRIERS))] == pytest.approx(thread_m, rel=0.15)


@pytest.mark.exact
def test_a_second_string_is_planned_from_what_the_first_one_braced_at(tried: Experiment) -> None:
    """By the bench sheet alone: nothing hung, nothing else measured. Of 60 bows one in ten strays by more."""
    row = tried.again()
    low, high = band(tried)
    assert row.off <= (0.3 if len(tried.drawn) >= BOWS else 0.35) * INCH
    assert low <= row.holds <= high
    assert abs(float(np.median(row.off_m))) < INCH / 10


@pytest.fixture(scope="module")
def all_tried(tried: Experiment) -> Experiment:
    """Return all bows, which take minutes."""
    if len(tried.drawn) < BOWS:
        pytest.skip("with --long")
    return tried


@pytest.mark.exact
@pytest.mark.parametrize("cord", [False, True])
def test_a_string_that_was_on_the_bow_keeps_the_range_right(all_tried: Experiment, *, cord: bool) -> None:
    low, high = _AS_STATED
    assert low <= row_on_nail("before", on_nail(all_tried, bow=True, cord=cord)).holds <= high


_HEAVY = "heavy bows pull harder than anybody hangs, and bed the string in further than the nail did"
_BROUGHT = (
    pytest.param(False, 1 / 4, marks=pytest.mark.xfail(reason=_HEAVY)),
    (True, 1 / 8),
)


@pytest.mark.exact
@pytest.mark.parametrize(("cord", "inches"), _BROUGHT)
def test_a_string_that_was_on_the_bow_brings_the_next_in(all_tried: Experiment, *, cord: bool, inches: float) -> None:
    assert row_on_nail("before", on_nail(all_tried, bow=True, cord=cord)).off <= inches * INCH


@pytest.mark.contract
def test_the_page_is_written_from_the_committed_figures() -> None:
    folder = Path(__file__).resolve().parents[2] / "docs" / "reference"
    found = json.loads((folder / "right-first.json").read_text(encoding="utf-8"))
    assert page(found) == (folder / "right-first.md").read_text(encoding="utf-8")
    assert found["bows"] == BOWS
    shown = page(found | {"held": 0.5, "rows": [found["rows"][0] | {"holds": 0.5, "aim_m": 0.001, "off_m": 0.0254}]})
    assert "missed: off by more than 0.04 in; too narrow or beside it" in shown
    assert "**50.0 %** of the bows (98 % wanted: missed)" in shown
