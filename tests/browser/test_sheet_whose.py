"""Whose string it is and where each value is from: on the sheets, in the guides, and while making along."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from calc.worksheets import catalogue
from calc.worksheets.core import mattering
from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
TWO = "guides/two-bundle/"


def ready(open_page: OpenPage, key: str = "string", *, width: int = 390) -> Sheet:
    page = open_page(f"worksheets/{key}/", width=width, height=844, natively=True)
    return Sheet(page, key)


def go(page: Page, path: str) -> None:
    page.goto(page.url.split("/worksheets/")[0].split("/guides/")[0] + f"/{path}")


def shown(key: str, inputs: dict[str, str], sheet: str = "string") -> str:
    """Return a number as the sheet shows it."""
    rows = asked(inputs, key=sheet)["outcome"]["rows"]
    return str(next(row["shown"] for row in rows if row["key"] == key))


def cut_step(page: Page) -> str:
    return page.locator(".pt-step:has(#cut)").inner_text()


def test_a_club_card_is_made_along_and_the_readers_own_plan_stays(open_page: OpenPage, shots: Path) -> None:
    plan = ready(open_page)
    page = plan.page
    plan.type("nock_to_nock", "68 in")
    plan.settled()
    own_cut = shown("cut_length", {"nock_to_nock": "68 in"})
    page.wait_for_function("cut => localStorage['plied-true:own']?.includes(cut)", arg=own_cut)
    before = {name: page.evaluate(f"localStorage['plied-true:{name}']") for name in ("own", "typed", "worked")}
    go(page, TWO)
    page.wait_for_selector(".pt-has-own:not([hidden])")
    assert page.inner_text(".pt-has-own").startswith("For: your own bow, 68 in")
    assert own_cut in cut_step(page)

    go(page, "worksheets/club/")
    club = Sheet(page, "club")
    club.type("bows", "Anna, 54 in, 20 lb, 22 in, 5 1/2 in")
    page.wait_for_function("document.querySelector('#club [data-row=bows] .value')?.textContent === '1'")
    club.settled()
    club.find("[data-table='cards'] button").first.click()
    card = Sheet(page)
    card.settled()
    said = card.find(".sent")
    assert "For: Anna, 54 in" in said.inner_text()
    assert "from the club list" in said.inner_text()
    top, answer = (each.bounding_box() for each in (said, card.find(".headlines")))
    assert top
    assert answer
    assert top["y"] < answer["y"], "it is said above the answer"
    page.screenshot(path=shots / "sent-390.png")
    bow = {"nock_to_nock": "54 in", "draw_weight": "20 lb", "draw_length": "22 in", "brace_height": "5 1/2 in"}
    annas_cut = shown("cut_length", bow)
    assert annas_cut != own_cut
    card.find(".next a").first.click()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    assert page.url.endswith(TWO)
    assert page.inner_text(".pt-has-own").startswith("For: Anna, 54 in")
    assert annas_cut in cut_step(page)
    assert own_cut not in cut_step(page)
    page.click(".pt-along-start button")
    assert page.inner_text(".along-whose").startswith("For: Anna, 54 in")
    assert annas_cut in page.inner_text(".along-say")
    page.click(".along-next")
    page.screenshot(path=shots / "along-anna-390.png")
    page.click(".along-close")
    page.wait_for_selector(".along", state="detached")

    page.locator(".pt-has-own button").click()
    assert page.inner_text(".pt-has-own").startswith("For: your own bow, 68 in")
    assert own_cut in cut_step(page)
    assert page.inner_text(".pt-along-start button") == "Make along", "Anna's place is not mine"
    assert {name: page.evaluate(f"localStorage['plied-true:{name}']") for name in before} == before
    page.locator(".pt-has-own button").click()
    assert page.inner_text(".pt-along-start button") == "Make along: go on at step 2"


def test_other_sheets_go_on_with_the_string_that_came(open_page: OpenPage) -> None:
    sender = ready(open_page)
    sender.type("nock_to_nock", "54 in")
    sender.type("draw_weight", "20 lb")
    sender.settled()
    sender.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    sender.find(".copy").click()
    sender.find(".passed").filter(has_text="Copied").wait_for()
    link = str(sender.page.evaluate("navigator.clipboard.readText()"))
    reader = ready(open_page)
    reader.type("draw_weight", "50 lb")
    reader.settled()
    reader.page.goto("about:blank")
    reader.page.goto(link)
    reader.find(".leave").wait_for()
    reader.settled()
    go(reader.page, "worksheets/settle/")
    settle = Sheet(reader.page, "settle").settled()
    assert settle.control("draw_weight").input_value() == "20 lb"
    assert "It came with a link" in settle.find(".sent").inner_text()
    assert "From a link." in settle.find("[data-field=draw_weight] .hint").inner_text()
    settle.find(".leave").click()
    settle.page.wait_for_function("document.querySelector('#settle-draw_weight').value === '50 lb'")
    settle.settled()
    assert settle.find(".sent").is_hidden()


def test_every_value_says_where_it_is_from(open_page: OpenPage) -> None:
    sheet = ready(open_page)

    def origin(key: str) -> str:
        return sheet.find(f"[data-field={key}] .origin").inner_text()

    assert origin("nock_to_nock") == "Example."
    assert origin("strands") == "Left open."
    sheet.type("nock_to_nock", "60 in")
    sheet.settled()
    assert origin("nock_to_nock") == "Typed."
    assert origin("draw_weight") == "Example."
    go(sheet.page, "worksheets/tune/")
    tune = Sheet(sheet.page, "tune").settled()
    assert tune.find("[data-field=nock_to_nock] .origin").inner_text() == "Carried from Plan a string."
    assert tune.find("[data-field=brace_now] .origin").inner_text() == "Example."
    assert tune.find("[data-field=turns] .origin").inner_text() in {"Worked out on Plan a string.", "Example."}


def test_at_the_range_the_answer_says_what_is_the_examples(open_page: OpenPage, shots: Path) -> None:
    tune = ready(open_page, "tune")
    words = tune.find(".origins").inner_text()
    assert words.startswith("All ")
    tune.type("brace_now", "5 3/4 in")
    tune.settled()
    words = tune.find(".origins").inner_text()
    count = len([each for each in tune.find(".origin").all_inner_texts() if each != "Left open."])
    assert words.startswith(f"1 of {count} values are yours. Check first: ")
    named = tune.find(".origins a").all_inner_texts()
    labels = {each.key: each.label for each in catalogue()["tune"].fields}
    first = [labels[key] for key in mattering(catalogue()["tune"]) if key != "brace_now"][: len(named)]
    assert named == [each[0].lower() + each[1:] for each in first]
    assert "Worked out from what is typed" not in tune.element.inner_text()
    tune.page.screenshot(path=shots / "range-390.png")
    tune.find(".origins a").first.click()
    assert tune.page.evaluate("document.activeElement.closest('[data-field]').dataset.field") == next(
        key for key in mattering(catalogue()["tune"]) if key != "brace_now"
    )


def test_the_script_says_of_the_example_what_the_build_said(open_page: OpenPage) -> None:
    page = open_page("worksheets/", natively=True)
    start = page.url
    for key in catalogue():
        page.goto(f"{start}{key}/")
        built = page.request.get(page.url).text()
        said = page.evaluate(
            "text => new DOMParser().parseFromString(text, 'text/html').querySelector('.origins').outerHTML", built
        )
        page.wait_for_selector(f"#{key} .go button:not([hidden])")
        assert page.locator(f"#{key} .origins").evaluate("each => each.outerHTML") == said


def test_the_club_list_takes_nothing_from_a_private_plan_and_gives_it_nothing(open_page: OpenPage) -> None:
    plan = ready(open_page)
    plan.find("select[name=fibre]").select_option("linen")
    plan.type("draw_length", "25 in")
    plan.settled()
    go(plan.page, "worksheets/club/")
    club = Sheet(plan.page, "club")
    club.press()
    club.settled()
    assert club.control("draw_length").input_value() == "26 in"
    assert club.rows == working(asked({}, key="club")["outcome"])
    club.type("draw_length", "20 in")
    club.settled()
    club.page.reload()
    club.settled()
    assert club.control("draw_length").input_value() == "20 in", "its own values stay"
    go(club.page, ADDRESS)
    assert Sheet(club.page).control("draw_length").input_value() == "25 in"


def test_numbers_of_another_bow_do_not_stand_beside_the_plans(open_page: OpenPage) -> None:
    """Settling was worked out for a light bow, the plan is for another: its weight has no place in the plan's guide."""
    settle = ready(open_page, "settle")
    settle.type("draw_weight", "18 lb")
    settle.settled()
    key = "hanging_weight"
    light = shown(key, {"draw_weight": "18 lb"}, "settle")
    settle.page.wait_for_function("text => localStorage['plied-true:own']?.includes(text)", arg=light)
    go(settle.page, ADDRESS)
    plan = Sheet(settle.page).settled()
    plan.type("draw_weight", "60 lb")
    plan.settled()
    plan.page.wait_for_function("JSON.parse(localStorage['plied-true:own']).values.cut_length?.from === 'string'")
    own = json.loads(plan.page.evaluate("localStorage['plied-true:own']"))["values"]
    assert key not in own
    assert own["draw_weight"]["in"].startswith("60")


