"""The folder to carry, opened from the disk: guides, search, worked examples, and sums where the browser runs them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from site_build.offline import folder
from site_build.setup.paths import SITE
from tests.browser.conftest import watch
from tests.browser.sheets import Sheet, asked, working

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser


@pytest.fixture(scope="session")
def carried(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return folder.make(SITE, tmp_path_factory.mktemp("stick"))[0]


@pytest.fixture
def opened(browser: Browser, carried: Path) -> Iterator[Callable[[str], Page]]:
    """Open pages of the folder that may ask for nothing outside it."""
    context = browser.new_context(reduced_motion="reduce")
    wrongs: list[str] = []

    def open_file(name: str) -> Page:
        page = context.new_page()
        watch(page, f"{carried.as_uri()}/", wrongs)
        page.goto(f"{carried.as_uri()}/{name}")
        return page

    yield open_file
    context.close()
    assert wrongs == []


def test_a_worksheet_opened_from_a_folder_works_out_what_is_typed(opened: Callable[[str], Page]) -> None:
    sheet = Sheet(opened("worksheets/string/index.html"))
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    assert sheet.rows == working(asked({"nock_to_nock": "61 in"})["outcome"])
    assert sheet.find(".copy").is_hidden()


def test_guides_follow_the_reader_and_links_lead_to_files(opened: Callable[[str], Page]) -> None:
    page = opened("index.html")
    page.locator(".home-doors a[href*=string]").click()
    page.wait_for_url("**/worksheets/string/index.html")
    page.goto(page.url.replace("worksheets/string", "guides/two-bundle"))
    page.locator("input[name=pt-hand][value=S]").check()
    assert page.evaluate("document.documentElement.dataset.hand") == "S"
    page.locator("[data-figure=barber-pole] [data-hand=S] svg").wait_for()
    page.locator(".pt-offline p", has_text="Opened from a folder").wait_for(state="attached")
    assert (page.locator(".pt-offline a").get_attribute("href") or "").endswith("/offline/index.html")


def test_the_search_finds_and_leads_to_files(opened: Callable[[str], Page]) -> None:
    page = opened("reference/words/index.html")
    page.locator(".md-search__input").click()
    page.locator(".md-search-result__meta", has_text="Type to start searching").wait_for()
    page.keyboard.type("brace height", delay=20)
    found = page.locator(".md-search-result__item a").first
    found.wait_for()
    assert "index.html" in (found.get_attribute("href") or "")


@pytest.mark.stops_python
def test_where_no_worker_can_be_made_the_example_stays_with_an_honest_line(opened: Callable[[str], Page]) -> None:
    page = opened("index.html")
    page.add_init_script("URL.createObjectURL = () => { throw new DOMException('no', 'SecurityError'); };")
    page.goto(page.url.replace("index.html", "worksheets/string/index.html"))
    sheet = Sheet(page)
    shown = sheet.headlines
    sheet.type("nock_to_nock", "61 in")
    sheet.settled("old")
    assert sheet.headlines == shown
    assert sheet.find("[data-cause=folder]").is_visible()
