"""Charts are read out where a pointer or the arrow keys point, with the numbers that the drawing itself carries."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, cast

import pytest

from calc.worksheets import catalogue
from tests.browser.sheets import Sheet

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
CHARTED = [
    "brace",
    "limb-test",
    "bend",
    "tiller",
    "strands",
    "twist",
    "endless",
    "settle",
    "nail",
    "tune",
    "note",
    "serving",
    "shot",
    "club",
]


def chart_of(page: Page) -> tuple[Locator, list[dict[str, Any]]]:
    """Return the first chart of the page that can be read out, and the lines that it tells."""
    points = page.locator(".readout-points").first
    told = cast("dict[str, Any]", json.loads(points.get_attribute("data-readout") or ""))
    return page.locator("svg", has=page.locator(".readout-points")).first, told["series"]


def said(page: Page) -> str:
    return page.locator(".readout").first.inner_text()


def test_every_sheet_with_a_chart_is_tried_here(open_page: OpenPage) -> None:
    page = open_page("worksheets/", natively=True)
    found = []
    for key in catalogue():
        page.goto(page.url.rpartition("worksheets/")[0] + f"worksheets/{key}/")
        found += [key] if page.locator(".readout-points").count() else []
    assert found == CHARTED


@pytest.mark.parametrize("key", CHARTED)
def test_arrow_keys_walk_along_every_line(open_page: OpenPage, key: str) -> None:
    page = open_page(f"worksheets/{key}/", natively=True)
    chart, lines = chart_of(page)
    chart.focus()
    page.keyboard.press("ArrowRight")
    first = lines[0]["points"]
    for across, up in (first[1][2:], first[2][2:]):
        assert across in said(page)
        assert up in said(page)
        page.keyboard.press("ArrowRight")
    for _ in first:
        page.keyboard.press("ArrowLeft")
    assert all(text in said(page) for text in first[0][2:]), "it stops at the end"
    page.keyboard.press("ArrowDown")
    assert said(page).startswith(lines[1 % len(lines)]["name"])
    page.keyboard.press("ArrowUp")
    assert said(page).startswith(lines[0]["name"])
    assert page.locator(".readout").first.get_attribute("role") == "status"


def test_a_pointer_reads_the_nearest_point_and_marks_it(open_page: OpenPage) -> None:
    page = open_page("worksheets/brace/", natively=True)
    chart, lines = chart_of(page)
    x, y, across, up = lines[0]["points"][len(lines[0]["points"]) // 2]
    chart.evaluate("chart => chart.scrollIntoView({ block: 'center' })")
    where = """(chart, [x, y]) => {
      const at = new DOMPoint(x, y).matrixTransform(chart.getScreenCTM());
      return [at.x, at.y];
    }"""
    page.mouse.move(*cast("list[float]", chart.evaluate(where, [x, y])))
    assert across in said(page)
    assert up in said(page)
    mark = chart.locator(".readout-mark")
    assert [float(mark.get_attribute(name) or "nan") for name in ("cx", "cy")] == [x, y]


def test_a_finger_reads_a_chart_on_a_phone(open_page: OpenPage) -> None:
    page = open_page("worksheets/settle/", width=390, height=844, natively=True)
    chart, lines = chart_of(page)
    chart.scroll_into_view_if_needed()
    chart.dispatch_event("pointerdown", {"clientX": 0, "clientY": 0})
    assert any(text in said(page) for _, _, *texts in lines[0]["points"] for text in texts)
    assert Sheet(page, "settle").overflow() <= 0


def test_a_new_answer_is_read_with_its_own_numbers(open_page: OpenPage) -> None:
    page = open_page("worksheets/twist/", natively=True)
    before = chart_of(page)[1]
    sheet = Sheet(page, "twist")
    sheet.type("bundle_diameter", "0.060")
    sheet.settled()
    chart, lines = chart_of(page)
    assert lines != before
    chart.focus()
    page.keyboard.press("ArrowRight")
    assert all(text in said(page) for text in lines[0]["points"][1][2:])
