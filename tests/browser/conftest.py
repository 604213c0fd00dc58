"""What every browser test leans on: the built site behind a server, a browser, and pages that are watched.

A page from `open_page` fails its test when it asks another host for anything, logs an error or raises one.
Playwright's `wait_for_function` needs a looser policy than the site's: poll `evaluate`, or wait for elements.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Protocol

import pytest
from playwright.sync_api import sync_playwright

from site_build import chromium, serving
from site_build.places import CACHE, SITE

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, BrowserContext, Page

ARGUMENTS = (
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE_MS = 30_000  # for a whole start of Python on a slow machine


class OpenPage(Protocol):
    """Opens a page of the site in a fresh profile, in a window of the size given."""

    def __call__(self, path: str = "", *, width: int = 1280, height: int = 900, dark: bool = False) -> Page:
        """Return the page once it has loaded."""


@pytest.fixture(scope="session")
def site_url() -> Iterator[str]:
    """Serve the built site; its address ends in a slash."""
    if not (SITE / "index.html").is_file():
        pytest.fail("There is no built site: run `python3 -m site_build build` first.")
    with serving.running(serving.Server(SITE, 0)) as server:
        yield server.address


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start one headless Chromium for the whole run."""
    found = chromium.installed()
    if found is None:
        pytest.fail("There is no Chromium here: `python3 -m site_build test` brings one, CHROMIUM names one.")
    sandbox = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=found, args=[*ARGUMENTS, *sandbox])
        yield started
        started.close()


@pytest.fixture
def open_page(browser: Browser, site_url: str) -> Iterator[OpenPage]:
    """Lend an opener of watched pages; what they did wrong fails the test at its end."""
    contexts: list[BrowserContext] = []
    wrongs: list[str] = []

    def opened(path: str = "", *, width: int = 1280, height: int = 900, dark: bool = False) -> Page:
        context = browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme="dark" if dark else "light",
            reduced_motion="reduce",
            locale="en",
        )
        contexts.append(context)
        context.set_default_timeout(PATIENCE_MS)
        page = context.new_page()
        _watch(page, site_url, wrongs)
        page.goto(site_url + path)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert wrongs == []


@pytest.fixture(scope="session")
def shots() -> Path:
    """Make the folder for screenshots to look at."""
    folder = CACHE / "shots"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def _watch(page: Page, site_url: str, wrongs: list[str]) -> None:
    own = (site_url, "data:", "blob:")
    page.context.on(
        "request",
        lambda request: None if request.url.startswith(own) else wrongs.append(f"asked {request.url}"),
    )
    page.on("console", lambda said: wrongs.append(f"logged {said.text}") if said.type == "error" else None)
    page.on("pageerror", lambda error: wrongs.append(f"raised {error}"))
