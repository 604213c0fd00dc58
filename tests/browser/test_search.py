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
    "flemish string": "guides/two-bundle/",
    "flemish twist": "guides/two-bundle/",
    "laid-in string": "guides/two-bundle/",
    "reverse wrap": "guides/two-bundle/",
    "paracord": "guides/choose-cord/",
    "parachute cord": "guides/choose-cord/",
    "kids": "guides/club-afternoon/",
    "poundage": "guides/measure/",
    "offline": "offline/",
    "too long": "guides/faults/#too-long",
    "too short": "guides/faults/#too-short",
    "slipped": "guides/faults/#loop-slips",
    "how many twists": "guides/two-bundle/",
    "dry fire": "guides/faults/#loosed-empty",
    "overbraced": "guides/measure/",
    "continuous string": "guides/endless/",
    "fistmele": "reference/words/",
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
