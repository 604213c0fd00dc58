"""Guides as a reader has them: hand, units, own numbers, making along, timers, faults, the kit list, paper."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pypdfium2  # type: ignore[import-untyped]
import pytest

from calc.draw import svg
from calc.draw.figures import figure as drawn
from site_build.pages.guides.club import needed
from site_build.pages.guides.texts import load
from site_build.setup import packages
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
TWO = "guides/two-bundle/"
OWN = {
    "values": {
        "cut_length": {"in": "70 3/8 in", "mm": "1788 mm"},
        "turns_loop": {"in": "3", "mm": "3"},
        "strands": {"in": "14", "mm": "14"},
    }
}
STEPS = len(load(DOCS / "guides" / "two-bundle.md").of("step"))


def shown(page: Page, anchor: str) -> str:
    """Return what a reader sees of a step."""
    return page.locator(f".pt-step:has(#{anchor})").inner_text()


def give_own(page: Page) -> None:
    page.evaluate("own => localStorage.setItem('plied-true:own', own)", json.dumps(OWN))
    page.reload()
    page.wait_for_selector(".pt-along-start:not([hidden])")


def test_one_text_shows_one_hand_at_a_time_and_it_stays(open_page: OpenPage) -> None:
    page = open_page(TWO)
    assert "top goes away from you" in shown(page, "roll")
    assert "towards you, 1 to 3" not in shown(page, "roll")
    assert page.locator("#roll ~ .pt-figure div[data-hand=Z]").is_visible()
    page.check("input[name=pt-hand][value=S]")
    assert "top goes towards you" in shown(page, "roll")
    assert "Each bundle has Z twist" in shown(page, "roll")
    assert page.locator("#roll ~ .pt-figure div[data-hand=S]").is_visible()
    assert not page.locator("#roll ~ .pt-figure div[data-hand=Z]").is_visible()
    page.goto(page.url.replace("two-bundle", "splice"))
    page.wait_for_selector("html[data-hand=S]")
    assert "Roll each pair towards you" in shown(page, "throat")


def test_from_guide_to_guide_everything_still_works(open_page: OpenPage) -> None:
    page = open_page(TWO)
    page.check("input[name=pt-hand][value=S]")
    page.locator("article a", has_text="More on this").click()
    page.wait_for_selector("#spread")
    page.wait_for_selector(".pt-reader:not([hidden])")
    assert page.is_checked("input[name=pt-hand][value=S]")
    page.click(".pt-along-start button")
    page.keyboard.press("ArrowRight")
    assert page.inner_text(".along-where").startswith("2 of")
    page.go_back()
    page.wait_for_function("document.querySelector('.along-where').textContent.startsWith('1 of')")
    page.go_back()
    page.wait_for_selector(".along", state="detached")
    page.go_back()
    page.wait_for_selector("#second-loop")


def test_units_are_both_or_the_ones_chosen(open_page: OpenPage) -> None:
    page = open_page(TWO)
    assert "½ in (13 mm)" in shown(page, "stagger")
    page.check("input[name=pt-units][value=metric]")
    assert "½ in" not in shown(page, "stagger")
    assert "13 mm" in shown(page, "stagger")
    assert page.locator("#stagger ~ .pt-figure text:visible", has_text="13 mm").count() == 1
    assert page.locator("#stagger ~ .pt-figure text:visible", has_text="1/2 in").count() == 0
    page.check("input[name=pt-units][value='']")
    assert "½ in (13 mm)" in shown(page, "stagger")


def test_own_numbers_take_the_place_of_the_general_ones(open_page: OpenPage) -> None:
    page = open_page(TWO)
    assert "the cut length of your bench sheet" in shown(page, "cut")
    give_own(page)
    assert "Cut 14 strands to 70 3/8 in (1788 mm)" in shown(page, "cut")
    page.check("input[name=pt-units][value=inch]")
    assert "1788 mm" not in shown(page, "cut")


def test_without_scripts_the_z_string_and_both_units_are_there(browser: Browser, site_url: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(site_url + TWO)
    told = shown(page, "roll")
    assert "away from you" in told
    assert "½ in (13 mm)" in shown(page, "stagger")
    assert not page.locator(".pt-along-start").is_visible()
    page.goto(site_url + "guides/faults/")
    page.click("#loop-slips ~ details summary")
    assert page.locator("#loop-slips ~ details p").first.is_visible()
    context.close()


def test_a_figure_that_can_move_is_still_until_asked(browser: Browser, site_url: str) -> None:
    context = browser.new_context(reduced_motion="no-preference")
    page = context.new_page()
    page.goto(site_url + TWO)
    figure = page.locator("#roll ~ .pt-figure")
    figure.locator(".pt-motion").wait_for()
    running = "figure => figure.getAnimations({ subtree: true }).filter(each => each.playState === 'running').length"
    frames = len(re.findall("d-frame", svg(drawn("two-bundle-roll"), prefix="p")))
    assert figure.locator(".d-frame").count() == 1
    assert figure.evaluate(running) == 0
    figure.locator(".pt-motion").click()
    figure.locator(".d-f0").wait_for(state="attached")
    page.wait_for_function(f"figure => ({running})(figure) === {frames}", arg=figure.element_handle())
    figure.locator(".pt-motion").click()
    assert figure.evaluate(running) == 0
    page.set_viewport_size({"width": 390, "height": 844})
    page.click(".pt-along-start button")
    for _ in range(7):
        page.click(".along-next")
    figure = page.locator(".along-picture .pt-figure")
    page.wait_for_function(f"figure => ({running})(figure) > 1", arg=figure.element_handle())
    button, sentence = (page.locator(f".along {each}").bounding_box() for each in (".pt-motion", ".along-say"))
    assert button
    assert sentence
    assert button["y"] + button["height"] <= sentence["y"] + 1
    page.emulate_media(reduced_motion="reduce")
    page.reload()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    assert page.locator(".pt-motion").count() == 0
    context.close()


def test_the_other_hand_and_motion_come_when_they_are_asked_for(open_page: OpenPage) -> None:
    page = open_page(TWO)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    page.emulate_media(reduced_motion="no-preference")
    page.reload()
    figure = page.locator("#ply ~ .pt-figure")
    figure.locator(".pt-motion").click()
    figure.locator("[data-hand=Z] .d-f0").wait_for(state="attached")
    page.check("input[name=pt-hand][value=S]")
    figure.locator("[data-hand=S] .d-f0").wait_for(state="attached")
    assert [each for each in asked if each.startswith("two-bundle-")] == [
        "two-bundle-Z-moving.js", "two-bundle-S.js", "two-bundle-S-moving.js",
    ]  # fmt: skip
    for name, place in (("two-bundle-ply", figure), ("barber-pole", page.locator("[data-figure=barber-pole]"))):
        prefix = place.locator("[data-hand=S] svg title").get_attribute("id") or ""
        other = svg(drawn(name, hand="S"), prefix=prefix.removesuffix("-title"))
        ways = "all => all.map(each => each.getAttribute('d'))"
        assert place.locator("[data-hand=S] svg path").evaluate_all(ways) == re.findall(
            r'<path [^>]*d="([^"]*)"', other
        )
        assert place.locator("[data-hand=S]").is_visible()
    ids = page.eval_on_selector_all("article [id]", "all => all.map(each => each.id)")
    assert len(ids) == len(set(ids))
    page.reload()
    page.wait_for_function(
        "![...document.querySelectorAll('[data-hand=S]')].some(each => each.querySelector('svg:empty'))"
    )


def test_where_the_other_hand_cannot_come_its_place_says_so_and_fills_later(browser: Browser, site_url: str) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.route("**/two-bundle-S.js", lambda route: route.abort())
    page.goto(site_url + TWO)
    room = page.locator("[data-figure=barber-pole] [data-hand=S]")
    page.check("input[name=pt-hand][value=S]")
    room.filter(has_text="not on this device yet").wait_for()
    assert not page.locator("[data-figure=barber-pole] [data-hand=Z]").is_visible()
    page.unroute("**/two-bundle-S.js")
    page.evaluate("dispatchEvent(new Event('online'))")
    room.locator("svg").wait_for()
    assert "not on this device" not in room.inner_text()
    context.close()


def test_a_timer_survives_a_reload(open_page: OpenPage) -> None:
    page = open_page("guides/settle/")
    timer = page.locator(".pt-timer").first
    assert "1 h left" not in timer.inner_text()
    timer.locator("button").click()
    assert "1 h left of 1 h" in timer.inner_text()
    page.reload()
    page.wait_for_selector(".pt-timer:not([hidden])")
    assert "left of 1 h" in timer.inner_text()
    page.evaluate(
        "localStorage.setItem('plied-true:timer:settle/hang', JSON.stringify(String(Date.now() - 5 * 60000)))"
    )
    page.reload()
    page.wait_for_selector(".pt-timer.done")
    assert "1 h are over, since 5 min" in timer.inner_text()
    timer.locator("button").click()
    assert "Start 1 h" in timer.inner_text()


def test_all_works_where_nothing_can_be_kept(open_page: OpenPage, site_url: str) -> None:
    page = open_page()
    page.add_init_script(
        "for (const name of ['getItem', 'setItem', 'removeItem']) { const old = Storage.prototype[name];"
        " Storage.prototype[name] = function (key, ...more) {"
        " if (key.startsWith('plied-true')) throw new DOMException('full', 'QuotaExceededError');"
        " return old.call(this, key, ...more); }; }"
    )
    page.goto(site_url + TWO)
    page.check("input[name=pt-hand][value=S]")
    page.click(".pt-along-start button")
    page.click(".along-next")
    assert page.inner_text(".along-where").startswith("2 of")


def test_what_was_kept_wrongly_does_no_harm(open_page: OpenPage) -> None:
    page = open_page(TWO)
    for kept in ("", "{", "[]", '"x"', '{"values": 3}', '{"values": {"cut_length": "<b>1</b>"}}'):
        page.evaluate(
            "kept => { localStorage.clear(); for (const key of ['own', 'hand', 'units', 'along:two-bundle'])"
            " localStorage.setItem('plied-true:' + key, kept); }",
            kept,
        )
        page.goto(page.url.partition("#")[0])
        page.reload()
        page.click(".pt-along-start button")
        assert page.inner_text(".along-where").startswith("1 of"), kept
        assert page.locator(".pt-own b").count() == 0, kept


def test_the_kit_list_follows_the_number_of_makers(open_page: OpenPage) -> None:
    page = open_page("guides/club-afternoon/")
    row = page.locator(".pt-kit tr", has_text="clips")
    wax = page.locator(".pt-kit tr", has_text="block of beeswax")
    for makers in (1, 8, 13):
        page.fill("#pt-makers", str(makers))
        assert row.locator(".pt-count").inner_text() == str(needed(makers, each=2))
        assert wax.locator(".pt-count").inner_text() == str(needed(makers, per=2))
    page.fill("#pt-makers", "many")
    assert page.get_attribute("#pt-makers", "aria-invalid") == "true"
    assert row.locator(".pt-count").inner_text() == str(needed(13, each=2))


@pytest.mark.parametrize("guide", ["two-bundle", "faults", "club-afternoon", "choose-cord"])
def test_no_guide_is_wider_than_its_window(open_page: OpenPage, shots: Path, guide: str) -> None:
    page = open_page(f"guides/{guide}/")
    for width in (320, 390, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        if width != 320:
            page.screenshot(path=shots / f"guide-{guide}-{width}.png")


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("guide", ["two-bundle", "faults", "club-afternoon", "settle"])
def test_axe_finds_nothing_in_a_guide(open_page: OpenPage, guide: str, *, dark: bool) -> None:
    page = open_page(f"guides/{guide}/", width=390, dark=dark)
    page.wait_for_selector("html[data-hand]")
    page.evaluate((packages.fetch("axe-core") / "axe.min.js").read_text(encoding="utf-8"))
    seek = "async where => (await axe.run(where)).violations.map(v => [v.id, v.nodes[0].html])"
    assert page.evaluate(seek, "article") == []
    if guide == "two-bundle":
        page.click(".pt-along-start button")
        for _ in range(9):
            page.click(".along-next")
        assert page.evaluate(seek, ".along") == []


def test_paper_has_no_controls_and_every_case(open_page: OpenPage, shots: Path) -> None:
    page = open_page("guides/faults/")
    page.emulate_media(media="print")
    assert not page.locator(".pt-reader").is_visible()
    page.goto(page.url.replace("faults", "two-bundle"))
    (shots / "two-bundle.pdf").write_bytes(page.pdf(format="A4"))
    assert (shots / "two-bundle.pdf").stat().st_size > 10_000


PAGES = {"two-bundle": 5, "faults": 9, "club-afternoon": 4}
"""A4 pages of the longest guides; every other takes three at most."""


@pytest.mark.parametrize("guide", sorted(each.stem for each in (DOCS / "guides").glob("*.md") if each.stem != "index"))
def test_a_guide_takes_few_pages_and_none_is_cut_off(open_page: OpenPage, tmp_path: Path, guide: str) -> None:
    page = open_page(f"guides/{guide}/")
    page.wait_for_selector("html[data-hand]")
    page.pdf(path=tmp_path / "guide.pdf", format="A4", prefer_css_page_size=False)
    pictures = [each.render(scale=1.0).to_pil().convert("L") for each in pypdfium2.PdfDocument(tmp_path / "guide.pdf")]
    assert len(pictures) <= PAGES.get(guide, 3)
    for picture in pictures:
        wide, _ = picture.size
        assert picture.getextrema()[0] < 128, "no page is empty"
        assert picture.crop((wide - 14, 0, *picture.size)).getextrema()[0] > 128, "nothing runs over the right edge"


def test_words_for_single_cords_stand_only_where_a_bundle_is_one(open_page: OpenPage) -> None:
    page = open_page("guides/two-bundle/")
    page.wait_for_selector("html[data-hand]")
    single, many = page.locator(".pt-step[data-step=cut] .pt-single"), page.locator(".pt-step[data-step=cut] .pt-many")
    assert {each.is_visible() for each in single.all()} == {False}
    assert {each.is_visible() for each in many.all()} == {True}
    page.evaluate("document.documentElement.toggleAttribute('data-single', true)")
    assert {each.is_visible() for each in single.all()} == {True}
    assert {each.is_visible() for each in many.all()} == {False}
