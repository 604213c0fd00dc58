"""The card of a string: everything fits, can be read, and says what the bench sheet says."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from calc import bridge
from calc.__main__ import main
from calc.draw.cards import PAPERS, CardFacts
from calc.draw.cards.strip import PER_M
from calc.draw.string import FlatZone
from calc.paper import FORMS, card_facts, card_html, card_pages, card_text, square_code
from calc.paper.strips import gauges_of, peg_marks
from calc.worksheets import catalogue, one
from calc.worksheets.core import Answer, ask, by_key, fill, show_row, usual

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from calc.paper import Form
    from calc.units import System
    from calc.worksheets.core import Worksheet

pytestmark = pytest.mark.contract
STRING = one("string")
ANSWERED = [each for each in STRING.examples if not each.refused]
SYSTEMS: tuple[System, ...] = ("inch", "metric")
LEAST_PT = 9.0
LINK = "https://strings.example/worksheets/string/#v3/string/mm?for=Anna&nock=1575mm&pull=200N&hand=S&end=7k2m"


def facts_of(inputs: dict[str, str], system: System = "inch", name: str = "Ash 62") -> CardFacts:
    facts = card_facts(inputs, system, name=name, link=LINK, code=square_code(LINK))
    assert isinstance(facts, CardFacts), facts
    return facts


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("example", ANSWERED, ids=lambda each: each.name)
def test_every_example_fits_its_page(example: object, paper: str, system: System) -> None:
    inputs = dict(example.inputs)  # type: ignore[attr-defined]
    facts = facts_of(inputs, system, "A bow with a name of many words")
    for form in FORMS:
        for page in card_pages([facts], paper, form):
            root = ET.fromstring(page)  # noqa: S314 - our own text
            ids = [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
            assert len(ids) == len(set(ids))
            sizes = [float(each.attrib["font-size"]) for each in root.iter() if each.tag.endswith("text")]
            assert min(sizes) * 0.75 >= LEAST_PT


def test_a_pocket_page_holds_four() -> None:
    assert len(card_pages([facts_of({})] * 5, "A4", "pocket")) == 2
    assert len(card_pages([facts_of({})] * 5, "A4")) == 5


def test_a_card_says_what_the_bench_sheet_says() -> None:
    answer = ask(STRING, usual(STRING), "inch")
    assert isinstance(answer, Answer)
    rows = by_key(answer.rows)
    page = card_pages([facts_of({})], "A4")[0].replace("\u00a0", " ")
    for key in ("cut_length", "turns_body", "turns_loop", "turns_loop_lower", "counter_twist_body", "brace_low",
                "brace_high", "breaking_force", "mark_body", "loop_upper"):  # fmt: skip
        assert f">{show_row(rows[key], 'inch')}" in page or show_row(rows[key], "inch") in page, key


def test_zones_add_up_to_their_marks() -> None:
    facts = facts_of({"nock_to_nock": "54 in", "draw_length": "24 in", "brace_height": "5 1/2 in"})
    assert [each.kind for each in facts.zones] == ["tail", "loop", "body", "loop", "tail"]
    assert all(isinstance(each, FlatZone) for each in facts.zones)
    cut = ask(
        STRING, usual(STRING, {"nock_to_nock": "54 in", "draw_length": "24 in", "brace_height": "5 1/2 in"}), "inch"
    )
    assert isinstance(cut, Answer)
    last = by_key(cut.rows)["mark_tail_lower"].spread.value
    assert sum(each.length_m for each in facts.zones) == pytest.approx(last)


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_text_is_tidy_at_forty_columns(system: System) -> None:
    *lines, link, _ = card_text(facts_of({}, system)).split("\n")
    assert max(map(len, lines)) <= 40
    assert link == LINK
    assert "\u00a0" not in "".join(lines)


def test_the_page_gets_cards_and_texts_over_the_bridge() -> None:
    string = {"inputs": {"bundles": "3"}, "name": "Ash 62", "link": LINK, "code": ["101", "010", "111"]}
    message = {"v": 1, "id": 1, "card": "string", "system": "inch", "paper": "A4", "form": "pocket"}
    reply = json.loads(bridge.handle(json.dumps({**message, "strings": [string] * 2})))
    assert reply["ok"]
    assert reply["html"].count(">Ash 62<") == 2
    wrong = {**string, "inputs": {"draw_weight": "heavy"}}
    reply = json.loads(bridge.handle(json.dumps({**message, "strings": [string, wrong]})))
    assert [each["field"] for each in reply["errors"]] == ["draw_weight"]


@pytest.mark.parametrize("worksheet", list(catalogue().values()), ids=lambda each: each.id)
def test_every_answer_can_be_sent_as_text(worksheet: Worksheet) -> None:
    message = {"v": 1, "id": 1, "text": worksheet.id, "system": "inch", "inputs": usual(worksheet), "link": LINK}
    *lines, link, end = json.loads(bridge.handle(json.dumps(message)))["text"].split("\n")
    assert (link, end) == (LINK, "")
    assert lines[0].startswith(worksheet.title)
    assert max(map(len, lines)) <= 40
    answer = ask(worksheet, usual(worksheet), "inch")
    assert isinstance(answer, Answer)
    for each in answer.headlines:
        first = fill(each.text, by_key(answer.rows), "inch").split(" ")[0]
        assert f"{each.lead}: {first}" in "\n".join(lines), each.lead


def test_no_name_leaves_a_line_to_write_it_on() -> None:
    assert ">For<" in card_pages([facts_of({}, name="")], "A4")[0]


def test_a_name_cannot_get_out_of_its_place() -> None:
    html = card_html([facts_of({}, name="<script>&\"'\x00")], "A4")
    assert "<script" not in html
    ET.fromstring(re.search(r"<svg.*</svg>", html, re.DOTALL)[0])  # type: ignore[index]  # noqa: S314 - our own text


def test_what_cannot_be_planned_gets_sentences() -> None:
    complaints = card_facts({"draw_weight": "heavy"}, "inch")
    assert not isinstance(complaints, CardFacts)
    assert [each.field for each in complaints] == ["draw_weight"]


@pytest.mark.parametrize("suffix", ["html", "svg", "txt"])
def test_the_terminal_writes_a_card(tmp_path: Path, suffix: str) -> None:
    file = tmp_path / f"card.{suffix}"
    assert main(["string", "bundles=3", "--card", str(file), "--name", "Ash 62", "--site", "https://s.example"]) == 0
    text = file.read_text(encoding="utf-8")
    assert "Ash 62" in text
    assert ("https://s.example/worksheets/string/#v4/string?for=Ash+62" in text) == (suffix == "txt")


def test_the_terminal_says_what_a_card_may_be_called(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["string", "--card", str(tmp_path / "card.pdf")]) == 2
    assert ".html" in capsys.readouterr().err
    assert main(["string", "draw_weight=heavy", "--card", str(tmp_path / "card.svg")]) == 2
    assert "draw_weight" in capsys.readouterr().err
    assert main(["club", "--card", str(tmp_path / "cards.svg"), "--form", "page"]) == 2
    assert "4 pages" in capsys.readouterr().err


def true_sizes(pages: Iterable[str], paper: str) -> tuple[list[float], list[float]]:
    """Return how long the bars of a strip's pages are, and its pieces, as printed [m]."""
    pieces: list[float] = []
    bars: list[float] = []
    for page in pages:
        root = ET.fromstring(page)  # noqa: S314 - our own text
        assert root.attrib["width"] == f"{PAPERS[paper].wide_mm:g}mm"
        _, _, wide, _ = (float(each) for each in root.attrib["viewBox"].split())
        to_m = PAPERS[paper].wide_mm / 1000.0 / wide
        for part in root:
            paths = [each.attrib["d"] for each in part.iter() if each.tag.endswith("path")]
            level = [re.fullmatch(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", each) for each in paths]
            flat = [float(each[3]) - float(each[1]) for each in level if each and each[2] == each[4]]
            (bars if part is root[0] else pieces).append(max(flat) * to_m)
    return bars, pieces


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("form", ["strip", "pegs"])
def test_a_strip_is_in_true_size_and_as_long_as_the_bundle(paper: str, system: System, form: Form) -> None:
    facts = facts_of({}, system)
    bars, pieces = true_sizes(card_pages([facts], paper, form), paper)
    assert bars == pytest.approx([0.1016 if system == "inch" else 0.1] * len(bars), abs=1e-5)
    assert sum(pieces) == pytest.approx(sum(each.length_m for each in facts.zones), abs=1e-4)


@pytest.mark.parametrize("strands", ["8", "12", "24"])
def test_pegs_step_strands_that_are_all_cut_alike(strands: str) -> None:
    facts = facts_of({"strands": strands})
    marks = [each.at_m for each in peg_marks(facts)]
    count = int(strands) // 2
    starts, ends = marks[:count], marks[count:]
    answer = ask(STRING, usual(STRING, {"strands": strands}), "inch")
    assert isinstance(answer, Answer)
    rows = by_key(answer.rows)
    cut_m, step_m = (rows[key].spread.value for key in ("cut_length", "step"))
    assert [end - start for start, end in zip(starts, ends, strict=True)] == pytest.approx([cut_m] * count)
    assert [after - start for start, after in pairwise(starts)] == pytest.approx([step_m] * (count - 1))
    assert marks[-1] == pytest.approx(rows["mark_tail_lower"].spread.value)


def test_strands_without_a_step_share_two_pegs() -> None:
    assert [each.words for each in peg_marks(replace(facts_of({}), step_m=0.0))] == ["A1", "B1"]


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("tips", [{}, {"tip_upper": "pipe 3/4", "tip_lower": "flat 5/8 x 3/8 in"}])
def test_a_gauge_of_a_strings_own_tip_is_its_own_loop(tips: dict[str, str], system: System) -> None:
    facts = facts_of(tips, system)
    upper, lower, *others = gauges_of(facts)
    assert upper.words.startswith("this bow: ")
    assert (upper.flat_text, lower.flat_text) == (facts.zones[1].length_text, facts.zones[3].length_text)
    assert len(others) == 14
    assert all(each.flat_m > each.plied_m > 0.0 for each in others)


def test_gauges_are_drawn_in_true_size_and_those_too_long_are_named() -> None:
    facts = facts_of({"tip_upper": "round 1 1/2 in", "tip_lower": "round 1/2 in"})
    gauges = tuple(gauges_of(facts))
    pages = card_pages([facts], "A4", "gauges")
    found = " ".join(pages)
    drawn = [
        (float(right) - float(left)) / PER_M
        for left, y, right, to in re.findall(r'd="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"', found)
        if y == to == "24"
    ]
    long = [each for each in gauges if each.flat_m > 0.19]
    assert ("left out" in found.replace("\n", " ")) == bool(long)
    assert drawn == pytest.approx([each.flat_m for each in gauges if each not in long], abs=1e-4)
