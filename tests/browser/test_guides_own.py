"""Figures of guides with the reader's own numbers: drawn when Python is up, and only when there are any."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

import pytest

from calc import bridge
from tests.browser.sheets import ADDRESS, PYTHON_MS, Sheet

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
TWO = "guides/two-bundle/"
FROM = "Plan a string"
OWN = {
    "cut_length": {"in": "70 3/8 in", "mm": "1788 mm"},
    "strands": {"in": "17", "mm": "17"},
    "loop_upper": {"in": "3 9/16 in", "mm": "90 mm"},
    "loop_lower": {"in": "3 5/16 in", "mm": "84 mm"},
    "body_raw": {"in": "49 5/16 in", "mm": "1253 mm"},
    "turns_body": {"in": "71.5", "mm": "71.5"},
    "string_length_slack": {"in": "58 11/16 in", "mm": "1491 mm"},
}
DRAWN = ("cut", "mark", "body", "length")
"""Steps whose figures show some of these."""


def give(page: Page, **more: object) -> None:
    """Leave what a worksheet leaves, and see the guide anew."""
    kept: dict[str, Any] = {"own": {"values": OWN}, "worked": {key: {"text": "", "from": FROM} for key in OWN}, **more}
    for key, value in kept.items():
        page.evaluate("([key, text]) => localStorage.setItem('plied-true:' + key, text)", [key, json.dumps(value)])
    page.reload()


def figure(page: Page, step: str) -> Locator:
    return page.locator(f".pt-step:has(#{step}) .pt-figure")


def words(place: Locator) -> list[str]:
    """Return the words that a reader sees in a figure."""
    return [text for text in place.locator("svg:visible text").all_text_contents() if text]


def test_steps_with_own_numbers_have_them_in_their_figures(open_page: OpenPage) -> None:
    page = open_page(TWO, natively=True)
    before = {step: words(figure(page, step)) for step in (*DRAWN, "roll")}
    give(page)
    page.wait_for_selector(".pt-drawn")
    for step, said in {
        "cut": ["70 3/8 in", "17 strands alike"],
        "mark": ["3 9/16 in"],
        "mark-body": ["3 9/16 in", "49 5/16 in", "3 5/16 in"],
        "body": ["71.5 turns"],
        "length": ["58 11/16 in"],
    }.items():
        figure(page, step).locator(".pt-drawn-here").wait_for(state="attached")
        assert set(said) <= set(words(figure(page, step))), step
    assert words(figure(page, "roll")) == before["roll"]
    assert page.locator(".pt-drawn").count() == 1
    assert page.inner_text(".pt-drawn").startswith(f"Drawn with your own numbers from {FROM}.")
    ids = page.eval_on_selector_all("article [id]", "all => all.map(each => each.id)")
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("hand", ["S", "Z"])
def test_hand_and_units_are_followed(open_page: OpenPage, hand: str) -> None:
    page = open_page(TWO, natively=True)
    give(page, hand=hand)
    turns = figure(page, "body")
    page.wait_for_selector("#body ~ .pt-figure .pt-drawn-here", state="attached")
    assert turns.locator("svg:visible text", has_text=re.compile(f"^{hand}$")).count() == 1
    page.check("input[name=pt-units][value=metric]")
    figure(page, "cut").locator("text", has_text="1788 mm").wait_for()
    assert "3 9/16 in" not in words(figure(page, "mark"))
    other = {"S": "Z", "Z": "S"}[hand]
    page.check(f"input[name=pt-hand][value={other}]")
    page.wait_for_selector("#body ~ .pt-figure .pt-drawn-here", state="attached")
    assert turns.locator("svg:visible text", has_text=re.compile(f"^{other}$")).count() == 1
    ask = {"figure": "body-turns", "hand": other, "system": "metric", "numbers": {"turns_body": "71.5"}}
    direct = json.loads(bridge.handle(json.dumps(ask)))["svg"]
    ways = "all => all.map(each => each.getAttribute('d'))"
    assert turns.locator("svg path").evaluate_all(ways) == re.findall(r'<path [^>]*d="([^"]*)"', direct)


def test_the_usual_figures_come_back_and_stay(open_page: OpenPage) -> None:
    page = open_page(TWO, natively=True)
    before = words(figure(page, "cut"))
    give(page)
    page.locator(".pt-drawn button", has_text="Show the usual figures").click()
    assert words(figure(page, "cut")) == before
    assert page.evaluate("document.activeElement.textContent") == "Draw them with my own numbers"
    page.reload()
    page.wait_for_selector(".pt-drawn")
    page.wait_for_timeout(300)
    assert words(figure(page, "cut")) == before
    page.locator(".pt-drawn button").click()
    figure(page, "cut").locator("text", has_text="70 3/8 in").wait_for()


def test_python_is_not_started_for_a_reader_without_numbers(open_page: OpenPage) -> None:
    page = open_page(TWO, natively=True)
    asked: list[str] = []
    page.context.on("request", lambda request: asked.append(request.url))
    page.reload()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    page.wait_for_timeout(500)
    assert not [url for url in asked if "worker.js" in url]
    assert page.locator(".pt-drawn").count() == 0
    give(page)
    page.wait_for_selector(".pt-drawn")
    assert [url for url in asked if "worker.js" in url]


def test_making_along_shows_them_too(open_page: OpenPage) -> None:
    page = open_page(TWO, width=390, height=844, natively=True)
    before = words(figure(page, "cut"))
    give(page)
    page.wait_for_selector(".pt-drawn")
    page.click(".pt-along-start button")
    picture = page.locator(".along-picture")
    assert "70 3/8 in" in words(picture)
    assert f"Your own numbers from {FROM}." in picture.inner_text()
    picture.locator("button", has_text="Show the usual figures").click()
    assert words(picture) == before
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowLeft")  # the browser's own way back, which comes when it comes
    picture.locator("svg:visible text", has_text=before[0]).first.wait_for()
    assert words(picture) == before
    picture.locator("button", has_text="Draw them with my own numbers").click()
    picture.locator("text", has_text="70 3/8 in").wait_for()
    page.keyboard.press("Escape")
    page.wait_for_selector(".along", state="detached")
    assert "70 3/8 in" in words(figure(page, "cut"))


def test_one_number_that_cannot_be_drawn_leaves_the_others(open_page: OpenPage) -> None:
    page = open_page(TWO, natively=True)
    bad = {**OWN, "cut_length": {"in": "<img src=x onerror=alert(1)>", "mm": "x"}}
    give(page, own={"values": bad}, typed={"tail_length": {"text": "long enough", "from": FROM}})
    page.wait_for_selector("#mark ~ .pt-figure .pt-drawn-here", state="attached")
    assert "17 strands alike" in words(figure(page, "cut"))
    assert "3 9/16 in" in words(figure(page, "mark"))
    assert page.locator(".pt-figure img").count() == 0


def test_a_figure_stays_as_it_is_where_its_step_tells_another_number(open_page: OpenPage) -> None:
    page = open_page("guides/settle/", natively=True)
    values = {"tension_brace": {"in": "35 lb", "mm": "15.9 kg"}, "hanging_weight": {"in": "41.0 lb", "mm": "18.6 kg"}}
    give(page, own={"values": values})
    page.wait_for_selector("#hang ~ .pt-figure .pt-drawn-here", state="attached")
    assert "41.0 lb" in words(figure(page, "hang"))
    assert "41.0 lb" not in words(figure(page, "choose"))


def test_a_guide_in_the_browsers_own_python_says_what_the_worksheet_said(open_page: OpenPage) -> None:
    page = open_page(ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "62 1/2 in")
    sheet.settled()
    rows = {row[0]: row[2] for row in sheet.rows}
    page.goto(page.url.split("worksheets")[0] + TWO)
    page.wait_for_selector("#length ~ .pt-figure .pt-drawn-here", state="attached", timeout=PYTHON_MS)
    assert rows["cut_length"] in words(figure(page, "cut"))
    assert f"{rows['turns_body']} turns" in words(figure(page, "body"))
    assert page.inner_text(".pt-drawn").startswith(f"Drawn with your own numbers from {FROM}.")


_ALL_AT_ONCE = """async asks => {
  const worker = new Worker('/assets/web/worker.js', { type: 'module', name: 'plain' });
  const found = [];
  const quiet = new Promise(done => {
    let last;
    worker.onmessage = ({ data }) => {
      const { id } = JSON.parse(data);
      if (id === undefined) return;
      found.push(id);
      clearTimeout(last);
      last = setTimeout(done, 3000);
    };
  });
  for (const ask of asks) worker.postMessage(JSON.stringify(ask));
  await quiet;
  worker.terminate();
  return found;
}"""


def test_asks_for_several_figures_do_not_take_each_others_place(open_page: OpenPage) -> None:
    """Of two asks for the same drawing only the newer counts; those for others wait beside it."""
    page = open_page("guides/")
    page.set_default_timeout(PYTHON_MS)
    places = [
        ("strands-cut", "a"),
        ("strands-cut", "b"),
        ("bundle-marks", "a"),
        ("body-turns", "c"),
        ("body-turns", "c"),
    ]
    asks = [{"v": 1, "id": at, "figure": name, "ident": ident} for at, (name, ident) in enumerate(places)]
    assert sorted(page.evaluate(_ALL_AT_ONCE, asks)) == [0, 1, 2, 4]
