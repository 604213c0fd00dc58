"""A worksheet in a browser, as a reader handles it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, cast

from calc import bridge
from calc.worksheets import catalogue
from calc.worksheets.core import usual

if TYPE_CHECKING:
    from collections.abc import Mapping

    from playwright.sync_api import Locator, Page

ADDRESS = "worksheets/string/"
PYTHON_MS = 60_000
"""For a whole start of Python on a busy machine."""


class Sheet:
    """One worksheet on an open page."""

    def __init__(self, page: Page, key: str = "string") -> None:
        self.page = page
        self.key = key
        self.element = page.locator(f"#{key}")

    def find(self, selector: str) -> Locator:
        """Return a part of the sheet."""
        return self.element.locator(selector)

    def control(self, field: str) -> Locator:
        """Return where a field is typed."""
        return self.page.locator(f"#{self.key}-{field}")

    def type(self, field: str, text: str) -> None:
        """Type into a field and leave it, so that the page takes notice."""
        self.control(field).fill(text)
        self.control(field).blur()

    def choose(self, field: str, value: str) -> None:
        """Choose one of a few."""
        self.find(f"input[name='{field}'][value='{value}']").check()

    def press(self) -> None:
        """Press the button."""
        self.find(".go button").click()

    def settled(self, state: str = "new") -> Sheet:
        """Wait until the answer is new or old."""
        self.page.wait_for_selector(f"#{self.key}[data-state='{state}']", timeout=PYTHON_MS)
        return self

    @property
    def headlines(self) -> list[str]:
        """The answers in large figures, with the sign for fractions that can be typed."""
        return [text.replace("\u2044", "/") for text in self.find(".said").all_text_contents()]

    @property
    def rows(self) -> list[list[str]]:
        """Every line of the working: key, words, number, range, working, source."""
        read = """rows => rows.map(row => [row.dataset.row, ...['[data-text=words]', '.value', '.range', '.how',
            '[data-text=source_words]'].map(each => row.querySelector(each).textContent.replaceAll('\u2044', '/'))])"""
        return cast("list[list[str]]", self.find("tr[data-row]").evaluate_all(read))

    def overflow(self) -> float:
        """Return how far the page is wider than its window."""
        return cast("float", self.page.evaluate("document.documentElement.scrollWidth - innerWidth"))


def asked(inputs: Mapping[str, str], system: str = "inch", key: str = "string") -> dict[str, Any]:
    """Return the answer of this machine's own Python to the usual example with some inputs changed."""
    ask = {"v": 1, "id": 1, "worksheet": key, "system": system, "inputs": usual(catalogue()[key], inputs)}
    return cast("dict[str, Any]", json.loads(bridge.handle(json.dumps(ask))))


def working(outcome: Mapping[str, Any]) -> list[list[str]]:
    """Return the lines of the working that a page should show: the answer's lines, then the steps."""
    names = ("key", "words", "shown", "range", "working", "source_words")
    return [
        [row[name] for name in names]
        for part in ("named", "more", "step")
        for row in outcome["rows"]
        if row["part"] == part
    ]
