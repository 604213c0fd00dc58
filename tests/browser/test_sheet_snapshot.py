"""Python goes on from a snapshot of its memory; where that does not work, it starts plainly, and answers alike."""

from __future__ import annotations

import json
import shutil
from typing import TYPE_CHECKING

import pytest

from site_build.offline import precache
from site_build.runtime import bundle
from tests.browser.hosts import ABSENT, CUT, DAMAGED, FAILS, FLIPPED, FLIPPED_ONCE, HANGS
from tests.browser.offline_pages import READY, line
from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser


def answers(page: Page, host: Host, length: str, search: str = "") -> list[str]:
    """Have an answer worked out on a new visit; return what of the runtime was asked of the server for it."""
    host.asked.clear()
    page.goto(host.address + ADDRESS + search)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", length)
    sheet.settled()
    assert sheet.rows == working(asked({"nock_to_nock": length})["outcome"])
    return [path.rsplit("/", 1)[1] for path in host.asked if path.startswith(bundle.FOLDER)]


def started(host: Host) -> dict[str, str]:
    found: dict[str, str] = json.loads((host.folder / bundle.MANIFEST).read_text(encoding="utf-8"))
    return found


@pytest.mark.stops_python
@pytest.mark.parametrize("wrong", [ABSENT, CUT, DAMAGED, FLIPPED])
def test_a_snapshot_that_does_not_come_whole_is_left_for_the_plain_way(
    open_tab: OpenTab, plain_host: Host, wrong: str
) -> None:
    start = started(plain_host)
    plain_host.wrong[f"{bundle.FOLDER}/{start['snapshot']}"] = wrong
    names = answers(open_tab(), plain_host, "61 in")
    assert {start["library"], start["calc"]} <= set(names)


@pytest.mark.parametrize("part", ["wasm", "script", "loader", "snapshot"])
def test_one_wrong_bit_is_noticed_and_the_file_fetched_again(open_tab: OpenTab, plain_host: Host, part: str) -> None:
    start = started(plain_host)
    plain_host.wrong[f"{bundle.FOLDER}/{start[part]}"] = FLIPPED_ONCE
    assert answers(open_tab(), plain_host, "61 in").count(start[part]) >= 2
    assert not plain_host.wrong


@pytest.mark.stops_python
@pytest.mark.parametrize("wrong", [CUT, FAILS, HANGS])
def test_a_start_that_cannot_finish_says_so_and_goes_on_when_the_fault_goes(
    open_tab: OpenTab, plain_host: Host, wrong: str
) -> None:
    page = open_tab()
    page.clock.install()
    plain_host.wrong[f"{bundle.FOLDER}/{started(plain_host)['wasm']}"] = wrong
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    for _ in range(15):
        page.clock.run_for(1000)
        page.wait_for_timeout(50)
    sheet.settled("old")
    assert sheet.find("[data-cause=slow], [data-cause=signal]").locator("visible=true").count() == 1
    plain_host.wrong.clear()
    for _ in range(40):
        page.clock.run_for(1000)
        page.wait_for_timeout(50)
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert sheet.rows == working(asked({"nock_to_nock": "61 in"})["outcome"])


def test_a_site_whose_snapshot_is_not_made_yet_answers_plainly_without_signal_too(
    open_tab: OpenTab, plain_host: Host
) -> None:
    shutil.rmtree(plain_host.folder / bundle.FOLDER)
    for name in (bundle.WORKER, precache.WORKER):
        place = plain_host.folder / name
        text = place.read_text(encoding="utf-8")
        place.unlink()  # elsewhere too, the same file stands under this name
        place.write_text(text, encoding="utf-8")
    bundle.install(plain_host.folder, plain=True)
    precache.install(plain_host.folder)
    page, start = open_tab(), started(plain_host)
    names = answers(page, plain_host, "61 in")
    assert "snapshot" not in start
    assert {start["library"], start["calc"]} <= set(names)
    line(page, READY)
    plain_host.signal = False
    answers(page, plain_host, "62 in")


def test_what_is_kept_is_not_asked_for_again(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    names = answers(page, plain_host, "61 in")
    line(page, READY)
    assert started(plain_host)["snapshot"] in names
    assert answers(page, plain_host, "62 in") == []


def test_an_address_may_ask_for_a_start_without_the_snapshot_with_and_without_signal(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    said: list[str] = []
    page.on("console", lambda told: said.append(told.text) if "snapshot" in told.text else None)
    names = answers(page, plain_host, "61 in", "?plain")
    start = started(plain_host)
    assert {start["library"], start["calc"]} <= set(names)
    assert said == []
    line(page, READY)
    plain_host.signal = False
    answers(page, plain_host, "62 in", "?plain")
    assert said == []
    answers(page, plain_host, "63 in")
    assert len(said) == 1
    assert start["snapshot"] in said[0]


@pytest.mark.stops_python
def test_a_snapshot_that_is_kept_damaged_is_left_for_the_plain_way(
    open_tab: OpenTab, plain_host: Host, restarts: list[str]
) -> None:
    page = open_tab()
    answers(page, plain_host, "61 in")
    line(page, READY)
    page.evaluate("""async () => {
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
          if (request.url.includes('/snapshot-')) await cache.put(request, new Response(new Uint8Array(70000)));
        }
      }
    }""")
    answers(page, plain_host, "63 in")
    assert "the snapshot of the memory is not whole" in restarts[0]


def test_what_is_typed_in_thousands_is_answered_without_signal_and_so_is_what_follows(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    answers(page, plain_host, "61 in")
    line(page, READY)
    plain_host.signal = False
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    for length in ("1,575 mm", "64 in"):
        sheet.type("nock_to_nock", length)
        sheet.settled()
        assert sheet.rows == working(asked({"nock_to_nock": length})["outcome"])
