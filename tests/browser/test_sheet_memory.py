"""A device that has started Python once keeps a picture of its memory; later starts take it, and answer alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import pytest

from tests.browser.sheets import ADDRESS, PYTHON_MS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
_KEPT = """async () => {
  const cache = await caches.open('plied-true-memory');
  const kept = await cache.keys();
  return kept.length ? (await (await cache.match(kept[0])).blob()).size : 0;
}"""
_DAMAGE = """async () => {
  const cache = await caches.open('plied-true-memory');
  const [key] = await cache.keys();
  const packed = new Response(new Uint8Array(70000)).body.pipeThrough(new CompressionStream('gzip'));
  await cache.put(key, new Response(await new Response(packed).blob()));
}"""


def answers(page: Page, length: str) -> Sheet:
    sheet = Sheet(page)
    sheet.type("nock_to_nock", length)
    sheet.settled()
    assert sheet.rows == working(asked({"nock_to_nock": length})["outcome"])
    return sheet


def kept(page: Page) -> int:
    return cast("int", page.evaluate(_KEPT))


def picture(page: Page) -> int:
    for _ in range(PYTHON_MS // 500):
        if kept(page):
            break
        page.wait_for_timeout(500)
    return kept(page)


def libraries(page: Page) -> list[str]:
    """Return the addresses at which Python's library is fetched from now on."""
    seen: list[str] = []
    page.context.on("request", lambda request: seen.append(request.url) if "library-" in request.url else None)
    return seen


def test_the_second_visit_starts_from_the_picture_and_a_damaged_one_is_left_for_the_plain_way(
    open_page: OpenPage,
) -> None:
    page = open_page(ADDRESS)
    answers(page, "61 in")
    assert 1_000_000 < picture(page) < 20_000_000
    seen = libraries(page)
    page.reload()
    answers(page, "62 in")
    assert seen == []
    page.evaluate(_DAMAGE)
    page.reload()
    answers(page, "63 in")
    assert len(seen) == 1
    assert kept(page) == 0
