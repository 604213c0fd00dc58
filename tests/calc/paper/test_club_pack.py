"""A club's afternoon on paper: it says what the club list says, and the timetable adds up."""

from __future__ import annotations

import json
import re
from html import unescape
from typing import TYPE_CHECKING

import pytest

from calc import bridge
from calc.__main__ import main
from calc.paper import pack_html
from calc.worksheets import one
from calc.worksheets.club import set_labels
from calc.worksheets.core import Answer, ask, by_key, usual

if TYPE_CHECKING:
    from pathlib import Path

    from calc.units import System

CLUB = one("club")
TWO = "name,nock to nock,strings,colour\nAsh <b>,66 in,2,green / white\nElm & Co,60 in,1,"
SYSTEMS: tuple[System, ...] = ("inch", "metric")


def answered(**changed: str) -> Answer:
    answer = ask(CLUB, usual(CLUB, changed), "inch")
    assert isinstance(answer, Answer)
    return answer


def timetable(answer: Answer) -> tuple[tuple[str, ...], ...]:
    return next(each.cells for each in answer.tables("inch") if each.key == "timetable")


def minutes(clock: str) -> int:
    hours, _, rest = clock.partition(":")
    return int(hours) * 60 + int(rest)


@pytest.mark.exact
@pytest.mark.parametrize("makers", ["1", "3", "4", "9"])
@pytest.mark.parametrize("places", ["1", "2", "8"])
def test_the_timetable_is_as_long_as_the_afternoon_with_a_talk_and_clearing_up(makers: str, places: str) -> None:
    answer = answered(strings="3", makers=makers, settle_places=places, minutes="75")
    slots = timetable(answer)
    first, *work, last = slots
    whole_min = by_key(answer.rows)["afternoon_time"].spread.value / 60.0
    assert minutes(last[0]) - minutes(work[0][0]) == pytest.approx(whole_min, abs=1.0)
    assert first[1] == last[1] == "15 min"
    starts = [minutes(slot[0]) for slot in slots]
    for start, after, slot in zip(starts, starts[1:], slots, strict=False):
        assert after - start == pytest.approx(int(slot[1].removesuffix(" min")), abs=1.0)
    settling = [at for at, slot in enumerate(slots) if "ettl" in slot[2] and slot[1] == "60 min"]
    assert len(settling) == by_key(answer.rows)["settle_rounds"].spread.value
    assert next(at for at, slot in enumerate(slots) if slot[2].startswith("Serve")) > max(settling)


@pytest.mark.practice
def test_adults_are_never_more_than_there_are_and_too_few_are_told() -> None:
    for helpers in range(4):
        answer = answered(makers="8", helpers=str(helpers))
        assert all(int(busy) + int(spare) == helpers + 1 for *_, busy, spare in timetable(answer))
        assert any("Too few adults" in each.text for each in answer.cautions) == (helpers < 2)


@pytest.mark.contract
@pytest.mark.parametrize("system", SYSTEMS)
def test_every_string_gets_a_label_that_adds_up_to_the_cut_list(system: System) -> None:
    labels = set_labels(CLUB, usual(CLUB, {"bows": TWO}), system)
    assert [each.name for each in labels] == ["Ash (b), 1 of 2", "Ash (b), 2 of 2", "Elm & Co"]
    answer = ask(CLUB, usual(CLUB, {"bows": TWO}), system)
    assert isinstance(answer, Answer)
    counted = sum(int(word) for each in labels for word in each.strands.partition(",")[0].split() if word.isdigit())
    assert counted == by_key(answer.rows)["strands_to_cut"].spread.value
    cut = next(each.cells for each in answer.tables(system) if each.key == "cut")
    for each in labels:
        assert each.strands.partition("each ")[2] in {line[2] for line in cut}


@pytest.mark.contract
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_print_has_every_line_of_the_lists_and_no_markup_of_a_name(system: System) -> None:
    html = pack_html({"bows": TWO}, system, (), "A4")
    assert isinstance(html, str)
    assert "<b>," not in html
    said = unescape(html).replace("\u00a0", " ")
    answer = ask(CLUB, usual(CLUB, {"bows": TWO}), system)
    assert isinstance(answer, Answer)
    for table in answer.tables(system):
        if table.key in {"buy", "cut", "timetable"}:
            assert all(f"<td>{cell}</td>" in said for line in table.cells for cell in line), table.key
    shown = re.sub(r"<style>.*?</style>", "", said, flags=re.DOTALL)
    assert "{" not in shown
    assert said.count("Ash (b), 2 of 2") == 2, "to sign for, and on its label"


@pytest.mark.contract
def test_a_list_without_a_string_prints_why() -> None:
    html = pack_html({"bows": "name,nock to nock\nAsh,6 in"}, "inch", (), "Letter")
    assert isinstance(html, str)
    assert "Lines left out" in html
    assert "Timetable" not in html
    complaints = pack_html({"bows": ""}, "inch", (), "A4")
    assert [each.field for each in complaints if not isinstance(each, str)] == ["bows"]


@pytest.mark.contract
def test_the_page_and_the_terminal_print_the_same(tmp_path: Path) -> None:
    file = tmp_path / "pack.html"
    assert main(["club", "makers=3", "--card", str(file), "--paper", "Letter"]) == 0
    inputs = usual(CLUB, {"makers": "3"})
    strings: list[dict[str, object]] = []
    while CLUB.parts and (opened := CLUB.parts.open(inputs, "inch", len(strings))):
        strings.append({"inputs": opened[1], "name": opened[2]})
    message = {"v": 1, "id": 1, "card": "club", "system": "inch", "paper": "Letter", "form": "pack", "inputs": inputs}
    reply = json.loads(bridge.handle(json.dumps({**message, "strings": strings})))
    assert reply["html"] == file.read_text(encoding="utf-8")


@pytest.mark.contract
def test_the_terminal_says_what_a_club_print_may_be_called(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["club", "--card", str(tmp_path / "pack.svg")]) == 2
    assert ".html" in capsys.readouterr().err
    assert main(["club", "bows=", "--card", str(tmp_path / "pack.html")]) == 2
    assert "bows" in capsys.readouterr().err
    assert main(["club", "--form", "pocket", "--card", str(tmp_path / "cards.svg")]) == 0
    assert (tmp_path / "cards.svg").read_text(encoding="utf-8").count(">Hazel<") == 1
