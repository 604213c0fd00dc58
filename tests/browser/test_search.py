"""The search in the words people use: everyday names lead to the page that answers, among the first results."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
FIRST = 5
"""Results that a phone shows before anybody gives up."""
PHRASES = {
    # names of strings and cords
    "flemish string": "guides/two-bundle/",
    "flemish twist": "guides/two-bundle/",
    "laid-in string": "guides/two-bundle/",
    "reverse wrap": "guides/two-bundle/",
    "continuous string": "guides/endless/",
    "endless loop string": "guides/endless/",
    "timber hitch": "guides/one-loop/",
    "bowyer's knot": "guides/one-loop/",
    "bowyer’s knot": "guides/one-loop/",
    "three ply string": "guides/three-bundle/",
    "paracord": "guides/choose-cord/",
    "parachute cord": "guides/choose-cord/",
    "baler twine": "guides/choose-cord/",
    "beeswax": "guides/choose-cord/",
    "what string material is best": "guides/choose-cord/",
    # before making one
    "how to measure a bow": "guides/measure/",
    "bow length": "guides/measure/",
    "poundage": "guides/measure/",
    "how heavy is my bow": "guides/measure/",
    "weigh a bow": "guides/measure/",
    "overbraced": "guides/measure/",
    "fistmele": "reference/words/",
    "what is brace height": "reference/words/",
    "string length": "worksheets/brace/",
    "how long should my string be": "worksheets/brace/",
    "how many strands": "worksheets/strands/",
    "how thick should the string be": "worksheets/strands/",
    "strong enough": "worksheets/strands/",
    "unknown cord": "worksheets/cord-test/",
    "how much thread": "worksheets/cuts/",
    "loop size": "worksheets/loops/",
    "cut length": "worksheets/cuts/",
    "arrow speed": "worksheets/shot/",
    "how fast is my arrow": "worksheets/shot/",
    "no string": "worksheets/limb-test/",
    "never had a string": "worksheets/limb-test/",
    "old string": "worksheets/copy/",
    # making one
    "how to make a bow string": "guides/two-bundle/",
    "make a loop": "guides/two-bundle/",
    "how many twists": "guides/two-bundle/#how-many-twists-it-has",
    "which way to twist": "guides/two-bundle/",
    "splice": "guides/splice/",
    "whipping": "guides/one-loop/#whip",
    "centre serving": "guides/serve/",
    "center serving": "guides/serve/",
    "nocking point": "guides/nocking-point/",
    "pre-stretch": "guides/settle/",
    "stretch a new string": "guides/settle/",
    # on the bow
    "string a bow": "guides/brace/",
    "how to string my bow": "guides/brace/",
    "put the string on": "guides/brace/",
    "bow stringer": "guides/stringer/",
    "stringing aid": "guides/stringer/",
    # when something is wrong
    "my string is too long": "guides/faults/#too-long",
    "too long": "guides/faults/#too-long",
    "string is loose": "guides/faults/#too-long",
    "my string is too short": "guides/faults/#too-short",
    "too short": "guides/faults/#too-short",
    "slipped": "guides/faults/#loop-slips",
    "it slipped": "guides/faults/#loop-slips",
    "loop came undone": "guides/faults/#loop-slips",
    "string broke": "guides/faults/#strand-broken",
    "string snapped": "guides/faults/#strand-broken",
    "brace height drops": "guides/faults/#height-creeps",
    "my string keeps stretching": "guides/faults/#height-creeps",
    "arrow falls off": "guides/faults/#nock-loose",
    "arrow won't go on the string": "guides/faults/#nock-tight",
    "string slaps my arm": "guides/faults/#too-long",
    "bow is too loud": "guides/faults/#loud",
    "hand shock": "guides/faults/#loud",
    "dry fire": "guides/faults/#loosed-empty",
    "fuzzy string": "guides/faults/#fuzz",
    "frayed": "guides/faults/#fuzz",
    "serving came loose": "guides/faults/#serving-parts",
    "lumpy string": "guides/faults/#lumps",
    "bow got weaker": "guides/faults/#weaker",
    "hard to string": "guides/faults/#hard-to-brace",
    "when to replace a string": "guides/care/#retire",
    "how to wax a string": "guides/care/#wax",
    # with others, and the site itself
    "kids": "guides/club-afternoon/",
    "teach a class": "guides/club-afternoon/",
    "spare string": "worksheets/spares/",
    "spare strings": "worksheets/spares/",
    "log book": "notebook/",
    "offline": "offline/",
    "no signal": "offline/",
    # for who makes bows
    "stave": "worksheets/limb-test/",
    "tiller": "worksheets/tiller/",
    "tillering string": "guides/tillering-string/",
    "pluck": "worksheets/note/",
    "copy": "worksheets/copy/",
    "string cuts into the nock": "worksheets/loops/",
    "padding strands": "worksheets/loops/",
    "string bridge": "worksheets/loops/",
    # more on the string, and less usual strings
    "silencers": "worksheets/shot/",
    "quiet bow": "worksheets/tune/",
    "sinew string": "guides/short-fibre/",
    "nettle": "guides/short-fibre/",
}
_LINKS = ".md-search-result__item a.md-search-result__link"

_META = ".md-search-result__meta"
_NOTHING_ASKED = "Type to start searching"


def found(page: Page, words: str) -> list[str]:
    """Return where the results of a query lead that are shown first; the query is asked once, as if dictated."""
    page.locator(".md-search__input").fill("")
    page.keyboard.press("End")  # the theme reads the field when a key is let go
    page.locator(_META, has_text=_NOTHING_ASKED).wait_for()
    page.keyboard.insert_text(words)
    page.keyboard.press("End")
    page.locator(_META, has_not_text=_NOTHING_ASKED).wait_for()
    shown: list[str] = page.evaluate(
        "([links, first]) => [...document.querySelectorAll(links)].filter(each => each.checkVisibility())"
        ".slice(0, first).map(({ pathname, hash }) => pathname.slice(1) + hash)",
        [_LINKS, FIRST],
    )
    return shown


@pytest.fixture
def opened(open_page: OpenPage) -> Page:
    """Return a page whose search is open and ready."""
    page = open_page("", width=390, height=844)
    page.locator("label.md-header__button[for=__search]").click()
    page.locator(_META, has_text=_NOTHING_ASKED).wait_for()
    return page


def test_everyday_words_lead_to_the_page_that_answers(opened: Page) -> None:
    missed: dict[str, list[str]] = {}
    for phrase, goal in PHRASES.items():
        first = found(opened, phrase)
        if not any(address.startswith(goal) for address in first):
            missed[phrase] = first
    assert len(PHRASES) >= 60
    assert missed == {}


def test_a_word_that_stands_everywhere_is_found_alone_and_beside_one_that_stands_nowhere(opened: Page) -> None:
    alone = found(opened, "string")
    assert len(alone) == FIRST
    assert len(found(opened, "string quixotry")) == FIRST
    assert "quixotry" in opened.locator(".md-search-result__terms").first.inner_text()
    assert found(opened, "quixotry") == []


def test_the_signs_of_the_search_stay(opened: Page) -> None:
    assert found(opened, "splice") != found(opened, "+splice -tails")
    assert "guides/brace/" in found(opened, '"brace height"')
