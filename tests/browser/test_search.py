"""The search in the words people use: everyday names lead to the page that answers, among the first results."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.offline_pages import search_for

if TYPE_CHECKING:
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
    "three ply string": "guides/three-bundle/",
    "paracord": "guides/choose-cord/",
    "parachute cord": "guides/choose-cord/",
    "beeswax": "guides/choose-cord/",
    # before making one
    "how to measure a bow": "guides/measure/",
    "poundage": "guides/measure/",
    "weigh a bow": "guides/measure/",
    "overbraced": "guides/measure/",
    "fistmele": "reference/words/",
    "string length": "worksheets/brace/",
    "how many strands": "worksheets/strands/",
    "unknown cord": "worksheets/cord-test/",
    "loop size": "worksheets/loops/",
    "cut length": "worksheets/cuts/",
    # making one
    "how many twists": "guides/two-bundle/",
    "which way to twist": "guides/two-bundle/",
    "splice": "guides/splice/",
    "centre serving": "guides/serve/",
    "nocking point": "guides/nocking-point/",
    "pre-stretch": "guides/settle/",
    # when something is wrong
    "too long": "guides/faults/#too-long",
    "too short": "guides/faults/#too-short",
    "slipped": "guides/faults/#loop-slips",
    "it slipped": "guides/faults/#loop-slips",
    "dry fire": "guides/faults/#loosed-empty",
    "fuzzy string": "guides/faults/#fuzz",
    # with others, and the site itself
    "kids": "guides/club-afternoon/",
    "spare string": "worksheets/spares/",
    "offline": "offline/",
    "no signal": "offline/",
    "stave": "worksheets/limb-test/",
    "tiller": "worksheets/tiller/",
    "tillering string": "guides/tillering-string/",
    "spare strings": "worksheets/spares/",
    "pluck": "worksheets/note/",
    "copy": "worksheets/copy/",
    "bow stringer": "guides/stringer/",
}
_LINKS = ".md-search-result__item a.md-search-result__link"


def test_everyday_words_lead_to_the_page_that_answers(open_page: OpenPage) -> None:
    page = open_page("", width=390, height=844)
    missed: dict[str, list[str]] = {}
    for phrase, goal in PHRASES.items():
        page.locator("label.md-header__button[for=__search]").click()
        search_for(page, phrase)
        page.wait_for_function("document.querySelector('.md-search-result__meta').textContent.match(/\\d/)")
        found = page.evaluate(
            "([links, first]) => [...document.querySelectorAll(links)].filter(each => each.checkVisibility())"
            ".slice(0, first).map(each => each.getAttribute('href'))",
            [_LINKS, FIRST],
        )
        if not any(goal in address.split("?")[0] + "#" + address.partition("#")[2] for address in found):
            missed[phrase] = found
        page.reload()
    assert missed == {}
