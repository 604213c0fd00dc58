"""The slots of a page, filled at the build. That the page script fills them alike is tested in a browser."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from calc.units.tables import STYLES, with_unit
from site_build.places import ROOT
from site_build.slots import UNITS, at, fill, to_html


def filled(template: str, data: object) -> str:
    root = ET.fromstring(template)  # noqa: S314 - the test's own text
    fill(root, data)
    return to_html(root)


def test_text_is_escaped_and_an_empty_text_hides_its_element() -> None:
    template = '<p><b data-text="said"/><i data-text="none">old</i></p>'
    assert filled(template, {"said": "1 < 2 & <img>", "none": ""}) == (
        '<p><b data-text="said">1 &lt; 2 &amp; &lt;img&gt;</b><i data-text="none" hidden=""></i></p>'
    )


def test_an_element_that_was_hidden_is_shown_when_it_has_text() -> None:
    assert filled('<p data-text="a" hidden=""/>', {"a": "b"}) == '<p data-text="a">b</p>'


def test_each_item_gets_a_copy_and_the_template_stays() -> None:
    template = '<ul data-each="rows"><template><li data-text="name"/></template></ul>'
    assert filled(template, {"rows": [{"name": "one"}, {"name": "two"}]}) == (
        '<ul data-each="rows"><template><li data-text="name"></li></template>'
        '<li data-text="name">one</li><li data-text="name">two</li></ul>'
    )


def test_only_items_that_hold_are_copied_and_an_empty_list_is_hidden() -> None:
    template = '<ul data-each="rows" data-where="role=step"><template><li data-text="name"/></template></ul>'
    rows = [{"role": "result", "name": "one"}, {"role": "step", "name": "two"}]
    assert "two</li>" in filled(template, {"rows": rows})
    assert "one" not in filled(template, {"rows": rows})
    assert 'hidden=""' in filled(template, {"rows": rows[:1]})
    assert 'hidden=""' in filled(template, {})


def test_lists_stand_in_lists_and_text_round_them_is_kept() -> None:
    inner = '<b data-each="b"><template><i data-text="this"/>,</template></b>'
    template = f'<div data-each="a"><template>({inner})</template></div>'
    html = filled(template, {"a": [{"b": ["x", "y"]}]})
    assert html.endswith('</template>(<b data-each="b"><template><i data-text="this"></i>,</template>'
                         '<i data-text="this">x</i>,<i data-text="this">y</i>,</b>)</div>')  # fmt: skip


@pytest.mark.parametrize(
    ("condition", "shown"), [("kind=a", True), ("kind=b", False), ("kind!=a", False), ("kind!=b", True)]
)
def test_an_element_is_shown_where_its_condition_holds(condition: str, shown: bool) -> None:  # noqa: FBT001 - a table
    assert ("hidden" not in filled(f'<p data-show="{condition}"/>', {"kind": "a"})) is shown


def test_an_attribute_is_set() -> None:
    assert filled('<p data-set="data-row:key"/>', {"key": 'a"b'}) == (
        '<p data-set="data-row:key" data-row="a&quot;b"></p>'
    )


def test_a_drawing_goes_in_as_it_is() -> None:
    svg = '<svg viewBox="0 0 1 1"><title>a &amp; b &lt; c &amp;lt;</title></svg>'
    assert filled('<figure data-svg="svg"/>', {"svg": svg}) == f'<figure data-svg="svg">{svg}</figure>'


def fraction(whole: str, above: int, below: int, unit: str = "") -> str:
    return f'<span class="fraction">{whole}<sup>{above}</sup>\u2044<sub>{below}</sub>{unit}</span>'


def amount(text: str) -> str:
    return f'<span class="amount">{text}</span>'


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("62 in", amount("62 in")),
        ("a 62", "a 62"),
        ("about 1,592 mm and 50.9 m/s", f"about {amount('1,592 mm')} and {amount('50.9 m/s')}"),
        ("12 strands: 3.67 times, 2 ways", f"{amount('12 strands')}: {amount('3.67 times')}, 2 ways"),
        ("0.4 turns/in, 5 inches", f"{amount('0.4 turns/in')}, 5 inches"),
        ("1 1/2 times, 20 °C", f"{fraction('1 ', 1, 2, ' times')}, {amount('20 °C')}"),
        ("1/2 in", fraction("", 1, 2, " in")),
        ("62 11/16 in", fraction("62 ", 11, 16, " in")),
        ("5 3/8 in to 7 1/2", f"{fraction('5 ', 3, 8, ' in')} to {fraction('7 ', 1, 2)}"),
        ("m/kg, A1/2", "m/kg, A1/2"),
        ("1/2 & <b>", f"{fraction('', 1, 2)} &amp; &lt;b&gt;"),
    ],
)
def test_fractions_are_set(text: str, html: str) -> None:
    assert filled('<p data-said="a"/>', {"a": text}) == f'<p data-said="a">{html}</p>'


def test_every_unit_that_is_shown_after_a_space_stays_with_its_number() -> None:
    kept = UNITS.split("|")
    shown = {style.unit for each in STYLES.values() for style in each.values()}
    assert {unit for unit in shown if " " in with_unit("1", unit)} <= {*kept}
    assert sorted(kept, key=len, reverse=True) == kept


def test_the_page_script_keeps_the_same_units() -> None:
    script = (ROOT / "site_build" / "web" / "fill.js").read_text(encoding="utf-8")
    assert f"const UNITS = '{UNITS}';" in script


def test_a_path_that_leads_nowhere_is_empty() -> None:
    for path in ("a.b.c", "rows.7.name", "rows.x"):
        assert at({"rows": [{"name": "one"}]}, path) == ""
