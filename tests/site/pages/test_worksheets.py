"""Worksheets as HTML: every field asked and labelled, the usual example answered; blocks found and refused."""

from __future__ import annotations

import json
from html.parser import HTMLParser
from types import SimpleNamespace
from typing import Any

import pytest
from mkdocs.exceptions import PluginError

from calc import bridge
from calc.worksheets import catalogue
from site_build.pages import hooks, worksheets
from site_build.setup.paths import WEB

VOID = {"input", "br", "img", "link", "meta"}


class Element:
    """A node of a page, as far as these tests look."""

    def __init__(self, tag: str, attrs: dict[str, str], parent: Element | None) -> None:
        self.tag, self.attrs, self.parent = tag, attrs, parent
        self.children: list[Element | str] = []

    def all(self, tag: str = "", **attrs: str) -> list[Element]:
        """Return what stands below, in order, with this tag and these attributes."""
        found: list[Element] = []
        for child in self.children:
            if isinstance(child, Element):
                if tag in {"", child.tag} and all(child.attrs.get(k.replace("_", "-")) == v for k, v in attrs.items()):
                    found.append(child)
                found += child.all(tag, **attrs)
        return found

    @property
    def text(self) -> str:
        """All text below."""
        return "".join(child if isinstance(child, str) else child.text for child in self.children)


class Reader(HTMLParser):
    """Builds elements and fails on tags that do not close; leaves out what stands in templates."""

    def __init__(self) -> None:
        super().__init__()
        self.root = self.at = Element("", {}, None)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """As in the parent class."""
        child = Element(tag, {name: value or "" for name, value in attrs}, self.at)
        if tag != "template":
            self.at.children.append(child)
        if tag not in VOID:
            self.at = child

    def handle_endtag(self, tag: str) -> None:
        """As in the parent class."""
        assert self.at.tag == tag
        assert self.at.parent
        self.at = self.at.parent

    def handle_data(self, data: str) -> None:
        """As in the parent class."""
        self.at.children.append(data)


def page(html: str) -> Element:
    reader = Reader()
    reader.feed(html)
    reader.close()
    assert reader.at is reader.root
    return reader.root


