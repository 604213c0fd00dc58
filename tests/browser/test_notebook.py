"""The notebook in a real browser: written down, found again, deleted and taken back, filled into sheets, in files."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pytest

from calc.records import Notebook, Record, edit, read_notebook, write_notebook
from tests.browser.notebooks import ADDRESS, add, open_notebook, rows, said, set_field
from tests.browser.test_sheet_access import violations

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
NOW = "2026-05-03T10:11:12.000Z"


def started(open_page: OpenPage, *, width: int = 390, dark: bool = False, natively: bool = True) -> Page:
    page = open_page(ADDRESS, width=width, height=844, dark=dark, natively=natively)
    open_notebook(page)
    return page


def test_a_bow_is_written_down_field_by_field_and_is_there_after_a_reload(open_page: OpenPage) -> None:
    page = started(open_page, natively=False)
    page.get_by_role("button", name="Add a bow").click()
    set_field(page, "name", "Ash 62")
    set_field(page, "nock_to_nock", "62 1/2")
    page.fill("#nb-brace_height", "2 ft")
    page.locator("#nb-brace_height").blur()
    page.wait_for_selector(".field.wrong")
    assert page.inner_text("[data-field=brace_height] .error") == "Error: Brace height wanted must be 16 in or less"
    page.reload()
    page.wait_for_selector("#nb-nock_to_nock")
    assert page.input_value("#nb-nock_to_nock") == "62 1/2 in"
    assert page.input_value("#nb-brace_height") == ""
    (row,) = rows(page)
    assert row["data"]["values"] == {"name": "Ash 62", "nock_to_nock": "62 1/2 in"}


def test_what_is_deleted_is_gone_with_what_belongs_to_it_and_comes_back(open_page: OpenPage) -> None:
    page = started(open_page)
    bow = add(page, "bow", name="Hazel")
    page.get_by_role("button", name="Add a string of it").click()
    set_field(page, "name", "red")
    page.evaluate("view => (location.hash = view)", f"record={bow}")
    page.get_by_role("button", name="Delete this bow").click()
    page.get_by_text("No bow yet").wait_for()
    assert [row["shown"]["deleted"] for row in rows(page)] == [True, True]
    page.reload()
    open_notebook(page)
    page.get_by_role("button", name="Take it back").click()
    said(page, "Taken back.")
    assert page.get_by_role("link", name="Hazel", exact=True).is_visible()
    assert [row["shown"]["deleted"] for row in rows(page)] == [False, False]


def origin_is(page: Page, field: str, words: str) -> None:
    page.wait_for_function(
        "([field, words]) => document.querySelector(`[data-field=${field}] .origin`).textContent === words",
        arg=[field, words],
    )


def test_a_sheet_opens_for_a_bow_and_says_where_its_values_are_from(open_page: OpenPage) -> None:
    page = started(open_page)
    add(page, "bow", name="Ash 62", nock_to_nock="62 in", brace_height="6 1/4 in")
    add(page, "bow", name="Elm 58", nock_to_nock="58 in")
    start = page.url.partition(ADDRESS)[0]
    page.goto(f"{start}worksheets/string/")
    page.select_option(".nb-pick select", label="Ash 62")
    origin_is(page, "nock_to_nock", "From the notebook: Ash 62.")
    assert page.input_value("#string-nock_to_nock") == "62 in"
    page.goto(f"{start}worksheets/brace/")
    page.wait_for_selector(".nb-pick select")
    assert page.input_value("#brace-brace_height") == "6 1/4 in"
    page.select_option(".nb-pick select", label="Elm 58")
    origin_is(page, "nock_to_nock", "From the notebook: Elm 58.")
    origin_is(page, "brace_height", "Example.")
    page.fill("#brace-nock_to_nock", "57 in")
    page.locator("#brace-nock_to_nock").blur()
    origin_is(page, "nock_to_nock", "Typed.")
    page.select_option(".nb-pick select", label="typed by hand")
    origin_is(page, "nock_to_nock", "Example.")


def test_the_club_list_reads_and_writes_the_bows_of_the_notebook(open_page: OpenPage) -> None:
    page = started(open_page)
    add(page, "bow", name="Ash", nock_to_nock="62 in")
    page.goto(f"{page.url.partition(ADDRESS)[0]}worksheets/club/")
    page.get_by_role("button", name="Fill in the bows of the notebook").click()
    page.get_by_text("Filled in: 1 bow.").wait_for()
    assert page.input_value("#club-bows") == "name;nock to nock\nAsh;62 in"
    page.fill("#club-bows", "name;nock to nock\nAsh;63 in\nElm;58 in")
    page.get_by_role("button", name="Put these bows down in the notebook").click()
    page.get_by_text("Put down or changed: 2 bows.").wait_for()
    kept = {row["data"]["values"]["name"]: row["data"]["values"]["nock_to_nock"] for row in rows(page)}
    assert kept == {"Ash": "63 in", "Elm": "58 in"}


def test_an_answer_is_put_down_and_is_a_string_of_a_bow_from_then_on(open_page: OpenPage, site_url: str) -> None:
    page = open_page("worksheets/string/", width=390)
    page.fill("#string-nock_to_nock", "58 in")
    page.locator("#string-nock_to_nock").blur()
    page.wait_for_selector("[data-worksheet][data-state=new]")
    page.fill("#string-nb-name", "Elm 58")
    page.get_by_role("button", name="Put it down in the notebook").click()
    page.get_by_role("link", name="See it in the notebook").wait_for()
    page.get_by_role("button", name="Put it down as a string of Elm 58").wait_for()
    kinds = {row["kind"]: row["data"]["values"] for row in rows(page)}
    assert kinds.keys() == {"bow", "cord", "string"}
    assert kinds["bow"]["nock_to_nock"] == "58 in"
    assert re.fullmatch(r"\d+( \d+/\d+)? in", kinds["string"]["cut_length"])
    page.get_by_role("link", name="See it in the notebook").click()
    plan = page.get_by_role("link", name="Its plan")
    plan.click()
    page.wait_for_url(f"{site_url}worksheets/string/#v4/**")
    page.wait_for_function("document.querySelector('#string-nock_to_nock')?.value === '58 in'")


def saved(page: Page, name: str) -> str:
    with page.expect_download() as download:
        page.get_by_role("button", name=name).click()
    return download.value.path().read_text("utf-8")


def test_a_file_says_what_it_holds_and_goes_to_another_device_and_back(open_page: OpenPage, tmp_path: Path) -> None:
    here, there = started(open_page), started(open_page)
    add(here, "bow", name="Ash 62", owner="Anna Berg")
    open_notebook(here, "export")
    here.get_by_text("It holds 1 bow. It names Anna Berg.").wait_for()
    here.get_by_role("button", name="Use A. B.").click()
    said(here, "Anna Berg stands as A. B. now.")
    here.get_by_text("It names A. B.").wait_for()
    text = saved(here, "Save the file")
    assert "Anna" not in text
    file = tmp_path / "one.pliedtrue.json"
    file.write_text(text, encoding="utf-8")
    open_notebook(there, "import")
    there.set_input_files("#nb-file", file)
    there.get_by_text("It would change this: 1 new here.").wait_for()
    assert rows(there) == []
    there.get_by_role("button", name="Take it over").click()
    said(there, "Taken over: 1 new here.")
    assert [row["data"]["values"]["name"] for row in rows(there)] == ["Ash 62"]
    there.get_by_role("button", name="Take it back").click()
    said(there, "Taken back.")
    assert rows(there) == []


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{", "This file is no notebook of these worksheets."),
        ('{"format": "plied-true-notebook", "version": 1, "bows": [', "This notebook is damaged in line 1."),
        ('{"format": "plied-true-notebook", "version": 99}', "This notebook was written by a newer version."),
    ],
)
def test_a_file_that_cannot_be_read_says_why(open_page: OpenPage, tmp_path: Path, text: str, words: str) -> None:
    page = started(open_page)
    open_notebook(page, "import")
    (tmp_path / "x.json").write_text(text, encoding="utf-8")
    page.wait_for_selector("#nb-file")
    page.set_input_files("#nb-file", tmp_path / "x.json")
    said(page, words)
    assert page.locator(".nb-import button").count() == 0


def many(count: int) -> str:
    found = [edit(Record("bow", "bow-000001"), {"name": "Ash"}, NOW, "aaaa")]
    found += [
        edit(
            Record("string", f"string-{at:06d}"),
            {"name": f"No. {at}", "bow": "bow-000001", "made_on": "2026-05-03", "strands": "14", "turns": "60"},
            NOW,
            "aaaa",
        )
        for at in range(count)
    ]
    return write_notebook(Notebook({each.id: each for each in found}))


def test_a_long_file_can_be_stopped_and_then_nothing_is_changed(open_page: OpenPage, tmp_path: Path) -> None:
    page = started(open_page, natively=False)
    (tmp_path / "club.json").write_text(many(4000), encoding="utf-8")
    open_notebook(page, "import")
    page.wait_for_selector("#nb-file")
    page.set_input_files("#nb-file", tmp_path / "club.json")
    page.locator(".nb-import").get_by_role("button", name="Stop").click()
    said(page, "Stopped. Nothing was taken over.")
    assert rows(page) == []


def test_ten_thousand_strings_are_taken_over_and_saved_again_as_they_were(open_page: OpenPage, tmp_path: Path) -> None:
    page = started(open_page, natively=False)
    text = many(10_000)
    (tmp_path / "club.json").write_text(text, encoding="utf-8")
    open_notebook(page, "import")
    page.wait_for_selector("#nb-file")
    page.set_input_files("#nb-file", tmp_path / "club.json")
    page.get_by_text("It would change this: 10001 new here.").wait_for(timeout=120_000)
    page.get_by_role("button", name="Take it over").click()
    said(page, "Taken over: 10001 new here.")
    page.evaluate("() => (location.hash = '')")
    page.get_by_role("heading", name="Strings made (10000)").wait_for()
    page.fill("#nb-find", "No. 9876")
    page.get_by_role("heading", name="Strings made (1)").wait_for()
    open_notebook(page, "export")
    page.get_by_text("It holds 1 bow, 10000 strings.").wait_for(timeout=120_000)
    assert read_notebook(saved(page, "Save the file")).notebook == read_notebook(text).notebook


def test_at_the_range_the_turns_are_told_and_a_reading_is_written_down(open_page: OpenPage) -> None:
    page = started(open_page, natively=False)
    bow = add(page, "bow", name="Ash 62", nock_to_nock="62 in", brace_height="6 1/2 in")
    page.evaluate("view => (location.hash = view)", f"new=string+{bow}")
    set_field(page, "turns", "60")
    page.locator(".nb-form summary").click()
    set_field(page, "cord_diameter", "0.098 in")
    page.get_by_role("link", name="At the range").click()
    page.get_by_role("button", name="+").click()
    page.wait_for_function("document.querySelector('#nb-read').value === '6 9/16 in'")
    page.fill("#nb-read", "6 in")
    page.wait_for_function("document.querySelector('.nb-turns').textContent.startsWith('Put in ')")
    page.fill("#nb-shots", "50")
    page.get_by_role("button", name="Write it down").click()
    said(page, "Written down: 6 in.")
    page.get_by_text("Last readings: 6 in after 50 shots.").wait_for()
    (entry,) = [row for row in rows(page) if row["kind"] == "entry"]
    assert entry["data"]["values"].items() >= {"brace_height": "6 in", "shots": "50"}.items()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_the_register_lists_what_is_due_and_a_look_is_ticked(open_page: OpenPage) -> None:
    page = started(open_page, width=1280)
    bow = add(page, "bow", name="Ash 62")
    page.evaluate("view => (location.hash = view)", f"new=string+{bow}")
    set_field(page, "made_on", "2020-01-01")
    page.get_by_role("link", name="Back to all").click()
    page.get_by_role("link", name="Register").click()
    page.get_by_text("Overdue").wait_for()
    page.get_by_role("button", name="Look it over").click()
    page.get_by_role("button", name="Write it down").click()
    said(page, "Tick what you looked at.")
    page.get_by_label("strands").check()
    page.get_by_role("button", name="Write it down").click()
    said(page, "Written down for Ash 62.")
    page.wait_for_function("!document.querySelector('.nb-register table')?.textContent.includes('Overdue')")
    page.emulate_media(media="print")
    assert not page.get_by_role("button", name="Print").is_visible()
    assert page.get_by_role("cell", name="6").count() == 0 or page.locator(".nb-register table").is_visible()


@pytest.mark.parametrize("dark", [False, True])
def test_the_checker_finds_nothing(
    open_page: OpenPage,
    dark: bool,  # noqa: FBT001 - a table
    shots: Path,
    tmp_path: Path,
) -> None:
    page = started(open_page, dark=dark)
    bow = add(page, "bow", name="Ash 62", owner="A. B.", nock_to_nock="62 in")
    page.evaluate("view => (location.hash = view)", f"new=string+{bow}")
    set_field(page, "name", "red")
    string = page.url.rpartition("=")[2]
    waits = {"": "#nb-bow", f"record={string}": "#nb-name", "import": "#nb-file", "export": ".nb-people",
             "register": ".nb-register table", f"range={string}": ".nb-settling:not(:empty)", "new=bow": "#nb-name",
             f"compare={bow}": "[aria-label='Strings side by side'] > *",
             }  # fmt: skip
    for view, there in waits.items():
        page.evaluate("view => (location.hash = view)", view)
        page.wait_for_selector(there)
        page.screenshot(path=shots / f"notebook-{view.partition('=')[0] or 'list'}-{'dark' if dark else 'light'}.png")
        assert violations(page) == [], view
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), view
    (tmp_path / "club.json").write_text(many(2), encoding="utf-8")
    open_notebook(page, "import")
    page.set_input_files("#nb-file", tmp_path / "club.json")
    page.get_by_text("It would change this: 3 new here.").wait_for()
    assert violations(page) == [], "what a file would change"
    page.get_by_role("button", name="Take it over").click()
    page.evaluate("() => (location.hash = '')")
    page.get_by_role("button", name="Take it back").wait_for()
    assert violations(page) == [], "what can be undone"


def test_a_file_from_the_terminal_opens(open_page: OpenPage, tmp_path: Path) -> None:
    page = started(open_page)
    data = json.loads(many(2))
    data["strings"][0]["seen"] = {"aaaa": 7}
    (tmp_path / "club.json").write_text(json.dumps(data), encoding="utf-8")
    open_notebook(page, "import")
    page.wait_for_selector("#nb-file")
    page.set_input_files("#nb-file", tmp_path / "club.json")
    page.get_by_text("String 1 of the file is damaged: its times cannot be read. It is left out.").wait_for()
    page.get_by_text("It would change this: 2 new here.").wait_for()
