"""Fewest spares: the optimum by brute force, spans from the bow's own sums, and what the sheet says."""

from __future__ import annotations

from itertools import combinations
from random import Random

import pytest

from calc.data import practice
from calc.errors import DomainError
from calc.geometry.lay import middle_lay
from calc.making.club import fewest_lengths, serves, turns_to
from calc.making.string import raw_for, turned_to_lay
from calc.making.tuning import free_body, string_for, turned
from calc.mechanics.estimate import BowEstimate
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, by_key, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

pytestmark = pytest.mark.exact
SHEET = catalogue()["spares"]
TYPED = TypedSheet("spares")
answered = TYPED.answer
INCH = 0.0254
HEAD = "name; nock to nock (in); handle_length (in); handle_proud (in); string_follow (in); brace height (in)"


def fewest_by_trying(spans: list[tuple[float, float]]) -> int:
    """Return how few of all upper ends meet every span; moving a length up to the next end loses none."""
    ends = [high for _, high in spans]
    return next(
        count
        for count in range(len(spans) + 1)
        if any(
            all(any(low <= at <= high for at in tried) for low, high in spans) for tried in combinations(ends, count)
        )
    )


@pytest.mark.parametrize("seed", range(200))
def test_no_choice_of_lengths_does_with_fewer(seed: int) -> None:
    draw = Random(seed)  # noqa: S311 - a seeded sample, no secret
    middles = [(draw.uniform(0.0, 10.0), draw.uniform(0.0, 2.5)) for _ in range(draw.randint(0, 12))]
    spans = [(at - half, at + half) for at, half in middles]
    found = fewest_lengths(spans)
    assert len(found) == fewest_by_trying(spans)
    assert sorted(k for _, held in found for k in held) == list(range(len(spans)))
    for length, held in found:
        assert all(spans[k][0] <= length <= spans[k][1] for k in held)


def test_forty_bows_are_covered_and_no_two_that_began_a_round_share_a_string() -> None:
    draw = Random(40)  # noqa: S311 - a seeded sample, no secret
    spans = [(at, at + draw.uniform(0.5, 1.5)) for at in (draw.uniform(45.0, 70.0) for _ in range(40))]
    found = fewest_lengths(spans)
    first = [min((spans[k] for k in held), key=lambda span: span[1]) for _, held in found]
    assert all(a[1] < b[0] or b[1] < a[0] for a, b in combinations(first, 2))


KNOWN = BowEstimate(nock_to_nock_m=1.65, handle_length_m=0.2, handle_proud_m=0.012, string_follow_m=0.02, shape="arc")


def test_the_ends_of_a_span_are_what_the_brace_sheet_turns_to() -> None:
    """Let out or turned up, the string at either end of a span braces within the band, whatever the bow may be."""
    bow, band_m = KNOWN, 0.0064
    found = serves(bow, 0.16, band_m, 0.2)
    assert found.sure
    for string_m, key in ((found.low_m, "string_longest"), (found.high_m, "string_shortest")):
        reached = string_for(bow, bow.middle.brace_m(string_m), 0.2).figures[key].value
        wanted = found.string.high if key == "string_longest" else found.string.low
        off = bow.middle.brace_m(reached) - bow.middle.brace_m(wanted)
        assert off == pytest.approx(band_m if key == "string_longest" else -band_m, rel=0.1)


def test_a_bow_that_takes_no_such_brace_height_is_refused_by_name() -> None:
    highest_m = KNOWN.middle.highest_m
    for over_m in (1e-9, 0.02):
        with pytest.raises(DomainError) as caught:
            serves(KNOWN, highest_m - 0.006 + over_m, 0.006, 0.2)
        problem = caught.value.problem
        assert (problem.field, problem.code) == ("brace_m", "max")
        assert problem.limit == pytest.approx(highest_m - 0.006)


def test_a_bow_hardly_known_is_given_the_length_between() -> None:
    """Its longest string let out is longer than its shortest turned up: half-way, by the two shares of the body."""
    bow, tail_m, band_m = BowEstimate(nock_to_nock_m=1.65), 0.5, 0.002
    found, middle = serves(bow, 0.16, band_m, tail_m), bow.middle
    out, up = turned()
    ends_m = found.string.value - free_body(found.string.value, tail_m, practice("tip_usual").spread.value)
    by_m = (
        middle.string_m(0.16) - middle.string_m(0.16 + band_m),
        middle.string_m(0.16 - band_m) - middle.string_m(0.16),
    )
    low_m = (found.string.high - by_m[0] + ends_m * out) / (1.0 + out)
    high_m = (found.string.low + by_m[1] + ends_m * up) / (1.0 + up)
    assert high_m < low_m
    assert found.low_m == found.high_m == pytest.approx((low_m + high_m) / 2.0, abs=2e-4)


