"""Hear the pull: the page plays a note and hears one, and the sheet takes it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.browser.sheets import Sheet

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
ADDRESS = "worksheets/note/"
STRING = """() => {
window.asked = [];
navigator.mediaDevices.getUserMedia = async (wanted) => {
  window.asked.push(wanted);
  const sound = new AudioContext();
  await sound.resume();
  const parts = Float32Array.from({length: 16}, (_, k) => k % 2 ? (k % 4 === 1 ? 1 : -1) / k ** 2 : 0);
  const tone = new OscillatorNode(sound, {frequency: 97.4});
  tone.setPeriodicWave(sound.createPeriodicWave(new Float32Array(16), parts));
  const out = sound.createMediaStreamDestination();
  tone.connect(out);
  tone.start();
  window.stream = out.stream;
  return out.stream;
};
}"""
REFUSES = """() => {
navigator.mediaDevices.getUserMedia = async () => { throw new DOMException('not allowed', 'NotAllowedError'); };
}"""


def tuner(page: Page) -> None:
    page.wait_for_selector(".pt-tuner:not([hidden])")


def test_a_note_is_played_set_and_used(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    tuner(page)
    assert page.locator(".pt-tuner .tone").inner_text() == "102.0 Hz"
    page.locator(".pt-tuner .play").click()
    page.wait_for_selector(".pt-tuner .play:has-text('Stop')")
    page.locator(".pt-tuner .lower").click()
    assert page.locator(".pt-tuner .tone").inner_text() == "101.5 Hz"
    page.locator(".pt-tuner .play").click()
    page.wait_for_selector(".pt-tuner .play:has-text('Play')")
    page.locator(".pt-tuner .take").click()
    Sheet(page, "note").settled()
    assert page.locator("#note-note_heard").input_value() == "101.5 Hz"
    page.locator(".pt-tuner .expected").click()
    assert re.fullmatch(r"10[01]\.\d Hz", page.locator(".pt-tuner .tone").inner_text())


def test_the_page_hears_a_string_and_lets_the_microphone_go(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    tuner(page)
    page.evaluate(STRING)
    page.locator(".pt-tuner .listen").click()
    page.locator(".pt-tuner .take-heard").click(timeout=20_000)
    Sheet(page, "note").settled()
    heard = float(page.locator("#note-note_heard").input_value().removesuffix(" Hz"))
    assert heard == pytest.approx(97.4, abs=0.3)
    page.locator(".pt-tuner .listen").click()
    assert page.evaluate("window.stream.getTracks().every(each => each.readyState === 'ended')")
    assert page.evaluate("window.asked[0].audio.noiseSuppression") is False


def test_without_a_microphone_the_slider_is_left(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    tuner(page)
    page.evaluate(REFUSES)
    page.locator(".pt-tuner .listen").click()
    page.wait_for_selector(".pt-tuner .said:has-text('Use the slider. not allowed')")
    assert page.locator(".pt-tuner .listen").inner_text() == "Listen"


def test_no_other_page_asks_for_its_script(browser: Browser, native_url: str) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{native_url}worksheets/tune/")
    page.wait_for_selector("[data-worksheet]")
    page.wait_for_timeout(500)
    assert not [each for each in asked if each.endswith("note.js")]
    page.goto(native_url + ADDRESS)
    tuner(page)
    assert [each for each in asked if each.endswith("note.js")]
    context.close()
