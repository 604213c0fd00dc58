"""The club list: worked out a few lines at a time, stopped, pasted, taken from a file, saved, and opened bow by bow."""

from __future__ import annotations

import csv
from io import StringIO
from typing import TYPE_CHECKING

import pytest

from tests.browser.sheets import Sheet, asked, working

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
ADDRESS = "worksheets/club/"
MANY = "\n".join(f"Bow {number}, {48 + number / 8} in, {15 + number % 30} lb, 24 in, 6 in" for number in range(1, 121))
"""A hundred and twenty bows, each a little longer than the last; they are invented."""


def ready(open_page: OpenPage, *, width: int = 1280) -> Sheet:
    page = open_page(ADDRESS, width=width, natively=True)
    return Sheet(page, "club")


def wait_for_bows(page: Page, count: int) -> None:
    page.wait_for_function(f"document.querySelector('#club [data-row=bows] .value')?.textContent === '{count}'")
    page.wait_for_selector("#club[data-state='new']")


def cards(sheet: Sheet) -> list[str]:
    return sheet.find("[data-table='cards'] button").all_inner_texts()


def test_a_bar_shows_how_far_a_long_list_is(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.page.evaluate("""() => {
      const bar = document.querySelector('#club progress');
      const seen = window.seen = [];
      new MutationObserver(() => { if (!bar.parentElement.hidden) seen.push([bar.value, bar.max]); })
        .observe(bar, { attributes: true });
    }""")
    sheet.type("bows", MANY)
    wait_for_bows(sheet.page, 120)
    seen = sheet.page.evaluate("window.seen")
    values = [value for value, most in seen if most == 120]
    assert len(set(values)) > 3
    assert values == sorted(values)
    assert values[-1] >= 110, "the bar goes when it is full"
    assert sheet.find(".progress").is_hidden()
    assert len(cards(sheet)) == 120
    assert sheet.rows == working(asked({"bows": MANY}, key="club")["outcome"])


def test_stop_stops_and_calculate_goes_on(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    before = sheet.rows
    sheet.page.evaluate("""() => {
      const stop = document.querySelector('#club .stop');
      new MutationObserver((_, watch) => {
        if (stop.parentElement.hidden) return;
        watch.disconnect();
        stop.click();
      }).observe(stop.parentElement, { attributes: true });
    }""")
    sheet.type("bows", MANY)
    status = sheet.find(".status").filter(has_text="Stopped after")
    status.wait_for()
    words = status.inner_text()
    done = int(words.split()[2])
    assert 0 < done < 120
    assert f"Stopped after {done} of 120 lines" in words
    assert sheet.rows == before
    assert sheet.control("bows").input_value() == MANY, "nothing typed is lost"
    assert sheet.element.get_attribute("data-state") == "old"
    assert sheet.find(".old").is_visible()
    sheet.press()
    wait_for_bows(sheet.page, 120)


def test_a_line_that_cannot_be_read_is_named_and_the_others_answer(open_page: OpenPage) -> None:
    sheet = ready(open_page, width=390)
    sheet.type("bows", "Ash, 66 in, 40 lb\nHazel, sixty, 30 lb\nElm, 60 in, 35 lb\n")
    wait_for_bows(sheet.page, 2)
    left = sheet.find("[data-table]").filter(has_text="Lines left out")
    line, bow, why = left.locator("tbody td").all_inner_texts()
    assert line == "2"
    assert bow == "Hazel"
    assert "Nock to nock" in why
    assert cards(sheet) == ["Ash", "Elm"]
    assert sheet.overflow() <= 0


@pytest.mark.parametrize("mark", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
def test_a_file_is_taken_whatever_parts_its_cells(open_page: OpenPage, tmp_path: Path, mark: str) -> None:
    sheet = ready(open_page)
    heads = ["draw weight", "brace height (mm)", "name", "nock to nock (in)"]
    lines = [["30 lb", "150", "Rowan", "58"], ["160 N", "165", "Yew", "1.7 m"]]
    text = "\r\n".join(mark.join(cells) for cells in (heads, *lines)) + "\r\n"
    (tmp_path / "bows.csv").write_text(text, encoding="utf-8-sig", newline="")
    sheet.find(".file").set_input_files(tmp_path / "bows.csv")
    wait_for_bows(sheet.page, 2)
    assert cards(sheet) == ["Rowan", "Yew"]
    same = "Rowan, 58 in, 30 lb, 26 in, 150 mm\nYew, 1.7 m, 160 N, 26 in, 165 mm"
    assert sheet.rows == working(asked({"bows": same}, key="club")["outcome"])


def test_the_lists_are_saved_as_files(open_page: OpenPage, tmp_path: Path) -> None:
    sheet = ready(open_page)
    sheet.type("bows", "Ash, 66 in, 40 lb\nElm, 60 in, 35 lb")
    wait_for_bows(sheet.page, 2)
    outcome = asked({"bows": "Ash, 66 in, 40 lb\nElm, 60 in, 35 lb"}, key="club")["outcome"]
    assert len(outcome["files"]) == 3
    for file in outcome["files"]:
        with sheet.page.expect_download() as saved:
            sheet.find(f".files a[download='{file['name']}']").click()
        saved.value.save_as(tmp_path / file["name"])
        text = (tmp_path / file["name"]).read_bytes().decode("utf-8")
        assert text == file["text"]
        first, *rest = csv.reader(StringIO(text))
        assert rest
        assert {len(cells) for cells in rest} == {len(first)}


def test_a_card_is_opened_on_its_own_sheet_and_overwrites_nothing(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    page = sheet.page
    sheet.type("bows", "Ash, 66 in, 40 lb\nElm, 60 in, 35 lb, 25 in, 6 in")
    wait_for_bows(page, 2)
    cut = sheet.find("[data-table='cards'] tbody tr").nth(1).locator("td").nth(3).inner_text()
    sheet.find("[data-table='cards'] button").nth(1).click()
    page.wait_for_selector("#string[data-state='new']")
    card = Sheet(page, "string")
    assert "For: Elm, 60 in. It came from the club list" in card.find(".sent-text").inner_text()
    assert card.control("nock_to_nock").input_value() == "60 in"
    elm = {"nock_to_nock": "60 in", "draw_weight": "35 lb", "draw_length": "25 in", "brace_height": "6 in"}
    assert card.rows == working(asked(elm)["outcome"])
    assert cut.replace("\u2044", "/").startswith(card.headlines[0].partition(" ×")[0])
    page.go_back()
    page.wait_for_selector("#club[data-state='new']")
    assert Sheet(page, "club").control("bows").input_value().startswith("Ash, 66 in")


def test_how_to_write_the_list_stands_beside_it(open_page: OpenPage) -> None:
    sheet = ready(open_page, width=390)
    how, typed = (sheet.find(each).bounding_box() for each in (".how-to", "#club-bows"))
    assert how
    assert typed
    assert how["height"] < 400, "short"
    assert abs(how["y"] - (typed["y"] + typed["height"])) < 100, "right below the list"
    assert "How to write the list" not in sheet.page.inner_text("article")


def test_a_list_goes_with_a_link(open_page: OpenPage) -> None:
    sheet = ready(open_page)
    sheet.type("bows", "Ash, 66 in, 40 lb\nElm, 60 in, 35 lb")
    wait_for_bows(sheet.page, 2)
    sheet.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    sheet.find(".copy").click()
    sheet.find(".passed").filter(has_text="Copied").wait_for()
    link = str(sheet.page.evaluate("navigator.clipboard.readText()"))
    other = ready(open_page)
    other.page.goto(link)
    wait_for_bows(other.page, 2)
    assert other.rows == sheet.rows
    assert cards(other) == ["Ash", "Elm"]
