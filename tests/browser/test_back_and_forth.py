"""Back and forth between pages: neither Python nor memory is left behind, and Python stays awake where it can."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.offline_pages import PAGES_READY, ready
from tests.browser.sheets import PYTHON_MS, Sheet, asked

if TYPE_CHECKING:
    from playwright.sync_api import CDPSession, Page

    from tests.browser.conftest import OpenOwn
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
TIMES = 50
KEYS = ("twist", "loops")


def pythons(session: CDPSession) -> int:
    """Return how many of Python's workers live in the whole browser."""
    everything = session.send("Target.getTargets")["targetInfos"]
    return sum(each["type"] == "worker" and each["url"].endswith("web/worker.js") for each in everything)


def memory(session: CDPSession) -> dict[str, Any]:
    session.send("HeapProfiler.collectGarbage")
    return {each["name"]: each["value"] for each in session.send("Performance.getMetrics")["metrics"]}


def follow_link(page: Page, key: str) -> None:
    page.locator(f".md-nav--primary a[href*='{key}/']").first.evaluate("link => link.click()")
    page.locator(f"#{key} .go button:not([hidden])").wait_for(state="attached")


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
    keys = ("twist", "loops", "tune", "cuts")
    for key in keys:
        page.goto(f"{plain_host.address}worksheets/{key}/")
        page.locator(f"#{key} .go button").evaluate("button => button.click()")
        page.locator(f"#{key}[data-state=new]").wait_for(state="attached", timeout=PYTHON_MS)
        assert pythons(session) == 1
    at = len(keys) - 1
    for turn in range(TIMES):
        way = -1 if (turn // at) % 2 == 0 else 1
        page.evaluate("way => { window.left = true; history.go(way); }", way)
        page.wait_for_url(f"**/{keys[(at - 1 - turn % at) if way < 0 else (turn % at + 1)]}/", wait_until="commit")
    assert page.evaluate("window.thawed") is True
    for _ in range(PYTHON_MS // 100):  # one that is starting takes a moment to end
        if pythons(session) <= 1:
            break
        page.wait_for_timeout(100)
    assert pythons(session) <= 1
    key = page.url.split("/")[-2]
    page.locator(f"#{key} .go button").evaluate("button => button.click()")
    page.locator(f"#{key}[data-state=new]").wait_for(state="attached", timeout=PYTHON_MS)
    assert pythons(session) == 1
