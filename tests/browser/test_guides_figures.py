"""Figures of guides on a phone: every word in them can be read, on the page and while making along."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from site_build.pages.guides.texts import load
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
GUIDES = [path for path in sorted((DOCS / "guides").glob("*.md")) if path.stem != "index"]
MAKING = [path for path in GUIDES if load(path).meta.get("making")]
LEAST_PX = 10.0
_SMALL = """([within, least]) => [...document.querySelectorAll(`${within} .pt-figure svg`)].flatMap(svg => {
  if (!svg.getBoundingClientRect().width) return [];
  const scale = svg.getScreenCTM().a;
  return [...svg.querySelectorAll('text')].map(each => [
    svg.closest('[data-figure]').dataset.figure,
    each.textContent,
    Math.round(10 * scale * parseFloat(getComputedStyle(each).fontSize)) / 10,
  ]).filter(([, , size]) => size < least);
})"""


def test_words_in_figures_can_be_read_on_a_phone(open_page: OpenPage) -> None:
    page = open_page("guides/", width=390, height=844)
    start = page.url
    for path in GUIDES:
        page.goto(f"{start}{path.stem}/")
        assert page.evaluate(_SMALL, ["article", LEAST_PX]) == [], path.stem


@pytest.mark.parametrize("height", [844, 667])
@pytest.mark.parametrize("path", MAKING, ids=lambda path: path.stem)
def test_words_in_figures_can_be_read_while_making_along(open_page: OpenPage, path: Path, height: int) -> None:
    page = open_page(f"guides/{path.stem}/", width=390, height=height)
    page.click(".pt-along-start button")
    seen = 0
    for _ in load(path).of("step"):
        assert page.evaluate(_SMALL, [".along", LEAST_PX]) == []
        seen += page.locator(".along .pt-figure svg:visible").count()
        page.click(".along-next")
    assert seen


def test_in_bright_sun_the_hatch_leaves_room_for_strands(open_page: OpenPage) -> None:
    """All bundles are black there: where B shows its strands as well, its hatch is thin, so that A is darker."""
    page = open_page("guides/two-bundle/", width=390, height=844)
    read = """name => [...document.querySelectorAll(`[data-figure="${name}"] pattern .d-line-b`)].map(
        each => parseFloat(getComputedStyle(each).strokeWidth))"""
    strands, none = "splice-tapered", "body-turns"
    usual = page.evaluate(read, none)
    assert usual == page.evaluate(read, strands)
    assert usual[0] > 1.0
    page.evaluate("document.body.setAttribute('data-md-color-scheme', 'sun')")
    assert page.evaluate(read, none) == usual
    assert page.evaluate(read, strands)
    assert all(width < 1.0 for width in page.evaluate(read, strands))
