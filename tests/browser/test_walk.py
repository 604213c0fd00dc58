"""A beginner's walk on a phone: measure, test a cord, plan, make along to the end; one bow's numbers throughout."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from calc.worksheets import catalogue
from calc.worksheets.core import Tip
from site_build.pages.guides.texts import load
from site_build.setup.paths import DOCS
from tests.browser.sheets import Sheet, asked

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
BOW = {"nock_to_nock": "58 in", "brace_height": "6 in", "draw_length": "24 in"}
"""A bow of our own; the example's is 66 in."""


def follow(page: Page, words: str) -> None:
    page.locator("article").get_by_role("link", name=words).first.click()


def rows_of(sheet: Sheet) -> dict[str, str]:
    return {row[0]: row[2] for row in sheet.rows}


def plan_it(page: Page) -> dict[str, str]:
    """Test a cord, plan a string of it for the bow; return the numbers of the plan."""
    page.goto(page.url.replace("guides/measure/", ""))
    follow(page, "test a cord nobody knows")
    cord = Sheet(page, "cord-test")
    cord.type("weighed_length", "10 m")
    cord.type("weighed_mass", "31 g")
    cord.choose("in_water", "sinks")
    cord.type("draw_weight", "28 lb")
    cord.settled()
    tex = rows_of(cord)["yarn"]
    cord.find(".next").get_by_role("link", name="Plan the string").click()

    page.wait_for_selector("#string")
    plan = Sheet(page).settled()
    assert plan.control("yarn").input_value() == tex
    assert plan.control("draw_weight").input_value() == "28 lb"
    assert "Test an unknown cord" in plan.find("[data-field=fibre] .origin").inner_text()
    for field, text in BOW.items():
        plan.type(field, text)
    plan.page.wait_for_function("document.querySelector('#string-brace_height').value === '6 in'")
    plan.settled()
    rows = rows_of(plan)
    read = plan.find("form").evaluate("form => Object.fromEntries(new FormData(form))")
    typed = {each.key: str(read[each.key]) for each in catalogue()["string"].fields if not isinstance(each, Tip)}
    again = asked(typed)["outcome"]
    shown = {row["key"]: row["shown"] for row in again["rows"]}
    assert {key: rows[key] for key in ("cut_length", "strands", "turns_body")} == {
        key: shown[key] for key in ("cut_length", "strands", "turns_body")
    }
    return rows


def make_along(page: Page, rows: dict[str, str]) -> int:
    """Make along to the last step, and look at every number on the way; return how many steps there were."""
    page.wait_for_selector(".pt-along-start:not([hidden])")
    assert page.inner_text(".pt-has-own").startswith("For: your own bow, 58 in")
    page.check("input[name=pt-units][value=inch]")
    page.click(".pt-along-start button")
    example = {row["key"]: row["shown"] for row in asked({})["outcome"]["rows"]}
    wanted = {block.key: block.maybe("own").split() for block in load(DOCS / "guides" / "two-bundle.md").of("step")}
    seen = 0
    while True:
        step = page.evaluate("location.hash.slice(1)")
        assert page.inner_text(".along-whose") == "For: your own bow, 58 in"
        said = page.inner_text(".along-upper").replace("\u2044", "/")
        for key in wanted[step]:
            if key in rows:
                assert rows[key] in said, (step, key)
                assert example[key] == rows[key] or " in" not in example[key] or example[key] not in said, (step, key)
        seen += 1
        last = "To the check" in page.inner_text(".along-next")
        page.click(".along-next")
        if last:
            break
    return seen


def test_a_beginner_sees_one_bows_numbers_from_the_tape_to_the_last_step(open_page: OpenPage, shots: Path) -> None:
    page = open_page("guides/measure/", width=390, height=844, natively=True)
    assert page.locator(".pt-has-own").is_hidden(), "nothing is known yet"
    for measure in ("length", "handle", "tips", "draw", "brace"):
        assert page.locator(f".pt-step:has(#{measure})").is_visible()
    rows = plan_it(page)
    page.screenshot(path=shots / "walk-plan-390.png")
    page.locator(".next").get_by_role("link", name="Twist it with these numbers").click()
    assert make_along(page, rows) >= 20
    page.wait_for_selector(".along", state="detached")
    page.screenshot(path=shots / "walk-end-390.png")

    at = re.sub(r"guides/.*", "", page.url)
    for guide, step, key in (("settle", "choose", "tension_brace"), ("brace", "measure", "brace_height")):
        page.goto(f"{at}guides/{guide}/")
        page.wait_for_selector(".pt-has-own:not([hidden])")
        assert page.inner_text(".pt-has-own").startswith("For: your own bow, 58 in")
        said = page.locator(f".pt-step:has(#{step})").inner_text().replace("\u2044", "/")
        assert rows[key] in said, (guide, key)
    page.goto(at)
    page.wait_for_function("document.querySelector('.home-own')?.checkVisibility()")
    assert page.inner_text(".home-own").startswith("Your bow: 58 in from nock to nock, braced at 6 in")

    page.goto(f"{at}worksheets/tune/")
    tune = Sheet(page, "tune").settled()
    assert tune.control("nock_to_nock").input_value() == "58 in"
    assert tune.control("brace_height").input_value() == "6 in"
