"""Making along: the whole step on the screen, back and forth, counts in halves, words for one strand a bundle."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from site_build.pages.guides.texts import load
from site_build.setup.paths import DOCS
from tests.browser.test_guides import STEPS, TWO, give_own, shown

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser


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
    assert page.inner_text(".along-whose") == "No plan yet"
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
    page.wait_for_function("!location.hash")


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


_VOICES = """
  window.spoken = [];
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  const far = { lang: 'en-GB', localService: false, name: 'far' };
  const voices = LOCAL ? [far, { lang: 'en-GB', localService: true, name: 'near' }] : [far];
  Object.defineProperty(window, 'speechSynthesis', { value: {
    getVoices: () => voices, addEventListener() {}, removeEventListener() {},
    cancel: () => window.spoken.push('stop'), speak: ({ text, voice }) => window.spoken.push(`${voice.name}: ${text}`),
  } });
"""


def test_a_step_is_read_aloud_on_request_by_a_voice_of_the_device(open_page: OpenPage) -> None:
    page = open_page("404.html", width=390, height=844)
    page.add_init_script(_VOICES.replace("LOCAL", "true"))
    page.goto(page.url.replace("404.html", TWO))
    page.click(".pt-along-start button")
    assert page.evaluate("spoken.filter(each => each !== 'stop')") == [], "only on request"
    page.click(".along-aloud")
    assert page.evaluate("spoken.at(-1)").startswith("near: Cut the strands. ")
    page.click(".along-next")
    said = page.evaluate("spoken.at(-1)")
    assert said.startswith("near: Step the ends and part the bundles. ")
    assert "½ inches" in said
    assert "mm" not in said, "only the reader's own units"
    page.click(".along-aloud")
    assert page.evaluate("spoken.at(-1)") == "stop"
    page.click(".along-next")
    assert page.evaluate("spoken.at(-1)") == "stop", "until it is asked for again"


def test_no_voice_that_sends_words_away_is_used(open_page: OpenPage) -> None:
    page = open_page("404.html", width=390, height=844)
    page.add_init_script(_VOICES.replace("LOCAL", "false"))
    page.goto(page.url.replace("404.html", TWO))
    page.click(".pt-along-start button")
    assert page.locator(".along-aloud").is_hidden()


def test_the_place_is_kept_through_a_call_and_a_closed_page(open_page: OpenPage) -> None:
    page = open_page(TWO, width=390, height=844)
    page.click(".pt-along-start button")
    for _ in range(3):
        page.click(".along-next")
    where = page.inner_text(".along-where")
    page.goto(page.url.partition("#")[0].replace(TWO, "404.html"))
    page.goto(page.url.replace("404.html", TWO))
    page.click(".pt-along-start button")
    assert page.inner_text(".along-where") == where
