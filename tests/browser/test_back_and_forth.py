"""Back and forth between pages: neither Python nor memory is left behind, and Python stays awake where it can."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import Error

from tests.browser.offline_pages import PAGES_READY, ready
from tests.browser.sheets import PYTHON_MS, Sheet, asked

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import CDPSession, Page

    from tests.browser.conftest import OpenOwn, OpenPage
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
TIMES = 50
KEYS = ("twist", "loops")


def pythons(session: CDPSession) -> int:
    """Return how many of Python's workers live in the whole browser."""
    everything = session.send("Target.getTargets")["targetInfos"]
    return sum(each["type"] == "worker" and each["url"].endswith("web/worker.js") for each in everything)


def wait(page: Page, come: Callable[[], bool]) -> None:
    """Wait until something has come true; pages that come and go may not answer."""
    for _ in range(PYTHON_MS // 100):
        with suppress(Error):
            if come():
                return
        page.wait_for_timeout(100)
    raise TimeoutError


def memory(session: CDPSession) -> dict[str, Any]:
    session.send("HeapProfiler.collectGarbage")
    return {each["name"]: each["value"] for each in session.send("Performance.getMetrics")["metrics"]}


def follow_link(page: Page, key: str) -> None:
    page.locator(f".md-nav--primary a[href*='{key}/']").first.evaluate("link => link.click()")
    page.locator(f"#{key} .go button:not([hidden])").wait_for(state="attached")


def steps_within(page: Page, key: str) -> None:
    """Go to a place of the page, back and forth again; what is half typed must stay."""
    sheet = page.locator(f"#{key}")
    sheet.evaluate("sheet => { sheet.dataset.mine = 'yes'; }")
    before = page.url
    page.locator("a.md-skip").evaluate("link => link.click()")
    assert page.url != before
    page.evaluate("history.back()")
    page.wait_for_url(before)
    page.evaluate("history.forward()")
    page.wait_for_url(f"{before}#*")
    page.evaluate("history.back()")
    page.wait_for_url(before)
    page.wait_for_timeout(500)  # as long as the theme would take to bring the page anew
    assert sheet.get_attribute("data-mine") == "yes"


def test_a_step_within_a_page_leaves_what_is_typed(open_page: OpenPage) -> None:
    page = open_page(f"worksheets/{KEYS[0]}/", natively=True)
    steps_within(page, KEYS[0])


def test_instant_navigation_keeps_one_python_awake_and_leaves_nothing_behind(open_own: OpenOwn, sub_host: Host) -> None:
    page = open_own({})
    ready(page, sub_host, f"worksheets/{KEYS[0]}/", PAGES_READY)
    page.reload()  # from here on the service worker answers, and names the pages by their addresses
    page.evaluate("window.kept = true")
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable")
    page.wait_for_timeout(500)  # the theme reads the map
    figures = {}
    for turn in range(1, TIMES + 1):
        follow_link(page, KEYS[turn % 2])
        if turn in {10, TIMES}:
            figures[turn] = memory(session)
    assert page.evaluate("window.kept") is True
    assert pythons(session) == 1
    assert figures[TIMES]["JSHeapUsedSize"] < 1.25 * figures[10]["JSHeapUsedSize"]
    assert figures[TIMES]["Documents"] - figures[10]["Documents"] <= TIMES - 10  # one a page, which the theme keeps
    steps_within(page, KEYS[0])
    page.evaluate("history.back()")
    page.locator(f"#{KEYS[1]}").wait_for(state="attached")
    sub_host.signal = False
    follow_link(page, "string")
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    assert sheet.headlines == [line["text"] for line in asked({"nock_to_nock": "61 in"})["outcome"]["headlines"]]
    assert page.evaluate("window.kept") is True


def test_pages_that_a_browser_keeps_for_going_back_keep_no_python(open_own: OpenOwn, plain_host: Host) -> None:
    page = open_own({})
    page.add_init_script("addEventListener('pageshow', ({ persisted }) => { window.thawed = persisted; });")
    session = page.context.new_cdp_session(page)
    keys = ("twist", "loops", "tune")
    for key in keys:
        page.goto(f"{plain_host.address}worksheets/{key}/")
        page.locator(f"#{key} .go button").evaluate("button => button.click()")
        wait(page, lambda: pythons(session) == 1)
    for way, key in ((-1, "loops"), (-1, "twist"), (1, "loops"), (1, "tune")):
        page.evaluate("way => history.go(way)", way)
        page.wait_for_url(f"**/{key}/", wait_until="commit")
        wait(page, lambda: page.evaluate("window.thawed"))
        wait(page, lambda: pythons(session) <= 1)  # one that is starting takes a moment to end
    page.locator("#tune .go button").evaluate("button => button.click()")
    page.locator("#tune[data-state=new]").wait_for(state="attached", timeout=PYTHON_MS)
    assert pythons(session) == 1
