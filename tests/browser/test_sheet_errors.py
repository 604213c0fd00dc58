"""What a reader sees when something typed cannot be used: at its field, in words, and never lost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.sheets import ADDRESS, Sheet, asked

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser


def test_a_bad_value_marks_its_field_and_the_last_good_answer_as_old(open_page: OpenPage, shots: Path) -> None:
    page = open_page(ADDRESS, width=390, height=844, natively=True)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    good = sheet.settled().headlines
    sheet.control("nock_to_nock").fill("45 lb")
    sheet.control("nock_to_nock").press("Tab")
    sheet.settled("old")
    [said] = [each["text"] for each in asked({"nock_to_nock": "45 lb"})["errors"]]
    control = sheet.control("nock_to_nock")
    assert control.input_value() == "45 lb"
    assert control.get_attribute("aria-invalid") == "true"
    assert control.get_attribute("aria-describedby") == "string-nock_to_nock-hint string-nock_to_nock-error"
    assert page.locator("#string-nock_to_nock-error").text_content() == f"Error: {said}"
    assert sheet.headlines == good
    assert sheet.find(".old").inner_text() == "Old answer. It belongs to what was typed before."
    assert "old" in sheet.find(".status").inner_text()
    assert sheet.find(".strip").inner_text().startswith("Old:")
    assert sheet.find(".problem").is_hidden()
    assert page.title() == "Plan a string - Plied True"
    assert page.evaluate("document.activeElement.id") == "string-draw_weight"
    assert sheet.find(".error:visible").count() == 1
    page.screenshot(path=shots / "error-390.png")


def test_only_the_button_lists_what_is_wrong_and_moves_there(open_page: OpenPage, shots: Path) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    wrong = {"nock_to_nock": "", "draw_weight": "heavy", "tail_length": "-8 in"}
    for field, text in wrong.items():
        sheet.type(field, text)
    sheet.press()
    page.wait_for_selector(".problem:visible")
    sentences = [each["text"] for each in asked(wrong)["errors"]]
    assert len(sentences) == 3
    assert page.evaluate("document.activeElement.className") == "problem"
    assert page.title() == "Error: Plan a string - Plied True"
    assert sheet.find(".problem h2").inner_text() == "There is a problem"
    assert sheet.find(".problem a").all_inner_texts() == sentences
    assert sheet.find(".error:visible").all_text_contents() == [f"Error: {each}" for each in sentences]
    page.screenshot(path=shots / "errors-1280.png")
    sheet.find(".problem a").nth(2).click()
    assert page.evaluate("document.activeElement.id") == "string-tail_length"
    label = page.locator("label[for='string-tail_length']").bounding_box()
    assert label
    assert 0 <= label["y"] <= 900
    sheet.type("tail_length", "8 in")
    sheet.settled("old")
    assert sheet.find(".problem a").all_inner_texts() == sentences[:2]
    for field in ("nock_to_nock", "draw_weight"):
        sheet.type(field, "50")
    sheet.settled()
    assert sheet.find(".problem").is_hidden()
    assert sheet.find(".old").is_hidden()
    assert sheet.find(".error:visible, .wrong, [aria-invalid=true]").count() == 0
    assert page.title() == "Plan a string - Plied True"
    assert sheet.control("tail_length").get_attribute("aria-describedby") == "string-tail_length-hint"


def test_two_fields_that_do_not_go_together_are_both_marked(open_page: OpenPage) -> None:
    pairs = [error for error in asked(PAIR)["errors"] if error["others"]]
    assert pairs, "the example no longer names a second field: choose another"
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    for field, text in PAIR.items():
        sheet.type(field, text)
    sheet.press()
    sheet.settled("old")
    for field in (pairs[0]["field"], *pairs[0]["others"]):
        assert page.locator(f"#string-{field}-error").text_content() == f"Error: {pairs[0]['text']}"


PAIR = {"brace_height": "12 in", "draw_length": "11 in"}


def test_a_press_is_not_lost_when_the_page_moves_under_it(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    sheet.control("tail_length").fill("heavy")
    button = sheet.find(".go button")
    button.scroll_into_view_if_needed()
    box = button.bounding_box()
    assert box
    page.mouse.move(box["x"] + 10, box["y"] + 10)
    page.mouse.down()  # the field is left: its error is on its way and would push the button down
    page.wait_for_timeout(500)
    assert sheet.find(".error:visible").count() == 0
    page.mouse.up()
    page.wait_for_selector(".problem:visible")
    assert page.evaluate("document.activeElement.className") == "problem"


@pytest.mark.parametrize("text", ["nan", "inf", "1e308", "-1", "0", "wax", "", "1,575", "<b>62</b>", "62 in" * 100])
def test_whatever_is_typed_for_a_length_gets_an_answer_or_a_sentence(open_page: OpenPage, text: str) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", text)
    expected = asked({"nock_to_nock": text})
    sheet.settled("new" if expected["ok"] else "old")
    assert sheet.control("nock_to_nock").input_value() == text
    shown = sheet.find(".error:visible .error-text").all_inner_texts()
    assert shown == [error["text"] for error in expected.get("errors", [])]
