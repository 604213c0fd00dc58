"""The worker asks the same again after an answer, so that the browser keeps its fast code: once, for a short while."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import pytest

from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage, OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser

PRACTISED = """async (ms) => {
  const { practise } = await import('/source/practice.js');
  const cache = await caches.open('trial');
  let now = 0;
  performance.now = () => now;
  let times = 0;
  await practise(cache, { wasm: '/a.wasm', note: '/memory-a.txt' }, () => {
    times += 1;
    now += ms;
  });
  return times;
}"""
COMES_FROM_THE_DEVICE = "caches.open('trial').then((cache) => cache.put('/a.wasm?kept=0a', new Response()))"
NOTES = """async () => {
  const cache = await caches.open('plied-true-site /');
  return (await cache.keys()).map(({ url }) => url.split('?')[1]).filter((search) => search.startsWith('practised='));
}"""


def times(page: Page, ms: int) -> int:
    """Return how often an ask that takes so long is practised."""
    return cast("int", page.evaluate(PRACTISED, ms))


def test_it_is_done_once_for_each_place_that_the_code_comes_from(open_page: OpenPage) -> None:
    page = open_page("guides/")
    assert times(page, 10) == 50
    assert times(page, 10) == 0
    page.evaluate(COMES_FROM_THE_DEVICE)
    assert times(page, 10) == 50
    assert times(page, 10) == 0


def test_it_is_done_again_in_a_newer_browser(open_page: OpenPage) -> None:
    page = open_page("guides/")
    assert times(page, 10) == 50
    page.evaluate(
        "navigator.userAgentData.__proto__.__defineGetter__('brands', () => [{ brand: 'any', version: '999' }])"
    )
    assert times(page, 10) == 50


def test_slow_asks_are_asked_less_often(open_page: OpenPage) -> None:
    assert times(open_page("guides/"), 1500) == 3


def test_a_browser_that_would_keep_no_code_for_it_is_spared(open_page: OpenPage) -> None:
    page = open_page("guides/")
    page.evaluate("Object.defineProperty(navigator, 'userAgentData', { value: undefined })")
    assert times(page, 10) == 0


def test_what_is_typed_meanwhile_is_answered(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    for length in ("61 in", "62 in", "63 in", "64 in"):
        sheet.type("nock_to_nock", length)
        sheet.settled()
        assert sheet.rows == working(asked({"nock_to_nock": length})["outcome"])
        page.wait_for_timeout(700)
    page.wait_for_function(f"async () => (await ({NOTES})()).length === 1")
    assert sheet.rows == working(asked({"nock_to_nock": "64 in"})["outcome"])


def test_a_reader_who_wants_nothing_kept_has_no_note_kept(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.goto(plain_host.address)
    page.evaluate("localStorage.setItem('plied-true:offline', '\"off\"')")
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    page.wait_for_timeout(6000)
    assert page.evaluate(NOTES) == []
