"""A notebook in a browser, for whoever tests it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

ADDRESS = "notebook/"
SAID = ".nb-status"
READ = """() => new Promise((settle, fail) => {
  const asked = indexedDB.open('plied-true-notebook');
  asked.onerror = () => fail(asked.error);
  asked.onsuccess = () => {
    const got = asked.result.transaction('records').objectStore('records').getAll();
    got.onsuccess = () => { asked.result.close(); settle(got.result); };
  };
})"""


def rows(page: Page) -> list[dict[str, Any]]:
    """Return what lies in the browser's store."""
    found: list[dict[str, Any]] = page.evaluate(READ)
    return found


def open_notebook(page: Page, view: str = "") -> None:
    """Wait until the notebook's page is there, in a view of it."""
    page.wait_for_selector(".pt-notebook .nb-view > *")
    if view:
        page.evaluate("view => (location.hash = view)", view)


def set_field(page: Page, name: str, text: str) -> None:
    """Type into a field of a record and wait until it is kept."""
    page.wait_for_selector(f"#nb-{name}")
    page.evaluate(f"document.querySelector('{SAID}').textContent = ''")
    page.fill(f"#nb-{name}", text)
    page.locator(f"#nb-{name}").blur()
    page.wait_for_function(f"document.querySelector('{SAID}').textContent.startsWith('Kept')")


def add(page: Page, kind: str, **texts: str) -> str:
    """Write a new record and return its id."""
    page.evaluate("view => (location.hash = view)", f"new={kind}")
    for name, text in texts.items():
        set_field(page, name, text)
    return page.url.rpartition("=")[2]


def said(page: Page, words: str) -> None:
    """Wait until the notebook has said something."""
    page.wait_for_function("words => document.querySelector('.nb-status').textContent.includes(words)", arg=words)
