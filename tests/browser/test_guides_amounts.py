"""Amounts in guides: a number stays on one line with its unit, and nothing gets wider than a phone for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from pathlib import Path

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


@pytest.mark.parametrize("width", [320, 390])
@pytest.mark.parametrize("path", GUIDES, ids=lambda path: path.stem)
def test_no_amount_is_parted_from_its_unit(open_page: OpenPage, path: Path, width: int) -> None:
    page = open_page("guides/" if path.stem == "index" else f"guides/{path.stem}/", width=width, height=844)
    assert page.evaluate(_PARTED) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
