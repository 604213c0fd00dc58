"""Pages are light: few bytes, and painted before any script of ours."""

from __future__ import annotations

import gzip
from typing import TYPE_CHECKING

import pytest

from site_build.places import SITE

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Route

pytestmark = pytest.mark.browser
MOST_BYTES = 60_000
"""Of one page's own HTML, through gzip as hosts use it (level 6)."""


def test_no_page_is_heavier_than_a_slow_link_bears() -> None:
    sizes = {
        path.relative_to(SITE).as_posix(): len(gzip.compress(path.read_bytes(), 6)) for path in SITE.rglob("*.html")
    }
    assert len(sizes) > 30
    assert {name: size for name, size in sizes.items() if size > MOST_BYTES} == {}


@pytest.mark.parametrize("path", ["", "guides/two-bundle/", "worksheets/string/"])
def test_a_page_is_painted_though_no_script_has_come(browser: Browser, site_url: str, path: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    held: list[Route] = []
    page.route("**/*.js", lambda route: held.append(route))  # noqa: PLW0108 - a built-in method is not taken
    page.goto(site_url + path, wait_until="commit")
    page.wait_for_function("performance.getEntriesByName('first-contentful-paint').length")
    page.locator("article h1").wait_for()
    assert held
    for each in held:
        each.abort()
    context.close()
