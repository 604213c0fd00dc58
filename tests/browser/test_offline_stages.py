"""The server goes away at each stage: while the site first comes, and while a new version does."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.hosts import ABSENT, CUT, DAMAGED, NO_SIGNAL, kept_files, rewrite
from tests.browser.offline_pages import GUIDE, NEW, READY, line, press, quota, ready
from tests.browser.sheets import ADDRESS, Sheet

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
PAGE = f"{GUIDE}index.html"
OLD_WORD, NEW_WORD = "Brace safely", "Brace with care"
MANIFEST = "assets/runtime/manifest.json"
WORKER = "sw.js"


def works_out(page: Page, host: Host, length: str) -> None:
    page.goto(host.address + ADDRESS)
    Sheet(page).type("nock_to_nock", length)
    Sheet(page).settled()


@pytest.mark.stops_python
def test_the_server_goes_away_at_each_stage_and_every_visit_goes_on_from_there(
    open_tab: OpenTab, plain_host: Host
) -> None:
    host = plain_host
    pages, heavy = kept_files(host.folder)
    quiet = [path for path in pages if path.startswith(("guides/", "worksheets/")) and path != GUIDE]
    page = open_tab()
    came: list[str] = []

    def visit(words: str, *gone: str, last: str | None = None) -> None:
        """Visit once more; the server is gone for good after it gave `last`, and never gives what is `gone`."""
        host.signal, host.last_before_silence = True, last
        host.wrong = dict.fromkeys(gone, NO_SIGNAL)
        host.asked.clear()
        page.goto(host.address + GUIDE)
        line(page, words)
        page.wait_for_timeout(200)
        again = [path for path in host.asked if path in came and path in (*quiet, *heavy)]
        assert len(again) <= 6, again  # those that were on their way when the server went
        came.extend(host.asked)

    broken = "Not ready without signal. The signal went"
    visit(broken, WORKER)
    visit(broken, last=WORKER)
    for place in (pages[0], quiet[0], quiet[len(quiet) // 2], quiet[-2]):
        still = pages[pages.index(place) :]  # what was on its way when the server went may be there already
        visit(broken, last=next(each for each in still if each not in came))
    visit(broken, quiet[-1])
    half = "Guides and pages are ready without signal and take \\d+\\sMB.*The signal went"
    visit(half, *heavy)
    visit(half, *heavy[len(heavy) // 2 :])
    host.signal = False
    page.goto(host.address + ADDRESS)
    sheet = Sheet(page)
    shown = sheet.headlines
    sheet.type("nock_to_nock", "60 in")
    sheet.settled("old")
    assert sheet.headlines == shown
    assert sheet.find("[data-cause=signal]").is_visible()
    host.signal = True
    visit(half, MANIFEST)
    visit(READY)
    host.signal = False
    works_out(page, host, "61 in")


def test_a_new_version_lost_at_any_stage_leaves_the_old_one_whole(open_tab: OpenTab, plain_host: Host) -> None:
    host = plain_host
    page = open_tab()
    ready(page, host)
    rewrite(host.folder, PAGE, OLD_WORD, NEW_WORD)
    rewrite(host.folder, MANIFEST, "{", "{ ")
    for path, wrong in [(place, how) for place in (GUIDE, MANIFEST) for how in (ABSENT, CUT, DAMAGED, NO_SIGNAL)]:
        host.wrong = {path: wrong}
        page.goto(host.address + GUIDE)
        line(page, "^Ready without signal.*A newer version did not come whole")
        assert OLD_WORD in page.locator("h1").inner_text()
    for wrong in (ABSENT, CUT, NO_SIGNAL):
        host.wrong = {WORKER: wrong}
        page.goto(host.address + GUIDE)
        line(page, READY)
        assert OLD_WORD in page.locator("h1").inner_text()
    host.wrong = {MANIFEST: ABSENT}
    works_out(page, host, "61 in")
    host.signal = False
    works_out(page, host, "62 in")
    host.signal, host.wrong = True, {}
    page.goto(host.address + GUIDE)
    line(page, NEW)
    host.signal = False
    press(page, "Take it now")
    expect(page.locator("h1")).to_contain_text(NEW_WORD)
    works_out(page, host, "63 in")


def test_a_new_version_for_which_there_is_no_room_leaves_the_old_one(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    ready(page, plain_host)
    rewrite(plain_host.folder, PAGE, OLD_WORD, NEW_WORD)
    quota(page, plain_host, 1_000_000)
    page.reload()
    line(page, "^Ready without signal.*There is a newer version, for which this device has no room")
    plain_host.signal = False
    page.reload()
    assert OLD_WORD in page.locator("h1").inner_text()