def test_every_string_of_an_afternoon_can_be_shown_again(open_page: OpenPage, shots: Path) -> None:
    club = ready(open_page, "club")
    page = club.page
    bows = {"Anna, 54 in": "Anna, 54 in, 20 lb, 22 in, 5 1/2 in", "Ben, 60 in": "Ben, 60 in, 25 lb, 24 in, 6 in"}
    club.type("bows", "\n".join(bows.values()))
    page.wait_for_function("document.querySelector('#club [data-row=bows] .value')?.textContent === '2'")
    club.settled()
    cuts = {}
    for at, name in enumerate(bows):
        club.find("[data-table='cards'] button").nth(at).click()
        card = Sheet(page)
        card.settled()
        assert f"For: {name}" in card.find(".sent").inner_text()
        cuts[name] = {row[0]: row[2] for row in card.rows}["cut_length"]
        go(page, "worksheets/club/")
        club.settled()
    go(page, TWO)
    page.wait_for_selector(".pt-has-own:not([hidden])")
    note = page.locator(".pt-has-own")
    assert note.inner_text().startswith("For: Ben, 60 in")
    own, anna = note.locator("button").all_inner_texts()
    assert own == "Show my own"
    assert anna.startswith("Show Anna, 54 in")
    page.screenshot(path=shots / "afternoon-390.png")
    note.get_by_role("button", name="Show Anna, 54 in").click()
    assert note.inner_text().startswith("For: Anna, 54 in")
    assert cuts["Anna, 54 in"] in cut_step(page)
    note.get_by_role("button", name="Show Ben, 60 in").click()
    assert cuts["Ben, 60 in"] in cut_step(page)
