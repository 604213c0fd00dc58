"""Amounts in guides: a number stays on one line with its unit, and nothing gets wider than a phone for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
GUIDES = sorted((DOCS / "guides").glob("*.md"))
_PARTED = """() => [...document.querySelectorAll('.pt-amount:not(:has([data-units])), .pt-amount [data-units]')]
  .filter(each => {
    const words = [...each.childNodes].find(node => node.nodeType === Node.TEXT_NODE);
    if (!words) return false;
    const range = document.createRange();
    range.selectNodeContents(words);
    return new Set([...range.getClientRects()].map(box => Math.round(box.top))).size > 1;
  }).map(each => each.textContent)"""


def test_no_amount_is_parted_from_its_unit(open_page: OpenPage) -> None:
    page = open_page("guides/", width=390, height=844)
    start = page.url
    for path in GUIDES:
        page.goto(start if path.stem == "index" else f"{start}{path.stem}/")
        for width in (320, 390):
            page.set_viewport_size({"width": width, "height": 844})
            assert page.evaluate(_PARTED) == [], path.stem
            assert page.evaluate("document.documentElement.scrollWidth") <= width, path.stem
