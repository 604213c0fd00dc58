"""Look at the bend: what the sheet says, and that every other sheet takes the bend it read."""

from __future__ import annotations

import pytest

from calc.mechanics.estimate import BowEstimate
from calc.numerics import Spread
from calc.worksheets import catalogue
from calc.worksheets.bend.taps import TAPS, read_taps
from calc.worksheets.core import Answer, Choice, ask, by_key, read, usual

pytestmark = pytest.mark.exact
SHEET = catalogue()["bend"]
EXAMPLES = {each.name: each for each in SHEET.examples}
SHAPED = sorted(key for key, sheet in catalogue().items() if any(each.key == "limb_shape" for each in sheet.fields))


def answered(name: str) -> Answer:
    found = ask(SHEET, usual(SHEET, EXAMPLES[name].inputs), "inch")
    assert isinstance(found, Answer), found
    return found


def test_the_drawn_example_is_the_bow_it_was_made_of() -> None:
    """Limbs alike all along by scipy's elastica, 66 in, drawn to 0.628 m, seen 11 degrees aslant, taps 1.5 px off."""
    found = by_key(answered("drawn").rows)
    assert found["draw_seen"].spread.low < 0.6285 < found["draw_seen"].spread.high
    assert found["limb_bend"].spread.low < 1.0 < found["limb_bend"].spread.high


def test_a_limb_that_folds_is_warned_of() -> None:
    texts = [each.text for each in answered("fold").cautions]
    assert any("may fold" in each for each in texts)
    assert not any("may fold" in each.text for name in ("usual", "drawn") for each in answered(name).cautions)


def test_an_unbraced_bow_tells_set_and_no_bend_by_a_string() -> None:
    found = answered("unbraced")
    assert "limb_bend" not in by_key(found.rows)
    assert not found.known


@pytest.mark.parametrize("sheet_id", SHAPED)
def test_every_sheet_that_asks_how_limbs_bend_takes_what_a_picture_showed(sheet_id: str) -> None:
    sheet = catalogue()[sheet_id]
    field = next(each for each in sheet.fields if each.key == "limb_shape")
    assert isinstance(field, Choice)
    told = read.photo_text(Spread(-0.3, 0.1, 0.5))
    assert read.read_field(field, "photo 0.1 ± 0.4", "inch") == told
    assert isinstance(ask(sheet, usual(sheet, {"limb_shape": told}), "inch"), Answer)


def test_a_bend_between_shapes_gives_a_string_between_theirs() -> None:
    def string_m(bend: Spread | None, shape: str | None = None) -> Spread:
        bow = BowEstimate(nock_to_nock_m=1.676, handle_length_m=0.2, shape=shape, bend=bend)  # type: ignore[arg-type]
        return bow.spread(lambda each: each.string_m(0.165))

    even, most = string_m(Spread.exactly(0.0)), string_m(Spread.exactly(1.0))
    half = string_m(Spread(0.3, 0.5, 0.7))
    assert even.value == pytest.approx(string_m(None, "arc").value, abs=1e-9)
    assert most.value == pytest.approx(string_m(None, "uniform").value, abs=1e-9)
    assert even.value < half.value < most.value
    assert half.high - half.low < string_m(None, "arc").high - string_m(None, "arc").low


def test_points_are_read_as_they_are_written() -> None:
    found = read_taps(TAPS.example)
    assert (len(found.upper), len(found.lower), found.string, found.marks) == (9, 9, (808.0, 461.0), ())
    assert read_taps(TAPS.example.replace(":", " ").upper()) == found
