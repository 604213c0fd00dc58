"""What every browser test leans on: the built site behind a server, a browser, and pages that are watched.

A page from `open_page` fails its test when it asks another host for anything, logs an error or raises one. It has no
service worker, which would answer in the place of what a test puts there; tabs from `open_tab` have. Whatever it was
opened by, a page fails its test in which anything went against the site's policy (`site_build/pages/policy.py`), or in
which Python had to be started again, unless that is marked `stops_python`.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Protocol

import pytest
from playwright.sync_api import Page as AnyPage
from playwright.sync_api import sync_playwright

from site_build.cli import serving
from site_build.setup import chromium
from site_build.setup.paths import CACHE
from tests.browser.hosts import hosted
from tests.browser.own_site import OwnSite
from tests.browser.waiting import wait_for_function

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Playwright

    from tests.browser.hosts import Host

SHOTS = CACHE / "screenshots"
OFF = (
    # two pages of the address bar's own, which cost as much as a page of the site beside each of its pages
    *("WebUIOmniboxPopup", "WebUIOmniboxAimPopup"),
    # what Playwright turns off by itself where nothing is named here: asks to other hosts, and what tests stumble over
    *("AimEnabled", "AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades"),
    *("HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "NetworkTimeServiceQuerying"),
    *("OptimizationHints", "PaintHolding", "PreconnectToSearch", "ThirdPartyStoragePartitioning"),
)
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", f"--disable-features={','.join(OFF)}",
]  # fmt: skip
PATIENCE_MS = 30_000
RESTARTED = "Python is started again"
REFUSED = "Refused by the policy"
_TELLS_WHAT_IS_REFUSED = f"""
addEventListener('securitypolicyviolation', ({{ effectiveDirective, blockedURI, sample }}) => {{
  console.warn('{REFUSED}', effectiveDirective, blockedURI, sample);
}});"""
_restarts: list[str] = []
_refused: list[str] = []


@pytest.fixture(autouse=True)
def restarts(request: pytest.FixtureRequest) -> Iterator[list[str]]:
    """Every restart of Python that the pages of a test told of; see `web/worker/client.js`."""
    _restarts.clear()
    yield _restarts
    if not request.node.get_closest_marker("stops_python"):
        assert _restarts == []


@pytest.fixture(autouse=True)
def refused() -> Iterator[list[str]]:
    """Hear of what the pages of a test asked for against their policy; a test that means to do so clears it."""
    _refused.clear()
    yield _refused
    assert _refused == []


def listen(context: BrowserContext) -> BrowserContext:
    """Hear what the pages of a context say of restarts, and of what their policy refused them."""

    def hear(said: ConsoleMessage) -> None:
        for start, heard in ((RESTARTED, _restarts), (REFUSED, _refused)):
            if said.text.startswith(start):
                heard.append(said.text)

    context.on("console", hear)
    context.add_init_script(_TELLS_WHAT_IS_REFUSED)
    return context


def heard(browser: Browser) -> Iterator[Browser]:
    """Lend a browser whose contexts are listened to."""
    plainly = browser.new_context
    monkey = pytest.MonkeyPatch()
    monkey.setattr(browser, "new_context", lambda **how: listen(plainly(**how)))
    yield browser
    monkey.undo()
    browser.close()


class OpenPage(Protocol):
    """Opens a page of the site in a fresh profile, in a window of the size given."""

    def __call__(
        self, path: str = "", *, width: int = 1280, height: int = 900, dark: bool = False, natively: bool = False
    ) -> Page:
        """Return the page once it has loaded; `natively` has this machine's own Python answer, for quick tests."""


class OpenTab(Protocol):
    """Opens one more tab of one fresh profile in which service workers work."""

    def __call__(self) -> Page:
        """Return an empty tab."""


class OpenOwn(Protocol):
    """Opens a tab of a whole browser of its own, with settings that a reader may have chosen in it."""

    def __call__(self, settings: Mapping[str, Any]) -> Page:
        """Return an empty tab, in which service workers work."""


@pytest.fixture(scope="session")
def playing() -> Iterator[Playwright]:
    monkey = pytest.MonkeyPatch()
    monkey.setattr(AnyPage, "wait_for_function", wait_for_function)
    with sync_playwright() as playwright:
        yield playwright
    monkey.undo()


@pytest.fixture(scope="session")
def site_url() -> Iterator[str]:
    with serving.running(OwnSite()) as server:
        yield server.address


@pytest.fixture(scope="session")
def native_url() -> Iterator[str]:
    with serving.running(OwnSite(natively=True)) as server:
        yield server.address


@pytest.fixture(scope="session")
def browser(playing: Playwright) -> Iterator[Browser]:
    yield from heard(playing.chromium.launch(executable_path=chromium.installed(), args=FLAGS))


@pytest.fixture
def open_page(browser: Browser, site_url: str, native_url: str) -> Iterator[OpenPage]:
    contexts: list[BrowserContext] = []
    wrongs: list[str] = []

    def opened(
        path: str = "", *, width: int = 1280, height: int = 900, dark: bool = False, natively: bool = False
    ) -> Page:
        address = native_url if natively else site_url
        context = browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme="dark" if dark else "light",
            reduced_motion="reduce",
            service_workers="block",
        )
        contexts.append(context)
        context.set_default_timeout(PATIENCE_MS)
        page = context.new_page()
        watch(page, address, wrongs)
        page.goto(address + path)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert wrongs == []


@pytest.fixture
def open_tab(browser: Browser) -> Iterator[OpenTab]:
    context = browser.new_context(reduced_motion="reduce")
    context.set_default_timeout(PATIENCE_MS)
    yield context.new_page
    context.close()


@pytest.fixture
def open_own(playing: Playwright, tmp_path: Path) -> Iterator[OpenOwn]:
    contexts: list[BrowserContext] = []

    def opened(settings: Mapping[str, Any]) -> Page:
        profile = tmp_path / "profile"
        (profile / "Default").mkdir(parents=True)
        (profile / "Default" / "Preferences").write_text(json.dumps(settings), encoding="utf-8")
        context = playing.chromium.launch_persistent_context(
            profile,
            executable_path=chromium.installed(),
            args=FLAGS,
            reduced_motion="reduce",
            ignore_default_args=["--disable-back-forward-cache"],
        )
        contexts.append(listen(context))
        context.set_default_timeout(PATIENCE_MS)
        return context.pages[0]

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def plain_host(tmp_path: Path) -> Iterator[Host]:
    with hosted(tmp_path / "site") as host:
        yield host


@pytest.fixture
def sub_host(tmp_path: Path) -> Iterator[Host]:
    with hosted(tmp_path / "site", "/club/strings/") as host:
        yield host


@pytest.fixture(scope="session")
def shots() -> Path:
    SHOTS.mkdir(parents=True, exist_ok=True)
    return SHOTS


def watch(page: Page, site_url: str, wrongs: list[str]) -> None:
    """Note every request to another host, every error logged and every error raised."""
    own = (site_url, "data:", "blob:", "about:")
    page.context.on(
        "request",
        lambda request: None if request.url.startswith(own) else wrongs.append(f"asked {request.url}"),
    )
    page.on("console", lambda said: wrongs.append(f"logged {said.text}") if said.type == "error" else None)
    page.on("pageerror", lambda error: wrongs.append(f"raised {error}"))
