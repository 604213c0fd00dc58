"""What was set on one worksheet stands on the next, named, until it is cleared; a sheet's print leaves out its form."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from calc.worksheets import catalogue
from tests.browser.sheets import Sheet, asked, working

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser


def ready(open_page: OpenPage, key: str) -> Sheet:
    page = open_page(f"worksheets/{key}/", natively=True)
    return Sheet(page, key)


def go(sheet: Sheet, key: str) -> Sheet:
    """Go to another worksheet in the same browser."""
    sheet.page.goto(sheet.page.url.replace(f"/{sheet.key}/", f"/{key}/"))
    return Sheet(sheet.page, key).settled()


def pairs(rows: list[list[str]]) -> list[tuple[str, str]]:
    """Return the key and the number of every line of a working."""
    return [(each[0], each[2]) for each in rows]


def test_what_is_typed_and_what_is_worked_out_go_along_and_are_cleared(open_page: OpenPage) -> None:
    plan = ready(open_page, "string")
    plan.type("nock_to_nock", "60")
    plan.type("draw_weight", "30 lb")
    plan.choose("hand", "S")
    plan.settled()
    expected = working(asked({"nock_to_nock": "60 in", "draw_weight": "30 lb", "hand": "S"})["outcome"])
    plan.page.wait_for_selector(f"#string tr[data-row='turns_body'] >> text={dict(pairs(expected))['turns_body']}")
    plan.settled()
    assert plan.rows == expected
    worked = dict(pairs(expected))

    cuts = go(plan, "cuts")
    slack = worked["string_length_slack"]
    assert cuts.control("finished_length").input_value() == slack, "a hitch is cut for the length that was planned"
    assert f"Finished length {slack} (Plan a string)" in cuts.find(".brought-text").inner_text()

    settle = go(cuts, "settle")
    told = settle.find(".brought-text").inner_text()
    assert "Draw weight 30 lb (Plan a string)" in told
    assert f"String length wanted {worked['string_length']} (Plan a string)" in told
    typed = {"draw_weight": "30 lb", "string_length": worked["string_length"]}
    assert settle.rows == working(asked(typed, key="settle")["outcome"])
    settle.find(".forget").click()
    settle.page.wait_for_function("document.querySelector('#settle-draw_weight').value === '40 lb'")
    settle.settled()
    assert settle.rows == working(asked({}, key="settle")["outcome"])
    assert settle.find(".brought").is_hidden()

    again = go(settle, "string")
    assert again.control("nock_to_nock").input_value() == "60 in", "only what settling asks was cleared"
    assert again.control("draw_weight").input_value() == "40 lb"


def test_a_sum_stays_out_of_fields_that_a_sheet_works_out_itself(open_page: OpenPage) -> None:
    """A string length that the bench sheet worked out is no string length that somebody measured."""
    sheet = ready(open_page, "string")
    sheet.type("draw_length", "25 in")
    sheet.type("nock_to_nock", "60 in")
    sheet.settled()
    for key, names in {"brace": ["string_length"], "tune": ["string_length"], "strands": ["strands"]}.items():
        sheet = go(sheet, key)
        assert [sheet.control(name).input_value() for name in names] == [""]
        assert sheet.find(".wrong").count() == 0
    sheet.page.goto(sheet.page.url.replace("/tune/", "/club/").replace("/strands/", "/club/"))
    club = Sheet(sheet.page, "club")
    club.press()
    club.settled()
    assert club.control("draw_length").input_value() == "26 in", "a list of many bows has its own"
    assert club.control("strands").input_value() == ""
    club.page.reload()
    assert "Ash longbow" in club.control("bows").input_value(), "the count of bows is no list of bows"


@pytest.mark.parametrize("key", [key for key in catalogue() if key not in {"shot", "club"}])
def test_a_sheet_comes_back_as_it_was_left(open_page: OpenPage, key: str) -> None:
    sheet = ready(open_page, key)
    (first, *_) = [field for field in catalogue()[key].fields if type(field).__name__ == "Number"]
    sheet.type(first.key, sheet.control(first.key).input_value().replace("6", "5", 1))
    sheet.press()
    sheet.settled()
    before = sheet.rows
    sheet.page.reload()
    sheet.press()
    sheet.settled()
    assert sheet.rows == before
    assert sheet.find(".wrong").count() == 0


def test_a_field_left_open_is_open_elsewhere_or_keeps_its_usual_measure(open_page: OpenPage) -> None:
    brace = ready(open_page, "brace")
    brace.type("handle_length", "")
    brace.type("string_length", "63 in")
    brace.type("brace_height", "")
    brace.settled()
    brace.page.wait_for_function("document.querySelector('#brace .said').textContent.includes('7')")
    plan = go(brace, "string")
    assert plan.control("handle_length").input_value() == ""
    assert plan.control("brace_height").input_value() == "6 1/2 in", "here it must be told"
    back = go(plan, "brace")
    assert [back.control(key).input_value() for key in ("string_length", "brace_height")] == ["63 in", ""]
    assert back.find(".wrong").count() == 0


def test_paper_shows_the_answer_and_what_was_typed(open_page: OpenPage, shots: Path) -> None:
    sheet = ready(open_page, "cuts")
    sheet.type("finished_length", "60 in")
    sheet.settled()
    sheet.page.emulate_media(media="print")
    for part in (".headlines .said", ".figures svg", ".list", ".notes", ".left-out", "#cuts-finished_length"):
        assert sheet.find(part).first.is_visible(), part
    for part in (".go button", ".pass-on", ".brought", ".units", ".working", ".hint", ".status", ".files"):
        assert not sheet.find(part).first.is_visible(), part
    for part in (".md-header", ".md-tabs", ".md-footer"):
        assert not sheet.page.locator(part).first.is_visible(), part
    assert sheet.page.locator("h1").is_visible()
    assert sheet.page.pdf(path=shots / "cuts.pdf", format="A4").startswith(b"%PDF")
