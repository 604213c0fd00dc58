"""Clocks that are wrong: those of page, worker and service worker, and the server's, in all it says of time."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.hosts import replace, rewrite
from tests.browser.offline_pages import GUIDE, NEW, PAGES_READY, line, press, ready
from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
PAGE = f"{GUIDE}index.html"
OLD_WORD, NEW_WORD = "Brace safely", "Brace with care"
LONG_AGO, FAR_OFF = "Mon, 01 Jan 1990 00:00:00 GMT", "Fri, 01 Jan 2100 00:00:00 GMT"
_WRONG = """{{
  const Right = Date;
  globalThis.Date = class extends Right {{
    constructor(...given) {{ super(...(given.length ? given : [Right.now() + {off}])); }}
    static now() {{ return Right.now() + {off}; }}
  }};
}}
"""
YEAR_MS = 365 * 24 * 3600 * 1000


def set_clocks(host: Host, wrong: str) -> None:
    """Put the clock of the worker and of the service worker wrong; that of a page is put wrong as it opens."""
    start = host.folder / "assets/web/worker.js"
    replace(start, wrong + start.read_text(encoding="utf-8"))
    rewrite(host.folder, PAGE, OLD_WORD, OLD_WORD)
    wrong_worker(host, wrong)


def wrong_worker(host: Host, wrong: str) -> None:
    script = host.folder / "sw.js"
    replace(script, script.read_text(encoding="utf-8").replace("\n};\n", f"\n}};\n{wrong}", 1))


@pytest.mark.parametrize(
    ("server", "until", "years"),
    [(LONG_AGO, FAR_OFF, 80), (FAR_OFF, LONG_AGO, -40)],
    ids=["server behind, device ahead", "server ahead, device behind"],
)
def test_wrong_clocks_do_not_matter(open_tab: OpenTab, plain_host: Host, server: str, until: str, years: int) -> None:
    host = plain_host
    # such a server lets files be taken for fresh for years, or never
    host.headers = {"Date": server, "Last-Modified": server, "Expires": until, "Cache-Control": ""}
    wrong = _WRONG.format(off=years * YEAR_MS)
    set_clocks(host, wrong)
    page = open_tab()
    page.add_init_script(wrong)
    ready(page, host)
    assert abs(page.evaluate("new Date().getFullYear()") - 2026 - years) < 20
    rewrite(host.folder, PAGE, OLD_WORD, NEW_WORD)
    page.reload()
    line(page, NEW)
    host.signal = False
    press(page, "Take it now")
    page.locator("h1", has_text=NEW_WORD).wait_for()
    line(page, PAGES_READY)
    page.goto(host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    assert sheet.rows == working(asked({"nock_to_nock": "61 in"})["outcome"])
