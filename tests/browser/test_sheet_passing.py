"""What a reader sets goes with them from page to page; a link carries it to others and overwrites nothing."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING
from urllib.parse import quote

import pytest

from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser


def ready(open_page: OpenPage, address: str = ADDRESS) -> Sheet:
    page = open_page(address, natively=True)
    return Sheet(page)


def kept(page: Page) -> dict[str, str]:
    return {name: page.evaluate("name => localStorage[name] ?? ''", f"plied-true:{name}") for name in ("typed", "own")}


def link_of(sheet: Sheet) -> str:
    sheet.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    sheet.find(".copy").click()
    sheet.find(".passed").filter(has_text="Copied").wait_for()
    return str(sheet.page.evaluate("navigator.clipboard.readText()"))


def test_what_is_set_stands_there_again_and_can_be_cleared(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.type("nock_to_nock", "60 1/2")
    sheet.settled()
    assert json.loads(kept(sheet.page)["typed"])["nock_to_nock"] == {"text": "60 1/2 in", "from": "Plan a string"}
    own = json.loads(kept(sheet.page)["own"])["values"]["cut_length"]
    shown = next(row for row in asked({"nock_to_nock": "60 1/2 in"})["outcome"]["rows"] if row["key"] == "cut_length")
    assert own == {**shown["both"], "from": "string"}
    sheet.page.reload()
    sheet.settled()
    assert sheet.control("nock_to_nock").input_value() == "60 1/2 in"
    assert sheet.rows == working(asked({"nock_to_nock": "60 1/2 in"})["outcome"])


def test_what_came_from_another_worksheet_is_named_and_cleared(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    carried = {"nock_to_nock": {"text": "58 in", "from": "Brace height"}, "hand": {"text": "S", "from": "Twist"}}
    sheet.page.evaluate("it => localStorage['plied-true:typed'] = JSON.stringify(it)", carried)
    sheet.page.reload()
    sheet.settled()
    assert "Nock to nock 58 in (Brace height)" in sheet.find(".brought-text").inner_text()
    assert sheet.rows == working(asked({"nock_to_nock": "58 in", "hand": "S"})["outcome"])
    sheet.find(".forget").click()
    sheet.page.wait_for_function("document.querySelector('#string-nock_to_nock').value === '66 in'")
    sheet.settled()
    assert kept(sheet.page)["typed"] == ""
    assert not sheet.find(".brought").is_visible()


def test_a_link_shows_what_was_sent_and_overwrites_nothing(open_page: OpenPage) -> None:
    sender = ready(open_page)
    sender.type("nock_to_nock", "1.62 m")
    sender.choose("hand", "S")
    sender.settled()
    link = link_of(sender)
    assert len(link.partition("#")[2]) < 300
    reader = ready(open_page)
    reader.type("nock_to_nock", "58 in")
    reader.settled()
    before = kept(reader.page)
    reader.page.evaluate("hash => { location.hash = hash; }", link.partition("#")[2])
    reader.find(".leave").wait_for()
    reader.settled()
    assert reader.rows == working(asked({"nock_to_nock": "1.62 m", "hand": "S"})["outcome"])
    reader.type("draw_weight", "50 lb")
    reader.settled()
    assert kept(reader.page) == before
    reader.find(".leave").click()
    reader.page.wait_for_function("document.querySelector('#string-nock_to_nock').value === '58 in'")
    assert "#" not in reader.page.url
    assert kept(reader.page)["typed"] == before["typed"]


def test_what_a_link_brought_is_kept_when_the_reader_says_so(open_page: OpenPage) -> None:
    sender = ready(open_page)
    sender.type("nock_to_nock", "60 in")
    sender.settled()
    fragment = link_of(sender).partition("#")[2]
    reader = ready(open_page, f"{ADDRESS}#{fragment}")
    reader.find(".keep").click()
    reader.settled()
    reader.find(".sent").wait_for(state="hidden")
    assert json.loads(kept(reader.page)["typed"])["nock_to_nock"]["text"] == "60 in"


HOSTILE = [
    "v1/string?nock=<img src=x onerror=alert(1)>",
    "v999/string?x=1",
    "v1/gone?a=b",
    "v1/string?nock=62in&end=zzzz",
]


@pytest.mark.parametrize("fragment", HOSTILE)
def test_a_bad_link_gets_a_sentence_and_the_usual_measures(open_page: OpenPage, fragment: str) -> None:
    sheet = ready(open_page, f"{ADDRESS}#{quote(fragment, safe='/?=&<>()')}")
    sheet.find(".sent-text").wait_for()
    sheet.settled()
    assert len(sheet.find(".sent-text").inner_text()) > 20
    assert sheet.find("img").count() == 0
    assert sheet.rows == working(asked({})["outcome"])


def test_units_are_chosen_once(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.choose("system", "metric")
    sheet.settled()
    sheet.page.reload()
    sheet.page.wait_for_selector("#string[data-system='metric'][data-state='new']")
    assert sheet.control("nock_to_nock").input_value() == "1676.4 mm"


def test_a_browser_that_keeps_nothing_still_answers(open_page: OpenPage) -> None:
    page = open_page("404.html", natively=True)
    page.add_init_script("""
      for (const name of ['getItem', 'setItem', 'removeItem']) {
        const usual = Storage.prototype[name];
        Storage.prototype[name] = function (key, ...more) {
          if (key.startsWith('plied-true:')) throw new Error('not allowed');
          return usual.call(this, key, ...more);
        };
      }""")
    page.goto(page.url.replace("404.html", ADDRESS))
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    assert sheet.settled().rows == working(asked({"nock_to_nock": "60 in"})["outcome"])
