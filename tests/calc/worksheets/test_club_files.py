"""A club list's lines opened, its files, and the terminal."""

from __future__ import annotations

import csv
import json
import subprocess
import sys
from io import StringIO
from typing import TYPE_CHECKING, Any

import pytest

from calc import bridge
from calc.share import decode
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual

if TYPE_CHECKING:
    from pathlib import Path

    from calc.numerics import Spread
    from calc.units import System

pytestmark = pytest.mark.exact
CLUB = catalogue()["club"]
SYSTEMS: tuple[System, ...] = ("inch", "metric")


def answered(bows: str) -> Answer:
    answer = ask(CLUB, usual(CLUB, {"bows": bows}), "inch")
    assert isinstance(answer, Answer), answer
    return answer


def numbers(answer: Answer) -> dict[str, Spread]:
    return {row.key: row.spread for row in answer.rows}


def table(answer: Answer, key: str) -> tuple[tuple[str, ...], ...]:
    return next((each.cells for each in answer.tables("inch") if each.key == key), ())


def opened(at: int, bows: str, system: System = "inch") -> dict[str, Any]:
    said = {"v": 1, "id": 1, "line": "club", "system": system, "inputs": usual(CLUB, {"bows": bows}), "at": at}
    reply: dict[str, Any] = json.loads(bridge.handle(json.dumps(said)))
    return reply


def test_a_line_opens_as_a_bench_sheet_with_the_same_string() -> None:
    bows = "name,nock to nock (mm),strands\nAsh,1650,12\nElm,tall,12"
    reply = opened(0, bows)
    assert (reply["ok"], reply["worksheet"], reply["inputs"]["nock_to_nock"]) == (True, "string", "1650 mm")
    assert decode(reply["fragment"]).inputs["nock_to_nock"] == "1650 mm"
    sheet = {row["key"]: row["shown"] for row in reply["outcome"]["rows"]}
    card = table(answered(bows), "cards")[0]
    assert (card[0], card[1]) == ("Ash", sheet["nock_to_nock"])
    assert card[2].startswith(sheet["draw_weight"])
    assert card[3].startswith(sheet["cut_length"])
    assert "…" in card[-1], "there is a place to write"
    assert reply["outcome"]["figures"]
    after = opened(1, f"name,nock to nock (mm)\nOak,tall\n{bows.splitlines()[1].rpartition(',')[0]}\n\nBox,1500")
    assert after["inputs"]["nock_to_nock"] == "1500 mm"
    for at in (1, 2, -1, 10**9):
        assert opened(at, bows)["errors"]
    assert opened(0, "")["errors"]


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_file_of_strings_is_a_list_again(system: System) -> None:
    bows = 'name,nock to nock (in),colour,fibre,strings\n"Ash, old",66,red / white,linen,2\n=2+2,60.5,,,1\nbad,tall,,,1'
    first = answered(bows)
    files = {file.name: file.text for file in first.files(system)}
    again = answered(files["club-strings.csv"])
    assert numbers(again)["cord_total"] == numbers(first)["cord_total"]
    assert "Columns" not in " ".join(each.text for each in again.cautions)
    rows = list(csv.reader(StringIO(files["club-strings.csv"])))
    assert [row[0] for row in rows] == ["name", "Ash, old", "'=2+2"]
    assert {len(row) for row in rows} == {len(rows[0])}
    cut = list(csv.DictReader(StringIO(files["club-cut-list.csv"])))
    assert sum(int(row["strands"]) for row in cut) == numbers(first)["strands_to_cut"].value
    unit = {"inch": ("cord_to_buy (yd)", 0.9144), "metric": ("cord_to_buy (m)", 1.0)}[system]
    bought = sum(float(row[unit[0]]) for row in csv.DictReader(StringIO(files["club-buy-list.csv"])))
    assert bought * unit[1] == pytest.approx(numbers(first)["cord_to_buy"].value, abs=0.002)


def test_the_terminal_reads_a_file_and_saves_the_lists(tmp_path: Path) -> None:
    (tmp_path / "bows.csv").write_text("name;nock to nock (cm)\nAsh;168\n", encoding="utf-8")

    def terminal(*arguments: str) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "calc", "club", *arguments]
        return subprocess.run(command, check=False, capture_output=True, text=True)

    said = terminal(f"bows=@{tmp_path / 'bows.csv'}", "--save", str(tmp_path / "out"), "--json")
    assert json.loads(said.stdout)["results"]["bows"]["value"] == 1
    assert (tmp_path / "out" / "club-buy-list.csv").read_text(encoding="utf-8").startswith("fibre,")
    missing = terminal(f"bows=@{tmp_path / 'none.csv'}")
    assert (missing.returncode, missing.stdout) == (2, "")