def test_a_bow_that_is_hardly_known_is_not_promised() -> None:
    """Long tails leave little body to turn, less than what is not known of such a bow."""
    assert not serves(BowEstimate(nock_to_nock_m=1.65), 0.16, 0.0, 0.5).sure
    said = answered(bows="Ash, 66 in", handle_length="?", limb_shape="unknown", brace_band="0 in", tail_length="20 in")
    assert any("Too little is known of Ash" in each.text for each in said.cautions)


@pytest.mark.parametrize("by_m", [-0.012, 0.0, 0.009])
def test_turns_bring_a_spare_to_its_bow(by_m: float) -> None:
    """A turn more makes it shorter, by as much as the lay sheet's own sums tell."""
    turns = turns_to(1.6, 1.6 + by_m, 0.2, 0.00125, 2)
    assert turns == pytest.approx(0.0, abs=1e-6) if by_m == 0.0 else turns * by_m < 0.0


@pytest.mark.parametrize("by_m", [-0.3, 0.3])
def test_no_more_turns_are_told_than_the_window_has(by_m: float) -> None:
    """Much too long or too short, it is turned up to the tightest lay of use or let out to the loosest that holds."""
    body_m = free_body(1.6, 0.2, practice("tip_usual").spread.value)
    ends = {name: practice(name).spread.value for name in ("lay_loosest", "lay_tightest")}
    made = raw_for(body_m, 0.00125, 2, middle_lay(*ends.values()))
    end = turned_to_lay(made, 0.00125, 2, ends["lay_loosest" if by_m > 0.0 else "lay_tightest"])
    assert turns_to(1.6, 1.6 + by_m, 0.2, 0.00125, 2) == pytest.approx(end.turns - made.turns, rel=1e-9)


def test_two_bows_that_are_nearly_alike_share_a_string_and_a_short_one_does_not() -> None:
    bows = f"{HEAD}\nAlder; 66; 8; 0.5; 1; 6.5\nBirch; 65.75; 8; 0.5; 1; 6.5\nIvy; 48; 4; 0; 0; 5"
    found = answered(bows=bows)
    rows = by_key(found.rows)
    assert (rows["spares_needed"].spread.value, rows["bows"].spread.value) == (2, 3)
    make, use = found.tables("inch")
    assert [line[2] for line in make.cells] == ["2", "1"]
    assert {line[0]: line[1] for line in use.cells} == {"Alder": "1", "Birch": "1", "Ivy": "2"}


def test_a_wider_band_never_takes_more() -> None:
    bows = next(each.inputs["bows"] for each in SHEET.examples if each.name == "known")
    needed = [
        by_key(answered(bows=bows, brace_band=band).rows)["spares_needed"].spread.value
        for band in ("0 in", "1/4 in", "1/2 in", "1 in")
    ]
    assert needed == sorted(needed, reverse=True)
    assert needed[-1] < needed[0]


def test_lines_at_fault_are_named_and_a_spare_is_made_for_the_strongest() -> None:
    found = answered(bows="Ash, 66 in, 40 lb\nYew, 66 in, 60 lb\nOak, 3 in, 40 lb")
    assert any("Line 3 (Oak) is left out" in each.text for each in found.cautions)
    assert any("strongest bow" in each.text for each in found.cautions)
    assert "60.0 lb, Yew" in found.tables("inch")[0].cells[0][3]


def test_a_spare_that_is_off_by_as_much_as_told_still_serves() -> None:
    found = by_key(answered(bows="Ash, 66 in").rows)
    bow = BowEstimate(nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc")
    takes = serves(bow, 6.5 * INCH, 0.25 * INCH, 8 * INCH)
    assert found["spare_room"].spread.value == pytest.approx((takes.high_m - takes.low_m) / 2.0)
    assert found["spare_longest"].spread.value == pytest.approx((takes.high_m + takes.low_m) / 2.0)


def test_the_example_shows_bows_that_share() -> None:
    sheet = catalogue()["spares"]
    answer = ask(sheet, usual(sheet), "inch")
    assert isinstance(answer, Answer)
    found = by_key(answer.rows)
    assert found["spares_needed"].spread.value < found["bows"].spread.value
