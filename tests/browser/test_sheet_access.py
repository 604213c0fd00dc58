"""Anyone can use it: automatic checks in every state, small windows, large targets, keyboard, print, all colours."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, cast

import pytest

from site_build.setup import packages
from tests.browser.sheets import ADDRESS, Sheet

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser


def violations(page: Page) -> list[str]:
    """Return what the accessibility checker finds on the whole page; nothing is let pass."""
    if not page.evaluate("'axe' in window"):
        page.evaluate((packages.fetch("axe-core") / "axe.min.js").read_text(encoding="utf-8"))
    found = cast("dict[str, Any]", page.evaluate("axe.run(document, { resultTypes: ['violations'] })"))
    return [
        f"{rule['id']}: {node['html'][:160]} {node['failureSummary']}"
        for rule in found["violations"]
        for node in rule["nodes"]
    ]


def shown(page: Page, state: str) -> None:
    """Bring the worksheet into a state."""
    sheet = Sheet(page)
    if state == "result":
        sheet.type("nock_to_nock", "60 in")
        sheet.settled()
    if state == "error":
        sheet.type("nock_to_nock", "wax")
        sheet.press()
        page.wait_for_selector(".problem:visible")
    if state == "steps":
        sheet.type("nock_to_nock", "60 in")
        sheet.settled()
        sheet.find(".steps summary").click()


@pytest.mark.parametrize("scheme", ["paper", "night", "sun"])
@pytest.mark.parametrize("width", [390, 1280])
def test_the_checker_finds_nothing(open_page: OpenPage, shots: Path, scheme: str, width: int) -> None:
    page = open_page(ADDRESS, width=width, height=844, dark=scheme == "night", natively=True)
    if scheme == "sun":
        for _ in range(2):
            page.locator("[data-md-component=palette] label:visible").click()
    assert page.locator("body").get_attribute("data-md-color-scheme") == scheme
    page.screenshot(path=shots / f"sheet-{width}-{scheme}.png", full_page=True)
    for state in ("usual",) if scheme == "sun" else ("usual", "steps", "error"):
        shown(page, state)
        assert violations(page) == [], state


@pytest.mark.parametrize("path", ["", "worksheets/"])
def test_the_checker_finds_nothing_on_other_pages(open_page: OpenPage, path: str) -> None:
    for dark in (False, True):
        assert violations(open_page(path, width=390, dark=dark)) == []


@pytest.mark.parametrize("state", ["result", "error"])
def test_nothing_is_wider_than_a_window_of_320(open_page: OpenPage, state: str) -> None:
    page = open_page(ADDRESS, width=320, height=600, natively=True)
    shown(page, state)
    assert Sheet(page).overflow() <= 0
    page.emulate_media(forced_colors="active")
    assert violations(page) == []


def test_what_is_touched_is_44_high(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, width=390, natively=True)
    shown(page, "error")
    targets = Sheet(page).find("label.radio, .typed, select, button, summary, .problem a")
    sizes = targets.evaluate_all("""all => all.filter(each => each.checkVisibility()).map(each =>
        [each.textContent, each.getBoundingClientRect().height])""")
    assert len(sizes) > 20
    assert [size for size in sizes if size[1] < 44] == []


def test_letters_and_figures_are_large_enough(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, width=390, natively=True)
    size = "each => parseFloat(getComputedStyle(each).fontSize)"
    assert 17 <= cast("float", page.locator(".sheet .purpose").evaluate(size)) <= 18
    assert 32 <= cast("float", page.locator(".sheet .said").first.evaluate(size)) <= 40
    small = page.locator(".sheet :is(label, legend, .hint, dt, .range, .how, .from, caption)")
    assert min(cast("list[float]", small.evaluate_all(f"all => all.map({size})"))) >= 15
    assert page.evaluate("document.fonts.ready.then(() => document.fonts.check('17px Hyperlegible'))")
    assert (
        page.locator(".sheet .said").first.evaluate("each => getComputedStyle(each).fontVariantNumeric")
        == "tabular-nums"
    )


@pytest.mark.parametrize("width", [390, 1280])
def test_a_link_to_a_place_below_the_working_leads_there(open_page: OpenPage, width: int) -> None:
    page = open_page(ADDRESS, width=width, natively=True)
    top = "document.querySelector('#beside-common-practice').getBoundingClientRect().top"
    assert page.evaluate(top) > 2000
    page.evaluate("location.hash = 'beside-common-practice'")
    page.wait_for_function(f"() => {top} > 0 && {top} < 300")
    address = page.url
    page.goto("about:blank")
    page.goto(address)
    page.wait_for_function(f"() => {top} > 0 && {top} < 300")


def test_the_answer_stays_in_view_as_a_strip_while_typing(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, width=390, height=844, natively=True)
    sheet = Sheet(page)
    strip = sheet.find(".strip")
    assert strip.is_hidden()
    sheet.control("tail_length").scroll_into_view_if_needed()
    strip.wait_for(state="visible")
    box = strip.bounding_box()
    assert box
    assert (box["x"], box["y"], box["width"]) == (0, 0, 390)
    before = strip.inner_text()
    sheet.type("tail_length", "6 in")
    sheet.settled()
    assert strip.inner_text() != before
    assert sheet.headlines[0] in strip.inner_text().replace("\u2044", "/").replace("\n", "")
    strip.click()
    strip.wait_for(state="hidden")


_NAME = "(here => here.name || here.type || here.getAttribute('aria-label') || '')(document.activeElement)"


def test_the_keyboard_alone_reaches_and_works_everything(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    sheet.find("input[name=system]").first.focus()
    reached = []
    for _ in range(60):
        page.keyboard.press("Tab")
        name = cast("str", page.evaluate(_NAME))
        reached.append(name)
        if name == "submit":
            break
    names = sheet.find(".columns :is(input, select)").evaluate_all(
        "all => all.filter(each => !each.closest('details:not([open])')).map(each => each.name)"
    )
    first = sheet.find(".first input").evaluate_all("all => all.map(each => each.name)")
    rest = [name for name in dict.fromkeys(names) if name not in first]
    assert list(dict.fromkeys(reached)) == [*first, "", *rest, "submit"], "the links of the answer have no name"
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"
    page.keyboard.press("Enter")
    sheet.settled()
    folded = sheet.find("details.more").first
    folded.locator("summary").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate(_NAME) == folded.locator("input").first.get_attribute("name")


def test_it_prints_as_one_clean_sheet(open_page: OpenPage, shots: Path) -> None:
    page = open_page(ADDRESS, width=794, height=1123, natively=True)
    shown(page, "result")
    page.emulate_media(media="print")
    page.screenshot(path=shots / "print.png", full_page=True)
    for gone in (".md-header", ".md-footer", ".go", ".strip", ".status", ".working"):
        assert page.locator(gone).first.is_hidden()
    assert page.locator(".headlines").is_visible()
    assert page.locator("figure").first.is_visible()
    paper = page.pdf(format="A4", path=shots / "print.pdf")
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) == 1
