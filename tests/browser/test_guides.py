"""Guides as a reader has them: hand, units, own numbers, making along, timers, faults, the kit list, paper."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pytest

from calc.draw import svg
from calc.draw.figures import figure as drawn
from site_build import packages
from site_build.guide_club import needed
from site_build.guide_texts import DOCS, load

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


@pytest.mark.parametrize(("width", "height"), [(390, 844), (320, 568), (844, 390)])
def test_making_along_fits_the_screen(open_page: OpenPage, shots: Path, width: int, height: int) -> None:
    page = open_page(TWO, width=width, height=height)
    give_own(page)
    page.click(".pt-along-start button")
    for step in range(STEPS):
        assert page.inner_text(".along-where") == f"{step + 1} of {STEPS}"
        box = page.locator(".along-next").bounding_box()
        assert box
        assert box["width"] * box["height"] >= 0.14 * width * height
        assert page.evaluate("document.querySelector('.along-upper').scrollWidth") <= width
        if step in {6, 8, 10}:
            page.screenshot(path=shots / f"along-{width}-{step + 1}.png")
        page.click(".along-next")
    assert page.locator(".along").count() == 0


def test_the_figure_has_most_of_the_room_and_comes_back_to_its_step(open_page: OpenPage) -> None:
    page = open_page(TWO, width=390, height=844)
    figures = page.locator(".pt-step .pt-figure").count()
    page.click(".pt-along-start button")
    page.wait_for_selector(".along-picture svg")
    assert page.locator(".pt-step .pt-figure").count() == figures - 1
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowLeft")
    page.wait_for_function("document.querySelector('.along-where').textContent.startsWith('2 of')")
    assert "two equal bundles, A and B" in page.inner_text(".along-say")
    page.keyboard.press("Escape")
    page.wait_for_selector(".along", state="detached")
    assert page.locator(".pt-step .pt-figure").count() == figures
    assert page.evaluate("document.activeElement.id") == "stagger"


_STEP = """anchor => {
  const step = document.querySelector(`.pt-step:has(#${anchor})`);
  const parts = [...step.querySelectorAll('.pt-caution, .pt-do, .pt-signs, .pt-note')]
    .filter(part => getComputedStyle(part).display !== 'none').map(part => {
    const copy = part.cloneNode(true);
    copy.querySelectorAll('.pt-from').forEach(mark => mark.remove());
    return copy.textContent.replace(/\\s+/g, ' ').trim();
  });
  return [step.querySelector('h3').innerText.replace(/^\\d+\\s*/, '').trim(), ...parts];
}"""


@pytest.mark.parametrize("guide", ["two-bundle", "three-bundle", "one-loop", "endless", "serve", "nocking-point"])
def test_the_whole_step_stands_there(open_page: OpenPage, guide: str) -> None:
    page = open_page(f"guides/{guide}/", width=390, height=844)
    steps = load(DOCS / "guides" / f"{guide}.md").of("step")
    wanted = [page.evaluate(_STEP, step.key) for step in steps]
    page.click(".pt-along-start button")
    scrolled = []
    for step, (title, *parts) in zip(steps, wanted, strict=True):
        assert page.inner_text(".along-now") == title
        said = " ".join(page.locator(".along-say").text_content().split())  # type: ignore[union-attr]
        for part in parts:
            assert part in said, step.key
        upper = page.locator(".along-upper")
        if upper.evaluate("each => each.scrollHeight > each.clientHeight"):
            scrolled.append(step.key)
        size = page.locator(".along-say").evaluate("each => parseFloat(getComputedStyle(each).fontSize)")
        assert size >= 14
        page.click(".along-next")
    assert len(scrolled) <= len(steps) // 4, f"the whole step fits without scrolling, but for {scrolled}"


def test_back_goes_one_step_back_by_button_key_and_browser(open_page: OpenPage) -> None:
    page = open_page(TWO, width=390, height=844)
    at = "number => document.querySelector('.along-where')?.textContent.startsWith(`${number} of`)"
    page.click(".pt-along-start button")
    for _ in range(4):
        page.click(".along-next")
    page.wait_for_function(at, arg=5)
    page.click(".along-back")
    page.wait_for_function(at, arg=4)
    page.keyboard.press("ArrowLeft")
    page.wait_for_function(at, arg=3)
    page.go_back()
    page.wait_for_function(at, arg=2)
    page.click(".along-next")
    page.wait_for_function(at, arg=3)
    page.reload()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    page.click(".pt-along-start button")
    page.wait_for_function(at, arg=3)
    page.go_back()
    page.wait_for_function(at, arg=2)
    page.click(".along-close")
    page.wait_for_selector(".along", state="detached")
    page.wait_for_function("!history.state?.along && !location.hash")


def test_half_turns_are_counted_as_half_turns(open_page: OpenPage) -> None:
    page = open_page(TWO, width=390, height=844)
    own = {"values": {"counter_twist_body": {"in": "2.5", "mm": "2.5"}}}
    page.evaluate("own => localStorage.setItem('plied-true:own', own)", json.dumps(own))
    page.evaluate("localStorage.setItem('plied-true:along:two-bundle', JSON.stringify({step: 'counter'}))")
    page.reload()
    page.click(".pt-along-start button")
    assert page.inner_text(".along-verdict") == "0 each, 2½ to go"
    for _ in range(3):
        page.locator(".along-tap").first.click()
        page.locator(".along-tap").last.click()
    assert page.inner_text(".along-verdict") == "Done: 2½ each"


def test_one_strand_a_bundle_has_its_own_words(open_page: OpenPage) -> None:
    page = open_page(TWO, width=390, height=844)
    own = {"values": {"strands": {"in": "2", "mm": "2"}, "cut_length": {"in": "80 in", "mm": "2032 mm"}}}
    page.evaluate("own => localStorage.setItem('plied-true:own', own)", json.dumps(own))
    page.reload()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    assert "behind the one before" not in shown(page, "stagger")
    assert "stair" not in shown(page, "stagger")
    assert not page.locator(".pt-step:has(#stagger) .pt-figure").is_visible()
    page.click(".pt-along-start button")
    said = []
    for _ in range(STEPS):
        said.append(page.inner_text(".along-upper"))
        page.click(".along-next")
    assert page.locator(".along").count() == 0
    told = " ".join(said)
    assert "behind the one before" not in told
    assert "1/2 in" not in told


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
    page.wait_for_function("![...document.querySelectorAll('[data-hand=S]')].some(each => each.matches(':empty'))")


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


def test_the_place_and_the_counts_are_remembered(open_page: OpenPage) -> None:
    page = open_page(TWO)
    give_own(page)
    page.click(".pt-along-start button")
    for _ in range(9):
        page.click(".along-next")
    assert page.inner_text(".along-verdict") == "0 each, 3 to go"
    page.keyboard.press("a")
    assert page.inner_text(".along-verdict") == "A is 1 ahead of B"
    for key in "aa":
        page.keyboard.press(key)
    assert page.get_attribute(".along-verdict", "data-state") == "apart"
    page.locator(".along-tap").nth(1).click()
    page.reload()
    page.wait_for_selector(".pt-along-start:not([hidden])")
    assert page.inner_text(".pt-along-start button") == "Make along: go on at step 10"
    page.click(".pt-along-start button")
    assert page.inner_text(".along-verdict") == "A is 2 ahead of B"
    page.keyboard.press("b")
    page.keyboard.press("b")
    assert page.inner_text(".along-verdict") == "Done: 3 each"
    page.keyboard.press("a")
    page.keyboard.press("b")
    assert page.inner_text(".along-verdict") == "4 each, 1 too many"
    page.locator(".along-less").first.click()
    assert page.inner_text(".along-verdict") == "B is 1 ahead of A"


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


@pytest.mark.parametrize("kept", ["", "{", "[]", '"x"', '{"values": 3}', '{"values": {"cut_length": "<b>1</b>"}}'])
def test_what_was_kept_wrongly_does_no_harm(open_page: OpenPage, kept: str) -> None:
    page = open_page(TWO)
    page.evaluate(
        "kept => { for (const key of ['own', 'hand', 'units', 'along:two-bundle'])"
        " localStorage.setItem('plied-true:' + key, kept); }",
        kept,
    )
    page.reload()
    page.click(".pt-along-start button")
    assert page.inner_text(".along-where").startswith("1 of")
    assert page.locator(".pt-own b").count() == 0


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


@pytest.mark.parametrize("width", [320, 390, 1280])
@pytest.mark.parametrize("guide", ["two-bundle", "faults", "club-afternoon", "choose-cord"])
def test_no_guide_is_wider_than_its_window(open_page: OpenPage, shots: Path, guide: str, width: int) -> None:
    page = open_page(f"guides/{guide}/", width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    if width != 320:
        page.screenshot(path=shots / f"guide-{guide}-{width}.png")


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("guide", ["two-bundle", "faults", "club-afternoon", "settle"])
def test_axe_finds_nothing_in_a_guide(open_page: OpenPage, guide: str, *, dark: bool) -> None:
    page = open_page(f"guides/{guide}/", width=390, dark=dark)
    page.wait_for_selector("html[data-hand]")
    page.add_script_tag(path=packages.fetch("axe-core") / "axe.min.js")
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