@pytest.fixture(scope="module", params=sorted(catalogue()))
def key(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def told(key: str) -> dict[str, Any]:
    return bridge.describe(key, "inch")


@pytest.fixture(scope="module")
def sheet(key: str) -> Element:
    return page(worksheets.worksheet_html(key))


def fields(told: dict[str, Any]) -> list[dict[str, Any]]:
    return [field for group in told["groups"] for field in group["fields"]]


def outcome(key: str) -> dict[str, Any]:
    ask = {"v": 1, "id": 1, "worksheet": key, "system": "inch", "inputs": {}}
    ask["inputs"] = {field["key"]: field["example"] for field in fields(bridge.describe(key, "inch"))}
    found: dict[str, Any] = json.loads(bridge.handle(json.dumps(ask)))["outcome"]
    return found


def plain(text: str) -> str:
    """Return text with one sign for fractions, however they are set."""
    return text.replace("/", "\u2044")


def test_every_field_is_asked_once_the_first_three_before_the_answer(sheet: Element, told: dict[str, Any]) -> None:
    asked = [each.attrs["data-field"] for each in sheet.all() if "data-field" in each.attrs]
    keys = [field["key"] for field in fields(told)]
    (group,) = sheet.all("fieldset", **{"class": "group first"})
    first = [each.attrs["data-field"] for each in group.all() if "data-field" in each.attrs]
    assert first == [key for key in keys if key in first]
    assert 1 <= len(first) <= 3
    assert asked == [*first, *(key for key in keys if key not in first)]


def test_what_takes_a_tape_or_a_scale_is_asked_first(sheet: Element, told: dict[str, Any]) -> None:
    (group,) = sheet.all("fieldset", **{"class": "group first"})
    first = [each.attrs["data-field"] for each in group.all() if "data-field" in each.attrs]
    matters = (sheet.all("section", **{"class": "sheet"})[0].attrs["data-matters"]).split()
    measured = [field["key"] for field in fields(told) if field["kind"] != "choice"]
    strongest = [key for key in matters if key in measured][:3]
    assert set(strongest) <= set(first) or len(strongest) > len(first)


def test_every_control_has_a_visible_label_and_a_hint(sheet: Element) -> None:
    ids = {each.attrs["id"]: each for each in sheet.all() if "id" in each.attrs}
    for control in [*sheet.all("input", type="text"), *sheet.all("select")]:
        labels = sheet.all("label", **{"for": control.attrs["id"]})
        assert [label.text.strip() != "" for label in labels] == [True]
        for name in control.attrs["aria-describedby"].split():
            assert ids[name].text.strip()
    for radio in sheet.all("input", type="radio"):
        assert radio.parent
        assert radio.parent.tag == "label"
        assert radio.parent.text.strip()


def test_groups_of_radios_have_a_legend_first(sheet: Element) -> None:
    for group in sheet.all("fieldset"):
        first = next(child for child in group.children if isinstance(child, Element))
        assert first.tag == "legend"
        assert first.text.strip()


def test_two_to_five_answers_are_radios_and_more_a_list(sheet: Element, told: dict[str, Any]) -> None:
    for field in [field for field in fields(told) if field["kind"] == "choice"]:
        radios = sheet.all("input", type="radio", name=field["key"])
        options = [option for select in sheet.all("select", name=field["key"]) for option in select.all("option")]
        given = radios if len(field["options"]) <= 5 else options
        assert [each.attrs["value"] for each in given] == [option["value"] for option in field["options"]]
        assert len(radios) + len(options) == len(field["options"])
        chosen = [each.attrs["value"] for each in given if {"checked", "selected"} & each.attrs.keys()]
        assert chosen == [field["example"]]


def test_numbers_are_typed_as_text_and_nothing_is_forced_by_the_browser(sheet: Element) -> None:
    for control in sheet.all("input"):
        assert control.attrs["type"] in {"text", "radio", "file"}
        assert not {"placeholder", "required", "maxlength", "pattern"} & control.attrs.keys()
    assert [form.attrs["novalidate"] for form in sheet.all("form")] == ["novalidate"]


def test_what_is_left_open_is_empty_and_the_rest_shows_the_example(sheet: Element, told: dict[str, Any]) -> None:
    for field in fields(told):
        if field["kind"] in {"choice", "lines"}:
            continue
        [control] = sheet.all("input", type="text", name=field["key"])
        if field["absent"] and field["example"] == field["absent"]:
            assert control.attrs["value"] == ""
            continue
        shapes = sheet.all("input", type="radio", name=f"{field['key']}-shape")
        shape = "".join(each.attrs["value"] + " " for each in shapes if "checked" in each.attrs)
        assert shape + control.attrs["value"] == field["example"]


def test_the_keypad_of_digits_is_for_what_digits_can_say() -> None:
    sheet = page(worksheets.worksheet_html("string"))
    modes = {each.attrs["name"]: each.attrs for each in sheet.all("input", type="text")}
    assert [modes["nock_to_nock"][name] for name in ("inputmode", "data-inch", "data-metric")] == [
        "text",  # a fraction of an inch needs a stroke
        "text",
        "decimal",
    ]
    assert modes["strands"]["inputmode"] == "decimal"
    assert modes["bench_temperature"]["data-metric"] == "text"  # below zero needs a minus
    assert modes["yarn"]["data-metric"] == "text"  # dtex, den, m/kg


def test_units_of_both_systems_stand_in_the_label(sheet: Element, told: dict[str, Any], key: str) -> None:
    metric = {field["key"]: field["unit_hint"] for field in fields(bridge.describe(key, "metric"))}
    for field in fields(told):
        for label in sheet.all("label", **{"for": f"{key}-{field['key']}"}):
            shown = [span.text for span in label.all("span") if span.attrs.get("class", "").startswith("in-")]
            assert shown == ([field["unit_hint"], metric[field["key"]]] if field["unit_hint"] else [])


def test_the_page_holds_the_whole_answer_to_the_usual_example(sheet: Element, key: str) -> None:
    found = outcome(key)
    rows = {each.attrs["data-row"]: plain(each.text) for each in sheet.all("tr") if "data-row" in each.attrs}
    assert sorted(rows) == sorted(row["key"] for row in found["rows"])
    for row in found["rows"]:
        for name in ("words", "symbol", "shown", "range", "working", "source_words"):
            assert plain(row[name]) in rows[row["key"]]
    said = plain(sheet.text)
    for text in [
        *(line[part] for line in found["headlines"] for part in ("lead", "text", "range")),
        *(line["text"] for line in found["cautions"]),
        *found["leaves_out"],
    ]:
        assert plain(text) in said
    assert len(sheet.all("figure")) - 1 == len(found["figures"]) > 0, "and one for a link as a square code"


def test_the_answer_comes_before_the_form_and_the_working_after(sheet: Element) -> None:
    order = [
        each.attrs.get("class", each.tag)
        for each in sheet.all()
        if each.attrs.get("class") in {"headlines", "figures", "asked", "working"}
    ]
    assert order == ["headlines", "figures", "asked", "working"]


def test_trade_practice_is_shown_as_such(sheet: Element, key: str) -> None:
    practice = [row for row in outcome(key)["rows"] if row["kind"] == "practice"]
    for row in practice:
        [line] = sheet.all("tr", **{"data-row": row["key"]})
        shown = "".join(part.text for part in line.all("span") if "hidden" not in part.attrs)
        assert "Common practice" in shown


def test_a_block_takes_its_heading_from_the_worksheet() -> None:
    written = worksheets.write_blocks("Before\n\n::: worksheet string\n\nAfter\n")
    title = catalogue()["string"].title
    assert written.markdown == f'Before\n\n# {title}\n\n<div data-block="0"></div>\n\n\nAfter\n'
    assert written.title == title
    put = written.put_into('<p>Before</p><div data-block="0"></div>')
    assert put == f"<p>Before</p>{worksheets.worksheet_html('string')}"


@pytest.mark.parametrize("fence", ["```", "~~~~"])
def test_a_block_in_a_code_fence_is_left_alone(fence: str) -> None:
    text = f"{fence}text\n::: worksheet string\n{fence}\n"
    assert worksheets.write_blocks(text) == worksheets.Written(text, "", {})


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("::: worksheet strnig", "there is no worksheet strnig: did you mean string?"),
        ("::: figure string", "there is no block figure: did you mean worksheet?"),
    ],
)
def test_an_unknown_block_is_refused_with_page_line_and_the_nearest_name(line: str, words: str) -> None:
    where: Any = SimpleNamespace(file=SimpleNamespace(src_uri="worksheets/x.md"), meta={})
    with pytest.raises(PluginError) as caught:
        hooks.on_page_markdown(f"# Heading\n\n{line}\n", page=where)
    assert str(caught.value) == f"worksheets/x.md, line 3: {words}"


