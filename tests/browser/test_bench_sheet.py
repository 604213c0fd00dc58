"""The bench sheet in a real browser: it answers, it refuses politely, it stays on its own origin."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from calc.worksheets import catalogue
from calc.worksheets.asking import usual
from site_build import packages
from site_build.answer import reply

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

pytestmark = pytest.mark.browser
SHEET = "/worksheets/string/"


def ready(page: Page, site_url: str) -> None:
    page.goto(site_url + SHEET)
    page.wait_for_selector('.pt-sheet[data-stage="ready"]')


def answered(page: Page, count: int) -> None:
    page.wait_for_selector(f'.pt-sheet[data-answered="{count}"]')


def first_line(page: Page) -> str:
    return page.locator(".pt-answer .pt-big").first.inner_text()


def native(changed: dict[str, str], system: str = "inch") -> dict[str, Any]:
    inputs = usual(catalogue()["string"], changed)
    ask = {"v": 1, "id": 1, "worksheet": "string", "system": system, "inputs": inputs}
    told: dict[str, Any] = json.loads(reply(json.dumps(ask)))
    return told


@pytest.mark.parametrize("width", [1280, 390])
def test_a_changed_bow_gets_its_own_answer_and_nothing_leaves_the_origin(
    page: Page, site_url: str, shots: Path, width: int
) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.set_viewport_size({"width": width, "height": 844})
    ready(page, site_url)
    before = first_line(page)
    page.fill("#f-nock_to_nock", "62 1/2 in")
    page.press("#f-nock_to_nock", "Tab")
    answered(page, 1)
    after = first_line(page)
    assert after != before
    assert after == native({"nock_to_nock": "62 1/2 in"})["outcome"]["headlines"][0]["text"]
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert [url for url in asked if not url.startswith((site_url, "data:", "blob:"))] == []
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
        page.screenshot(path=shots / f"string-{width}-{scheme}.png", full_page=True)


def test_it_is_usable_at_320_pixels(page: Page, site_url: str) -> None:
    page.set_viewport_size({"width": 320, "height": 568})
    ready(page, site_url)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_without_scripts_the_answer_and_working_are_there(page: Page, site_url: str) -> None:
    html = page.request.get(site_url + SHEET).text()
    for row in native({})["outcome"]["rows"]:
        assert f'data-key="{row["key"]}"' in html
    assert native({})["answer"] in html


def test_a_bad_input_is_named_at_its_field_and_the_old_answer_stays_marked(page: Page, site_url: str) -> None:
    ready(page, site_url)
    before = first_line(page)
    page.fill("#f-nock_to_nock", "45 lb")
    page.press("#f-nock_to_nock", "Tab")
    page.wait_for_selector("#f-nock_to_nock-error:not([hidden])")
    assert page.locator("#f-nock_to_nock").get_attribute("aria-invalid") == "true"
    assert page.input_value("#f-nock_to_nock") == "45 lb"
    assert first_line(page) == before
    assert "earlier measures" in page.locator(".pt-status").inner_text()
    assert page.locator(".pt-summary").is_hidden()
    page.click(".pt-go")
    page.wait_for_selector(".pt-summary:not([hidden])")
    assert page.title().startswith("Error: ")
    link = page.locator(".pt-summary a").first.inner_text()
    assert link in page.locator("#f-nock_to_nock-error").inner_text()
    page.fill("#f-nock_to_nock", "60 in")
    page.click(".pt-go")
    page.wait_for_selector(".pt-sheet:not(.pt-old)")
    assert page.locator(".pt-summary").is_hidden()


def test_switching_units_fifty_times_changes_nothing(page: Page, site_url: str) -> None:
    ready(page, site_url)
    typed = {key: page.input_value(f"#f-{key}") for key in ("nock_to_nock", "draw_weight", "tip_upper", "brace_height")}
    before = first_line(page)
    number = 0
    for _ in range(25):
        for system in ("metric", "inch"):
            page.check(f'input[name="_system"][value="{system}"]')
            number += 2
            answered(page, number)
    assert {key: page.input_value(f"#f-{key}") for key in typed} == typed
    assert first_line(page) == before


def test_a_change_right_after_a_switch_of_units_is_not_misread(page: Page, site_url: str) -> None:
    ready(page, site_url)
    page.evaluate(
        """() => { const click = (name, value) =>
          document.querySelector(`input[name="${name}"][value="${value}"]`).click();
        click('_system', 'metric'); click('hand', 'S'); }"""
    )
    answered(page, 3)
    assert page.input_value("#f-nock_to_nock") == "1676.4 mm"
    assert first_line(page) == native({"hand": "S"}, "metric")["outcome"]["headlines"][0]["text"]


def test_browser_and_native_say_the_same_to_every_example(page: Page, site_url: str) -> None:
    ready(page, site_url)
    page.evaluate(
        """() => { window.answers = [];
        window.bench = new Worker(new URL('/assets/worker.js', location.href), {type: 'module'});
        window.bench.onmessage = ({data}) => window.answers.push(data); }"""
    )
    worksheet = catalogue()["string"]
    for system in ("inch", "metric"):
        for example in worksheet.examples:
            ask = {"v": 1, "id": f"{example.name} {system}", "worksheet": "string", "system": system}
            text = json.dumps({**ask, "inputs": usual(worksheet, example.inputs)})
            said = page.evaluate(
                """async (text) => { const ask = JSON.parse(text); for (;;) {
                const found = window.answers.find((each) => JSON.parse(each).id === ask.id); if (found) return found;
                if (window.answers.some((each) => JSON.parse(each).stage === 'ready') && window.sent !== text) {
                  window.sent = text; window.bench.postMessage(text); }
                await new Promise((done) => setTimeout(done, 20)); } }""",
                text,
            )
            assert json.loads(said) == json.loads(reply(text)), example.name


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_the_sheet(page: Page, site_url: str, scheme: str) -> None:
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    ready(page, site_url)
    page.fill("#f-draw_weight", "heavy")
    page.click(".pt-go")
    page.wait_for_selector(".pt-summary:not([hidden])")
    page.add_script_tag(content=(packages.fetch("axe") / "axe.min.js").read_text(encoding="utf-8"))
    found = page.evaluate("async () => (await axe.run('.pt-sheet')).violations.map((v) => [v.id, v.nodes[0].html])")
    assert found == []
