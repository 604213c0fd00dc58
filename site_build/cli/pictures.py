"""The pictures of the README, taken of the built site in a browser: the bench sheet, a step, the range, a card."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING

from calc import bridge
from calc.worksheets import catalogue
from calc.worksheets.core import usual
from site_build.cli import serving
from site_build.setup.paths import DOCS, SITE

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

FOLDER = DOCS / "assets"
BOW = {"nock_to_nock": "62 1/2 in", "draw_weight": "35 lb", "brace_height": "6 1/4 in"}
NAME = "Ash 62"
_PHONE = {"width": 390, "height": 844}
_FLAGS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync"]
_PATIENCE_MS = 120_000
_STILL_MS = 1000


def take(folder: Path = FOLDER) -> tuple[Path, ...]:
    """Take every picture and return where they are.

    Parameters
    ----------
    folder : Path
        Where they belong.
    """
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - only the tests' environment has it

    made = []
    with serving.running(serving.Server(SITE, 0)) as server, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=os.environ.get("CHROMIUM"), args=_FLAGS)
        for name, show in PICTURES.items():
            context = browser.new_context(viewport=_PHONE, service_workers="block")  # type: ignore[arg-type]
            page = context.new_page()
            page.set_default_timeout(_PATIENCE_MS)
            show(page, server.address)
            page.wait_for_timeout(_STILL_MS)
            made.append(folder / f"{name}.png")
            page.screenshot(path=made[-1])
            context.close()
        browser.close()
    return tuple(made)


def _sheet(page: Page, address: str) -> None:
    """Show the bench sheet of a bow that was measured."""
    page.goto(f"{address}worksheets/string/")
    for key, text in BOW.items():
        page.locator(f"#string-{key}").fill(text)
        page.locator(f"#string-{key}").blur()
    page.wait_for_selector("#string[data-state=new]:not([data-stale])")
    page.evaluate("scrollTo(0, 0)")


def _step(page: Page, address: str) -> None:
    """Show a step of a guide as it is made along."""
    page.goto(f"{address}guides/two-bundle/")
    page.click(".pt-along-start button")
    page.wait_for_selector(".along-picture svg")
    title = page.locator(".along-now")
    while "ply" not in title.inner_text().lower():
        page.click(".along-next")


def _range(page: Page, address: str) -> None:
    """Show a string at the range, after it was put down in the notebook."""
    _sheet(page, address)
    page.get_by_label("Name of the bow").fill(NAME)
    page.get_by_role("button", name="Put it down in the notebook").click()
    page.get_by_text("See it in the notebook").wait_for()
    page.goto(f"{address}notebook/#range")
    page.fill("#nb-read", "6")
    page.wait_for_selector(".nb-turns:not(:empty)")


def _card(page: Page, address: str) -> None:
    """Show a card as it is printed."""
    del address
    string = {"inputs": usual(catalogue()["string"], BOW), "name": NAME, "link": "", "code": []}
    ask = {"v": 1, "id": 1, "card": "string", "system": "inch", "paper": "A4", "form": "page", "strings": [string]}
    page.set_viewport_size({"width": 794, "height": 1123})
    page.set_content(json.loads(bridge.handle(json.dumps(ask)))["html"])


PICTURES: dict[str, Callable[[Page, str], None]] = {
    "bench-sheet": _sheet,
    "guide-step": _step,
    "at-the-range": _range,
    "string-card": _card,
}

if __name__ == "__main__":
    for path in take():
        print(path)
