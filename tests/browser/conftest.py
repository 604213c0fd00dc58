"""The built site on a free port of this machine, and a browser page that notes every request and message."""

from __future__ import annotations

import tempfile
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import sync_playwright

from site_build import chromium, serving
from site_build.places import CACHE, SITE

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page

SHOTS = CACHE / "screenshots"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.fixture(scope="session")
def site_url() -> Iterator[str]:
    with serving.running(serving.Server(SITE, 0)) as server:
        yield server.address.rstrip("/")


@pytest.fixture(scope="session")
def context() -> Iterator[BrowserContext]:
    path = chromium.installed()
    with tempfile.TemporaryDirectory() as profile, sync_playwright() as playwright:
        opened = playwright.chromium.launch_persistent_context(profile, executable_path=path, args=FLAGS, headless=True)
        yield opened
        opened.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    opened = context.new_page()
    opened.set_default_timeout(60_000)
    opened.set_viewport_size({"width": 1280, "height": 900})
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def shots() -> Path:
    SHOTS.mkdir(parents=True, exist_ok=True)
    return SHOTS
