"""Whatever is typed, the browser's Python gives the answer or the sentence of this machine's, and never stops."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from calc import bridge, share
from tests.browser.messy import asks
from tests.browser.offline_pages import READY, ready
from tests.browser.sheets import ADDRESS, Sheet

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenPage, OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser
SEED, MANY, WITHOUT_SIGNAL = 2026, 2000, 200
AT_ONCE = 100
START = """async () => {
  const worker = new Worker('/assets/web/worker.js', { type: 'module' });
  const heard = [];
  let wake = () => {};
  const hear = (told) => { heard.push(told); wake(); };
  worker.onmessage = ({ data }) => hear(data);
  worker.onerror = ({ message }) => hear(JSON.stringify({ stopped: message }));
  window.next = async () => {
    while (!heard.length) await new Promise((settle) => { wake = settle; });
    return heard.shift();
  };
  window.answers = async (texts) => {
    const all = [];
    for (const text of texts) {
      worker.postMessage(text);
      for (;;) {
        const told = await next();
        const { ok, fault, stopped } = JSON.parse(told);
        if (stopped !== undefined) return [...all, told];
        if (ok === undefined && fault === undefined) continue;
        all.push(told);
        break;
      }
    }
    return all;
  };
  while (JSON.parse(await next()).stage !== 'ready');
}"""


def told(reply: str) -> Any:  # noqa: ANN401 - as JSON has it
    """Return what a reader is told: whether it is an answer, its words and numbers, or the sentences."""
    held = json.loads(reply)
    outcome = held.get("outcome")
    if outcome is None:
        return held
    rows = [(row["key"], row["shown"], row["range"]) for row in outcome["rows"]]
    return outcome["headlines"], outcome["cautions"], outcome["tables"], rows


def held_against_this_machine(page: Page, texts: list[str]) -> None:
    """Have the browser answer, and this machine; no answer may differ, none be a fault, and nothing may stop."""
    page.evaluate(START)
    for start in range(0, len(texts), AT_ONCE):
        given = texts[start : start + AT_ONCE]
        replies = page.evaluate("(texts) => window.answers(texts)", given)
        for text, reply in zip(given, replies, strict=False):
            assert "stopped" not in reply[:20], text
            assert "fault" not in json.loads(reply), (text, reply)
            assert told(reply) == told(bridge.handle(text)), text
        assert len(replies) == len(given)


def test_two_thousand_messy_inputs_are_answered_as_here(open_page: OpenPage) -> None:
    held_against_this_machine(open_page("guides/"), asks(SEED, MANY))


def test_two_hundred_are_answered_without_signal_and_so_are_some_typed_into_the_page(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    ready(page, plain_host, words=READY)
    plain_host.signal = False
    page.goto(plain_host.address + ADDRESS)
    held_against_this_machine(page, asks(SEED + 1, WITHOUT_SIGNAL))
    sheet = Sheet(page)
    for length, state in (("1.575,5 mm", "new"), ("١٥٧٥ mm", "new"), ("9" * 400, "old"), ("62½ in", "new")):
        sheet.type("nock_to_nock", length)
        sheet.settled(state)
        assert sheet.find(".fault").is_hidden()


def test_a_link_with_a_field_of_a_later_version_is_opened_with_a_sentence(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    head, pairs = "v1/string", [("hum", "7"), ("nock", "61in")]
    fragment = f"{head}?hum=7&nock=61in&end={share._check(head, pairs)}"  # noqa: SLF001 - as a later version writes it
    page.goto(f"{plain_host.address}{ADDRESS}#{fragment}")
    sheet = Sheet(page).settled()
    assert "Left out: hum" in sheet.find(".sent").inner_text(), "said above the answer"
    assert sheet.find(".fault").is_hidden()


def test_a_list_too_long_for_a_link_gets_a_sentence(open_page: OpenPage) -> None:
    page = open_page("worksheets/club/")
    sheet = Sheet(page, "club")
    line = "A bow of the club; 62; 35; 26; 6 1/2; green\n"
    page.evaluate("(text) => { document.querySelector('#club-bows').value += text; }", line * 5000)
    sheet.find(".copy").click()
    page.wait_for_function("document.querySelector('#club .passed').textContent")
    assert "too long for a link" in sheet.find(".passed").inner_text()
