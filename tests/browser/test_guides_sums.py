"""What making along counts and says, in the browser's own words: the pure module, without a page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from site_build.pages.guides.club import needed
from tests.browser.sheets import ADDRESS, Sheet, asked

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
MINUTE = 60_000


@pytest.fixture
def page(open_page: OpenPage) -> Page:
    return open_page("guides/")


def said(page: Page, name: str, *given: object) -> Any:  # noqa: ANN401 - whatever the script answers
    """Return what a function of the module answers."""
    call = "async ([name, given]) => (await import('/source/guide/counts.js'))[name](...given)"
    return page.evaluate(call, [name, list(given)])


def test_a_count_says_how_it_stands(page: Page) -> None:
    for counts, wanted, state, words in (
        ([0, 0], 0, "under", "Tap as you count"),
        ([0, 0], 5, "under", "0 each, 5 to go"),
        ([2, 1], 5, "uneven", "A is 1 ahead of B"),
        ([1, 4], 5, "apart", "B is 3 ahead of A"),
        ([5, 5], 5, "reached", "Done: 5 each"),
        ([6, 6], 5, "over", "6 each, 1 too many"),
        ([3, 3, 1], 0, "uneven", "A is 2 ahead of C"),
        ([68], 68, "reached", "Done: 68"),
        ([7], 0, "under", "7"),
        ([72, 72], 72.5, "under", "72 each, ½ to go"),
        ([72.5, 72], 72.5, "uneven", "A is ½ ahead of B"),
        ([72.5, 72.5], 72.5, "reached", "Done: 72½ each"),
        ([73.5], 72.5, "over", "73½, 1 too many"),
    ):
        assert said(page, "standing", counts, wanted) == {"state": state, "words": words}, counts


def test_turns_are_read_from_what_is_printed(page: Page) -> None:
    for text, turns in (("5", 5), ("72.5", 72.5), ("72,5 turns", 72.5), ("", 0), ("none", 0), ("23 to 25", 23)):
        assert said(page, "turnsIn", text) == turns, text


def test_a_half_turn_is_counted_where_one_is_wanted(page: Page) -> None:
    for count, more, wanted, then in (
        (71, 1, 72.5, 72),
        (72, 1, 72.5, 72.5),
        (72.5, 1, 72.5, 73.5),
        (73.5, -1, 72.5, 72.5),
        (72.5, -1, 72.5, 72),
        (72, -1, 72.5, 71),
        (0, -1, 72.5, 0),
        (0, 1, 0.5, 0.5),
        (4, 1, 5, 5),
    ):
        assert said(page, "counted", count, more, wanted) == then, (count, more, wanted)


def test_a_timer_counts_down_and_then_up(page: Page) -> None:
    for left, minutes, done, words in (
        (60 * MINUTE, 60, False, "1 h left of 1 h"),
        (59 * MINUTE + 1, 60, False, "1 h left of 1 h"),
        (30 * MINUTE, 60, False, "30 min left of 1 h"),
        (1, 60, False, "1 min left of 1 h"),
        (0, 60, True, "1 h are over"),
        (-61 * MINUTE, 60, True, "1 h are over, since 1 h 1 min"),
        (700 * MINUTE, 720, False, "11 h 40 min left of 12 h"),
        (9999 * MINUTE, 60, False, "1 h left of 1 h"),
    ):
        assert said(page, "running", 10_000 * MINUTE + left, 10_000 * MINUTE, minutes) == {"done": done, "words": words}


def test_an_own_number_follows_the_units(page: Page) -> None:
    own = {
        "values": {"cut": {"in": "8 in", "mm": "203 mm"}, "turns": {"in": "5", "mm": "5"}, "fibre": "linen", "bad": 3}
    }
    for key, units, words in (
        ("cut", "inch", "8 in"),
        ("cut", "metric", "203 mm"),
        ("cut", "", "8 in (203 mm)"),
        ("turns", "", "5"),
        ("fibre", "metric", "linen"),
        ("bad", "", ""),
        ("none", "", ""),
    ):
        assert said(page, "ownText", own, key, units) == words, key
    assert said(page, "ownText", None, "cut", "") == ""


def test_the_kit_list_of_the_page_is_that_of_the_build(page: Page) -> None:
    for makers in (1, 2, 3, 7, 8, 9, 40):
        for rule in ({"each": "2"}, {"per": "4"}, {"once": "1"}, {"each": "0.5"}):
            told = {name: float(number) for name, number in rule.items()}
            assert said(page, "needed", makers, rule) == needed(makers, **told), (makers, rule)
    for text, makers in (("8", 8), (" 12 ", 12), ("0", 0), ("-3", 0), ("2.5", 0), ("many", 0), ("1e9", 0)):
        assert said(page, "makersIn", text) == makers, text


def test_what_a_worksheet_answers_stands_in_the_guide(open_page: OpenPage) -> None:
    page = open_page(ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "62 1/2 in")
    sheet.choose("hand", "S")
    sheet.settled()
    outcome = asked({"nock_to_nock": "62 1/2 in", "hand": "S"})["outcome"]
    rows = {row["key"]: row["shown"] for row in outcome["rows"]}
    page.wait_for_function(
        "text => (localStorage.getItem('plied-true:own') ?? '').includes(text)", arg=rows["cut_length"]
    )
    page.goto(page.url.split("worksheets")[0] + "guides/two-bundle/")
    page.wait_for_selector("html[data-hand=S]")
    step = page.locator(".pt-step:has(#cut)").inner_text()
    assert f"Cut {rows['strands']} strands to {rows['cut_length']}" in step
