"""Pages are light: few bytes, painted before any script of ours, and nothing moves when scripts and Python arrive."""

from __future__ import annotations

import gzip
import json
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from site_build.setup.paths import SITE
from tests.browser.sheets import PYTHON_MS, Sheet

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Route

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
TWO = "guides/two-bundle/"
MOST_BYTES = 60_000
"""Of one page's own HTML, through gzip as hosts use it (level 6)."""
_SHIFTS = """
  window.shifts = [];
  addEventListener('plied-true:ready', () => { window.awake = true; });
  new PerformanceObserver((list) => {
    for (const { value, hadRecentInput, sources } of list.getEntries()) {
      const moved = sources.map(({ node, previousRect: a, currentRect: b }) => [
        node?.className ?? node?.nodeName, node?.textContent?.trim().slice(0, 40), [a.y, a.height], [b.y, b.height]]);
      if (!hadRecentInput) window.shifts.push({ value, moved });
    }
  }).observe({ type: 'layout-shift', buffered: true });
"""


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


def test_an_answer_restyles_what_changed_and_not_all_of_the_page(
    browser: Browser, open_page: OpenPage, tmp_path: Path
) -> None:
    page = open_page("worksheets/string/", width=390, height=844)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "63 in")
    said = sheet.settled().find(".said").first
    before = said.inner_text()
    trace = tmp_path / "trace.json"
    browser.start_tracing(page=page, path=trace, categories=["devtools.timeline"])
    sheet.type("nock_to_nock", "64 in")
    expect(said).not_to_have_text(before)
    browser.stop_tracing()
    events = json.loads(trace.read_text(encoding="utf-8"))["traceEvents"]
    restyled = [each["args"].get("elementCount", 0) for each in events if each["name"] == "UpdateLayoutTree"]
    much = page.evaluate("document.querySelectorAll('*').length") / 5
    assert len([count for count in restyled if count > much]) == 1  # when the answer is put in


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize(
    "path", ["", "guides/two-bundle/", "guides/settle/", "worksheets/string/", "worksheets/twist/"]
)
def test_nothing_moves_when_face_scripts_and_python_arrive(open_page: OpenPage, path: str, width: int) -> None:
    page = open_page("404.html", width=width, height=844)
    page.add_init_script(_SHIFTS)
    faces: list[Route] = []
    page.route("**/*.woff2", lambda route: faces.append(route))  # noqa: PLW0108 - a built-in method is not taken
    page.goto(page.url.replace("404.html", path), wait_until="commit")
    page.wait_for_function("performance.getEntriesByName('first-contentful-paint').length")
    assert faces
    for face in faces:  # later than the first paint, as over a slow link
        face.continue_()
    page.evaluate("document.fonts.ready")
    if page.locator("[data-worksheet]").count():
        page.locator("[data-worksheet]").dispatch_event("pointerdown")
        page.wait_for_function("window.awake", timeout=PYTHON_MS)
    page.wait_for_timeout(500)
    assert page.evaluate("window.shifts") == []


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_moves_on_a_sheet_for_a_reader_who_comes_back(open_page: OpenPage, width: int) -> None:
    page = open_page("offline/", width=width, height=844)
    page.add_init_script(_SHIFTS)
    own = '{"arrow_mass": {"text": "", "from": "Plan a string"}}'  # their own, and answered as the example is
    page.add_init_script(f"localStorage.setItem('plied-true:typed', {own!r})")
    page.goto(page.url.replace("offline/", "worksheets/string/"))
    page.locator("[data-worksheet]").dispatch_event("pointerdown")
    page.wait_for_function("window.awake", timeout=PYTHON_MS)
    page.wait_for_timeout(500)
    assert page.locator(":root").get_attribute("data-mine") == ""
    assert page.evaluate("window.shifts") == []


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_moves_for_a_reader_with_a_hand_and_units_of_their_own(open_page: OpenPage, width: int) -> None:
    page = open_page("offline/", width=width, height=844)
    page.add_init_script(_SHIFTS)
    page.add_init_script("for (const [key, value] of [['hand', 'S'], ['units', 'metric']])"
                         " localStorage.setItem(`plied-true:${key}`, JSON.stringify(value));")  # fmt: skip
    page.goto(page.url.replace("offline/", "guides/two-bundle/"))
    page.locator("[data-figure=strands-staggered] ~ .pt-do.pt-many").scroll_into_view_if_needed()
    page.locator("[data-figure=barber-pole] [data-hand=S] svg").wait_for()
    page.wait_for_timeout(500)
    assert page.evaluate("window.shifts") == []


@pytest.mark.parametrize("step", ["roll", "ply"])
def test_nothing_moves_round_a_figure_that_can_move(browser: Browser, site_url: str, step: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    held: list[Route] = []
    page.route("**/assets/web/site.js", lambda route: held.append(route))  # noqa: PLW0108 - a built-in method is not taken
    page.goto(site_url + TWO, wait_until="commit")
    page.evaluate("document.fonts.ready")
    page.locator(f"#{step}").evaluate("each => each.scrollIntoView({ behavior: 'instant' })")
    page.wait_for_timeout(300)
    page.evaluate(_SHIFTS.replace("buffered: true", "buffered: false"))
    for each in held:
        each.continue_()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    page.wait_for_timeout(500)
    assert page.evaluate("window.shifts") == []
    context.close()
