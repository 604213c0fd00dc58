"""A reader changes the bow and reads the new answer; Python in the page says what this machine's own Python says."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, cast

import pytest

from calc import bridge
from calc.worksheets import catalogue
from calc.worksheets.core import usual
from site_build.pages.slots import filled
from site_build.setup.paths import WEB
from tests.browser.sheets import ADDRESS, PYTHON_MS, Sheet, asked, working

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
UNITS = (WEB / "worksheet/fill.js").read_text(encoding="utf-8").split("const UNITS =")[1].split("'")[1]


@pytest.mark.parametrize("width", [390, 1280])
def test_a_reader_changes_the_bow_and_reads_the_new_answer(open_page: OpenPage, shots: Path, width: int) -> None:
    page = open_page(ADDRESS, width=width, height=844)
    sheet = Sheet(page)
    before = sheet.headlines
    assert before == [line["text"] for line in asked({})["outcome"]["headlines"]]
    sheet.control("nock_to_nock").fill("60 1/2 in")
    sheet.control("nock_to_nock").press("Tab")
    sheet.settled()
    expected = asked({"nock_to_nock": "60 1/2 in"})["outcome"]
    assert sheet.headlines == [line["text"] for line in expected["headlines"]] != before
    assert sheet.rows == working(expected)
    assert sheet.overflow() <= 0
    sheet.choose("bundles", "3")
    sheet.settled()
    assert sheet.rows == working(asked({"nock_to_nock": "60 1/2 in", "bundles": "3"})["outcome"])
    page.screenshot(path=shots / f"answer-{width}.png")
    page.screenshot(path=shots / f"answer-{width}-whole.png", full_page=True)


def every_ask() -> Iterator[dict[str, Any]]:
    """Ask for every example: the answer with tables and files, its other units, its link, lines of a list."""
    for key, worksheet in catalogue().items():
        for example in worksheet.examples:
            inputs = usual(worksheet, example.inputs)
            for system, other in (("inch", "metric"), ("metric", "inch")):
                told = {"system": system, "inputs": inputs}
                yield {"worksheet": key, **told}
                yield {"convert": key, "to": other, "inputs": inputs}
                yield {"share": key, **told}
                reply = json.loads(bridge.handle(json.dumps({"v": 1, "id": 0, "share": key, **told})))
                if reply["ok"]:
                    yield {"open": reply["fragment"], "system": other}
                if worksheet.parts:
                    yield {"part": key, **told, "from": 0, "to": 5}
                    yield {"line": key, **told, "at": 1}


def test_every_example_is_answered_alike_in_the_page_and_on_this_machine(open_page: OpenPage) -> None:
    page = open_page(ADDRESS)
    asks = list(every_ask())
    assert {"worksheet", "convert", "share", "open", "part", "line"} == {next(iter(ask)) for ask in asks}
    script = """async (asks) => {
      const { Client } = await import('/source/worker/client.js');
      const client = new Client(new URL('/assets/web/worker.js', location));
      const replies = [];
      for (const ask of asks) replies.push(await client.ask('example', ask));
      return replies;
    }"""
    page.set_default_timeout(2 * PYTHON_MS)
    replies = cast("list[dict[str, Any]]", page.evaluate(script, asks))
    for number, (ask, reply) in enumerate(zip(asks, replies, strict=True), start=1):
        assert reply == json.loads(bridge.handle(json.dumps({"v": 1, "id": number, **ask})))


def test_what_the_script_writes_is_what_the_build_wrote(open_page: OpenPage) -> None:
    page = open_page(ADDRESS)
    parts = [".headlines", ".cautions", ".figures", ".notes", ".left-out", ".working", ".strip"]
    page.evaluate("parts => window.built = parts.map(part => document.querySelector(part).cloneNode(true))", parts)
    page.evaluate("document.querySelectorAll('.said, .value, figure').forEach(each => each.textContent = 'gone')")
    sheet = Sheet(page)
    sheet.press()
    sheet.settled()
    same = """parts => parts.map((part, index) => {
      const [now, built] = [document.querySelector(part), window.built[index]];
      now.hidden = built.hidden = false;
      for (const each of [now, built]) { // the theme writes addresses out
        for (const link of each.querySelectorAll('.narrow')) link.removeAttribute('href');
      }
      return [part, now.isEqualNode(built)];
    })"""
    assert page.evaluate(same, parts) == [[part, True] for part in parts]


_PARTED = """(sheet, units) => [...sheet.querySelectorAll('[data-said]')].flatMap(slot => {
  const words = document.createTreeWalker(slot, NodeFilter.SHOW_TEXT);
  const signs = [];
  while (words.nextNode()) signs.push(...[...words.currentNode.data].map((sign, at) => [sign, words.currentNode, at]));
  const box = ([, node, at]) => {
    const range = document.createRange();
    range.setStart(node, at);
    range.setEnd(node, at + 1);
    return range.getBoundingClientRect();
  };
  const text = signs.map(([sign]) => sign).join('');
  return [...text.matchAll(new RegExp(`[0-9] (?:${units})(?!\\\\w)`, 'g'))].filter(found => {
    const [first, last] = [signs[found.index], signs[found.index + found[0].length - 1]].map(box);
    return last.height > 0 && first.bottom <= last.top;
  }).map(found => text.slice(Math.max(0, found.index - 20), found.index + 20));
})"""


@pytest.mark.parametrize("key", list(catalogue()))
def test_no_number_parts_from_its_unit_at_a_line_end(open_page: OpenPage, key: str) -> None:
    page = open_page(f"worksheets/{key}/", width=390, height=844, natively=True)
    sheet = Sheet(page, key)
    sheet.find("details.steps summary").click()
    for system in ("inch", "metric"):
        if system == "metric":
            sheet.choose("system", system)
            sheet.settled()
        for width in (390, 320):
            page.set_viewport_size({"width": width, "height": 844})
            assert sheet.element.evaluate(_PARTED, UNITS) == []


def test_slots_are_filled_alike_at_the_build_and_in_a_browser(open_page: OpenPage) -> None:
    """One script on two documents, with data that no worksheet has: signs of markup, empty texts, lists in lists."""
    template = (
        '<div><p data-text="a"></p><p data-text="none" hidden=""></p><p data-said="b"></p><p data-said="none"></p>'
        '<ol data-each="rows" data-where="role=x"><template><li data-set="data-k:k"><b data-text="k"></b> '
        '<i data-show="k=1"> is one </i><i data-show="k!=1">is not</i>'
        '<ul data-each="in"><template>- <u data-said="this"></u>;</template></ul></li></template></ol>'
        '<ol data-each="none"><template><li></li></template></ol><figure data-svg="svg"></figure>'
        '<ul data-each="grid"><template><li data-each="this"><template><b data-text="k"></b></template></li>'
        "</template></ul></div>"
    )
    data = {
        "a": '<img src=x> & "1/2"',
        "b": "10 1/2 in < 11 & 3/4; a1/2; 1/2/3; 5/8 in, 1/2 inch; 1 1/2 times, 1,592 mm, 40.0 °C & 3 inches, x2 in",
        "svg": '<svg viewBox="0 0 1 1"><title>a &lt; b</title></svg>',
        "grid": [[{"k": "one"}, {"k": "two"}], [{"k": "three"}]],
        "rows": [
            {"role": "x", "k": "1", "in": ["1/2", "5 <b>"]},
            {"role": "y", "k": "2", "in": []},
            {"role": "x", "k": "3", "in": []},
        ],
    }
    (full,) = filled([(template, data)])
    page = open_page()
    script = """async ([empty, full, data]) => {
      const { fill } = await import('/source/worksheet/fill.js');
      const parsed = (html) => Object.assign(document.createElement('div'), { innerHTML: html });
      const [made, built] = [parsed(empty), parsed(full)];
      for (const turn of [1, 2]) {
        fill(made, data);
        if (!made.isEqualNode(built)) return [made.innerHTML, built.innerHTML];
      }
      return built.innerHTML;
    }"""
    assert page.evaluate(script, [template, full, data]) == page.evaluate(
        "html => Object.assign(document.createElement('div'), { innerHTML: html }).innerHTML", full
    )


def test_changes_of_units_leave_everything_as_it_was(open_page: OpenPage, share: int) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "66 5/16 in")
    sheet.settled()
    sheet.find("input[name='tip_lower-shape'][value='flat']").check()
    sheet.type("tip_lower", "5/8 in × 3/8 in")
    sheet.settled()
    read = "form => [...new FormData(form)].map(pair => pair.join('='))"
    form = page.locator("#string-form")
    typed, answers = form.evaluate(read), sheet.rows
    shown = {"inch": [typed, answers], "metric": None}
    for turn in range(100 // share):
        system = ("metric", "inch")[turn % 2]
        sheet.choose("system", system)
        page.wait_for_selector(f"#string[data-state='new'][data-system='{system}']")
        now = [form.evaluate(read), sheet.rows]
        assert shown[system] in (None, now)
        shown[system] = now
    assert shown["metric"] != shown["inch"]
    assert page.locator("label[for='string-nock_to_nock']").inner_text() == "Nock to nock (in)"


def test_units_change_the_texts_the_labels_and_the_keypad(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    sheet.choose("system", "metric")
    sheet.settled()
    assert sheet.control("nock_to_nock").input_value() == "1676.4 mm"
    assert page.locator("label[for='string-nock_to_nock']").inner_text() == "Nock to nock (mm)"
    assert sheet.control("nock_to_nock").get_attribute("inputmode") == "decimal"
    assert sheet.headlines[0].split(" ")[1] == "mm"
    sheet.type("nock_to_nock", "1600")
    sheet.settled()
    ask = {"v": 1, "id": 1, "convert": "string", "to": "metric", "inputs": usual(catalogue()["string"])}
    inputs = json.loads(bridge.handle(json.dumps(ask)))["inputs"]
    assert sheet.rows == working(asked({**inputs, "nock_to_nock": "1600 mm"}, "metric")["outcome"])


def test_a_tip_may_be_chosen_and_sized_or_typed_whole(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    sheet = Sheet(page)
    sheet.find("input[name='tip_upper-shape'][value='flat']").check()
    sheet.type("tip_upper", "5/8 x 3/8 in")
    sheet.settled()
    chosen = sheet.rows
    assert chosen == working(asked({"tip_upper": "flat 5/8 x 3/8 in"})["outcome"])
    sheet.find("input[name='tip_upper-shape'][value='pipe']").check()
    sheet.type("tip_upper", "flat 5/8 x 3/8 in")
    sheet.settled()
    assert sheet.rows == chosen
    sheet.type("tip_upper", "")
    sheet.settled()
    assert sheet.rows == working(asked({"tip_upper": "not known"})["outcome"]) != chosen
