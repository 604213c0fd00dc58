"""The answer at the top edge of a phone, whole on every sheet; it leads to the answer; questions before cautions."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Any, cast

import pytest

from calc.worksheets import catalogue
from tests.browser.sheets import Sheet

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
_CUT_OFF = """strip => {
  const box = strip.getBoundingClientRect();
  const range = document.createRange();
  range.selectNodeContents(strip);
  const words = [...range.getClientRects()].filter(each => each.width && each.height);
  return {
    height: box.height,
    inside: words.every(({ left, right, top, bottom }) =>
      left >= 0 && right <= innerWidth && top >= box.top && bottom <= box.bottom),
    hidden: strip.scrollWidth > strip.clientWidth || strip.scrollHeight > strip.clientHeight,
    ellipsis: getComputedStyle(strip).textOverflow,
  };
}"""


@pytest.mark.parametrize("key", list(catalogue()))
def test_nothing_in_the_strip_is_cut(open_page: OpenPage, shots: Path, key: str) -> None:
    page = open_page(f"worksheets/{key}/", width=390, height=700, natively=True)
    sheet = Sheet(page, key)
    strip = sheet.find(".strip")
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 700})
        sheet.find(".go button").scroll_into_view_if_needed()
        strip.wait_for(state="visible")
        found = cast("dict[str, Any]", strip.evaluate(_CUT_OFF))
        assert found["inside"]
        assert not found["hidden"]
        assert found["ellipsis"] == "clip"
        assert found["height"] <= 0.2 * 700
        assert sheet.headlines[0] in strip.inner_text().replace("\u2044", "/").replace("\n", "")
        page.screenshot(path=shots / f"strip-{key}-{width}.png")
    go = strip.locator(".strip-go").bounding_box()
    assert go
    assert min(strip.bounding_box()["height"], 48) >= 44  # type: ignore[index]
    strip.click()
    strip.wait_for(state="hidden")
    assert page.evaluate("document.activeElement.className") == "answer"
    assert "#" not in page.url, "the address may hold a link"


def test_at_the_range_the_turns_come_first(open_page: OpenPage) -> None:
    page = open_page("worksheets/tune/", width=320, height=700, natively=True)
    sheet = Sheet(page, "tune")
    assert sheet.headlines[0].startswith("put in 10 turns")


@pytest.mark.parametrize("key", list(catalogue()))
def test_after_calculate_the_answer_is_on_the_screen(open_page: OpenPage, key: str) -> None:
    page = open_page(f"worksheets/{key}/", width=390, height=844, natively=True)
    sheet = Sheet(page, key)
    sheet.press()
    sheet.settled()
    page.wait_for_function(
        """key => {
          const { top } = document.querySelector(`#${key} .headline`).getBoundingClientRect();
          return top >= 0 && top < innerHeight / 2;
        }""",
        arg=key,
    )


def test_questions_come_before_long_cautions(open_page: OpenPage) -> None:
    page = open_page("worksheets/", width=390, height=844, natively=True)
    start = page.url
    for key, width in product(catalogue(), (320, 390)):
        page.goto(f"{start}{key}/")
        sheet = Sheet(page, key)
        page.set_viewport_size({"width": width, "height": 844})
        form = sheet.find(".asked").bounding_box()  # what is asked after the answer
        assert form
        for caution in sheet.find(".standing li").all():
            box = caution.bounding_box()
            assert box
            assert box["y"] > form["y"] + form["height"] - 1
        for caution in sheet.find(".answer .cautions li").all():
            box = caution.bounding_box()
            assert box
            assert box["y"] < form["y"], "what follows from the numbers stays with the answer"
