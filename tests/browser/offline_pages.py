"""A site kept on a device, as a reader sees it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from tests.browser.sheets import PYTHON_MS

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.hosts import Host

GUIDE = "guides/brace/"
READY = "^Ready without signal. It takes \\d+\\sMB"
PAGES_READY = "Guides and pages are ready without signal|^Ready without signal"
NEW = "A new version of this site is ready"


def line(page: Page, words: str) -> None:
    """Wait until the line at the foot of a page, or the page about it, says something."""
    found = page.locator(".pt-offline p, .pt-offline-page p", has_text=re.compile(words))
    found.first.wait_for(timeout=PYTHON_MS)


def press(page: Page, label: str) -> None:
    """Press a button beside that line."""
    page.locator(".pt-offline button, .pt-offline-page button", has_text=label).first.click()


def ready(page: Page, host: Host, path: str = GUIDE, words: str = READY) -> None:
    """Open a page and wait until the site is on the device."""
    page.goto(host.address + path)
    line(page, words)


def quota(page: Page, host: Host, size: int) -> None:
    """Hold what the site may keep to some bytes."""
    session = page.context.new_cdp_session(page)
    origin = host.address.removesuffix(host.subpath)
    session.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": size})


def search_for(page: Page, words: str) -> None:
    """Type into the site's search and wait until it finds something."""
    page.locator(".md-search__input").click()
    page.locator(".md-search-result__meta", has_text="Type to start searching").wait_for()
    page.keyboard.type(words, delay=20)
    page.wait_for_selector(".md-search-result__item a")
