"""The first page: four ways on at a glance, and the reader's own bow where there is one."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
OWN = {
    "typed": {"nock_to_nock": {"text": "64 in", "from": "Plan a string"}},
    "own": {
        "values": {
            "nock_to_nock": {"in": "64 in", "mm": "1626 mm"},
            "brace_height": {"in": "6 1/4 in", "mm": "159 mm"},
        }
    },
}


def test_bow_and_doors_are_on_the_first_screen_of_a_phone(open_page: OpenPage) -> None:
    page = open_page(width=390, height=844)
    assert page.locator(".home-bow svg").is_visible()
    for door in page.locator(".home-doors a").all():
        box = door.locator("xpath=..").bounding_box()
        assert box is not None
        assert box["y"] + box["height"] <= 844
        assert box["height"] >= 44
    assert page.locator(".home-usual").is_visible()
    assert page.locator(".home-own").is_hidden()
    page.locator(".home-doors li", has_text="plan a string").click(position={"x": 8, "y": 60})
    page.wait_for_url("**/worksheets/string/")


def test_at_the_range_opens_the_notebook_there(open_page: OpenPage) -> None:
    page = open_page(width=390, height=844)
    page.locator(".home-doors a", has_text="At the range").click()
    page.wait_for_url("**/notebook/#range")
    page.locator(".nb-view h2", has_text="At the range").wait_for()
    page.locator(".nb-view a", has_text="Tune").click()
    page.wait_for_url("**/worksheets/tune/")


def test_a_reader_who_comes_back_sees_their_own_bow(open_page: OpenPage) -> None:
    page = open_page(width=390, natively=True)
    for name, value in OWN.items():
        page.evaluate(f"localStorage.setItem('plied-true:{name}', {json.dumps(json.dumps(value))})")
    page.reload()
    page.locator(".home-bow svg", has_text="6 1/4 in").wait_for()
    assert "64 in" in (page.locator(".home-bow svg").text_content() or "")
    assert "Your bow: 64 in" in page.locator(".home-whose").inner_text()
    assert page.locator(".home-usual").is_hidden()
    page.locator(".home-own a").click()
    page.wait_for_url("**/worksheets/string/")
