"""Nothing in the pages' policy is there for nothing: without any one source of it the browser refuses something.

That just the scripts and styles inside pages are named is held against the built site (`site_build/pages/policy.py`,
`faults`); that nothing else is needed, by every test in a browser: each fails where anything is refused. What names the
app for an installation is asked for only where somebody installs it, so that its source is not tried here.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from site_build.pages.policy import NONE, policy, written
from tests.browser.conftest import PATIENCE_MS

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Route

pytestmark = pytest.mark.browser
SHEET = "worksheets/brace/"
LAX = ("*", "'unsafe-inline'")
_META = re.compile(r'(http-equiv="Content-Security-Policy" content=")([^"]*)"')


@pytest.mark.stops_python  # a worker without its source is no worker
def test_without_any_one_source_something_is_refused(browser: Browser, native_url: str, refused: list[str]) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    kept = ""

    def changed(route: Route) -> None:
        reply = route.fetch()
        body, count = _META.subn(rf'\g<1>{kept}"', reply.text())
        assert count == 1
        route.fulfill(response=reply, body=body)

    page.route(f"**/{SHEET}", changed)
    for name, sources in policy([]).items():
        for source in sources if sources != (NONE,) and name != "manifest-src" else ():
            rest = tuple(each for each in sources if each != source) or (NONE,)
            kept = written({"script-src": LAX, "style-src": LAX, name: rest})
            refused.clear()
            narrow = name == "img-src"  # the theme's icons stand in the drawer of a phone
            page.set_viewport_size({"width": 390 if narrow else 1280, "height": 800})
            page.goto(native_url + SHEET)
            if name == "connect-src":
                page.click(".md-search__input")
            for _ in range(PATIENCE_MS // 50):
                if any(f" {name}" in each for each in refused):
                    break
                page.wait_for_timeout(50)
            assert any(f" {name}" in each for each in refused), f"nothing needs {source} in {name}"
    context.close()
    refused.clear()


def test_a_script_that_got_into_a_page_does_not_run(browser: Browser, native_url: str, refused: list[str]) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(native_url + SHEET)
    page.evaluate("""() => {
      window.ran = [];
      const put = (name, more) => document.body.append(Object.assign(document.createElement(name), more));
      put('p', { innerHTML: '<img src="data:," onerror="ran.push(1)"> <a href="javascript:ran.push(2)">two</a>' });
      put('script', { textContent: 'ran.push(3)' });
      put('iframe', { srcdoc: '<script>parent.ran.push(4)<' + '/script>' });
      document.querySelector('[href^=javascript]').click();
    }""")
    for _ in range(PATIENCE_MS // 50):
        if len(refused) >= 4:
            break
        page.wait_for_timeout(50)
    assert page.evaluate("window.ran") == []
    assert len(refused) >= 4, refused
    context.close()
    refused.clear()
