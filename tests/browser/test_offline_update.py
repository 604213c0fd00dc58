"""A new version beside the old one: brings what changed alone, and starts on the reader's word."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

import pytest

from tests.browser.hosts import ABSENT, rewrite
from tests.browser.offline_pages import GUIDE, NEW, PAGES_READY, line, press, ready

if TYPE_CHECKING:
    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
PAGE = f"{GUIDE}index.html"
OLD_WORD, NEW_WORD = "Brace safely", "Brace with care"


def test_an_update_brings_what_changed_alone_and_starts_when_the_reader_says_so(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    ready(page, plain_host)
    rewrite(plain_host.folder, PAGE, OLD_WORD, NEW_WORD)
    plain_host.asked.clear()
    page.reload()
    line(page, NEW)
    assert OLD_WORD in page.locator("h1").inner_text()
    page.wait_for_timeout(300)
    assert set(plain_host.asked) == {"sw.js", GUIDE}
    page.reload()
    line(page, NEW)
    assert OLD_WORD in page.locator("h1").inner_text()
    press(page, "Take it now")
    page.locator("h1", has_text=NEW_WORD).wait_for()
    line(page, PAGES_READY)
    plain_host.signal = False
    page.reload()
    assert NEW_WORD in page.locator("h1").inner_text()


def test_no_tab_sees_two_versions(open_tab: OpenTab, plain_host: Host) -> None:
    first, second = open_tab(), open_tab()
    ready(first, plain_host, words=PAGES_READY)
    second.goto(plain_host.address + "guides/care/")
    rewrite(plain_host.folder, PAGE, OLD_WORD, NEW_WORD)
    first.reload()
    line(first, NEW)
    press(first, "Take it now")
    line(first, "It starts when the other tab of this site is closed")
    second.goto(plain_host.address + GUIDE)
    assert OLD_WORD in second.locator("h1").inner_text()
    second.close()
    press(first, "Try again")
    first.locator("h1", has_text=NEW_WORD).wait_for()


def test_a_new_version_starts_by_itself_when_every_tab_was_closed(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    ready(page, plain_host, words=PAGES_READY)
    rewrite(plain_host.folder, PAGE, OLD_WORD, NEW_WORD)
    page.reload()
    line(page, NEW)
    page.close()
    for _ in range(50):  # it starts once the version before it has let go
        page = open_tab()
        page.goto(plain_host.address + GUIDE)
        if NEW_WORD in page.locator("h1").inner_text():
            break
        page.close()
        time.sleep(0.1)
    assert NEW_WORD in page.locator("h1").inner_text()


def test_an_update_that_does_not_come_whole_leaves_the_old_version_and_is_tried_again(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    ready(page, plain_host)
    rewrite(plain_host.folder, PAGE, OLD_WORD, NEW_WORD)
    plain_host.wrong[GUIDE] = ABSENT
    page.reload()
    line(page, "Ready without signal.*A newer version did not come whole")
    plain_host.signal = False
    page.reload()
    assert OLD_WORD in page.locator("h1").inner_text()
    plain_host.signal = True
    plain_host.wrong.clear()
    page.reload()
    line(page, NEW)
