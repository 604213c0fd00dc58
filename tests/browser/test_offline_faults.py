"""What a browser may refuse: room, service workers, storage, WebAssembly; what a reader may take away."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import Error

from tests.browser.conftest import watch
from tests.browser.hosts import replace
from tests.browser.offline_pages import GUIDE, PAGES_READY, READY, line, press, quota, ready, search_for
from tests.browser.sheets import ADDRESS, Sheet

if TYPE_CHECKING:
    from tests.browser.conftest import OpenOwn, OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(
    ("size", "words"),
    [
        (2_000_000, "Not ready without signal. This device has no room"),
        (12_000_000, "Guides and pages are ready without signal.*This device has no room"),
    ],
)
def test_without_room_the_site_says_so_and_works_as_before(
    open_tab: OpenTab, plain_host: Host, size: int, words: str
) -> None:
    page = open_tab()
    page.goto(plain_host.address + "404.html")
    quota(page, plain_host, size)
    page.goto(plain_host.address + "offline/")
    line(page, words)
    page.goto(plain_host.address + ADDRESS)
    Sheet(page).type("nock_to_nock", "61 in")
    Sheet(page).settled()


def test_a_reader_can_remove_the_site_and_have_it_again(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    ready(page, plain_host, "offline/")
    press(page, "Remove it from this device")
    line(page, "Not kept on this device")
    assert page.evaluate("caches.keys()") == []
    page.reload()
    line(page, "Not kept on this device")
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)") == 0
    press(page, "Make it ready now")
    line(page, READY)
    page.reload()
    line(page, READY)


@pytest.mark.parametrize("refusal", ["delete Navigator.prototype.serviceWorker", """
    ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException('no', 'SecurityError'));
"""])  # fmt: skip
def test_without_service_workers_the_site_says_so_and_works(open_tab: OpenTab, plain_host: Host, refusal: str) -> None:
    page = open_tab()
    page.add_init_script(refusal)
    page.goto(plain_host.address + ADDRESS)
    Sheet(page).type("nock_to_nock", "61 in")
    Sheet(page).settled()
    line(page, "This browser cannot keep the site, so it needs a signal")


def test_where_a_reader_lets_no_site_keep_anything_all_else_works(open_own: OpenOwn, plain_host: Host) -> None:
    page = open_own({"profile": {"default_content_setting_values": {"cookies": 2}}})
    wrongs: list[str] = []
    watch(page, plain_host.address, wrongs)
    page.goto(plain_host.address + ADDRESS)
    with pytest.raises(Error, match="security policy"):
        page.evaluate("caches.keys()")
    Sheet(page).type("nock_to_nock", "61 in")
    Sheet(page).settled()
    line(page, "This browser cannot keep the site, so it needs a signal")
    page.goto(plain_host.address + GUIDE)
    page.locator("label[title^=Colours]:visible").click()
    assert page.evaluate("document.body.dataset.mdColorScheme") == "night"
    search_for(page, "brace height")
    assert wrongs == []


@pytest.mark.stops_python
def test_without_webassembly_the_usual_example_stays_with_a_sentence(open_tab: OpenTab, plain_host: Host) -> None:
    start = plain_host.folder / "assets/web/worker.js"
    replace(start, "delete globalThis.WebAssembly;\n" + start.read_text(encoding="utf-8"))
    page = open_tab()
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    before = sheet.headlines
    sheet.type("nock_to_nock", "61 in")
    sheet.settled("old")
    assert sheet.headlines == before
    assert sheet.find(".fault").is_visible()
    assert "This browser lacks WebAssembly" in sheet.find(".fault").inner_text()
    assert sheet.control("nock_to_nock").input_value() == "61 in"


def test_after_a_hard_reload_without_signal_the_site_is_still_there(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    ready(page, plain_host, words=PAGES_READY)
    session = page.context.new_cdp_session(page)
    with page.expect_navigation():
        session.send("Page.reload", {"ignoreCache": True})
    line(page, PAGES_READY)  # it passes by what is kept, which the page knows all the same
    plain_host.signal = False
    session.send("Page.reload", {"ignoreCache": True})
    page.wait_for_timeout(500)
    page.goto(plain_host.address + GUIDE)
    assert "Brace safely" in page.locator("h1").inner_text()
    line(page, PAGES_READY)
