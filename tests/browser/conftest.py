"""The built site on a free port of this machine, and a browser page that notes every request and message."""

from __future__ import annotations

import os
import tempfile
import threading
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import sync_playwright

from site_build import browser, building, environment, serving

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page

SHOTS = environment.ROOT / ".cache" / "screenshots"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.fixture(scope="session")
def site_url() -> Iterator[str]:
    running = serving.server(building.SITE, 0)
    thread = threading.Thread(target=running.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{running.server_port}"
    running.shutdown()
    running.server_close()
    thread.join()


@pytest.fixture(scope="session")
def context() -> Iterator[BrowserContext]:
    path = os.environ.get("CHROMIUM") or browser.installed()
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
