"""The site without signal: kept whole on the device, whatever goes wrong on the way."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.hosts import ABSENT, CUT, DAMAGED, Host, hosted, kept_files
from tests.browser.offline_pages import GUIDE, line, ready, search_for
from tests.browser.sheets import ADDRESS, Sheet

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.browser.conftest import OpenTab

pytestmark = pytest.mark.browser
SUBPATHS = ("/", "/club/strings/")


@pytest.fixture(params=SUBPATHS)
def host(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Host]:
    with hosted(tmp_path / "site", request.param) as served:
        yield served


def test_everything_works_without_signal(open_tab: OpenTab, host: Host) -> None:
    page = open_tab()
    ready(page, host)
    host.signal = False
    page.goto(host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    for path, heading in ((GUIDE, "Brace safely"), ("guides/brace", "Brace safely"), ("", "Plied True")):
        page.goto(host.address + path + "?from=a-link")
        assert heading in page.locator("h1").inner_text()
        assert page.evaluate("document.fonts.size") > 0
    page.goto(host.address + "guides/splice/")
    page.check("input[name=pt-hand][value=S]")
    page.locator("[data-figure=splice-tapered] [data-hand=S] svg").wait_for()
    search_for(page, "brace height")
    for signal in (True, False):
        host.signal = signal
        page.goto(host.address + "nowhere/at/all/")
        assert "404" in page.locator("h1").inner_text()
        assert page.evaluate("getComputedStyle(document.body).fontFamily").startswith("Hyperlegible")
        search_for(page, "brace height")


def test_guides_come_before_what_python_needs(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    ready(page, plain_host)
    heavy = [at for at, path in enumerate(plain_host.asked) if path.startswith("assets/runtime/")]
    pages = [at for at, path in enumerate(plain_host.asked) if path.startswith(("guides/", "worksheets/"))]
    assert max(pages) < min(heavy)


def test_what_python_needs_is_brought_once_where_a_host_lets_nothing_be_kept(
    open_tab: OpenTab, plain_host: Host
) -> None:
    plain_host.headers["Cache-Control"] = "no-store"
    ready(open_tab(), plain_host)
    brought = [path for path in plain_host.asked if path.startswith("assets/runtime/")]
    assert sorted(brought) == sorted(set(brought))


@pytest.mark.parametrize("path", ["guides/care/", "assets/runtime/loader"])
def test_a_file_that_does_not_come_whole_is_not_kept_and_brought_at_the_next_visit(
    open_tab: OpenTab, plain_host: Host, path: str
) -> None:
    page = open_tab()
    path = next(each for part in kept_files(plain_host.folder) for each in part if each.startswith(path))
    for wrong in (ABSENT, CUT, DAMAGED):
        plain_host.wrong[path] = wrong
        page.goto(plain_host.address)
        line(page, "a file came broken")
    plain_host.wrong.clear()
    ready(page, plain_host)
    plain_host.signal = False
    page.goto(plain_host.address + "guides/care/")
    assert "care" in page.locator("h1").inner_text().lower()
