"""Hostile texts in the real page: in links, fields and on cards. Nothing runs, goes elsewhere, or leaves its place.

The thousands are tried in `tests/calc/hostile/`; a page from `open_page` fails its test when it asks another host for
anything, and every page when its policy refused something: what is only text asks for nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from calc import share
from calc.worksheets import catalogue
from tests.browser.sheets import ADDRESS, Sheet
from tests.calc.hostile.texts import EVERY_KIND

if TYPE_CHECKING:
    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
SOUND = [text.encode("utf-8", "replace").decode() for text in EVERY_KIND]
RAN = "() => { window.ran = () => { window.hit = true; }; }"
PUT = """([id, texts]) => {
  const field = document.getElementById(id);
  for (const text of texts) {
    field.value = text;
    field.dispatchEvent(new Event('change', { bubbles: true }));
  }
}"""
COUNT = "document.querySelectorAll('script, iframe, img, object, embed, form, base, meta, link, style').length"


def test_hostile_texts_stay_texts(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, width=390, natively=True)
    page.evaluate(RAN)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    sheet.settled()
    page.wait_for_selector("script[src$='/notebook.js']", state="attached")  # the last of the page's own
    address, count = page.url, page.evaluate(COUNT)
    for text in SOUND[::4]:
        page.evaluate(PUT, ["string-nock_to_nock", [text]])
    sheet.press()
    page.wait_for_selector(".problem:visible")
    for name in ["<img src=x onerror=ran()>", *SOUND[1::8]]:
        link = share.encode(catalogue()["string"], {"nock_to_nock": "61 in"}, "inch", name)
        page.evaluate("link => { location.hash = link; }", link)
        page.wait_for_function("document.querySelector('#string-nock_to_nock').value === '61 in'")
        page.evaluate("location.hash = '#v3/string?nock=' + encodeURIComponent('<img src=x onerror=ran()>')")
    assert sheet.overflow() <= 0
    assert page.evaluate(COUNT) == count
    sheet.find(".card").click()
    dialog = page.get_by_role("dialog", name="Cards to print")
    for name in SOUND[:24:3]:
        dialog.get_by_label("For (").fill(" ".join(name.split()) or "x")
        dialog.get_by_label("For (").blur()
    dialog.frame_locator("iframe").locator("svg").first.wait_for()
    assert sheet.overflow() <= 0
    assert page.evaluate("window.hit") is None
    assert page.url.partition("#")[0] == address
    assert len(page.frames) == 2, "the page and its card"
