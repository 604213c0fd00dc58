"""A string that came with a link stands beside the reader's own: kept or left, in the reader's units and hand."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING
from urllib.parse import quote

import pytest

from calc.share import encode
from calc.worksheets import catalogue
from calc.worksheets.core import usual
from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = [pytest.mark.browser, pytest.mark.contract]
OWN = {"nock_to_nock": "58 in", "draw_weight": "50 lb"}
SENT = {"nock_to_nock": "54 in", "draw_weight": "20 lb"}
BUTTONS = ("keep", "back", "take", "leave")


def fragment(inputs: Mapping[str, str], name: str = "Anna", key: str = "string") -> str:
    return encode(catalogue()[key], inputs, "inch", name)


def reader(open_page: OpenPage, own: Mapping[str, str] = OWN, *, width: int = 390, dark: bool = False) -> Sheet:
    """Return the bench sheet of somebody who has typed values of their own."""
    sheet = Sheet(open_page(ADDRESS, width=width, dark=dark, natively=True))
    for key, text in own.items():
        sheet.type(key, text)
        sheet.settled()
    return sheet


def open_link(sheet: Sheet, link: str, key: str = "string") -> Sheet:
    """Open a link as somebody does who presses it in a message."""
    address = sheet.page.url.partition("#")[0].rpartition("worksheets/")[0]
    sheet.page.goto("about:blank")
    sheet.page.goto(f"{address}worksheets/{key}/#{link}")
    opened = Sheet(sheet.page, key)
    opened.find(".sent").wait_for()
    return opened.settled()


def kept(page: Page) -> dict[str, str]:
    names = ("typed", "own", "worked", "hand", "units")
    return {name: page.evaluate("name => localStorage[name] ?? ''", f"plied-true:{name}") for name in names}


def offered(sheet: Sheet) -> set[str]:
    return {name for name in BUTTONS if sheet.find(f".sent .{name}").is_visible()}


def wait_for_nock(sheet: Sheet, text: str) -> None:
    sheet.page.wait_for_function(
        "([key, text]) => document.querySelector(`#${key}-nock_to_nock`).value === text", arg=[sheet.key, text]
    )
    sheet.settled()


def test_what_came_is_kept_beside_the_readers_own(open_page: OpenPage, shots: Path) -> None:
    sheet = reader(open_page)
    before = kept(sheet.page)
    open_link(sheet, fragment(SENT))
    said = sheet.find(".sent-text").inner_text()
    assert said.startswith("For: Anna, 54 in. It came with a link; your own values are kept")
    assert offered(sheet) == {"keep", "leave"}
    box, answer = (each.bounding_box() for each in (sheet.find(".sent .keep"), sheet.find(".headlines")))
    assert box
    assert answer
    assert box["y"] < answer["y"], "the choice stands above the answer"
    sheet.page.screenshot(path=shots / "link-390.png")
    sheet.find(".keep").click()
    assert offered(sheet) == {"back", "take", "leave"}
    assert "#" not in sheet.page.url
    sheet.type("draw_weight", "22 lb")
    sheet.settled()
    assert kept(sheet.page) == before
    sheet.find(".back").click()
    wait_for_nock(sheet, "58 in")
    assert kept(sheet.page) == before
    assert sheet.find(".sent").is_hidden()
    open_link(sheet, fragment(SENT))
    assert sheet.control("draw_weight").input_value() == "22 lb", "it stands as the reader left it"
    assert "as you left it" in sheet.find(".sent-text").inner_text()
    sheet.page.reload()
    assert sheet.settled().control("draw_weight").input_value() == "22 lb"
    assert kept(sheet.page) == before


def test_what_is_left_is_forgotten(open_page: OpenPage) -> None:
    sheet = reader(open_page)
    before = kept(sheet.page)
    open_link(sheet, fragment(SENT))
    assert "Anna" in sheet.page.evaluate("localStorage['plied-true:opened']")
    sheet.find(".leave").click()
    wait_for_nock(sheet, "58 in")
    assert kept(sheet.page) == before
    assert not sheet.page.evaluate("localStorage['plied-true:opened']")
    assert "#" not in sheet.page.url


def test_it_takes_the_place_of_ones_own_only_when_that_is_asked_for(open_page: OpenPage) -> None:
    sheet = reader(open_page)
    open_link(sheet, fragment(SENT))
    sheet.find(".keep").click()
    sheet.find(".take").click()
    sheet.find(".sent").wait_for(state="hidden")
    sheet.page.reload()
    wait_for_nock(sheet, "54 in")
    assert json.loads(kept(sheet.page)["typed"])["draw_weight"]["text"] == "20 lb"


def test_a_link_opens_in_the_readers_units_hand_and_colours(open_page: OpenPage) -> None:
    sheet = reader(open_page, dark=True)
    sheet.choose("system", "metric")
    sheet.settled()
    sheet.choose("hand", "S")
    sheet.settled()
    before = kept(sheet.page)
    ground = sheet.page.evaluate("getComputedStyle(document.body).backgroundColor")
    open_link(sheet, fragment(SENT))
    wait_for_nock(sheet, "1371.6 mm")
    assert sheet.rows == working(asked({**SENT, "nock_to_nock": "1371.6 mm", "hand": "S"}, "metric")["outcome"])
    assert sheet.page.evaluate("getComputedStyle(document.body).backgroundColor") == ground
    assert kept(sheet.page) == before
    base = sheet.page.url.partition("worksheets/")[0]
    sheet.page.goto(f"{base}guides/two-bundle/")
    sheet.page.wait_for_selector(".pt-has-own:not([hidden])")
    assert sheet.page.is_checked("input[name=pt-hand][value=S]")


def test_a_hand_that_the_link_tells_is_shown_and_not_taken_over(open_page: OpenPage) -> None:
    sheet = reader(open_page)
    before = kept(sheet.page)
    open_link(sheet, fragment({**SENT, "hand": "S"}))
    assert sheet.find("input[name=hand][value=S]").is_checked()
    sheet.find(".keep").click()
    sheet.find(".back").click()
    wait_for_nock(sheet, "58 in")
    assert sheet.find("input[name=hand][value=Z]").is_checked()
    assert kept(sheet.page) == before


BAD = {
    "damaged": fragment(SENT)[:-3],
    "foreign": "v2/gone?nock=62in&end=bbbb",
    "newer and damaged": "v999/string?nock=62in",
    "another worksheet's": fragment({"draw_weight": "20 lb"}, key="settle"),
    "hostile": quote("v2/string?nock=<img src=x onerror=alert(1)>&end=7k2m", safe="/?=&()"),
}


@pytest.mark.parametrize("kind", list(BAD))
def test_a_bad_link_gets_a_sentence_and_leads_back_to_ones_own(open_page: OpenPage, kind: str) -> None:
    sheet = reader(open_page)
    before = kept(sheet.page)
    sheet.page.evaluate("hash => { location.hash = hash; }", BAD[kind])
    sheet.find(".sent").wait_for()
    sheet.settled()
    assert sheet.find(".sent-text").inner_text().rstrip().endswith(".")
    assert offered(sheet) == {"leave"}
    assert sheet.rows == working(asked({})["outcome"]), "the sentence speaks of the usual measures"
    sheet.type("draw_weight", "33 lb")
    sheet.settled()
    assert kept(sheet.page) == before
    sheet.find(".leave").click()
    wait_for_nock(sheet, "58 in")
    assert kept(sheet.page) == before
    assert not sheet.page.evaluate("localStorage['plied-true:opened'] ?? ''")


def test_a_page_that_comes_back_from_memory_does_not_mix_two_strings(open_page: OpenPage) -> None:
    """The guide has gone over to the reader's own meanwhile; the sheet still shows what came."""
    sheet = reader(open_page)
    open_link(sheet, fragment(SENT))
    sheet.find(".keep").click()
    before = kept(sheet.page)
    sheet.page.evaluate("sessionStorage['plied-true:shown'] = ''")
    sheet.type("draw_weight", "31 lb")
    sheet.settled()
    assert kept(sheet.page) == before
    sheet.page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true }))")
    wait_for_nock(sheet, "58 in")
    assert sheet.find(".sent").is_hidden()
    assert kept(sheet.page) == before


