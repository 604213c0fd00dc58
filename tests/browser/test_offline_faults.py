"""What a browser may refuse or lose: room, service workers, storage, WebAssembly, a worker; and a wrong clock."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.hosts import replace
from tests.browser.offline_pages import GUIDE, PAGES_READY, READY, line, press, ready
from tests.browser.sheets import ADDRESS, PYTHON_MS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
_GATHER_WORKERS = """
  window.made = [];
  window.Worker = class extends Worker { constructor(...given) { super(...given); window.made.push(this); } };
"""


def quota(page: Page, host: Host, size: int) -> None:
    """Hold what the site may keep to some bytes."""
    session = page.context.new_cdp_session(page)
    origin = host.address.removesuffix(host.subpath)
    session.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": size})


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
    ServiceWorkerContainer.prototype.getRegistration = () => Promise.reject(new DOMException('no', 'SecurityError'));
    Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });
    Object.defineProperty(window, 'caches', { get() { throw new DOMException('no', 'SecurityError'); } });
"""])  # fmt: skip
def test_where_nothing_can_be_kept_the_site_says_so_and_works(
    open_tab: OpenTab, plain_host: Host, refusal: str
) -> None:
    page = open_tab()
    page.add_init_script(refusal)
    page.goto(plain_host.address + ADDRESS)
    line(page, "This browser cannot keep the site, so it needs a signal")
    Sheet(page).type("nock_to_nock", "61 in")
    Sheet(page).settled()


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


def test_a_worker_killed_in_the_middle_of_a_sum_is_started_once_more(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.add_init_script(_GATHER_WORKERS)
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    python = "window.made.filter(each => each.onmessage)"
    before = page.evaluate(f"{python}.length")
    page.evaluate(f"{python}.at(-1).terminate()")
    sheet.type("nock_to_nock", "62 in")
    page.wait_for_timeout(300)
    sheet.settled()
    assert page.evaluate(f"{python}.length") == before + 1
    assert sheet.control("nock_to_nock").input_value() == "62 in"
    assert sheet.rows == working(asked({"nock_to_nock": "62 in"})["outcome"])


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


@pytest.mark.parametrize("date", ["Mon, 01 Jan 1990 00:00:00 GMT", "Fri, 01 Jan 2100 00:00:00 GMT"])
def test_a_wrong_clock_does_not_matter(open_tab: OpenTab, plain_host: Host, date: str) -> None:
    plain_host.headers["Date"] = date
    page = open_tab()
    page.add_init_script("Date.now = () => 0;")
    ready(page, plain_host, words=PAGES_READY)
    plain_host.signal = False
    page.reload()
    assert "Brace safely" in page.locator("h1").inner_text()


def test_going_back_and_forth_fifty_times_leaves_nothing_behind(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.add_init_script(_GATHER_WORKERS)
    pages = ("worksheets/twist/", "worksheets/loops/")
    urls = "".join(f"<url><loc>{plain_host.address}{path}</loc></url>" for path in pages)
    page.context.route("**/sitemap.xml", lambda route: route.fulfill(
        body=f"<urlset>{urls}</urlset>", content_type="application/xml"))  # fmt: skip
    page.goto(plain_host.address + pages[0])
    Sheet(page, "twist").find(".status").wait_for(state="attached")
    page.evaluate("window.kept = true")
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable")
    figures = {}
    for turn in range(1, 51):
        key = ("twist", "loops")[turn % 2]
        page.locator(f".md-nav--primary a[href*='{key}/']").first.evaluate("link => link.click()")
        page.wait_for_selector(f"#{key}", state="attached")
        if turn in {10, 50}:
            page.wait_for_timeout(300)
            session.send("HeapProfiler.collectGarbage")
            told = session.send("Performance.getMetrics")["metrics"]
            figures[turn] = {each["name"]: each["value"] for each in told}
    assert page.evaluate("window.kept") is True
    assert page.evaluate("window.made.length") <= 2  # Python's and the search's
    assert figures[50]["JSHeapUsedSize"] < 1.25 * figures[10]["JSHeapUsedSize"]
    assert figures[50]["Documents"] - figures[10]["Documents"] <= 40  # one a page, which the theme keeps on its own
    Sheet(page, "twist").find(".go button").evaluate("button => button.click()")
    page.wait_for_selector("#twist[data-state=new]", timeout=PYTHON_MS)
