"""What a reader sees first on any sheet: its drawing, three questions with the example's answer, then their own."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any, cast

import pytest

from calc.worksheets import catalogue
from tests.browser.sheets import Sheet

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
WIDTH, HEIGHT = 390, 844
_BOX = "each => { const { top, bottom, height } = each.getBoundingClientRect(); return { top, bottom, height }; }"


def box(page: Page, selector: str) -> dict[str, float]:
    """Return where the first such element stands in the window."""
    return cast("dict[str, float]", page.locator(selector).first.evaluate(_BOX))


def test_a_stranger_sees_the_drawing_then_three_questions_of_every_sheet(open_page: OpenPage) -> None:
    page = open_page("worksheets/", width=WIDTH, height=HEIGHT)
    start, found = page.url, {}
    for key in catalogue():
        page.goto(f"{start}{key}/")
        sheet = Sheet(page, key)
        tool = page.locator("article > section.sheet:not([data-worksheet])").count()  # a page's own, above its sheet
        drawing = box(page, ".pictured svg")
        first = ".sheet :is(button, input):visible" if tool else ".first .field :is(.typed, select, .radio)"
        control = box(page, first)
        bar = box(page, ".places") if page.locator(".places").count() else {"top": float(HEIGHT)}
        brief = sheet.find(".brief").inner_text().translate({0x2044: "/", 10: ""})
        found[key] = {
            "drawing first": drawing["top"] < box(page, ".first")["top"] < box(page, ".answer")["top"],
            "a third at most": drawing["height"] <= HEIGHT / 3,
            "first box on the screen": control["top"] < bar["top"] - 44,
            "three questions": 1 <= sheet.find(".first .field:not(.field .field)").count() <= 3,
            "named as an example": brief.startswith("The example’s answer"),
            "the answer itself": sheet.headlines[0] in brief,
        }
    wrong = {key: [name for name, good in each.items() if not good] for key, each in found.items()}
    assert {key: names for key, names in wrong.items() if names} == {}


def test_the_answer_is_no_longer_the_examples_once_something_is_typed(open_page: OpenPage) -> None:
    page = open_page("worksheets/string/", width=WIDTH, height=HEIGHT, natively=True)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "64 in")
    sheet.settled()
    assert re.match(r"The answer, 1 of \d+ values yours:", sheet.find(".brief").inner_text())


def test_who_comes_back_sees_their_own_answer_before_the_questions(open_page: OpenPage) -> None:
    page = open_page("worksheets/string/", width=WIDTH, height=HEIGHT, natively=True)
    kept: dict[str, Any] = {"nock_to_nock": {"text": "64 in", "from": "Plan a string"}}
    page.evaluate(f"localStorage.setItem('plied-true:typed', {json.dumps(json.dumps(kept))})")
    page.reload()
    Sheet(page).settled()
    assert box(page, ".pictured")["top"] < box(page, ".answer")["top"] < box(page, ".first")["top"]
    assert page.locator(".brief").is_hidden()
    assert page.evaluate(
        "!!(document.querySelector('.answer').compareDocumentPosition(document.querySelector('.first')) & 4)"
    ), "the keyboard goes in the order that is seen"


@pytest.mark.parametrize("width", [WIDTH, 1280])
def test_no_drawing_hides_in_a_scroll_of_its_own(open_page: OpenPage, width: int) -> None:
    page = open_page("worksheets/", width=width, height=HEIGHT)
    start = page.url
    for key in catalogue():
        page.goto(f"{start}{key}/")
        inner = page.locator(".columns, .columns *").evaluate_all(
            "all => all.filter(each => each.scrollHeight > each.clientHeight + 1 && each.tagName !== 'TEXTAREA' &&"
            " ['auto', 'scroll'].includes(getComputedStyle(each).overflowY)).map(each => each.className)"
        )
        assert inner == [], key


@pytest.mark.parametrize("path", ["worksheets/string/", "guides/two-bundle/", "notebook/"])
@pytest.mark.parametrize("width", [WIDTH, 1280])
def test_the_title_leads_home(open_page: OpenPage, path: str, width: int) -> None:
    page = open_page(path, width=width, height=HEIGHT)
    page.locator(".md-header__topic a", has_text="Plied True").click()
    page.wait_for_url(lambda address: path not in address)
    assert page.locator(".home-doors").is_visible()
