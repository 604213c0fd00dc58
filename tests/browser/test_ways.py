"""Where a thumb reaches: five places at the foot of a phone, none over the content; one page back and one on."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from calc.worksheets import catalogue
from site_build.pages.ways import PLACES

if TYPE_CHECKING:
    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
PAGES = ["", "worksheets/", "worksheets/string/", "guides/two-bundle/", "notebook/", "reference/words/"]


@pytest.mark.parametrize("path", PAGES)
def test_five_places_stand_at_the_foot_and_cover_nothing_at_the_end(open_page: OpenPage, path: str) -> None:
    page = open_page(path, width=390, height=844)
    links = page.locator(".places a")
    assert links.all_inner_texts() == [name for name, _ in PLACES]
    assert len(PLACES) == 5
    for link in links.all():
        box = link.bounding_box()
        assert box
        assert box["height"] >= 44
        assert box["y"] + box["height"] <= 844
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    last = "(all => Math.max(...all.map(each => each.getBoundingClientRect().bottom)))"
    ends = page.evaluate(
        f"{last}([...document.querySelectorAll('.md-content, .md-footer-meta__inner, .md-footer__inner')])"
    )
    bar = page.locator(".places").bounding_box()
    assert bar
    assert ends <= bar["y"] + 1


@pytest.mark.parametrize("path", ["", "guides/two-bundle/"])
def test_every_place_leads_there(open_page: OpenPage, path: str) -> None:
    page = open_page(path, width=390, height=844)
    start = page.url
    for name, to in PLACES:
        page.goto(start)
        page.locator(".places a", has_text=name).click()
        page.wait_for_url(f"**/{to}")


def test_a_wide_window_has_no_bar(open_page: OpenPage) -> None:
    assert open_page("worksheets/string/", width=1280).locator(".places").is_hidden()


def test_the_pages_follow_each_other_along_the_job(open_page: OpenPage) -> None:
    page = open_page("worksheets/string/", width=390, height=844)
    second = list(catalogue().values())[1].title
    for way, title in (("next", second), ("prev", catalogue()["string"].title)):
        link = page.locator(f".md-footer__link--{way}")
        assert title in link.inner_text()
        link.click()
        page.locator("h1", has_text=title).wait_for()
