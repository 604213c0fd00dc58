"""A worker that is lost in the very middle of a sum: it is started once more, what is typed stays, the answer comes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.inside_worker import Inside
from tests.browser.offline_pages import READY, line
from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage, OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
GATHER_WORKERS = """
  window.made = [];
  window.Worker = class extends Worker {
    constructor(...given) { super(...given); if (String(given[0]).endsWith('/web/worker.js')) window.made.push(this); }
  };
"""
PYTHONS = "window.made"
SILENCE_MS = 10_000
MANY = 80
"""Bows, each unlike the others: enough to be caught half-way."""


def many_bows(sheet: Sheet) -> str:
    head = sheet.control("bows").input_value().splitlines()[0]
    return "\n".join([head, *(f"Bow {at}; {50 + at / 8:g}; {20 + at / 4:g}; 26; 6 1/2; green" for at in range(MANY))])


def in_a_sum(page: Page, sheet: Sheet, bows: str) -> Inside:
    """Hold Python's worker in the middle of a long list."""
    inside = Inside(page, "web/worker.js")
    sheet.type("bows", bows)
    sheet.find(".progress").wait_for()
    doing = inside.hold()
    assert any("PyEval" in name for name in doing), doing
    assert sheet.find(".progress").is_visible()
    return inside


@pytest.mark.stops_python
@pytest.mark.parametrize("how", ["the worker is ended", "the sum is torn out of a worker that lives on"])
def test_a_worker_lost_in_the_middle_of_a_sum_is_started_once_more(open_page: OpenPage, how: str) -> None:
    page = open_page()
    page.add_init_script(GATHER_WORKERS)
    page.clock.install()
    page.goto(page.url + "worksheets/club/")
    sheet = Sheet(page, "club")
    sheet.press()
    sheet.settled()
    page.clock.pause_at(page.evaluate("Date.now()") + 1000)  # however slow this machine is, ten seconds are ten
    bows = many_bows(sheet)
    inside = in_a_sum(page, sheet, bows)
    assert page.evaluate(f"{PYTHONS}.length") == 1
    if how == "the worker is ended":
        page.evaluate(f"{PYTHONS}[0].terminate()")
    else:
        inside.tear_out()
    inside.leave()
    page.clock.run_for(SILENCE_MS - 100)
    assert page.evaluate(f"{PYTHONS}.length") == 1
    page.clock.run_for(100)
    assert page.evaluate(f"{PYTHONS}.length") == 2
    page.clock.resume()
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert sheet.control("bows").input_value() == bows
    assert sheet.rows == working(asked({"bows": bows}, key="club")["outcome"])
    assert page.evaluate(f"{PYTHONS}.length") == 2


@pytest.mark.stops_python
def test_a_worker_that_is_ended_without_signal_is_replaced(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.add_init_script(GATHER_WORKERS)
    page.goto(plain_host.address + ADDRESS)
    line(page, READY)
    plain_host.signal = False
    page.clock.install()
    page.goto(plain_host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    page.evaluate(f"{PYTHONS}[0].terminate()")
    sheet.type("nock_to_nock", "64 in")
    page.clock.run_for(SILENCE_MS + 1000)
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert sheet.rows == working(asked({"nock_to_nock": "64 in"})["outcome"])
    assert page.evaluate(f"{PYTHONS}.length") == 2
