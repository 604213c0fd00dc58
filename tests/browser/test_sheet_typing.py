"""While a field is typed in, the answer is old and says so; after a pause it is worked out; it is heard once."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.sheets import ADDRESS, Sheet, asked

if TYPE_CHECKING:
    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
_HEARD = """() => {
  window.heard = [];
  const status = document.querySelector('.status');
  const note = () => status.textContent.trim() && window.heard.push(status.textContent.trim());
  new MutationObserver(note).observe(status, { childList: true, characterData: true, subtree: true });
}"""


def ready(open_page: OpenPage, key: str = "string") -> Sheet:
    page = open_page(ADDRESS.replace("string", key), width=390, height=844, natively=True)
    return Sheet(page, key)


def test_the_answer_is_old_at_the_first_key(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.control("nock_to_nock").focus()
    sheet.page.keyboard.press("End")
    sheet.page.keyboard.press("Backspace")
    assert sheet.element.get_attribute("data-stale") is not None
    assert "Old answer" in sheet.find(".origins").inner_text()
    struck = sheet.find(".said").first.evaluate("each => getComputedStyle(each).textDecorationLine")
    assert struck == "line-through"


def test_it_is_worked_out_after_a_pause_while_the_field_has_the_focus(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.page.evaluate(_HEARD)
    sheet.control("nock_to_nock").focus()
    sheet.control("nock_to_nock").fill("60 in")
    sheet.settled()
    expected = [line["text"] for line in asked({"nock_to_nock": "60 in"})["outcome"]["headlines"]]
    assert sheet.headlines == expected
    assert sheet.element.get_attribute("data-stale") is None
    assert sheet.page.evaluate("document.activeElement.id") == "string-nock_to_nock"
    assert sheet.page.evaluate("localStorage['plied-true:own'] ?? ''") == "", "what is half typed is not kept"
    assert sheet.page.evaluate("window.heard") == [], "nothing is said while somebody types"
    sheet.control("nock_to_nock").press("Tab")
    sheet.page.wait_for_function("window.heard.length > 0")
    sheet.page.wait_for_timeout(1200)
    heard = sheet.page.evaluate("window.heard")
    assert len(heard) == 1, heard
    assert expected[0] in heard[0].replace("\u2044", "/")


def test_nothing_is_marked_while_somebody_types(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.control("nock_to_nock").focus()
    sheet.control("nock_to_nock").fill("6")
    sheet.page.wait_for_timeout(1500)
    assert sheet.find(".error:visible").count() == 0
    assert sheet.find(".problem").is_hidden()
    assert sheet.element.get_attribute("data-stale") is not None
    sheet.control("nock_to_nock").press("Tab")
    sheet.settled("old")
    assert sheet.find(".error:visible").count() == 1


def test_a_long_list_waits_until_it_is_left(open_page: OpenPage) -> None:
    sheet = ready(open_page, "club")
    before = sheet.rows
    sheet.control("bows").focus()
    sheet.control("bows").fill("Ash, 66 in, 40 lb")
    sheet.page.wait_for_timeout(1500)
    assert sheet.rows == before
    assert sheet.element.get_attribute("data-stale") is not None
    sheet.control("bows").press("Tab")
    sheet.settled()
    assert sheet.rows != before