def test_a_string_left_in_another_tab_does_not_get_into_ones_own(open_page: OpenPage) -> None:
    sheet = reader(open_page)
    open_link(sheet, fragment(SENT))
    before = kept(sheet.page)
    sheet.page.evaluate("localStorage.removeItem('plied-true:opened')")
    sheet.type("draw_weight", "31 lb")
    sheet.settled()
    assert kept(sheet.page) == before


def test_a_club_list_that_came_does_not_overwrite_ones_own(open_page: OpenPage) -> None:
    sheet = reader(open_page)
    base = sheet.page.url.partition("worksheets/")[0]
    sheet.page.goto(f"{base}worksheets/club/")
    club = Sheet(sheet.page, "club")
    club.type("bows", "Elm, 60 in, 25 lb, 24 in, 6 in")
    club.settled()
    mine = sheet.page.evaluate("localStorage['plied-true:typed:club']")
    sent = fragment({**usual(catalogue()["club"]), "bows": "Oak, 62 in, 30 lb, 25 in, 6 in"}, key="club")
    club = open_link(club, sent, "club")
    assert club.find(".sent-text").inner_text() == "This list came with a link. Your own is kept as it was."
    assert offered(club) == {"take", "leave"}
    assert "Oak" in club.control("bows").input_value()
    assert sheet.page.evaluate("localStorage['plied-true:typed:club']") == mine
    club.find(".leave").click()
    club.page.wait_for_function("document.querySelector('#club-bows').value.includes('Elm')")
    assert sheet.page.evaluate("localStorage['plied-true:typed:club']") == mine


def test_without_a_place_to_keep_it_a_link_still_opens(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    page.add_init_script("""
      const usual = Storage.prototype.setItem;
      Storage.prototype.setItem = function (key, ...more) {
        if (this === localStorage && key === 'plied-true:opened') throw new DOMException('full', 'QuotaExceededError');
        return usual.call(this, key, ...more);
      };""")
    page.reload()
    sheet = Sheet(page)
    for key, text in OWN.items():
        sheet.type(key, text)
        sheet.settled()
    before = kept(page)
    open_link(sheet, fragment(SENT))
    assert sheet.find(".sent-text").inner_text() == "This came with a link. Your own is kept as it was."
    sheet.type("draw_weight", "22 lb")
    sheet.settled()
    assert kept(page) == before
    sheet.find(".leave").click()
    wait_for_nock(sheet, "58 in")
    assert kept(page) == before
