"""Strings of one bow side by side: what differed, what it did, and what was the same."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from calc import bridge
from calc.__main__ import main
from calc.records import Notebook, Record, compare, edit, record_to_json, write_notebook

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.contract
NOW = "2026-05-03T10:11:12.000Z"


def record(kind: str, number: int, **texts: str) -> Record:
    return edit(Record(kind, f"{kind}-{number:06}"), texts, NOW, "aaaa")


BOW = record("bow", 1, name="Ash 62")
CORDS = record("cord", 1, name="White"), record("cord", 2, name="Blue")
RED = record("string", 1, name="red", bow=BOW.id, cord=CORDS[0].id, made_on="2026-05-03", turns="60", hand="Z",
             cut_length="1 ft", braced_height="6 in")  # fmt: skip
NEXT = record("string", 2, bow=BOW.id, cord=CORDS[1].id, made_on="2026-05-09", turns="66", hand="Z", cut_length="12 in",
              retired_why="worn")  # fmt: skip
OTHER = record("string", 3, bow="bow-000009", turns="1")
READ = (
    record("entry", 1, about=RED.id, on="2026-05-04", shots="50", brace_height="5 7/8 in"),
    record("entry", 2, about=RED.id, on="2026-05-03", shots="10", brace_height="6 in"),
    record("entry", 3, about=NEXT.id, on="2026-05-10", brace_height="6 1/8 in"),
)
BOOK = Notebook({each.id: each for each in (BOW, *CORDS, NEXT, RED, OTHER, *READ)})


def test_strings_of_a_bow_stand_side_by_side_the_oldest_first() -> None:
    strings, parts = compare(BOOK, BOW)
    assert strings == ("string red of 3 May 2026", "string of 9 May 2026")
    assert parts == {
        "What differed": (("Cord", "White", "Blue"), ("Turns in the body", "60", "66")),
        "What it did": (
            ("Brace height then", "6 in", ""),
            ("Brace height read last", "5 7/8 in after 50 shots", "6 1/8 in on 2026-05-10"),
            ("Why", "", "worn"),
        ),
        "The same in all": (("Direction of the lay", "Z", "Z"), ("Cut to", "1 ft", "12 in")),
    }
    assert compare(Notebook({BOW.id: BOW}), BOW) == ((), {})


def test_the_page_and_the_terminal_are_told_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    given = [{"kind": each.kind, "data": record_to_json(each)} for each in BOOK.records.values()]
    told = json.loads(bridge.handle(json.dumps({"notebook": "compare", "records": given, "bow": BOW.id})))
    strings, parts = compare(BOOK, BOW)
    assert told["strings"] == list(strings)
    assert {each["title"]: [*map(tuple, each["lines"])] for each in told["parts"]} == {
        k: [*v] for k, v in parts.items()
    }
    file = tmp_path / "club.json"
    file.write_text(write_notebook(BOOK), encoding="utf-8")
    assert main(["notebook", str(file), "--compare", "ash 62"]) == 0
    assert capsys.readouterr().out.splitlines()[:4] == [
        "Strings of Ash 62 | string red of 3 May 2026 | string of 9 May 2026",
        "",
        "What differed",
        "  Cord | White | Blue",
    ]
    assert main(["notebook", str(file), "--compare", "Elm"]) == 2
    assert capsys.readouterr().err == "There is no bow Elm in this notebook. It has: Ash 62.\n"
