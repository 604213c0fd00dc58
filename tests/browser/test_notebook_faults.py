"""What must not happen to a notebook: a killed tab, a full device, two tabs at once, a newer site, no store at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from site_build.setup import chromium
from tests.browser.conftest import FLAGS, PATIENCE_MS
from tests.browser.notebooks import ADDRESS, add, open_notebook, rows, said, set_field

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page, Playwright

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser


def second_tab(page: Page) -> Page:
    other = page.context.new_page()
    other.goto(page.url.partition("#")[0])
    open_notebook(other)
    return other


def test_two_tabs_that_write_the_same_bow_at_once_lose_nothing(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    open_notebook(page)
    bow = add(page, "bow", name="Ash")
    other = second_tab(page)
    for tab in (page, other):
        tab.evaluate("view => (location.hash = view)", f"record={bow}")
        tab.wait_for_selector("#nb-nock_to_nock")
        tab.evaluate("document.querySelector('.nb-status').textContent = ''")
    page.fill("#nb-nock_to_nock", "62 in")
    other.fill("#nb-draw_weight", "35 lb")
    for tab in (page, other):  # both begin before either has ended
        tab.evaluate("() => void setTimeout(() => document.activeElement.blur())")
    for tab in (page, other):
        said(tab, "Kept")
    values = rows(page)[0]["data"]["values"]
    assert values == {"name": "Ash", "nock_to_nock": "62 in", "draw_weight": "35 lb"}


def test_what_one_tab_writes_the_other_shows(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    open_notebook(page)
    other = second_tab(page)
    add(page, "bow", name="Hazel 58")
    other.get_by_role("link", name="Hazel 58").wait_for()


STALE = """async ({ id }) => {
  const db = await new Promise((settle) => {
    const asked = indexedDB.open('plied-true-notebook');
    asked.onsuccess = () => settle(asked.result);
  });
  const records = db.transaction('records', 'readwrite').objectStore('records');
  await new Promise((settle) => {
    const got = records.get(id);
    got.onsuccess = () => { records.put({ ...got.result, turn: got.result.turn + 1 }).onsuccess = settle; };
  });
  db.close();
}"""


def test_a_record_that_another_tab_was_quicker_to_write_is_worked_out_again(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    open_notebook(page)
    bow = add(page, "bow", name="Ash")
    for _ in range(2):
        page.evaluate(STALE, {"id": bow})
    set_field(page, "name", "Ash 62")
    (row,) = rows(page)
    assert row["data"]["values"]["name"] == "Ash 62"
    assert row["turn"] == 4


FULL = """() => {
  IDBTransaction.prototype.commit = function () { this.abort(); };
  Object.defineProperty(IDBTransaction.prototype, 'error', { get: () => new DOMException('', 'QuotaExceededError') });
}"""
"""Ends a transaction as browsers do when there is no room: W3C, Indexed Database API 3.0, committing a transaction."""


def test_a_device_without_room_says_so_and_keeps_what_was_there(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    open_notebook(page)
    add(page, "bow", name="Ash")
    before = rows(page)
    page.evaluate(FULL)
    page.locator(".nb-form summary").click()
    page.fill("#nb-note", "x" * 19_000)
    page.locator("#nb-note").blur()
    said(page, "This device has no room left, so nothing was kept.")
    assert rows(page) == before


NEWER = """() => new Promise((settle, fail) => {
  const asked = indexedDB.open('plied-true-notebook', 9);
  asked.onerror = () => fail(asked.error);
  asked.onupgradeneeded = () => asked.result.createObjectStore('more');
  asked.onsuccess = () => { asked.result.close(); settle(); };
})"""


def test_a_store_of_a_newer_site_is_read_and_never_written(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    open_notebook(page)
    bow = add(page, "bow", name="Ash")
    before = rows(page)
    page.evaluate(NEWER)
    page.get_by_text("A newer version of this site has opened this notebook.").wait_for()
    page.reload()
    page.get_by_text("A newer version of this site has opened this notebook.").wait_for()
    page.evaluate("view => (location.hash = view)", f"record={bow}")
    page.wait_for_selector("#nb-name")
    assert page.input_value("#nb-name") == "Ash"
    assert page.locator("#nb-name").is_disabled()
    assert page.get_by_role("button", name="Delete this bow").count() == 0
    assert rows(page) == before


OLDER = """row => new Promise((settle, fail) => {
  const gone = indexedDB.deleteDatabase('plied-true-notebook');
  gone.onerror = () => fail(gone.error);
  gone.onsuccess = () => {
    const asked = indexedDB.open('plied-true-notebook', 1);
    asked.onerror = () => fail(asked.error);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore('records', { keyPath: 'id' }).put(row);
      asked.result.createObjectStore('meta');
    };
    asked.onsuccess = () => { asked.result.close(); settle(); };
  };
})"""


def test_a_store_of_an_older_site_is_opened_and_written_on_in(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    open_notebook(page)
    bow = add(page, "bow", name="Ash")
    (row,) = rows(page)
    start = page.url.partition(ADDRESS)[0]
    page.route("**/bare", lambda asked: asked.fulfill(content_type="text/html", body="<link rel=icon href='data:,'>"))
    page.goto(f"{start}bare")  # nothing of the site holds the store here
    page.evaluate(OLDER, row)
    page.goto(f"{start}{ADDRESS}#record={bow}")
    set_field(page, "name", "Ash 62")
    assert [each["data"]["values"]["name"] for each in rows(page)] == ["Ash 62"]


def test_a_browser_that_keeps_nothing_says_so_and_still_makes_a_file(open_page: OpenPage) -> None:
    page = open_page(natively=True)
    page.context.add_init_script(
        "IDBFactory.prototype.open = () => { throw new DOMException('no', 'InvalidStateError'); }"
    )
    page.goto(page.url + ADDRESS)
    page.get_by_text("This browser keeps nothing for this page").wait_for()
    add(page, "bow", name="Ash")
    open_notebook(page, "export")
    page.get_by_text("It holds 1 bow.").wait_for()
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the file").click()
    assert '"name":"Ash"' in download.value.path().read_text("utf-8")


@pytest.mark.parametrize("late_ms", [0, 5, 20, 60])
def test_a_tab_killed_in_the_middle_of_writing_leaves_all_or_nothing(
    playing: Playwright, site_url: str, tmp_path: Path, late_ms: int
) -> None:
    """A whole browser is killed, not asked to end; then its profile is opened again."""

    def opened() -> Page:
        context = playing.chromium.launch_persistent_context(
            tmp_path / "profile", executable_path=chromium.installed(), args=FLAGS, service_workers="block"
        )
        context.set_default_timeout(PATIENCE_MS)
        page = context.pages[0]
        page.goto(site_url + ADDRESS)
        open_notebook(page)
        return page

    page = opened()
    bow = add(page, "bow", name="Ash")
    for name in ("red", "white", "blue"):
        page.evaluate("view => (location.hash = view)", f"new=string+{bow}")
        set_field(page, "name", name)
    kept = {row["id"]: row["data"]["values"] for row in rows(page)}
    assert len(kept) == 4
    page.evaluate("view => (location.hash = view)", f"record={bow}")
    page.get_by_role("button", name="Delete this bow").click(no_wait_after=True)
    page.wait_for_timeout(late_ms)
    with pytest.raises(Exception, match=r"crash|closed"):  # noqa: PT012 - the tab ends under the call
        page.goto("chrome://crash")
        page.title()
    page.context.close()
    again = opened()
    there = {row["id"]: row for row in rows(again)}
    assert there.keys() == kept.keys()
    assert len({row["shown"]["deleted"] for row in there.values()}) == 1, "all four are deleted, or none"
    for ident, values in kept.items():
        assert there[ident]["data"]["values"].items() >= values.items()
    again.context.close()