def test_a_worksheet_that_refuses_its_own_example_stops_the_build(monkeypatch: pytest.MonkeyPatch) -> None:
    refused = json.dumps({"v": 1, "id": 0, "ok": False, "errors": [{"field": "a", "others": [], "text": "Enter a"}]})
    monkeypatch.setattr(bridge, "handle", lambda _: refused)
    worksheets.worksheets_html.cache_clear()
    with pytest.raises(ValueError, match=r"string does not answer its usual example: .*Enter a"):
        worksheets.worksheet_html("string")
    worksheets.worksheets_html.cache_clear()


def test_the_scripts_stay_small() -> None:
    for path in WEB.rglob("*.js"):
        lines = path.read_text(encoding="utf-8").splitlines()
        assert 0 < len(lines) <= 300, path.name  # files are split by idea, not by length
        assert max(map(len, lines)) <= 140, path.name


def test_no_script_style_or_template_names_another_host() -> None:
    for path in (each for each in WEB.rglob("*") if each.is_file()):
        assert "http" not in path.read_text(encoding="utf-8")


def test_warmth_is_filled_in_as_its_label_tells_it() -> None:
    """68 °F are 20 °C, by the definition of both scales."""
    told = [bridge.describe("settle", "inch"), bridge.describe("settle", "metric")]
    asked = [{field["key"]: field for field in fields(each)}["temperature"] for each in told]
    assert [field["example"] for field in asked] == ["68 °F", "20 °C"]
    assert all(field["example"].endswith(field["unit_hint"]) for field in asked)


def test_a_list_with_sentences_in_it_is_one_that_a_phone_shows_line_by_line() -> None:
    wide = {(key, each["key"]): each["wide"] for key in ("strands", "serving") for each in outcome(key)["tables"]}
    assert wide == {("strands", "rules"): "yes", ("serving", "threads"): "no", ("serving", "counts"): "no"}
