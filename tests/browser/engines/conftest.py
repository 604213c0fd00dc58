"""Firefox in the place of Chromium: the fixtures of all browser tests, with another engine behind them."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import Locator, Page

from site_build.setup import firefox
from site_build.setup.paths import ROOT
from tests.browser.conftest import heard

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Playwright

CHANNEL = "moz-firefox"  # any Firefox, spoken to by WebDriver BiDi


def type_over(control: Locator, text: str) -> None:
    """Type in the place of what stands in a control, key by key.

    Playwright's own `fill` puts the text there by script, after which Firefox tells the page of no change.
    """
    control.select_text()
    if text:
        control.page.keyboard.type(text)
    else:
        control.page.keyboard.press("Delete")


@pytest.fixture(autouse=True)
def as_a_reader(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every text be typed; take no pictures, for which Playwright puts a style into the page that is refused."""
    monkeypatch.setattr(Page, "screenshot", lambda _page, **_how: b"")
    monkeypatch.setattr(Locator, "fill", type_over)
    monkeypatch.setattr(Page, "fill", lambda page, selector, text: type_over(page.locator(selector), text))


@pytest.fixture(scope="session")
def browser(playing: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    found = firefox.installed()
    if found is None:
        pytest.skip("there is no Firefox here")
    through = tmp_path_factory.mktemp("firefox") / "firefox"
    command = f"exec {sys.executable} -m tests.browser.engines.relay {found}"
    through.write_text(f'#!/bin/sh\ncd {ROOT} && {command} "$@"\n', encoding="utf-8")
    through.chmod(0o755)
    yield from heard(playing.firefox.launch(channel=CHANNEL, executable_path=through))
