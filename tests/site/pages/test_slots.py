"""The slots of a page, filled at the build by the page's own script; a browser test fills them in Chromium as well."""

from __future__ import annotations

from typing import Any

import pytest

from calc.units.tables import STYLES, with_unit
from site_build.pages.slots import filled
from site_build.setup.paths import WEB

pytestmark = pytest.mark.exact
UNITS = (WEB / "worksheet/fill.js").read_text(encoding="utf-8").split("const UNITS =")[1].split("'")[1]
LIST = '<ul data-each="rows"><template><li data-text="name"></li></template>'
STEPS = '<ul data-each="rows" data-where="role=step"'
STEPS_ITEM = '><template><li data-text="name"></li></template>'
ROWS = [{"role": "result", "name": "one"}, {"role": "step", "name": "two"}]
INNER = '<b data-each="b"><template><i data-text="this"></i>,</template>'
OUTER = f'<div data-each="a"><template>({INNER}</b>)</template>'
SVG = '<svg viewBox="0 0 1 1"><title>a &amp; b &lt; c &amp;lt;</title></svg>'


def fraction(whole: str, above: int, below: int, unit: str = "") -> str:
    return f'<span class="fraction">{whole}<sup>{above}</sup>\u2044<sub>{below}</sub>{unit}</span>'


def amount(text: str) -> str:
    return f'<span class="amount">{text}</span>'


SAID = {
    "62 in": amount("62 in"),
    "a 62": "a 62",
    "about 1,592 mm and 50.9 m/s": f"about {amount('1,592 mm')} and {amount('50.9 m/s')}",
    "12 strands: 3.67 times, 2 ways": f"{amount('12 strands')}: {amount('3.67 times')}, 2 ways",
    "0.4 turns/in, 5 inches": f"{amount('0.4 turns/in')}, 5 inches",
    "1 1/2 times, 20 °C": f"{fraction('1 ', 1, 2, ' times')}, {amount('20 °C')}",
    "1/2 in": fraction("", 1, 2, " in"),
    "62 11/16 in": fraction("62 ", 11, 16, " in"),
    "5 3/8 in to 7 1/2": f"{fraction('5 ', 3, 8, ' in')} to {fraction('7 ', 1, 2)}",
    "m/kg, A1/2": "m/kg, A1/2",
    "1/2 & <b>": f"{fraction('', 1, 2)} &amp; &lt;b&gt;",
}
CASES: dict[str, tuple[str, Any, str]] = {
    "a text is escaped": (
        '<p data-text="a"></p>',
        {"a": "1 < 2 & <i>"},
        '<p data-text="a">1 &lt; 2 &amp; &lt;i&gt;</p>',
    ),
    "an empty text hides its element": ('<p data-text="a">old</p>', {"a": ""}, '<p hidden data-text="a"></p>'),
    "a path that leads nowhere is empty": ('<p data-text="a.b.7"></p>', {"a": []}, '<p hidden data-text="a.b.7"></p>'),
    "a text shows what was hidden": ('<p data-text="a" hidden></p>', {"a": "b"}, '<p data-text="a">b</p>'),
    "each item gets a copy and the template stays": (
        f"{LIST}</ul>",
        {"rows": [{"name": "one"}, {"name": "two"}]},
        f'{LIST}<li data-text="name">one</li><li data-text="name">two</li></ul>',
    ),
    "only items that hold are copied": (
        f"{STEPS}{STEPS_ITEM}</ul>",
        {"rows": ROWS},
        f'{STEPS}{STEPS_ITEM}<li data-text="name">two</li></ul>',
    ),
    "a list without items is hidden": (
        f"{STEPS}{STEPS_ITEM}</ul>",
        {"rows": ROWS[:1]},
        f"<ul hidden{STEPS.removeprefix('<ul')}{STEPS_ITEM}</ul>",
    ),
    "lists stand in lists and text round them is kept": (
        f"{OUTER}</div>",
        {"a": [{"b": ["x", "y"]}]},
        f'{OUTER}({INNER}<i data-text="this">x</i>,<i data-text="this">y</i>,</b>)</div>',
    ),
    "shown where its condition holds": ('<p data-show="k=a"></p>', {"k": "a"}, '<p data-show="k=a"></p>'),
    "hidden where its condition fails": ('<p data-show="k=b"></p>', {"k": "a"}, '<p hidden data-show="k=b"></p>'),
    "hidden where what it denies holds": ('<p data-show="k!=a"></p>', {"k": "a"}, '<p hidden data-show="k!=a"></p>'),
    "shown where what it denies fails": ('<p data-show="k!=b"></p>', {"k": "a"}, '<p data-show="k!=b"></p>'),
    "an attribute is set": (
        '<p data-set="data-row:key"></p>',
        {"key": 'a"b'},
        '<p data-row="a&quot;b" data-set="data-row:key"></p>',
    ),
    "a drawing goes in as it is": ('<i data-svg="svg"></i>', {"svg": SVG}, f'<i data-svg="svg">{SVG}</i>'),
    **{f"said: {a}": ('<p data-said="a"></p>', {"a": a}, f'<p data-said="a">{html}</p>') for a, html in SAID.items()},
}


@pytest.fixture(scope="module")
def made() -> dict[str, str]:
    """Return what comes of every case; one start of Node does for all."""
    return dict(zip(CASES, filled((template, data) for template, data, _ in CASES.values()), strict=True))


@pytest.mark.parametrize("name", CASES)
def test_slots_are_filled(name: str, made: dict[str, str]) -> None:
    assert made[name] == CASES[name][2]


def test_every_unit_that_is_shown_after_a_space_stays_with_its_number() -> None:
    kept = UNITS.split("|")
    shown = {style.unit for each in STYLES.values() for style in each.values()}
    assert {unit for unit in shown if " " in with_unit("1", unit)} <= {*kept}
    assert sorted(kept, key=len, reverse=True) == kept
